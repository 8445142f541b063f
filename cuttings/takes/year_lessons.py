"""What to do otherwise next year: sentences that follow from what the ledger holds, each with the stems it
is about.

Nothing is said that the entries do not carry. What is usually done about each is common practice; what
follows from a rule names that rule's source.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.plants.understood import plant_for
from cuttings.rules.growth import growing_season
from cuttings.rules.increase import out_of_season
from cuttings.rules.looking import how_to_look
from cuttings.rules.places import Place, place_of
from cuttings.rules.rooting import look_again
from cuttings.rules.seasons import is_hardy
from cuttings.rules.windows import POTTING_SOURCE, potting_window
from cuttings.takes.evidence import closed_air, looked_on, tally_of
from cuttings.takes.year_kinds import Kind
from cuttings.takes.year_moves import FAILED, Moved
from cuttings.takes.year_proved import Proved
from cuttings.words import Cause, Stage, listed

MOST_LESSONS = 5
"""More than this nobody remembers in spring; this program's own choice."""

LEAST_STEMS, LEAST_SHARE = 2, 0.1
"""A lesson is about so many stems at the least, or in a small year about so great a part of them; this
program's own choice."""

ROUNDS_MISSED = 2
"""So many rounds of looks without one is not looking; this program's own choice."""

LEAST_WITHOUT_CAUSE = 6
"""So many losses without a cause, if they are half of a year's, are worth a word; this program's own
choice."""

OWN_LOTS = "your own lots, compared as 'cuttings takes' compares them"

HARDENING_TELLS_DAYS = 42
"""Days after planting within which a loss is put down to growth that was never hardened; from memory."""

WINTER_TELLS_DAYS = 240
"""Days after a late potting within which a loss is put down to it: a winter; from memory."""

SHELTERED = frozenset({Place.FRAME, Place.INDOORS})
IN_POTS = (Stage.POTTED, Stage.HARDENING, Stage.READY)

NAMED = 3
"""How many lots, or days, are named before the rest are only counted."""

REMEDIES = {
    Cause.ROT: (
        "strike and pot in a mix that drains faster, with clean pots and blades, water less, and air "
        "the cover",
        "A stem without roots, or in cold wet mix, rots before it can drink.",
    ),
    Cause.DRIED: (
        "keep new stems in shade and closed damp air, and have somebody water while you are away",
        "A stem with few roots loses more on a hot day than it can take up.",
    ),
    Cause.FROST: (
        "sink the pots or bring them under cover before the first hard night; 'cuttings tonight --low "
        "TEMP' says which",
        "Roots in a pot freeze through long before roots in the ground.",
    ),
    Cause.EATEN: (
        "raise the pots or put mesh or a frame over them, and look underneath in the evening",
        "Whatever eats them hides there by day. If you use a bait, its label and local rules go first.",
    ),
    Cause.WEAK: (
        "take sturdier stems, and leave them until the roots hold their mix together before they are moved",
        "A thin stem with few roots does not live through the move.",
    ),
}
"""What is usually done about each cause, and why; common practice."""

DIED_OF = {
    Cause.ROT: ("rotted", "rotted"),
    Cause.DRIED: ("dried up", "dried up"),
    Cause.FROST: ("was lost to frost", "were lost to frost"),
    Cause.EATEN: ("was eaten", "were eaten"),
    Cause.WEAK: ("was too weak to live", "were too weak to live"),
}
"""How one stem and several are said to have died."""


@frozen(kw_only=True)
class Lesson:
    """One thing to do otherwise: the fact with its counts and the advice, its reason, and the ``stems`` and
    ``lots`` that it would have touched."""

    key: str
    stems: int
    text: str
    why: str
    source: str
    lots: tuple[str, ...] = ()


@frozen(kw_only=True)
class Season:
    """What the lessons of a year are drawn from: its own lots and those that were still in care, how its
    kinds did, and the moves of that year. ``give_up`` tells the day from which a lot that waits is past
    hope, if that is known; ``proved`` is what comparisons of all lots say of those of the year."""

    year: int
    today: date
    begun: Sequence[Lot]
    cared_for: Sequence[Lot]
    kinds: Sequence[Kind]
    moves: Sequence[Moved]
    catalogue: Catalogue
    climate: Climate
    give_up: Callable[[Lot], date | None]
    proved: Sequence[Proved]


