"""A year's account as a page, as Markdown, as a drawing and as JSON."""

from collections.abc import Sequence
from decimal import Decimal
from functools import partial
from typing import Any

from cuttings.commands.year_words import (
    Fact,
    Section,
    bars,
    lead,
    months,
    sections,
    takes,
    title,
)
from cuttings.dates import spoken
from cuttings.show import markdown
from cuttings.show.account_chart import (
    month_lines,
    month_words,
    stem_lines,
    stem_words,
    take_lines,
    take_words,
)
from cuttings.show.account_svg import account_svg
from cuttings.show.page import Page
from cuttings.takes.year import Account, Begun, Passed, Starts
from cuttings.takes.year_kinds import Kind, best_and_worst

MOST_KINDS = 12
"""Kinds in a chart; the table and the document have them all."""

MARKDOWN_BEGINS = "# The year "


def account_page(account: Account, garden: str, *, sources: bool, plain: bool) -> Page:
    """The account on a screen, the answer first; on a ``plain`` one every line says what it is about."""
    page = Page(margin_width=7)
    page.heading(title(account, garden), f"as it stands on {spoken(account.today)}")
    _tell(page, lead(account), plain, tone="accent")
    for section in sections(account, sources):
        page.heading(section.heading)
        _tell(page, section.facts, plain)
        _draw(page, account, section.chart)
    return page


def _tell(page: Page, facts: Sequence[Fact], plain: bool, tone: str = "") -> None:
    """The facts with their margins, each margin once unless it is plain; the first of them in a tone."""
    margins = ["", *(fact.margin for fact in facts)]
    for before, fact in zip(margins, facts, strict=False):
        margin = "" if fact.margin == before and not plain else fact.margin
        page.row(margin, fact.text, *fact.reasons, tone=tone)
        tone = ""


def _draw(page: Page, account: Account, chart: str) -> None:
    kinds = account.kinds[:MOST_KINDS]
    rows = takes(account)
    left = 0
    match chart:
        case "stems":
            drawn = bars(kinds)
            left = len(account.kinds) - len(drawn)
            page.gap().drawing(partial(stem_lines, drawn), *stem_words(drawn))
        case "months":
            page.gap().drawing(partial(month_lines, months(account)), *month_words(months(account)))
        case "takes":
            left = max(len(rows) - MOST_KINDS, 0)
            page.gap().drawing(partial(take_lines, rows[:MOST_KINDS]), *take_words(rows[:MOST_KINDS]))
    page.row("", f"{left} kinds with fewer stems are not drawn.", only_if=left > 0)


def account_markdown(account: Account, garden: str, drawing: str, *, sources: bool) -> str:
    """The account as a page to keep. ``drawing`` is the way from it to the drawing, empty where there is
    none."""
    where = f" at {garden}" if garden else ""
    parts = [markdown.heading(1, f"The year {account.year}{where}")]
    parts += [markdown.escaped(fact.sentence) for fact in lead(account)]
    parts.append(markdown.escaped(f"As it stands on {spoken(account.today)}."))
    if drawing:
        parts.append(markdown.picture(f"The charts of {account.year}", drawing))
    for section in sections(account, sources):
        parts.append(markdown.heading(2, section.heading))
        parts += _written(section)
    return "\n\n".join(parts) + "\n"


def _written(section: Section) -> Sequence[str]:
    parts = []
    if section.facts:
        told = [[fact.text if section.numbered else fact.sentence, *_kept(fact)] for fact in section.facts]
        parts.append(markdown.items(told, numbered=section.numbered))
    if section.table is not None:
        parts.append(markdown.table(section.table.columns, section.table.rows))
    return parts


def _kept(fact: Fact) -> Sequence[str]:
    return [reason for reason in fact.reasons if reason]


