"""What a place could hold, of the plants that the garden has, and how each is made for it."""

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from attrs import frozen

from cuttings.ask import Question
from cuttings.commands.desk import Desk
from cuttings.commands.goal import (
    SURE,
    WANT,
    by_question,
    goals_of,
    refuse_unwanted,
)
from cuttings.commands.goal_view import Told, add_way, told, way_document
from cuttings.commands.naming import PLANT, Named, ask_plant
from cuttings.commands.parsing import site_in
from cuttings.commands.placing import setting_of
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger.places import Site
from cuttings.nudges.grown import grown
from cuttings.nudges.stock import mother_plants
from cuttings.placement.match import RefusedSite, rank
from cuttings.placement.wanted import Setting, Wanted
from cuttings.plants.understood import plant_for
from cuttings.rules.transplant import next_planting
from cuttings.show.page import Page
from cuttings.takes.goal import Aim, WayTo, ordered

MOST_FIT = 12
"""How many places for one plant are looked for on a site."""

SEASONS_AHEAD = 5
"""How many planting seasons are looked at for one whose end a way can meet."""


@frozen
class Fitting:
    """A plant of the garden that suits the site: how well, 0 to 1, how many of it there is room for, and what
    speaks against the place. ``fits`` is ``None`` where the size of the site is not known."""

    named: Named
    score: float
    fits: int | None
    against: tuple[str, ...]


@frozen
class Made:
    """How such a plant is made: for how many by which day, or why not."""

    fitting: Fitting
    aim: Aim
    way: Told | None


def for_site(desk: Desk, given: Mapping[str, Any]) -> None:
    """Show what would fit on a site and what could be made for it.

    Raises:
        Refused: there is no such site, or nothing that the garden has would grow there.
    """
    if given["keep"]:
        raise Misused("--keep goes with a PLANT, --want and --by; leave --site out.")
    told_by = desk.interview(given, [])
    site = told_by.given(Question("site", "", site_in(desk.book)))
    assert site is not None
    want, by, sure = told_by.given(WANT), told_by.given(by_question(desk)), told_by.ask(SURE)
    if by is not None and by <= desk.on:
        raise Refused(f"{spoken(by, desk.on)} is no day to come; --by takes one.")
    setting = setting_of(desk)
    lit = next(each for each in setting.garden if each.name == site.name)
    only = ask_plant(desk, told_by) if told_by.given(PLANT) else None
    if only is not None:
        refuse_unwanted(only)
    plants = [only] if only is not None else list(_of_the_garden(desk))
    if not plants:
        raise Refused("No plants are written down yet; 'cuttings sites growing' tells what the garden has.")
    tried = [_fitting(desk, each, lit, setting) for each in plants]
    fits = sorted((each for each in tried if isinstance(each, Fitting)), key=lambda each: -each.score)
    made = [_made(desk, each, want, by, sure / 100.0) for each in fits]
    refused = [
        (named, each) for named, each in zip(plants, tried, strict=True) if isinstance(each, RefusedSite)
    ]
    page = _page(desk, site, made, refused, sure, by_given=by is not None)
    desk.answer(page, _document(desk, site, made, refused, sure))


def _of_the_garden(desk: Desk) -> Iterator[Named]:
    """The plants that grow on the sites or stand in care, each once, without those that nobody increases."""
    book = desk.book_then
    found: dict[str, Named] = {}
    for each in grown(book, desk.catalogue):
        found.setdefault(each.name, Named(each.name, each.called, each.plant))
    for lot in book.live_lots():
        plant = plant_for(desk.catalogue, lot.plant, lot.plant_type, lot.method)
        found.setdefault(lot.plant, Named(lot.plant, lot.called, plant, lot.plant_type))
    for named in found.values():
        spreads = any(caution.kind == "invasive" for caution in named.plant.cautions)
        if not named.plant.unwanted and not spreads and ordered(named.plant):
            yield named


def _fitting(desk: Desk, named: Named, site: Site, setting: Setting) -> Fitting | RefusedSite:
    """How a plant suits the site, and how many of it there is room for."""
    plan = rank(Wanted("", named.plant, MOST_FIT), [site], desk.book.holds.values(), setting)
    if not plan.plan:
        return plan.refused[0]
    first = plan.plan[0]
    return Fitting(named, first.score, len(plan.plan) if first.spot is not None else None, first.against)


