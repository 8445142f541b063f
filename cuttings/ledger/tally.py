"""The tally: proof that every lot balances, counted afresh from the entries themselves.

It shares no arithmetic with the fold: each stem that came into a lot must have left it or stand at the
stage the fold says. What does not fit is named, entry by entry.
"""

from collections import Counter

from attrs import frozen

from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.folding import Problem, effective
from cuttings.words import Stage


@frozen
class Tally:
    """The sum of all lots, and whatever breaks it."""

    lots: int
    started: int
    stages: dict[Stage, int]
    broken: tuple[Problem, ...]

    @property
    def balanced(self) -> bool:
        return not self.broken


def tally(book: Book) -> Tally:
    """Count every stem of every lot."""
    unfit = {problem.entry for problem in book.problems}
    counted: dict[str, Counter[Stage]] = {}
    started: Counter[str] = Counter()
    for entry in effective(book.entries):
        if isinstance(entry, e.LotEntry) and entry.id not in unfit:
            _count(entry, counted, started)
    unmade = sorted(counted.keys() - book.lots.keys())
    broken = [
        *book.problems,
        *(Problem("", code, f"{code} has entries, but no lot has come of them.") for code in unmade),
    ]
    for code, lot in book.lots.items():
        stages = {stage: n for stage, n in counted.get(code, Counter()).items() if n}
        begun, held = started[code], sum(stages.values())
        if stages != dict(lot.stages) or not begun == held == lot.started:
            sentence = f"{code} does not balance: {begun} started, {held} accounted for."
            broken.append(Problem(lot.entries[-1].id, code, sentence))
    totals: Counter[Stage] = Counter()
    for lot in book.lots.values():
        totals.update(lot.stages)
    return Tally(
        lots=len(book.lots),
        started=sum(lot.started for lot in book.lots.values()),
        stages={stage: totals[stage] for stage in Stage},
        broken=tuple(broken),
    )


def _count(entry: e.LotEntry, counted: dict[str, Counter[Stage]], started: Counter[str]) -> None:
    here = counted.setdefault(entry.lot, Counter())
    for move in entry.moves:
        if move.source is not None:
            here[move.source] -= move.count
        else:
            started[entry.lot] += move.count
        if move.target is not None:
            here[move.target] += move.count
        elif isinstance(entry, e.Split) and move.source is not None:
            started[entry.lot] -= move.count
            started[entry.into] += move.count
            counted.setdefault(entry.into, Counter())[move.source] += move.count
