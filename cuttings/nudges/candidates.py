"""Which lot a pot without a label could be: what the ledger allows, likeliest first."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from attrs import field, frozen

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.nudges.in_pots import IN_POTS
from cuttings.nudges.whereabouts import Whereabouts, whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.key import BY_NAME
from cuttings.plants.model import Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.pots import Pot, alike, parse_pot
from cuttings.words import LIVING, Stage, Units

LONG_AGO_WEEKS = 104
"""From so many weeks on one counts in years; from memory."""


@frozen(kw_only=True)
class Clues:
    """What can be told of the pot in the hand; what nobody knows is empty. ``looks`` are answers of the key,
    by question."""

    where: str = ""
    stage: Stage | None = None
    pot: Pot | None = None
    looks: Mapping[str, str] = field(factory=dict)


@frozen(kw_only=True)
class Candidate:
    """A lot that the clues do not rule out: its stems at the stages that are in question, what speaks for it,
    and which clues the ledger cannot answer."""

    lot: Lot
    stems: int
    because: tuple[str, ...]
    unsure: tuple[str, ...]
    fits: int


@frozen
class _Answer:
    """What a clue comes to: whether it fits, ``None`` where nothing is known, and that in words."""

    fits: bool | None
    words: str


def candidates(book: Book, catalogue: Catalogue, clues: Clues, today: date, units: Units) -> list[Candidate]:
    """The living lots that could be it: those first of which most is known to fit and least is unknown, then
    those with most stems."""
    where = whereabouts(book)
    found = (
        _candidate(lot, catalogue, clues, where, today, units) for lot in book.lots.values() if lot.living
    )
    left = [each for each in found if each is not None]
    return sorted(left, key=lambda each: (-each.fits, len(each.unsure), -each.stems, each.lot.code))


def _candidate(
    lot: Lot, catalogue: Catalogue, clues: Clues, where: Whereabouts, today: date, units: Units
) -> Candidate | None:
    stages = [stage for stage in LIVING if lot.at(stage) and clues.stage in (None, stage)]
    if clues.where:
        stages = [stage for stage in stages if _is_there(lot, stage, clues.where, where).fits is not False]
    if not stages:
        return None
    answers = list(_answers(lot, catalogue, clues, where, stages, units))
    if any(answer.fits is False for answer in answers):
        return None
    stems = sum(lot.at(stage) for stage in stages)
    known = [answer.words for answer in answers if answer.fits]
    return Candidate(
        lot=lot,
        stems=stems,
        because=(_stand(lot, stages), *known, _since(lot, stages, today), *_bare(lot)),
        unsure=tuple(answer.words for answer in answers if answer.fits is None),
        fits=len(known) + (not lot.label),
    )


def _answers(
    lot: Lot, catalogue: Catalogue, clues: Clues, where: Whereabouts, stages: Sequence[Stage], units: Units
) -> Iterator[_Answer]:
    if clues.where:
        there = [_is_there(lot, stage, clues.where, where) for stage in stages]
        yield next((answer for answer in there if answer.fits), there[0])
    if clues.pot is not None:
        yield _potted_like(lot, stages, clues.pot, units)
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    for question, answer in clues.looks.items():
        yield _looks_like(plant, question, answer)


def _is_there(lot: Lot, stage: Stage, asked: str, where: Whereabouts) -> _Answer:
    told = lot.where_stand(stage)
    if not told:
        return _Answer(None, "nobody wrote down where it stands")
    one, other = told.casefold(), asked.casefold()
    area = where.area_named(told)
    same = one in other or other in one or bool(area and area == where.area_named(asked))
    return _Answer(same, f"it stands: {told}")


def _potted_like(lot: Lot, stages: Sequence[Stage], pot: Pot, units: Units) -> _Answer:
    if not any(stage in IN_POTS for stage in stages):
        return _Answer(None, "nobody wrote down what it is rooting in")
    for entry in reversed(lot.of_kind(e.Pot)):
        if alike(pot, _size(entry, units)):
            return _Answer(True, f"it was put into {entry.pot} pots")
    return _Answer(False, "it was put into other pots")


def _size(entry: e.Pot, units: Units) -> Pot:
    """The pot of an entry: by the volume that was written down, or by what it is called."""
    if entry.pot_volume_l is not None:
        return Pot(entry.pot, entry.pot_volume_l)
    return parse_pot(entry.pot, units)


def _looks_like(plant: Plant, question: str, answer: str) -> _Answer:
    asked = BY_NAME[question]
    seen = asked.seen(plant)
    words = next(each.words for each in asked.answers if each.value == answer)
    if not seen:
        return _Answer(None, f"the plant records do not tell: {question.replace('-', ' ')}")
    return _Answer(answer in seen, f"{question.replace('-', ' ')}: {words}")


def _stand(lot: Lot, stages: Sequence[Stage]) -> str:
    return ", ".join(f"{lot.at(stage)} {stage}" for stage in stages)


def _since(lot: Lot, stages: Sequence[Stage], today: date) -> str:
    """How long it has been in its pots, or begun."""
    potted = lot.reached(Stage.POTTED) if any(stage in IN_POTS for stage in stages) else None
    day = potted or lot.started_on
    return f"{'potted' if potted else 'begun'} {spoken(day, today)}, {_ago((today - day).days)}"


def _ago(days: int) -> str:
    if days < 14:
        return "today" if days < 1 else "a day ago" if days == 1 else f"{days} days ago"
    weeks = days // 7
    return f"{weeks} weeks ago" if weeks < LONG_AGO_WEEKS else f"{days // 365} years ago"


def _bare(lot: Lot) -> tuple[str, ...]:
    return () if lot.label else ("it has no label",)
