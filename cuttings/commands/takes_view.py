"""The page and the document of what takes."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.commands.takes_words import (
    afterwards,
    cautions_said,
    comparison_said,
    counted,
    counted_on,
    is_small,
    key_said,
    left_out_said,
    not_shown,
    smallness,
)
from cuttings.show.page import Page
from cuttings.show.plain import wrapped
from cuttings.show.ranges import Span, draw_ranges
from cuttings.takes.cases import By
from cuttings.takes.comparing import Comparison, Side, Verdict
from cuttings.takes.figures import LIVES_A_YEAR, SURVIVES_POTTING
from cuttings.takes.groups import Group, Key, Rooting, Survival, lots_of
from cuttings.words import listed

LEVEL = 0.9
MOST_COMPARED, MOST_DRAWN = 5, 16
"""How many comparisons, and how many ranges, fit a page."""

VERDICTS = {
    Verdict.BETTER: "Better",
    Verdict.CANNOT_TELL: "No telling",
    Verdict.TOO_FEW: "Too few",
    Verdict.TOO_UNLIKE: "Too unlike",
}
HOW = (
    "Lots differ by more than chance, so three lots of ten tell more than one of thirty. Stems that still "
    "wait count as failures only as far as their time was over when you last looked."
)
CHART = "Of 100 stems: o is what to count on, and nine times in ten it lies on the line."
MIXED = "These mix plants and methods, so like is set against like below."


@frozen
class Table:
    """What was asked for, and what came of it."""

    by: tuple[By, ...]
    groups: tuple[Group, ...]
    comparisons: tuple[Comparison, ...]
    left_out: Mapping[By, int]
    title: str
    nothing: str
    """Why there are no groups; empty where there are some."""


def takes_page(desk: Desk, table: Table) -> Page:
    page = Page().heading("What takes", table.title)
    if table.nothing:
        page.row("", table.nothing)
        _left_out_rows(page, table.left_out)
        return page.next_steps(_first_steps(desk))
    for group in table.groups:
        _group_row(desk, page, group)
    if By.PLANT not in table.by:
        _chart(page, table.groups, mixed=_is_mixed(table.groups))
    _left_out_rows(page, table.left_out)
    if table.comparisons:
        page.heading("Compared", f"within the same {_alike_in(table.by)} alone")
        told = [each for each in table.comparisons if each.verdict is not Verdict.TOO_UNLIKE]
        shown = told[:MOST_COMPARED] or table.comparisons[:1]
        for each in shown:
            page.row(VERDICTS[each.verdict], comparison_said(each), cautions_said(each))
        unshown = not_shown(table.comparisons[len(shown) :])
        page.row("", unshown, only_if=bool(unshown))
    page.gap()
    page.row("How", HOW)
    if desk.why:
        general = (
            f"Potting starts from {round(SURVIVES_POTTING.mean * 100)} in 100, the year after planting from "
            f"{round(LIVES_A_YEAR.mean * 100)}; both {LIVES_A_YEAR.source}."
        )
        page.row("", general)
    return page.next_steps(*_next_steps(table))


def _group_row(desk: Desk, page: Page, group: Group) -> None:
    rooting = group.rooting
    about: list[str] = []
    if rooting is not None:
        about.append(" ".join(part for part in (counted_on(rooting), smallness(rooting)) if part))
        if desk.why:
            sources = [desk.catalogue.reference(key) for key in rooting.sources]
            about.append(f"Source: {listed([str(source) for source in sources])}.")
    page.row(key_said(group.key), f"{counted(rooting, lots_of(group.cases))}.", *about, afterwards(group))


def _alike_in(by: Sequence[By]) -> str:
    if By.METHOD in by or By.WOOD in by:
        return "plant"
    return "method" if By.PLANT in by else "plant and method"


def _chart(page: Page, groups: Sequence[Group], *, mixed: bool) -> None:
    spans = [
        Span(key_said(group.key), low, group.rooting.share.mean, high)
        for group in groups
        if group.rooting is not None
        for low, high in (group.rooting.share.interval(LEVEL),)
    ]
    if 1 < len(spans) <= MOST_DRAWN:
        page.gap().drawing(lambda width: [*wrapped(CHART, width), *draw_ranges(spans, width)])
        page.row("", MIXED, only_if=mixed)


def _is_mixed(groups: Iterable[Group]) -> bool:
    """Whether any of some groups holds lots that are not compared with one another."""
    return any(
        len(
            {(case.facts[By.PLANT].value, case.facts[By.METHOD].value) for case in group.cases if case.waited}
        )
        > 1
        for group in groups
    )


def _left_out_rows(page: Page, missing: Mapping[By, int]) -> None:
    if missing:
        page.gap()
    for number, (by, lots) in enumerate(missing.items()):
        page.row("Left out" if number == 0 else "", left_out_said(by, lots))


def _first_steps(desk: Desk) -> str:
    if desk.book.lots:
        return "'cuttings takes' with nothing else tells of every lot; 'cuttings lots' lists them."
    return "'cuttings strike PLANT' or 'cuttings layer PLANT' begins the first lot."


def _next_steps(table: Table) -> list[str]:
    steps = []
    if By.PLANT in table.by:
        steps.append("'cuttings takes --plant NAME' shows one plant by its methods.")
    if By.DIP not in table.by:
        steps.append(
            "'cuttings takes --by dip' compares with and without; also wood, month, medium, place ..."
        )
    return steps or ["'cuttings takes' with nothing else shows every plant by its methods."]


def takes_document(desk: Desk, table: Table) -> dict[str, Any]:
    compared = [_comparison_document(each) for each in table.comparisons]
    first = {**compared[0], "others": compared[1:]} if compared else None
    return {
        "by": [by.value for by in table.by],
        "groups": [_group_document(desk, group) for group in table.groups],
        "comparison": first,
        "left_out": [
            {"by": by.value, "lots": lots, "why": left_out_said(by, lots)}
            for by, lots in table.left_out.items()
        ],
    }


def _key_document(key: Key) -> dict[str, Any]:
    return {by.value: fact.value for by, fact in key.items()}


def _rooting_document(desk: Desk, rooting: Rooting) -> dict[str, Any]:
    figure = rooting.share.figure
    return {
        "lots": rooting.lots,
        "started": rooting.started,
        "rooted": rooting.rooted,
        "failed": rooting.failed,
        "waiting": rooting.waiting,
        "gone": rooting.gone,
        "mean": rooting.share.mean,
        "interval": list(rooting.share.interval(LEVEL)),
        "level": LEVEL,
        "starts_from": {
            "mean": figure.mean,
            "stems": figure.stems,
            "published": figure.published,
            "sources": [str(desk.catalogue.reference(key)) for key in rooting.sources],
        },
        "small": is_small(rooting),
        "came_with_roots": False,
    }


def _with_roots(group: Group) -> dict[str, Any]:
    """Of lots that all came with roots every stem is rooted, and nothing is learned of rooting."""
    stems = sum(case.stems for case in group.cases)
    return {
        "lots": lots_of(group.cases),
        "started": stems,
        "rooted": stems,
        "failed": 0,
        "waiting": 0,
        "gone": 0,
        "mean": 1.0,
        "interval": [1.0, 1.0],
        "level": LEVEL,
        "starts_from": None,
        "small": True,
        "came_with_roots": True,
    }


def _group_document(desk: Desk, group: Group) -> dict[str, Any]:
    return {
        "key": _key_document(group.key),
        "said": key_said(group.key),
        **(_with_roots(group) if group.rooting is None else _rooting_document(desk, group.rooting)),
        "potted": _survival_document(group.potted),
        "a_year_on": _survival_document(group.a_year_on),
    }


def _survival_document(survival: Survival | None) -> dict[str, Any] | None:
    if survival is None:
        return None
    step, share = survival.step, survival.share
    return {
        "lots": survival.lots,
        "came": step.came,
        "lived": step.lived,
        "died": step.died,
        "undecided": step.undecided,
        "mean": share.mean if share else None,
        "interval": list(share.interval(LEVEL)) if share else None,
    }


def _comparison_document(each: Comparison) -> dict[str, Any]:
    return {
        "by": each.by.value,
        "better": _key_document(each.better.key),
        "worse": _key_document(each.worse.key),
        "better_counts": _side_document(each.better),
        "worse_counts": _side_document(each.worse),
        "probability": each.probability,
        "difference": each.difference,
        "interval": list(each.interval) if each.interval else None,
        "level": LEVEL,
        "log_odds_ratio": each.log_odds_ratio,
        "log_odds_se": each.log_odds_se,
        "verdict": each.verdict.value,
        "also_differ": [by.value for by in each.also],
        "unmatched": each.unmatched,
        "says": " ".join(part for part in (comparison_said(each), cautions_said(each)) if part),
    }


def _side_document(side: Side) -> dict[str, int]:
    return {"lots": side.lots, "rooted": side.rooted, "failed": side.failed, "waiting": side.waiting}