def account_drawing(account: Account, garden: str) -> str:
    """The charts as the text of an SVG file."""
    kinds = account.kinds[:MOST_KINDS]
    drawn = bars(kinds), months(account), takes(account)[:MOST_KINDS]
    return account_svg(title(account, garden), [fact.sentence for fact in lead(account)], *drawn)


def account_document(account: Account) -> dict[str, Any]:
    """The account as JSON."""
    best, worst = best_and_worst(account.kinds) or (None, None)
    fates, before, older = account.fates, account.before, account.older
    return {
        "year": account.year,
        "on": account.today.isoformat(),
        "years": list(account.years),
        **_starts(account.starts),
        "before": before
        and {"year": before.year, **_starts(before.starts), "by_this_day": _begun(before.by_now)},
        "stages": {str(stage): count for stage, count in fates.stages.items()},
        "rooted": fates.rooted,
        "potted": fates.potted,
        "planted": fates.planted,
        "lost_at": {str(stage): count for stage, count in fates.lost_at.items()},
        "lost_of": dict(fates.lost_of),
        "older": {
            "lots": older.lots,
            "rooted": older.rooted,
            "potted": older.potted,
            "planted": older.planted,
            "given": older.given,
            "sold": older.sold,
            "lost": older.lost,
        },
        "kinds": [_kind(kind) for kind in account.kinds],
        "best": best and _named(best),
        "worst": worst and _named(worst),
        "filled": [
            {
                "site": each.site,
                "area": each.area,
                "plants": [
                    {
                        "plant": placed.plant,
                        "called": placed.called,
                        "planted": placed.planted,
                        "standing": placed.standing,
                    }
                    for placed in each.placed
                ],
            }
            for each in account.filled
        ],
        "given": [_passed(each) for each in account.given],
        "sold": [{**_passed(each), "price": each.price} for each in account.sold],
        "otherwise": [
            {
                "about": lesson.key,
                "stems": lesson.stems,
                "lots": list(lesson.lots),
                "what": lesson.text,
                "why": lesson.why,
                "source": lesson.source,
            }
            for lesson in account.lessons
        ],
        "worth": _worth(account),
    }


def _starts(starts: Starts) -> dict[str, Any]:
    return {
        **_begun(starts.whole),
        "methods": [{"method": str(method), **_begun(begun)} for method, begun in starts.methods],
        "months": [_begun(begun) for begun in starts.months],
    }


def _begun(begun: Begun) -> dict[str, int]:
    return {"lots": begun.lots, "started": begun.stems}


def _named(kind: Kind) -> dict[str, str]:
    return {"plant": kind.plant, "method": str(kind.method)}


def _kind(kind: Kind) -> dict[str, Any]:
    low, high = kind.share.interval()
    return {
        **_named(kind),
        "called": kind.called,
        "lots": kind.lots,
        "started": kind.fates.started,
        "stages": {str(stage): count for stage, count in kind.fates.stages.items()},
        "took": kind.took,
        "failed": kind.failed,
        "undecided": kind.undecided,
        "mean": round(kind.share.mean, 4),
        "interval": [round(low, 4), round(high, 4)],
        "level": 0.9,
        "usual": round(kind.share.figure.mean, 4),
        "published": kind.share.figure.published,
    }


def _passed(passed: Passed) -> dict[str, Any]:
    return {
        "on": passed.on.isoformat(),
        "lot": passed.lot,
        "plant": passed.plant,
        "called": passed.called,
        "count": passed.count,
        "to": passed.to,
    }


def _worth(account: Account) -> dict[str, Any] | None:
    worth = account.worth
    if worth is None:
        return None
    return {
        "total": _amount(worth.value),
        "sold": _amount(worth.value_sold),
        "without_price": worth.unpriced,
        "plants": [
            {
                "plant": line.plant,
                "called": line.called,
                "sold": line.sold,
                "given": line.given,
                "worth": _amount(line.value),
                "without_price": line.unpriced,
            }
            for line in worth.lines
        ],
    }


def _amount(amount: Decimal) -> float:
    return float(round(amount, 2))
