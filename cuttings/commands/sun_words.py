"""Obstacles, hours of sun and light classes in words."""

from calendar import month_name
from collections.abc import Sequence

from cuttings.dates import MonthDay
from cuttings.ledger.places import Obstacle, Site
from cuttings.placement.light import LIMITS, least_hours, site_light
from cuttings.units import show_length
from cuttings.words import Light, ObstacleKind, Units

COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")


def compass_point(bearing: float) -> str:
    """The nearest of the eight points of the compass."""
    return COMPASS[round(bearing / 45.0) % len(COMPASS)]


def obstacle_sentence(obstacle: Obstacle, units: Units) -> str:
    """An obstacle in a sentence without its stop: where it stands, how far and how high."""
    kind = f"{obstacle.name} ({obstacle.kind})" if obstacle.name else f"a {obstacle.kind}"
    parts = [
        f"{kind} to the {compass_point(obstacle.bearing)}, from {obstacle.start:.0f}° to {obstacle.end:.0f}°",
        f"{show_length(obstacle.distance_m, units)} away and {show_length(obstacle.height_m, units)} high",
    ]
    if obstacle.base_m:
        foot = "branches" if obstacle.kind is ObstacleKind.TREE else "foot"
        parts.append(f"its {foot} {show_length(obstacle.base_m, units)} up")
    if obstacle.leaf:
        parts.append(f"in leaf {season_shown(obstacle.leaf)}")
    if obstacle.density < 1.0:
        parts.append(f"keeping off {obstacle.density * 100:.0f} % of the sun")
    return ", ".join(parts)


def month_day_shown(day: MonthDay) -> str:
    return f"{day[1]} {month_name[day[0]]}"


def season_shown(season: tuple[MonthDay, MonthDay]) -> str:
    return f"from {month_day_shown(season[0])} to {month_day_shown(season[1])}"


def hours_shown(hours: float) -> str:
    """Hours as one says them: ``5 h 20 min``, ``45 min``, ``no sun``."""
    whole, minutes = divmod(round(hours * 60), 60)
    if not whole:
        return f"{minutes} min" if minutes else "no sun"
    return f"{whole} h {minutes} min" if minutes else f"{whole} h"


def light_shown(light: Light) -> str:
    return light.replace("-", " ")


def limits_sentence(light: Light) -> str:
    """What hours make a class, and who says so."""
    least, classes = least_hours(light), list(Light)
    above = classes.index(light) - 1
    said = light_shown(light).capitalize()
    if above < 0:
        return f"{said} is {least:g} hours or more, by {LIMITS.source}."
    most = least_hours(classes[above])
    span = f"{least:g} to {most:g} hours" if least else f"less than {most:g} hours"
    return f"{said} is {span}, by {LIMITS.source}."


def told_wins(site: Site) -> str:
    """That the light somebody told holds, and how to let the skyline decide; empty where none was told."""
    told = site_light(site)
    if told is None:
        return ""
    hours = f" ({site.sun_hours:g} hours)" if site.sun_hours is not None else ""
    return (
        f"You told {light_shown(told)}{hours}, and spots go by that until "
        f"'cuttings sites add \"{site.name}\" --light not-known' lets what stands round it decide."
    )


def clock_shown(hour: float) -> str:
    """An hour of sun time: ``5:10``."""
    whole, minutes = divmod(round(hour * 60), 60)
    return f"{whole}:{minutes:02d}"


def spans_shown(spans: Sequence[tuple[float, float]]) -> str:
    """When the sun shines: ``from 5:10 to 9:00 and from 14:20 to 18:50``."""
    if not spans:
        return "not at all"
    said = [f"from {clock_shown(start)} to {clock_shown(end)}" for start, end in spans]
    return " and ".join([", ".join(said[:-1]), said[-1]]) if len(said) > 1 else said[0]
