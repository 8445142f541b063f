"""One cold night: how likely stems are lost in it, why, and what is worth doing before dusk.

``rules/dangers.py`` tells what the night can kill, ``rules/shelter.py`` what can be done about it.
"""

from collections.abc import Sequence
from datetime import date

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Advice
from cuttings.rules.dangers import Danger, dangers, limits_said, settled
from cuttings.rules.hardening import CALIFORNIA, HENNEPIN, TENDER_CHILL_C
from cuttings.rules.hardiness import (
    FREEZE_CLASSES,
    VERMONT,
)
from cuttings.rules.seasons import is_hardy
from cuttings.rules.shelter import (
    BRING_IN,
    CLOSE_FRAME,
    COLDLESS,
    COVER_IF_TIME,
    FRAME_C,
    LEAVE,
    NO_HELP,
    NOTHING,
    SEE_TO_HEAT,
    Remedy,
    Seat,
    Shelter,
    Standing,
    remedies,
)
from cuttings.units import show_temperature
from cuttings.words import Units

ENOUGH = 0.05
"""A remedy that leaves no more than this chance of loss is enough, and the easiest such is taken; one that
saves no more than this share of what is dying is not worth the walk. This program's own."""

SLACK_C = 0.01
"""Degrees that rounding in unit conversion may take."""


@frozen(kw_only=True)
class Verdict:
    """What tonight means for some stems.

    ``chance`` is that of loss if nothing is done, ``saved`` the share of stems that the remedy keeps alive.
    ``begins_c`` is the forecast low at which they begin to be at risk, ``None`` where no night is too cold.
    ``beyond`` is set where nothing worth doing would save them, ``spared`` where they live and only soft
    growth may be lost, ``chilled`` where the night is too cold for stems that are not hardened off. ``why``
    is the ``cause`` with the limits of the ``danger``, the worst of those that are near.
    """

    begins_c: float | None
    why: str
    source: str
    at_risk: bool = False
    chance: float = 0.0
    saved: float = 0.0
    beyond: bool = False
    spared: bool = False
    chilled: bool = False
    remedy: Remedy = LEAVE
    cause: str = ""
    danger: Danger | None = None


def judge(standing: Standing, climate: Climate, on: date, low_c: float, units: Units) -> Verdict:
    """What a night with a forecast low, degrees Celsius, means for stems that stand so.

    Args:
        on: the day before the night.
        units: those the reason is told in.
    """
    found = dangers(standing, climate, on)
    limit = _night_limit(standing, climate, units)
    begins = max([danger.begins_c for danger in found] + ([limit.value] if limit else []), default=None)
    near = [danger for danger in found if low_c <= danger.begins_c + SLACK_C]
    worst = max(near, key=lambda danger: (danger.chance(low_c), danger.begins_c), default=None)
    broken = limit if limit is not None and low_c < limit.value - SLACK_C else None
    if worst is None and broken is None:
        why, safe_source = _unharmed(standing, climate, begins, limit, units)
        return Verdict(begins_c=begins, why=why, source=safe_source)
    cause, sources = _endangered(standing, worst, broken)
    chance = worst.chance(low_c) if worst is not None else 0.0
    spared = broken is None and worst is not None and worst.share == 0
    if broken is not None:
        remedy, left = _out_of_the_chill(standing, broken.value, low_c), 0.0
    elif spared:
        remedy, left = COVER_IF_TIME, 0.0
    else:
        remedy, left = _best(remedies(standing, climate, low_c), found, low_c)
    beyond = chance > 0 and chance - left <= ENOUGH * chance
    if beyond:
        hopeless = worst is not None and worst.share == 1
        remedy, left = NOTHING if hopeless else NO_HELP, chance
        cause = f"{cause} A cover gives only a few degrees."
    return Verdict(
        at_risk=True,
        chance=chance,
        saved=chance - left,
        begins_c=begins,
        beyond=beyond,
        spared=spared,
        chilled=broken is not None,
        remedy=remedy,
        cause=cause,
        danger=worst,
        why=f"{cause} {limits_said([worst], units)}" if worst is not None else cause,
        source="; ".join(dict.fromkeys((*sources, *remedy.source.split("; ")))),
    )