def _made(desk: Desk, fitting: Fitting, want: int | None, by: date | None, sure: float) -> Made:
    """The quickest sure way to fill the place: by the day that was named, or by the end of the first
    planting season that any way can meet."""
    named = fitting.named
    goals = goals_of(desk, named.name, named.plant)
    number = want or fitting.fits or 1
    mothers = mother_plants(desk.book_then, desk.catalogue, named.name, desk.on)
    aim = Aim(number, by or desk.on, sure)
    for day in [by] if by is not None else _season_ends(desk, named):
        aim = Aim(number, day, sure)
        found = goals.ways(aim)
        if found.ways:
            return Made(fitting, aim, told(desk, named.plant, _quickest(found.ways), mothers))
    return Made(fitting, aim, None)


def _quickest(ways: tuple[WayTo, ...]) -> WayTo:
    return min(ways, key=lambda each: (each.ready[1], each.start))


def _season_ends(desk: Desk, named: Named) -> Iterator[date]:
    day = desk.on
    for _ in range(SEASONS_AHEAD):
        window = next_planting(named.plant, desk.climate, day)
        if window is None:
            return
        yield window.closes
        day = window.closes + timedelta(days=1)


def _page(
    desk: Desk,
    site: Site,
    made: list[Made],
    refused: list[tuple[Named, RefusedSite]],
    sure: int,
    *,
    by_given: bool,
) -> Page:
    page = Page().heading(f"For {site.name}", f"of the plants you have; {sure} times in 100")
    if not made:
        page.row("", "None of the plants that you have would grow there.")
    for each in made:
        fit, name = each.fitting, each.fitting.named.spoken
        page.heading(name[:1].upper() + name[1:], _room_said(fit))
        page.row("But", "", *fit.against[:2], only_if=bool(fit.against))
        if each.way is None:
            when = "by then" if by_given else "in the coming seasons"
            page.row("", f"No way gives {each.aim.want} as surely as that {when}.")
            continue
        ends = "" if by_given else ", when planting time ends"
        page.row("For", f"{each.aim.want} to plant by {spoken(each.aim.by, desk.on)}{ends}.")
        add_way(page, desk, each.way, each.aim, name, brief=True)
    if refused:
        page.heading("Not there")
        for named, no in refused:
            would = f"It would fit {no.would_fit_if}." if no.would_fit_if else ""
            page.row(named.spoken, " ".join(no.because[:1]), would)
    best = next((each for each in made if each.way is not None), None)
    if best is not None:
        name = best.fitting.named.name
        page.next_steps(
            f"'cuttings goal \"{name}\" --want {best.aim.want} --by {best.aim.by.isoformat()}' shows every "
            "way, and keeps one.",
            f"'cuttings sites show \"{site.name}\"' draws the place.",
        )
    return page


def _room_said(fit: Fitting) -> str:
    if fit.fits is None:
        return "its room is not measured"
    if fit.fits >= MOST_FIT:
        return f"room for {MOST_FIT} and more"
    return f"room for {fit.fits}"


def _document(
    desk: Desk, site: Site, made: list[Made], refused: list[tuple[Named, RefusedSite]], sure: int
) -> dict[str, Any]:
    return {
        "site": site.name,
        "sure": sure,
        "ways": [
            {
                **way_document(desk, each.fitting.named.plant, each.way),
                "plant": each.fitting.named.name,
                "fits": each.fitting.fits,
                "score": round(each.fitting.score, 3),
                "want": each.aim.want,
                "by": each.aim.by.isoformat(),
                "against": list(each.fitting.against),
            }
            for each in made
            if each.way is not None
        ],
        "no_way": [
            {
                "plant": each.fitting.named.name,
                "fits": each.fitting.fits,
                "score": round(each.fitting.score, 3),
            }
            for each in made
            if each.way is None
        ],
        "refused": [{"plant": named.name, "because": list(each.because)} for named, each in refused],
    }