def lessons_of(season: Season) -> tuple[Lesson, ...]:
    """The lessons of a year, those about most stems first, ``MOST_LESSONS`` at the most."""
    handled = sum(lot.started for lot in season.cared_for)
    found = [lesson for draw in _DRAWN for lesson in draw(season)]
    worth = [each for each in found if each.stems >= LEAST_STEMS or 0 < LEAST_SHARE * handled <= each.stems]
    return tuple(sorted(worth, key=lambda lesson: -lesson.stems)[:MOST_LESSONS])


def _causes(season: Season) -> Iterator[Lesson]:
    """What was lost to something that can be kept off."""
    for cause, (advice, why) in REMEDIES.items():
        lost = _lost_to(cause, season)
        if lost:
            stems, lots = _stems(lost), [each.lot for each in lost]
            died = DIED_OF[cause][stems > 1]
            when = f" {_days(lost, season.today)}" if cause is Cause.FROST else ""
            text = f"{stems_said(stems)} {died}{when} ({_named(lots)}): {advice}."
            yield _lesson(cause.value, stems, text, why, lots)


def _unexplained(season: Season) -> Iterator[Lesson]:
    lost = _lost_to(Cause.UNKNOWN, season)
    if lost:
        stems, lots = _stems(lost), [each.lot for each in lost]
        text = (
            f"{stems_said(stems)} {_was(stems)} lost and nobody knows of what ({_named(lots)}): look into "
            "the pot, feel the stem and the roots, and write down the nearest cause."
        )
        why = "Rot, drought and cold each want something else next time."
        yield _lesson("unknown", stems, text, why, lots)


def _no_cause(season: Season) -> Iterator[Lesson]:
    """Most of a year's losses, found dead at a look and no more said."""
    lost = [each for each in season.moves if each.target is Stage.LOST]
    bare = [each for each in lost if each.cause == FAILED]
    stems, every = _stems(bare), _stems(lost)
    if stems >= LEAST_WITHOUT_CAUSE and 2 * stems >= every:
        lots = [each.lot for each in bare]
        text = (
            f"{stems} of {every} stems lost have no cause written down ({_named(lots)}): next time look "
            "into the pot, and write the nearest one down; 'cuttings lose LOT --count N --stage waiting "
            "--cause rot' does."
        )
        why = "Nothing is learned of a loss without a cause: rot, drought and cold each want something else."
        yield _lesson("no-cause", stems, text, why, lots)


def _given_up_unseen(season: Season) -> Iterator[Lesson]:
    """Waiting stems that were written off long after the last look at them."""
    found: list[tuple[int, Moved]] = []
    for each in season.moves:
        if each.source is not Stage.WAITING or not isinstance(each.entry, e.Lose):
            continue
        last = max((on for on in looked_on(each.lot) if on <= each.on), default=each.lot.started_on)
        days = _growing_days(last, each.on, season.climate)
        if days > ROUNDS_MISSED * look_again(each.lot.method).days:
            found.append((days, each))
    if found:
        stems, lots = _stems(each for _, each in found), [each.lot for _, each in found]
        days, longest = max(found, key=lambda pair: pair[0])
        every = look_again(longest.lot.method).days
        text = (
            f"{stems_said(stems)} {_was(stems)} given up without a look for {round(days / 7)} weeks of the "
            f"growing season ({_named(lots)}): look every {_weeks(every)}."
        )
        why = "What goes wrong before there are roots can be put right while some of them live."
        yield _lesson("unseen", stems, text, why, lots, FROM_MEMORY)


def _past_their_time(season: Season) -> Iterator[Lesson]:
    """Stems that should have rooted or been given up by now: those that nobody has looked at, and those that
    take up room though hardly any of them will root."""
    waiting = [(lot, season.give_up(lot)) for lot in season.cared_for if lot.at(Stage.WAITING)]
    past = [lot for lot, day in waiting if day is not None and day < season.today]
    unseen, seen = ([lot for lot in past if bool(looked_on(lot)) is looked] for looked in (False, True))
    if unseen:
        stems = sum(lot.at(Stage.WAITING) for lot in unseen)
        method = unseen[0].method
        text = (
            f"{stems_said(stems)} {_has(stems)} never been looked at, and should have rooted by now "
            f"({_named(unseen)}): look now, and next time every {_weeks(look_again(method).days)}."
        )
        yield _lesson("unchecked", stems, text, how_to_look(method), unseen)
    if seen:
        stems = sum(lot.at(Stage.WAITING) for lot in seen)
        text = (
            f"{stems_said(stems)} {_has(stems)} waited past hope ({_named(seen)}): take a last look, and "
            "free the room."
        )
        why = "Hardly any that still wait by now would root; 'cuttings card LOT' says the day."
        yield _lesson("past-hope", stems, text, why, seen, FROM_MEMORY)


