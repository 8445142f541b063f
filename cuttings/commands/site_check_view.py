"""What obstacles cost a site, and what a new one would change, as a page and as a document."""

from calendar import month_abbr, month_name
from collections.abc import Sequence
from functools import partial
from typing import Any

from cuttings.commands.desk import Desk
from cuttings.commands.sites import obstacle_document
from cuttings.commands.sun_words import (
    hours_shown,
    light_shown,
    limits_sentence,
    obstacle_sentence,
    told_wins,
)
from cuttings.ledger.places import Site
from cuttings.placement.shading import Change, Cost, Costs, Sunshine, Unsuited
from cuttings.rules.caution import BURIED_LINES, TREE_WORK
from cuttings.show.page import Page
from cuttings.words import ObstacleKind, Units, either, listed

LEAST_SAID_H = 1 / 60
"""Less than a minute of sun a day is not worth telling."""

MOST_MONTHS = 3


def check_page(desk: Desk, site: Site, found: Costs, change: Change | None) -> Page:
    """The page: what each obstacle costs, or only what the new one would change."""
    page = Page().heading(f"Sun on {site.name}", "what would change" if change else "what keeps it off")
    now = found.now
    page.row("Now", f"{_sun(now)}, through the growing season.", limits_sentence(now.light))
    page.row("Told", told_wins(site), only_if=site.light is not None or site.sun_hours is not None)
    step = f"'cuttings sites obstacle \"{site.name}\"' writes down what stands there."
    if change is not None:
        _tell_change(page, now, change, desk.units)
        return page.warnings([BURIED_LINES.text]).next_steps(step)
    page.row("", "Nothing is written down that stands round it.", only_if=not found.each)
    for number, cost in enumerate(found.each, 1):
        page.row(f"Shade {number}", _cost_sentence(cost, now, desk.units), _leaf_sentence(cost, now))
    felled = any(cost.obstacle.kind is ObstacleKind.TREE for cost in found.each)
    page.warnings([TREE_WORK.text] if felled else [])
    more = "With the same options 'sites check' tells what a new wall, fence or tree would change."
    return page.next_steps(step, more)


def _sun(sun: Sunshine) -> str:
    return f"{hours_shown(sun.season)} of direct sun a day ({light_shown(sun.light)})"


def _cost_sentence(cost: Cost, now: Sunshine, units: Units) -> str:
    said = obstacle_sentence(cost.obstacle, units)
    lost = cost.without.season - now.season
    if lost < LEAST_SAID_H:
        return f"{said}: it costs no sun in the growing season."
    return f"{said}: it costs {hours_shown(lost)} a day; without it there would be {_sun(cost.without)}."


def _leaf_sentence(cost: Cost, now: Sunshine) -> str:
    """For a deciduous one: what its leaves cost, and what their fall gives."""
    if cost.evergreen is None:
        return ""
    gained = _differences(cost.evergreen, now)
    when = f" Its bareness gives most in {_months_said(gained)}." if gained else ""
    return (
        f"Bare all year it would cost nothing and leave {hours_shown(cost.without.season)}; in leaf all "
        f"year it would leave {_sun(cost.evergreen)}.{when}"
    )


def _differences(less: Sunshine, more: Sunshine) -> list[tuple[int, float]]:
    """The months that differ, by number, with the hours a day that the second has more; the most first."""
    both = enumerate(zip(less.months, more.months, strict=True), 1)
    found = [(month, high - low) for month, (low, high) in both if high - low >= LEAST_SAID_H]
    return sorted(found, key=lambda each: -each[1])


def _months_said(differences: Sequence[tuple[int, float]]) -> str:
    return listed([f"{month_name[month]} ({hours_shown(hours)} a day)"
                   for month, hours in differences[:MOST_MONTHS]])  # fmt: skip


def _tell_change(page: Page, now: Sunshine, change: Change, units: Units) -> None:
    """The sun with the new obstacle, month by month, and who would miss it."""
    lost = now.season - change.after.season
    said = f"{obstacle_sentence(change.obstacle, units)}: "
    if lost < LEAST_SAID_H:
        said += "it would cost no sun in the growing season."
    else:
        said += f"it would cost {hours_shown(lost)} a day and leave {_sun(change.after)}."
    darker = change.after.light is not now.light
    words = f"From {light_shown(now.light)} it would become {light_shown(change.after.light)}."
    page.row("New", said, words if darker else "It stays in its class.", tone="accent" if darker else "")
    by_month = _differences(change.after, now)
    page.row("", f"Most would be lost in {_months_said(by_month)}.", only_if=bool(by_month))
    for each in change.unsuited:
        page.row("Misses it", _unsuited_sentence(each, change), tone="accent")
    page.gap()
    page.drawing(partial(_table, now, change.after), *_table_words(now, change.after))


def _unsuited_sentence(each: Unsuited, change: Change) -> str:
    likes = either(light_shown(light) for light in each.likes)
    harm = "would hardly thrive" if abs(each.steps) > 1 else "may flower less"
    return f"{each.plant} likes {likes}; in {light_shown(change.after.light)} it {harm}."


def _table(now: Sunshine, after: Sunshine, width: int) -> list[str]:
    """Hours a day now and with it, in two columns of six months where there is room."""
    rows = [
        f"{month_abbr[month]:<5}{before:>5.1f}{later:>7.1f}"
        for month, (before, later) in enumerate(zip(now.months, after.months, strict=True), 1)
    ]
    head = "       now   then"
    if width < 2 * len(head) + 6:
        return [head, *rows]
    return [f"{left}      {right}" for left, right in zip([head, *rows[:6]], [head, *rows[6:]], strict=True)]


def _table_words(now: Sunshine, after: Sunshine) -> list[str]:
    months = zip(month_name[1:], now.months, after.months, strict=True)
    said = ", ".join(f"{month} {before:.1f} and then {later:.1f}" for month, before, later in months)
    return [f"Hours of direct sun a day, now and with it: {said}."]


def check_document(site: Site, found: Costs, change: Change | None) -> dict[str, Any]:
    return {
        "site": site.name,
        **_sun_document(found.now),
        "obstacles": [
            {
                **obstacle_document(cost.obstacle),
                "costs_hours": round(cost.without.season - found.now.season, 2),
                "without": _sun_document(cost.without),
                "in_leaf_all_year": _sun_document(cost.evergreen) if cost.evergreen else None,
            }
            for cost in found.each
        ],
        "change": None if change is None else _change_document(found.now, change),
    }


def _change_document(now: Sunshine, change: Change) -> dict[str, Any]:
    lost = zip(now.months, change.after.months, strict=True)
    new = obstacle_document(change.obstacle)
    del new["entry"]  # it is not written down
    return {
        "obstacle": new,
        **_sun_document(change.after),
        "costs_hours": round(now.season - change.after.season, 2),
        "monthly_costs_hours": [round(before - after, 2) for before, after in lost],
        "no_longer_suited": [
            {"plant": each.plant, "likes": [light.value for light in each.likes]} for each in change.unsuited
        ],
    }


def _sun_document(sun: Sunshine) -> dict[str, Any]:
    return {
        "season_hours": sun.season,
        "light": sun.light.value,
        "monthly_hours": [round(each, 2) for each in sun.months],
    }
