"""When to lift and divide a clump."""

from datetime import date
from math import ceil, pi

from cuttings.climate.climate import Climate
from cuttings.plants.model import FROM_MEMORY, Division, Plant
from cuttings.rules.advice import Advice, Window
from cuttings.rules.months import month_stretches
from cuttings.rules.odds import DEEP_FREEZE_F, chance_of_frozen_ground, chance_of_later_freeze, no_harm
from cuttings.rules.phases import short_shoots
from cuttings.rules.seasons import NO_FROST_DATES, Stretch, frosts, next_window, weeks
from cuttings.rules.transplant import PERENNIALS_AUTUMN
from cuttings.rules.warmth import pace_said
from cuttings.words import PlantType

BEST_BEFORE_FREEZE_WEEKS = 6
LAST_BEFORE_FREEZE_WEEKS = 4
"""Autumn divisions want four to six weeks in the ground before it freezes (``PERENNIALS_AUTUMN``)."""

RESENTS = "It dislikes being divided and may sulk for a year or two: leave it, or take a piece from the edge."

BLOOMS_EARLY_UNTIL = 6
"""A plant whose flowers begin by this northern month is a spring bloomer, others are late ones; common
practice."""

SPRING_MONTHS = frozenset(range(1, 7))

PIECE_WIDTH_M = 0.10
"""Across a piece that grows on without a pause: about a hand's breadth; from memory."""

USABLE = 0.6
"""Of the ground a clump covers, the share that gives good pieces: its bare or woody middle and what breaks in
the cutting do not; from memory."""