def _out_of_season(season: Season) -> Iterator[Lesson]:
    """Lots begun outside the season of their way that then did worse than is usual."""
    usual = {(kind.plant, kind.method): kind.share.figure.mean for kind in season.kinds}
    for lot in season.begun:
        told = tally_of(lot)
        tried = told.rooted + told.failed
        if isinstance(lot.origin, e.Find) or not told.failed:
            continue
        if told.rooted >= usual[lot.plant, lot.method] * tried:
            continue
        plant = plant_for(season.catalogue, lot.plant, lot.plant_type, lot.method)
        why = out_of_season(plant, lot.method, lot.started_on, season.climate)
        way = plant.way(lot.method)
        if why and way is not None:
            text = (
                f"{_named([lot])} was begun on {spoken(lot.started_on, season.today)}, outside its season, "
                f"and {told.rooted} of {tried} rooted: wait for it."
            )
            source = season.catalogue.reference(way.source_of("months"))
            yield _lesson("out-of-season", told.failed, text, why, [lot], source)


def _proved(season: Season) -> Iterator[Lesson]:
    """What was done a way that the keeper's own lots have shown to be the worse."""
    for each in season.proved:
        lots = [lot for lot in season.begun if lot.code in each.lots]
        text = f"{each.advice}. {stems_said(each.stems)} failed the other way ({_named(lots)})."
        yield _lesson("proved", each.stems, text, each.why, lots, OWN_LOTS)


def _took_badly(season: Season) -> Iterator[Lesson]:
    """Kinds of which surely fewer took than is usual, where nothing is known to do it better."""
    known = {(each.plant, each.method) for each in season.proved}
    for kind in season.kinds:
        if kind.against < 0 and (kind.plant, kind.method) not in known:
            usual = kind.share.figure.mean
            text = (
                f"Of {kind.called} by {kind.method.spoken} {kind.took} of {kind.ended} took, where about "
                f"{usual * 10:.0f} of 10 is usual: try other wood, another month or another way."
            )
            why = f"'cuttings plants \"{kind.called}\"' has its ways and their months."
            lots = [lot for lot in season.begun if (lot.plant, lot.method) == (kind.plant, kind.method)]
            yield _lesson("took-badly", kind.failed - round((1 - usual) * kind.ended), text, why, lots)


def _potted_late(season: Season) -> Iterator[Lesson]:
    """Stems that died in the winter after they were potted too late to root through their pots."""
    potted: dict[str, list[Moved]] = {}
    for each in season.moves:
        pot = each.entry
        if isinstance(pot, e.Pot) and each.source is Stage.ROOTED and place_of(pot.where) not in SHELTERED:
            potted.setdefault(each.lot.code, []).append(each)
    for moves in potted.values():
        lot = moves[0].lot
        plant = plant_for(season.catalogue, lot.plant, lot.plant_type, lot.method)
        closes = max(
            (each.closes for each in potting_window(plant, season.climate, season.year)), default=None
        )
        late = [each for each in moves if closes is not None and each.on > closes]
        stems = min(_stems(late), _lost(lot, Stage.POTTED, late[0].on, WINTER_TELLS_DAYS)) if late else 0
        if stems and closes is not None:
            text = (
                f"{stems} of {_stems(late)} of {_named([lot])} died in their pots after they were potted on "
                f"{spoken(late[0].on, season.today)}: pot by {spoken(closes, season.today)}, or keep them "
                "under cover."
            )
            why = "Potted while roots grow, a plant fills its pot before winter."
            yield _lesson("potted-late", stems, text, why, [lot], POTTING_SOURCE)