def _night_limit(standing: Standing, climate: Climate, units: Units) -> Advice[float] | None:
    """The coldest night, degrees Celsius, for stems that are not hardened off yet, whether frost comes or
    not; ``None`` where there is none."""
    limits = (_while_hardening(standing, units), _fresh_from_warmth(standing, climate, units))
    return max((each for each in limits if each is not None), key=lambda each: each.value, default=None)


def _while_hardening(standing: Standing, units: Units) -> Advice[float] | None:
    limit_c = standing.night_limit_c
    if limit_c is None or standing.shelter in COLDLESS:
        return None
    limit = show_temperature(limit_c, units)
    why = f"It is being hardened off, and stays out only on nights of {limit} or more."
    return Advice(limit_c, why, standing.night_source)


def _fresh_from_warmth(standing: Standing, climate: Climate, units: Units) -> Advice[float] | None:
    """The limit of tender stems under heat, or raised under cover and not hardened off."""
    raised = standing.soft and (standing.potted or standing.seat is Seat.POT)
    if not raised or standing.attached or standing.shelter is Shelter.INDOORS:
        return None
    if is_hardy(standing.plant, climate):
        return None
    limit = show_temperature(TENDER_CHILL_C, units)
    why = f"It is tender, raised in warmth and not hardened off: nights below {limit} set it back."
    if standing.shelter is Shelter.HEATED:
        why = f"It is tender and used to its heat: should that fail, a night below {limit} harms it."
    return Advice(TENDER_CHILL_C, why, f"{CALIFORNIA}; {HENNEPIN}")


def _out_of_the_chill(standing: Standing, limit_c: float, low_c: float) -> Remedy:
    """What keeps stems that are not hardened off from a night too cold for them."""
    if standing.shelter is Shelter.HEATED:
        return SEE_TO_HEAT
    frame = standing.shelter is Shelter.FRAME and standing.seat is Seat.POT
    if frame and standing.night_limit_c is None and low_c + FRAME_C[0] >= limit_c:
        return CLOSE_FRAME
    return BRING_IN


def _best(offered: tuple[Remedy, ...], found: tuple[Danger, ...], low_c: float) -> tuple[Remedy, float]:
    """The easiest remedy that is enough, or else the one that leaves the least; and the chance it leaves."""
    left = [(_left(remedy, found, low_c), remedy) for remedy in offered]
    enough = [each for each in left if each[0] <= ENOUGH]
    chance, remedy = enough[0] if enough else min(left, key=lambda each: each[0])
    return remedy, chance


def _left(remedy: Remedy, found: tuple[Danger, ...], low_c: float) -> float:
    if remedy.warmer is None:
        return 0.0
    return max((danger.chance(low_c, remedy.warmer) for danger in found), default=0.0)


def _endangered(
    standing: Standing, worst: Danger | None, broken: Advice[float] | None
) -> tuple[str, Sequence[str]]:
    """Why stems are at risk tonight, and the sources."""
    said, sources = [], []
    if broken is not None:
        said.append(broken.why)
        sources += broken.source.split("; ")
    if worst is not None:
        said.append(worst.what)
        sources += worst.source.split("; ")
    return f"{' '.join(said)}{_read(standing)}", sources


def _unharmed(
    standing: Standing,
    climate: Climate,
    begins_c: float | None,
    limit: Advice[float] | None,
    units: Units,
) -> tuple[str, str]:
    """Why stems are safe tonight, and the source."""
    if standing.shelter is Shelter.INDOORS:
        why = f"You wrote '{standing.said}', so they are taken to stand indoors; if not, bring them in."
        return why, COMMON_PRACTICE
    if standing.shelter is Shelter.HEATED or begins_c is None:
        return "Bottom heat keeps frost out while the power is on; see that it is.", COMMON_PRACTICE
    if standing.seat is Seat.GROUND and settled(standing, climate):
        why = f"They are hardy here, and in the ground or on the mother plant.{_read(standing)}"
        return why, COMMON_PRACTICE
    source = limit.source if limit and begins_c == limit.value else f"{FREEZE_CLASSES}; {VERMONT}"
    why = f"At this season they stand nights down to {show_temperature(begins_c, units)}.{_read(standing)}"
    return why, source


def _read(standing: Standing) -> str:
    """What was read from the keeper's own words, so that it can be put right."""
    if not standing.said:
        return ""
    place = "in a frame" if standing.shelter is Shelter.FRAME else "sunk in the ground"
    return f" You wrote '{standing.said}', so they are taken to stand {place}."
