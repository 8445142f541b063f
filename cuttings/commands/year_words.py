"""What a year's account says, in sentences and tables: the same on a terminal and in Markdown."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from attrs import frozen

from cuttings.dates import spoken
from cuttings.ledger.stages import spoken_counts
from cuttings.show.account_chart import End, MonthBars, StemBar, TakeRow, tenths
from cuttings.takes.comparing import SURE_ENOUGH
from cuttings.takes.year import Account, Begun, Filled, Passed
from cuttings.takes.year_kinds import ENOUGH_STEMS, Kind, best_and_worst
from cuttings.takes.year_lessons import stems_said
from cuttings.takes.year_moves import FAILED, Fates, counted
from cuttings.takes.year_worth import Line, Worth
from cuttings.words import Cause, Stage, listed

DIED = {
    FAILED: "found dead at a look",
    Cause.ROT: "of rot",
    Cause.DRIED: "of drought",
    Cause.FROST: "of frost",
    Cause.EATEN: "eaten",
    Cause.WEAK: "too weak",
    Cause.UNKNOWN: "of something nobody knows",
}
"""What stems died of."""

DIED_WHEN = {
    Stage.WAITING: "while waiting for roots",
    Stage.ROOTED: "before they were potted",
    Stage.POTTED: "in their pots",
    Stage.HARDENING: "while they were hardened off",
    Stage.READY: "when they were ready to be planted",
    Stage.PLANTED: "in their places",
}
"""Where stems stood when they died."""

MOST_NAMED = 6


@frozen
class Fact:
    """One thing the account says, with a word in front of it; ``reasons`` stand under it."""

    margin: str
    text: str
    reasons: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """The fact where it has no margin to stand beside."""
        return f"{self.margin}: {self.text}" if self.margin else self.text


@frozen
class Table:
    columns: Sequence[str]
    rows: Sequence[Sequence[str]]


@frozen
class Section:
    """A part of the account. ``chart`` names the drawing that belongs to it, and ``table`` holds what it
    draws; the facts of a ``numbered`` one have numbers in front."""

    heading: str
    facts: Sequence[Fact]
    chart: str = ""
    table: Table | None = None
    numbered: bool = False


def title(account: Account, garden: str) -> str:
    return f"{garden}, {account.year}" if garden else str(account.year)


def lead(account: Account) -> list[Fact]:
    """The answer in one sentence, and what happened to older lots in another."""
    fates, whole, year = account.fates, account.starts.whole, str(account.year)
    if whole.lots:
        rooted = f"{fates.rooted} rooted" if account.is_over else f"{fates.rooted} rooted so far"
        place = "in its place" if fates.at(Stage.PLANTED) == 1 else "in their places"
        told = f"{rooted}, {fates.at(Stage.PLANTED)} {place}, {fates.at(Stage.LOST)} lost"
        said = [Fact(year, f"{begun_said(whole)} started; {told}.")]
    else:
        said = [Fact(year, "nothing was started.")]
    older = account.older
    did = [
        (older.rooted, "rooted"),
        (older.potted, "potted"),
        (older.planted, "planted"),
        (older.given, "given"),
        (older.sold, "sold"),
        (older.lost, "lost"),
    ]
    counts = [f"{count} {what}" for count, what in did if count]
    if counts:
        text = f"of the lots begun before {account.year}, {', '.join(counts)} in that year."
        said.append(Fact("Older", text))
    return said


def sections(account: Account, sources: bool = False) -> list[Section]:
    """Everything under the lead; parts about which there is nothing to say are left out."""
    found = [_started(account), _became(account), _filled(account), _best(account)]
    found += [_otherwise(account, sources), _worth(account)]
    return [section for section in found if section.facts or section.table]


def begun_said(begun: Begun) -> str:
    return f"{begun.lots} {'lot' if begun.lots == 1 else 'lots'}, {stems_said(begun.stems)}"


def _started(account: Account) -> Section:
    ways = [
        f"{begun.stems} by {method.spoken} in {begun.lots} {'lot' if begun.lots == 1 else 'lots'}"
        for method, begun in account.starts.methods
    ]
    facts = [Fact("Stems", f"{', '.join(ways)}.")] if ways else []
    before = account.before
    if before is not None:
        whole = begun_said(before.starts.whole)
        some = before.by_now != before.starts.whole
        by_now = f"; by {spoken(account.today, account.today)} {begun_said(before.by_now)}" if some else ""
        facts.append(Fact(str(before.year), f"{whole}{by_now}."))
    bars = months(account)
    rows = [
        [words.split(" ")[0], str(bars.stems[month]), *([str(bars.before[month])] if bars.before else [])]
        for month in range(12)
        if (words := bars.words(month))
    ]
    columns = ["Month", f"Stems in {account.year}", *([f"in {account.year - 1}"] if bars.before else [])]
    return Section(
        "What was started", facts, "months" if rows else "", Table(columns, rows) if rows else None
    )


def _became(account: Account) -> Section:
    fates = account.fates
    if not fates.started:
        return Section("What became of it", ())
    now = spoken_counts(fates.stages)
    rooted = f"{fates.rooted} {'has' if fates.rooted == 1 else 'have'} rooted or came with roots"
    facts = [
        Fact("Now", f"{now}: {stems_said(fates.started)} in all."),
        Fact("So far", f"{rooted}, {fates.potted} were potted, {fates.planted} planted."),
    ]
    if fates.at(Stage.LOST):
        facts.append(Fact("Lost", f"{_lost(fates)}."))
    rows = [_kind_row(kind) for kind in account.kinds]
    columns = ("Plant", "How", "Started", "Took", *(str(end).capitalize() for end in End))
    return Section("What became of it", facts, "stems", Table(columns, rows))


def _lost(fates: Fates) -> str:
    """Of what stems died, and where: ``2 of frost, 1 eaten; 1 of them in their pots, 2 in their places``."""
    causes = ", ".join(f"{count} {DIED[cause]}" for cause, count in fates.lost_of.items())
    first, *others = [f"{count} {DIED_WHEN[stage]}" for stage, count in fates.lost_at.items()]
    if not others:
        every = "all of them " if fates.at(Stage.LOST) > 1 else ""
        return f"{causes}; {every}{DIED_WHEN[next(iter(fates.lost_at))]}"
    count, where = first.split(" ", 1)
    return f"{causes}; {count} of them {where}, {', '.join(others)}"


def _kind_row(kind: Kind) -> list[str]:
    took = f"{kind.took} of {kind.ended}" if kind.ended else "not known yet"
    ends = ends_of(kind.fates)
    return [kind.called, kind.method.spoken, str(kind.fates.started), took, *(str(ends[end]) for end in End)]


def _filled(account: Account) -> Section:
    facts = [Fact("Planted", _site(each)) for each in account.filled]
    facts += [Fact("Given", text) for text in _passed_on(account.given)]
    facts += [Fact("Sold", text) for text in _passed_on(account.sold)]
    return Section("What it filled", facts)


def _site(filled: Filled) -> str:
    plants = []
    for each in filled.placed:
        gone = each.planted - each.standing
        plants.append(f"{each.planted} {each.called}{f' ({each.standing} still there)' if gone else ''}")
    area = f", {filled.area}" if filled.area else ""
    return f"{filled.site}{area}: {', '.join(plants)}."


def _passed_on(passed: Sequence[Passed]) -> Iterator[str]:
    """A sentence for each who got something, and one for all of which the ledger does not say who did."""
    told: dict[str, list[Passed]] = {}
    for each in passed:
        told.setdefault(each.to, []).append(each)
    for to, several in told.items():
        plants = counted((each.called, each.count) for each in several)
        names = ", ".join(f"{count} {called}" for called, count in plants.items())
        yield f"{f'to {to}: ' if to else ''}{names}."


def _best(account: Account) -> Section:
    named = best_and_worst(account.kinds)
    facts = [
        Fact(margin, _took(kind), (_against(kind),))
        for margin, kind in zip(("Best", "Worst"), named or (), strict=False)
    ]
    enough = [kind for kind in account.kinds if kind.is_enough]
    if enough and not named:
        facts.append(_none_stands_out(enough))
    few = [kind for kind in account.kinds if kind.ended and not kind.is_enough]
    if few:
        why = f"Fewer than {ENOUGH_STEMS} stems have come to an end, which is too few to call good or bad."
        facts.append(Fact("Few", f"{_each_counted(few)}.", (why,)))
    waiting = sum(kind.undecided for kind in account.kinds)
    if waiting:
        facts.append(
            Fact("Open", f"{stems_said(waiting)} of lots that have not come to an end are not counted yet.")
        )
    return Section("Best and worst", facts, "takes" if takes(account) else "")


def _none_stands_out(enough: Sequence[Kind]) -> Fact:
    """Why no kind is called the best or the worst, with what each came to."""
    why = (
        f"It takes two kinds of which {ENOUGH_STEMS} stems have come to an end."
        if len(enough) == 1
        else f"Best and worst are named when the chances are {SURE_ENOUGH * 10:.0f} in 10 that they differ."
    )
    return Fact("Best", f"none stands out yet: {_each_counted(enough)}.", (why,))


def _each_counted(kinds: Sequence[Kind]) -> str:
    """What each of some kinds came to."""
    named = [f"{kind.called} by {kind.method.spoken}, {_counts(kind)}" for kind in kinds]
    more = f"; and {len(named) - MOST_NAMED} more" if len(named) > MOST_NAMED else ""
    return f"{'; '.join(named[:MOST_NAMED])}{more}"


def _counts(kind: Kind) -> str:
    return f"{kind.took} of {kind.ended} {'took' if kind.method.starts_rooted else 'rooted'}"


def _took(kind: Kind) -> str:
    return f"{kind.called} by {kind.method.spoken}: {_counts(kind)}."


def _against(kind: Kind) -> str:
    low, high = kind.share.interval()
    figure = kind.share.figure
    usual = f"the {'published' if figure.published else 'usual'} {tenths(figure.mean)} of 10"
    lies = {1: "lies below that", -1: "lies above that", 0: "lies within that"}
    return (
        f"With the usual counted in, about {tenths(kind.share.mean)} of 10, nine times in ten between "
        f"{tenths(low)} and {tenths(high)}; {usual} {lies[kind.against]}."
    )


def _otherwise(account: Account, sources: bool) -> Section:
    facts = [
        Fact(str(number), lesson.text, (lesson.why, f"Source: {lesson.source}." if sources else ""))
        for number, lesson in enumerate(account.lessons, start=1)
    ]
    if not facts and not account.is_empty:
        facts = [Fact("", _good_year(account))]
    return Section("What to do otherwise", facts, numbered=bool(account.lessons))


def _good_year(account: Account) -> str:
    lost = account.fates.at(Stage.LOST) + account.older.lost
    if not lost:
        return (
            f"Nothing was lost in {account.year}, and nothing in the ledger asks for a change. A good year."
        )
    return f"{stems_said(lost)} lost, and nothing in the ledger says that it could have been helped."


def _worth(account: Account) -> Section:
    worth = account.worth
    if worth is None:
        return Section("Money's worth", ())
    facts = [Fact(money(line.value), _worth_line(line)) for line in worth.lines if line.value]
    left = [line for line in worth.lines if line.unpriced]
    if left:
        names = listed([line.called for line in left], MOST_NAMED)
        has, is_not = ("has", "is not") if worth.unpriced == 1 else ("have", "are not")
        facts.append(
            Fact("", f"{stems_said(worth.unpriced)} of {names} {has} no price and {is_not} counted.")
        )
    if worth.priced_sold or worth.priced_given:
        facts.append(Fact("In all", _worth_said(worth)))
    elif not worth.lines:
        facts.append(Fact("", f"Nothing was given or sold in {account.year}."))
    rows = [
        [line.called, str(line.sold), str(line.given), money(line.value), str(line.unpriced)]
        for line in worth.lines
    ]
    table = Table(("Plant", "Sold", "Given", "Worth", "Without a price"), rows) if rows else None
    return Section("Money's worth", facts, table=table)


def _worth_said(worth: Worth) -> str:
    said = f"{money(worth.value)} for {_gone(worth)}"
    some = 0 < worth.value_sold < worth.value
    return f"{said}, {money(worth.value_sold)} of it for those sold." if some else f"{said}."


def _worth_line(line: Line) -> str:
    return f"{line.called}, {_gone(line)}."


def _gone(gone: Line | Worth) -> str:
    """Those that have a price: ``3 sold and 1 given``."""
    counts = (gone.priced_sold, "sold"), (gone.priced_given, "given")
    parts = [f"{count} {how}" for count, how in counts if count]
    return " and ".join(parts)


def money(amount: Decimal) -> str:
    """A sum in whatever money it is: two decimals, no sign."""
    return f"{amount:,.2f}"


def ends_of(fates: Fates) -> dict[End, int]:
    """Where the stems have got to; they come to all that were started."""
    return {
        End.PLACE: fates.at(Stage.PLANTED),
        End.PASSED_ON: fates.passed_on,
        End.ON_THE_WAY: fates.on_the_way - fates.at(Stage.WAITING),
        End.WAITING: fates.at(Stage.WAITING),
        End.LOST: fates.at(Stage.LOST),
    }


def bars(kinds: Iterable[Kind]) -> list[StemBar]:
    return [StemBar(name=kind.called, aside=kind.method.spoken, ends=ends_of(kind.fates)) for kind in kinds]


def months(account: Account) -> MonthBars:
    before = account.before
    return MonthBars(
        year=account.year,
        stems=[begun.stems for begun in account.starts.months],
        before=[begun.stems for begun in before.starts.months] if before else (),
    )


def takes(account: Account) -> list[TakeRow]:
    """The kinds of which anything has come to an end."""
    rows = []
    for kind in account.kinds:
        if kind.ended:
            low, high = kind.share.interval()
            rows.append(
                TakeRow(
                    name=kind.called,
                    aside=kind.method.spoken,
                    counts=_counts(kind),
                    low=low,
                    mean=kind.share.mean,
                    high=high,
                    usual=kind.share.figure.mean,
                )
            )
    return rows