def _not_hardened(season: Season) -> Iterator[Lesson]:
    """Stems that died soon after they were planted straight out of shelter."""
    found = [(each, _died_soft(each, season)) for each in season.moves if each.target is Stage.PLANTED]
    found = [(each, died) for each, died in found if died]
    if found:
        stems, planted = sum(died for _, died in found), _stems(each for each, _ in found)
        lots = [each.lot for each, _ in found]
        text = (
            f"{stems} of {planted} planted straight out of shelter died within six weeks ({_named(lots)}): "
            "harden them off first."
        )
        why = "What grew under cover knows no sun, wind or cold; 'cuttings harden LOT' has the steps."
        yield _lesson("not-hardened", stems, text, why, lots)


def _died_soft(planted: Moved, season: Season) -> int:
    """How many stems of a planting died soon after, if they were soft and nobody had hardened them off."""
    lot = planted.lot
    if planted.source not in (Stage.POTTED, Stage.ROOTED):
        return 0
    plant = plant_for(season.catalogue, lot.plant, lot.plant_type, lot.method)
    stood = [pot.where for pot in lot.of_kind(e.Pot) if pot.where and pot.order < planted.entry.order]
    sheltered = bool(stood) and place_of(stood[-1]) in SHELTERED
    if not sheltered and (not closed_air(lot) or is_hardy(plant, season.climate)):
        return 0
    return min(planted.count, _lost(lot, Stage.PLANTED, planted.on, HARDENING_TELLS_DAYS))


def _unlabelled(season: Season) -> Iterator[Lesson]:
    lots = [lot for lot in season.cared_for if not lot.label and any(lot.at(stage) for stage in IN_POTS)]
    if lots:
        stems = sum(lot.at(stage) for lot in lots for stage in IN_POTS)
        text = (
            f"{stems_said(stems)} {'stands' if stems == 1 else 'stand'} in pots without a label "
            f"({_named(lots)}): write it when you pot; 'cuttings labels' says what."
        )
        yield _lesson("unlabelled", stems, text, "By spring nobody knows one pot from another.", lots)


_DRAWN: Sequence[Callable[[Season], Iterator[Lesson]]] = (
    _causes, _not_hardened, _potted_late, _out_of_season, _proved, _took_badly, _given_up_unseen,
    _past_their_time, _no_cause, _unexplained, _unlabelled,
)  # fmt: skip
"""Every kind of lesson; of those about as many stems, the first comes first."""


def _lost(lot: Lot, stage: Stage, since: date, days: int) -> int:
    """How many stems of a lot died at a stage within so many days of one."""
    last = since + timedelta(days=days)
    losses = (lose for lose in lot.of_kind(e.Lose) if lose.lot == lot.code and since <= lose.on <= last)
    return sum(move.count for lose in losses for move in lose.moves if move.source is stage)


def _growing_days(first: date, last: date, climate: Climate) -> int:
    """The days from one to another on which something grows."""
    days = 0
    for year in range(first.year - 1, last.year + 1):
        begins, ends = growing_season(climate, year) or (date(year, 1, 1), date(year, 12, 31))
        days += max((min(ends, last) - max(begins, first)).days, 0)
    return min(days, (last - first).days)


def _lesson(
    key: str, stems: int, text: str, why: str, lots: Iterable[Lot], source: str = COMMON_PRACTICE
) -> Lesson:
    codes = tuple(dict.fromkeys(lot.code for lot in lots))
    return Lesson(key=key, stems=stems, text=text, why=why, source=source, lots=codes)


def _lost_to(cause: Cause, season: Season) -> list[Moved]:
    return [each for each in season.moves if each.target is Stage.LOST and each.cause == cause.value]


def _stems(moves: Iterable[Moved]) -> int:
    return sum(each.count for each in moves)


def stems_said(count: int) -> str:
    return f"{count} {'stem' if count == 1 else 'stems'}"


def _was(count: int) -> str:
    return "was" if count == 1 else "were"


def _has(count: int) -> str:
    return "has" if count == 1 else "have"


def _weeks(days: int) -> str:
    return "week" if days == 7 else f"{round(days / 7)} weeks"


def _named(lots: Iterable[Lot]) -> str:
    return listed([f"{lot.code} {lot.plant_called}" for lot in lots], NAMED)


def _days(lost: Iterable[Moved], today: date) -> str:
    """The days on which the losses were written down."""
    return f"on {listed([spoken(each.on, today) for each in lost], NAMED)}"
