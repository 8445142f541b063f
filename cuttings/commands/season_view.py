"""The season as a picture: the windows of every lot, mark and goal along the calendar."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from typing import Any

from cuttings.commands.week_view import nudge_document
from cuttings.dates import spoken
from cuttings.nudges.model import WORTH_SAYING, Nudge
from cuttings.nudges.sheet import ANYWHERE, WEEK
from cuttings.show.page import Page
from cuttings.show.timeline import Row, Section, Span, shown, timeline_lines, timeline_words
from cuttings.show.timeline_svg import timeline_svg

MONTHS_DRAWN = 8
"""From the month one is in: in spring to the cover for the winter, in autumn to the next planting."""

JOB_WORDS: Mapping[str, str] = {
    "check": "look", "watch": "look", "shade": "unshade", "winter": "shelter", "rid": "do away with",
    "take-hardwood": "hardwood", "harden-more": "harden", "plant-more": "plant",
}  # fmt: skip
"""What a job is called in the picture, where the last part of a nudge's id is not the word for it."""


def season_days(today: date) -> tuple[date, date]:
    """The days that the picture shows unless others are asked for: whole months, this one the first."""
    months = today.year * 12 + today.month - 1 + MONTHS_DRAWN
    return today.replace(day=1), date(months // 12, months % 12 + 1, 1) - timedelta(days=1)


def season_sections(nudges: Sequence[Nudge], today: date) -> list[Section]:
    """A section for each area, a row for each lot, mark or wish; those whose work opens first come first."""
    areas: dict[str, dict[str, list[Span]]] = {}
    for nudge in sorted(nudges, key=lambda nudge: (nudge.window.opens, nudge.window.closes, nudge.id)):
        if _subject(nudge):
            rows = areas.setdefault(nudge.area or ANYWHERE, {})
            rows.setdefault(_row_name(nudge), []).append(_span(nudge, today))
    return [Section(area, [Row(name, spans) for name, spans in rows.items()]) for area, rows in areas.items()]


def _subject(nudge: Nudge) -> str:
    wish = nudge.name if nudge.words else ""
    return nudge.lot or nudge.mark or wish


def _row_name(nudge: Nudge) -> str:
    """The code first, so that the names of a section line up."""
    if nudge.mark:
        return f"{nudge.mark} {nudge.name.removesuffix(f' at mark {nudge.mark}')}"
    return nudge.name


def _span(nudge: Nudge, today: date) -> Span:
    window = nudge.window
    name = nudge.id.rpartition(":")[2]
    return Span(
        what=JOB_WORDS.get(name, name.replace("-", " ")) or window.what,
        opens=window.opens,
        best=window.best,
        closes=window.closes,
        pressing=nudge.loss.expected(today, today + WEEK) >= WORTH_SAYING,
    )


def season_title(garden: str, first: date, last: date) -> str:
    """What stands over the drawing: ``Quarry Bank, 1 May 2026 to 31 December 2026``."""
    stretch = f"{spoken(first)} to {spoken(last)}"
    return f"{garden}, {stretch}" if garden else stretch


def season_page(nudges: Sequence[Nudge], first: date, last: date, today: date, garden: str = "") -> Page:
    """The picture from ``first`` to ``last``, how it is read, and where one would look next."""
    sections = shown(season_sections(nudges, today), first, last)
    page = Page().heading("The season", season_title(garden, first, last))
    if not sections:
        page.row("", "Nothing needs doing in these days.")
        return page

    page.gap().drawing(
        partial(timeline_lines, sections, first, last, today),
        *timeline_words(sections, first, last, today),
    )
    frost = next((f"{nudge.what}." for nudge in nudges if nudge.id == "garden:frost"), "")
    page.next_steps("'cuttings week' says how, and why, for what is best done now.", frost)
    return page


def season_svg(nudges: Sequence[Nudge], first: date, last: date, today: date, garden: str = "") -> str:
    """The same as the text of an SVG file."""
    title = season_title(garden, first, last)
    return timeline_svg(season_sections(nudges, today), first, last, today, title)


def season_document(nudges: Sequence[Nudge], first: date, last: date) -> dict[str, Any]:
    """The same as JSON: a week's document without what belongs to a week's time."""
    return {
        "from": first.isoformat(),
        "to": last.isoformat(),
        "minutes": sum(nudge.minutes for nudge in nudges),
        "nudges": [
            {
                **nudge_document(nudge),
                "cost_of_waiting": round(nudge.loss.expected(first, last), 3),
                "planned": True,
            }
            for nudge in nudges
        ],
    }