def pieces_from_count(division: Division, counted: int) -> Advice[int]:
    """How many pieces a clump gives that has so many eyes, fans or shoots; 1 leaves it whole.

    Each keeps as many as the plant's record holds good at the most: the larger the piece, the sooner it
    flowers again.

    Raises:
        ValueError: the record does not tell how many a piece keeps.
    """
    if division.per_piece is None:
        raise ValueError("It is not known how many a piece should keep.")
    least, most = division.per_piece
    what, source = division.counted_in, division.source_of("per_piece")
    if counted < 2 * least:
        each = f"at least {least} {what}" if least > 1 else f"one of its {what}"
        return Advice(1, f"Leave it whole: each piece should keep {each}, and it has {counted}.", source)
    pieces = min(max(ceil(counted / most), 2), counted // least)
    span = f"{least} to {most}" if least != most else f"{least}"
    why = f"Each piece keeps {span} {what}; larger ones flower sooner."
    if counted // least > pieces:
        why = f"{why} {counted // least} is the most it gives."
    return Advice(pieces, why, source)


def pieces_from_width(width_m: float) -> Advice[int]:
    """How many pieces a clump gives that is so wide across [m]; 1 leaves it whole."""
    pieces = int(USABLE * pi / 4 * (width_m / PIECE_WIDTH_M) ** 2)
    sure = "An estimate from the width alone."
    if pieces < 2:
        return Advice(1, "Leave it whole: its pieces would be smaller than a hand.", FROM_MEMORY, sure)
    why = "Pieces a hand wide grow on without a pause; the bare middle is thrown away."
    return Advice(pieces, why, FROM_MEMORY, sure)


def not_now(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The next window to divide a plant; ``None`` where one is open on the day, or none is known."""
    window = next_division(plant, climate, on)
    return window if window is not None and window.opens > on else None


def division_months(plant: Plant) -> tuple[int, ...]:
    """The catalogue months for dividing a plant.

    A plant that has no months of its own takes those of its kind, and of them only the half of the year in
    which it does not flower: spring bloomers wait for late summer and autumn, late bloomers are divided in
    spring.
    """
    division = plant.division
    if division is None:
        return ()
    if plant.levels.get("division") != "type" or plant.bloom is None or not plant.bloom.months:
        return division.months
    early = min(plant.bloom.months) <= BLOOMS_EARLY_UNTIL
    return tuple(month for month in division.months if (month in SPRING_MONTHS) != early) or division.months


SHOOTING = frozenset({PlantType.PERENNIAL, PlantType.GRASS, PlantType.FERN, PlantType.HERB})
"""Plants that come up from the ground anew each spring, and are divided as they do (common practice)."""


def division_windows(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    """The windows for dividing a plant that begin in a year; none where it is not divided.

    They are the plant's months, less the weeks in which a division could not root before the ground
    freezes and those in which the ground is frozen. Without frost dates they are the months alone.
    The source is the plant's own, or that of the autumn limit where frost closes the window.
    """
    division = plant.division
    if division is None:
        return ()
    stretches = month_stretches(division_months(plant), climate, year)
    open_ground = (part for stretch in stretches for part in _unfrozen(stretch, climate))
    return tuple(_window(plant, division, climate, part) for part in open_ground)


def next_division(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The window open on a day, or the next to open."""
    return next_window(lambda year: division_windows(plant, climate, year), on)


def _unfrozen(stretch: Stretch, climate: Climate) -> tuple[Stretch, ...]:
    """What is left of a stretch outside the weeks too near to, or in, frozen ground."""
    parts = [stretch]
    if climate.frost is None:
        return (stretch,)
    for year in range(stretch[0].year - 1, stretch[1].year + 2):
        if closed := _closed_ground(climate, year):
            parts = [left for part in parts for left in _without(part, *closed)]
    return tuple(parts)


def _closed_ground(climate: Climate, year: int) -> Stretch | None:
    """The last day for an autumn division and the first day of ground that can be dug, between which
    nothing is done; ``None`` where the ground does not freeze."""
    autumn = frosts(climate, year)
    if not autumn.freezes:
        return None
    last = autumn.freeze - weeks(LAST_BEFORE_FREEZE_WEEKS)
    return last, max(last, frosts(climate, year if climate.southern else year + 1).workable)


def _without(part: Stretch, last: date, thaw: date) -> list[Stretch]:
    before = (part[0], min(part[1], last))
    after = (max(part[0], thaw), part[1])
    if thaw <= last or part[1] <= last or part[0] >= thaw:
        return [part]
    return [each for each in (before, after) if each[0] <= each[1]]


def _window(plant: Plant, division: Division, climate: Climate, part: Stretch) -> Window:
    opens, closes = part
    season = division.season or "this season"
    why = f"{season[0].upper()}{season[1:]} suits it."
    source = division.source_of("months")
    best = opens, opens + (closes - opens) / 2
    odds = no_harm(climate)
    if _shut_by_frost(climate, closes):
        best = opens, max(opens, closes - weeks(BEST_BEFORE_FREEZE_WEEKS - LAST_BEFORE_FREEZE_WEEKS))
        why += " It closes four weeks before the ground freezes, so the pieces can root."
        source = PERENNIALS_AUTUMN
        odds = chance_of_frozen_ground(climate, best[0] + weeks(LAST_BEFORE_FREEZE_WEEKS))
    elif shoots := _shoots_in(plant, climate, part):
        best = shoots
        why += " Best while its shoots are 2 to 4 in (5 to 10 cm) tall."
        odds = chance_of_later_freeze(climate, best[0], DEEP_FREEZE_F)
    why += pace_said(climate, opens)
    if climate.frost is None:
        why += f" {NO_FROST_DATES}"
    if division.resents:
        why += f" {RESENTS}"
    return Window(
        what=f"divide {plant.name}",
        opens=opens,
        best=best,
        closes=closes,
        why=why,
        source=source,
        odds=odds,
    )


def _shut_by_frost(climate: Climate, closes: date) -> bool:
    """Whether a window was cut short by ground that will freeze."""
    if climate.frost is None:
        return False
    shut = (_closed_ground(climate, year) for year in range(closes.year - 1, closes.year + 1))
    return any(each is not None and each[0] == closes for each in shut)


def _shoots_in(plant: Plant, climate: Climate, part: Stretch) -> Stretch | None:
    """The part of a spring window in which a perennial's shoots are short; ``None`` where they meet
    nowhere."""
    if plant.type not in SHOOTING:
        return None
    shoots = short_shoots(climate, part[0].year)
    if shoots is None or shoots[0] > part[1] or shoots[1] < part[0]:
        return None
    return max(shoots[0], part[0]), min(shoots[1], part[1])
