"""What 'cuttings spot' shows: offers and refusals with their reasons, and the plans of the beds."""

from collections.abc import Mapping, Sequence
from typing import Any

from cuttings.commands.bed_plans import bed_plan
from cuttings.commands.desk import Desk
from cuttings.commands.placing import spot_words
from cuttings.ledger.lots import Lot
from cuttings.placement.match import Placed, Plan, RefusedSite
from cuttings.show.bed_plan import BedPlan, plan_lines, plan_words
from cuttings.show.bed_plan_svg import beds_svg
from cuttings.show.page import Page


def one_page(desk: Desk, lot: Lot, plan: Plan) -> Page:
    """Where one lot could go: the best site with all that speaks for it and its plan, then the others.

    What speaks for the others is told with ``--why``, or with ``--site``.
    """
    page = Page().heading(f"Where {lot.code} {lot.plant_called} could go", "best first; 1 is a perfect fit")
    sites = _by_site(plan)
    for number, (site, mine) in enumerate(sites.items()):
        if number == 1:
            page.heading("Elsewhere")
        first, *others = mine
        page.row(
            f"{first.score:.2f}",
            f"{spot_words(desk, first)}  {_id(first)}".rstrip(),
            " ".join(first.for_) if number == 0 or desk.why else "",
            *(f"But: {reason}" for reason in first.against),
            *(f"or {spot_words(desk, other).removeprefix(f'{site}, ')}  {_id(other)}" for other in others),
        )
        if number == 0 and (drawn := _bed_plan(desk, [lot], site, mine)):
            _drawing(page, drawn)
    if plan.refused and sites:
        page.heading("Not there")
    for refused in plan.refused:
        _refusal(page, refused)
    page.row("", "No site will take it.", only_if=not plan.plan)
    for held in (hold.spot for hold in desk.book.holds.values() if hold.lot == lot.code):
        page.row("Held", f"{held} is held for it.")
    return page


def joint_page(desk: Desk, lots: Sequence[Lot], wanted: Mapping[str, int], plan: Plan) -> Page:
    """Where many lots could go together: lot by lot, then bed by bed, and how near the best it is."""
    page = Page().heading("Where they could all go", f"{len(plan.plan)} places")
    for lot in lots:
        mine = [placed for placed in plan.plan if placed.lot == lot.code]
        many = f"{len(mine)} of {wanted[lot.code]} have a place"
        page.heading(f"{lot.code} {lot.plant_called}", many)
        said: set[tuple[str, str]] = set()
        for placed in mine:
            new = [reason for reason in placed.against if (placed.site, reason) not in said]
            said |= {(placed.site, reason) for reason in new}
            page.row(
                f"{placed.score:.2f}",
                f"{spot_words(desk, placed)}  {_id(placed)}".rstrip(),
                *(f"But: {reason}" for reason in new),
            )
        for refused in plan.refused:
            if refused.lot == lot.code:
                _refusal(page, refused)
    for drawn in bed_plans(desk, lots, plan):
        _drawing(page, drawn)
    page.gap()
    share = f"{plan.total:.2f} of at most {plan.bound:.2f}"
    page.row("Fit", f"{share}: at most {plan.gap:.1%} short of the best there could be.")
    return page


def bed_plans(desk: Desk, lots: Sequence[Lot], plan: Plan) -> list[BedPlan]:
    """The plans of the beds on which something is offered, in the order of the offers."""
    drawn = (_bed_plan(desk, lots, site, mine) for site, mine in _by_site(plan).items())
    return [each for each in drawn if each is not None]


def _bed_plan(desk: Desk, lots: Sequence[Lot], site: str, mine: Sequence[Placed]) -> BedPlan | None:
    """The plan of one bed with what is offered there; ``None`` where its size is not known."""
    called = {lot.code: f"{lot.code} {lot.plant_called}" for lot in lots}
    offered = [
        ((placed.spot.x, placed.spot.y), placed.spot.radius_m, called[placed.lot])
        for placed in mine
        if placed.spot is not None and placed.spot.id not in desk.book.holds
    ]
    return bed_plan(desk, desk.book.sites[site], offered)


def plans_svg(desk: Desk, lots: Sequence[Lot], plan: Plan) -> str:
    """The plans of the beds as the text of an SVG file."""
    garden = desk.garden.name if desk.garden else "the garden"
    return beds_svg(bed_plans(desk, lots, plan), f"Beds of {garden}")


def plan_document(plan: Plan) -> dict[str, Any]:
    return {
        "plan": [
            {
                "lot": placed.lot,
                "site": placed.site,
                "x": placed.spot.x if placed.spot else None,
                "y": placed.spot.y if placed.spot else None,
                "radius": placed.spot.radius_m if placed.spot else None,
                "score": round(placed.score, 4),
                "for": list(placed.for_),
                "against": list(placed.against),
                "spot": placed.spot.id if placed.spot else None,
            }
            for placed in plan.plan
        ],
        "refused": [
            {
                "lot": refused.lot,
                "site": refused.site,
                "because": list(refused.because),
                "would_fit_if": refused.would_fit_if or None,
            }
            for refused in plan.refused
        ],
        "total": round(plan.total, 4),
        "bound": round(plan.bound, 4),
        "gap": round(plan.gap, 4),
    }


def _by_site(plan: Plan) -> dict[str, list[Placed]]:
    found: dict[str, list[Placed]] = {}
    for placed in plan.plan:
        found.setdefault(placed.site, []).append(placed)
    return found


def _id(placed: Placed) -> str:
    return placed.spot.id if placed.spot is not None else ""


def _refusal(page: Page, refused: RefusedSite) -> None:
    page.row("no", refused.site or "nowhere", " ".join(refused.because),
             f"It would fit {refused.would_fit_if}." if refused.would_fit_if else "")  # fmt: skip


def _drawing(page: Page, drawn: BedPlan) -> None:
    page.heading(drawn.name, "seen from above, its front below")
    page.drawing(lambda width: plan_lines(drawn, width), *plan_words(drawn))
