"""What a place could hold, of the plants that the garden has, and how each is made for it."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
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
from cuttings.commands.goal_view import Told, add_way, mother_said, told, way_document
from cuttings.commands.naming import PLANT, Named, ask_plant
from cuttings.commands.parsing import site_in
from cuttings.commands.placing import setting_of
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger.places import Site
from cuttings.ledger.stages import spoken_counts
from cuttings.nudges.goals import own_word
from cuttings.nudges.grown import grown
from cuttings.nudges.stock import mother_plants
from cuttings.placement.match import RefusedSite, rank
from cuttings.placement.musts import ZONE_NOT_KNOWN
from cuttings.placement.offer import of_room
from cuttings.placement.wanted import Setting, Wanted
from cuttings.plants.understood import plant_for
from cuttings.rules.transplant import next_planting
from cuttings.show.page import Page
from cuttings.takes.goal import Aim, WayTo, ordered
from cuttings.takes.held import OnTheWay, on_the_way
from cuttings.words import LIVING

MOST_FIT = 12
"""How many places for one plant are looked for on a site where nobody wants more."""

SEASONS_AHEAD = 5
"""How many planting seasons are looked at for one whose end a way can meet."""

A_YEAR = timedelta(days=365)

NO_ZONE = (
    "The garden's zone is not known, so what is hardy there is not either; 'cuttings garden --zone 5b' "
    "tells it."
)
WHERE_THEY_STAND = (
    "'cuttings plant' and 'cuttings sites growing' take --at or --tape for where a plant stands."
)


@frozen
class Sought:
    """What is asked for: how many (``None`` for as many as fit), by which day (``None`` for the end of a
    planting season), how surely, 0 to 1, and whether what is in care counts."""

    want: int | None
    by: date | None
    sure: float
    counted: bool

    @property
    def looked_for(self) -> int:
        """How many places are looked for."""
        return max(MOST_FIT, self.want or 0)


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
    """How such a plant is made: for how many by which day, or why not. ``held`` is what is in care already,
    which may be ``enough``, and ``go_here`` how many of it can be reckoned with for the place by then."""

    fitting: Fitting
    aim: Aim
    held: OnTheWay
    way: Told | None
    enough: bool

    @property
    def go_here(self) -> int:
        return min(self.held.surely(self.aim.sure), self.aim.want)


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
    sought = Sought(want, by, sure / 100.0, bool(given["held"]))
    setting = setting_of(desk)
    lit = next(each for each in setting.garden if each.name == site.name)
    only = ask_plant(desk, told_by) if told_by.given(PLANT) else None
    if only is not None:
        refuse_unwanted(only)
    plants = [only] if only is not None else list(_of_the_garden(desk))
    if not plants:
        raise Refused("No plants are written down yet; 'cuttings sites growing' tells what the garden has.")
    tried = [_fitting(desk, each, lit, setting, sought.looked_for) for each in plants]
    fits = sorted((each for each in tried if isinstance(each, Fitting)), key=lambda each: -each.score)
    made = [_made(desk, each, sought) for each in fits]
    refused = [
        (named, each) for named, each in zip(plants, tried, strict=True) if isinstance(each, RefusedSite)
    ]
    desk.answer(_page(desk, lit, made, refused, sought), _document(desk, site, made, refused, sought))


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


def _fitting(desk: Desk, named: Named, site: Site, setting: Setting, most: int) -> Fitting | RefusedSite:
    """How a plant suits the site, and how many of it there is room for."""
    plan = rank(Wanted("", named.plant, most), [site], desk.book.holds.values(), setting)
    if not plan.plan:
        return plan.refused[0]
    first = plan.plan[0]
    return Fitting(named, first.score, len(plan.plan) if first.spot is not None else None, first.against)


def _made(desk: Desk, fitting: Fitting, sought: Sought) -> Made:
    """The quickest sure way to fill the place, with no more than it has room for: by the day that was named,
    or by the end of the first planting season of ``_season_ends`` that any way can meet."""
    named = fitting.named
    goals = goals_of(desk, named.name, named.plant)
    room = fitting.fits if fitting.fits is not None else sought.want or 1
    number = min(sought.want or room, room)
    mothers = mother_plants(desk.book_then, desk.catalogue, named.name, desk.on)
    made = []
    for day in [sought.by] if sought.by is not None else _season_ends(desk, named):
        aim, held = Aim(number, day, sought.sure), on_the_way(goals, day)
        if sought.counted and held.enough(number) >= sought.sure:
            return Made(fitting, aim, held, None, enough=True)
        found = goals.ways(aim, held.numbers if sought.counted else (1.0,))
        best = told(desk, named.plant, _quickest(found.ways), mothers) if found.ways else None
        made.append(Made(fitting, aim, held, best, enough=False))
        if best is not None:
            return made[-1]
    if made:
        return made[0]
    aim = Aim(number, desk.on, sought.sure)
    return Made(fitting, aim, on_the_way(goals, desk.on), None, enough=False)


def _quickest(ways: tuple[WayTo, ...]) -> WayTo:
    return min(ways, key=lambda each: (each.ready[1], each.start))


def _season_ends(desk: Desk, named: Named) -> Iterator[date]:
    """The ends of planting seasons: of the last that is over within a year, and of those after it."""
    ends: list[date] = []
    day = desk.on
    for _ in range(SEASONS_AHEAD):
        window = next_planting(named.plant, desk.climate, day)
        if window is None:
            break
        ends.append(window.closes)
        day = window.closes + timedelta(days=1)
    this_year = sum(end <= desk.on + A_YEAR for end in ends)
    yield from ends[max(this_year - 1, 0) :]


def _page(
    desk: Desk, site: Site, made: list[Made], refused: list[tuple[Named, RefusedSite]], sought: Sought
) -> Page:
    page = Page().heading(
        f"For {site.name}", f"of the plants you have; {round(sought.sure * 100)} times in 100"
    )
    doubts = [each.said for each in of_room(site, desk.units)]
    no_zone = any(said.endswith(ZONE_NOT_KNOWN) for each in made for said in each.fitting.against)
    page.row("Not known", NO_ZONE, only_if=no_zone)
    page.row("Room", " ".join(doubts), WHERE_THEY_STAND, only_if=bool(doubts))
    if not made:
        page.row("", "None of the plants that you have would grow there.")
    for each in made:
        _add_made(page, desk, each, sought, doubts)
    if refused:
        page.heading("Not there")
        for named, no in refused:
            would = f"It would fit {no.would_fit_if}." if no.would_fit_if else ""
            page.row(named.spoken, " ".join(no.because[:1]), would)
    _add_next(page, desk, site, made, sought)
    return page


def _add_made(page: Page, desk: Desk, each: Made, sought: Sought, doubts: Sequence[str]) -> None:
    fit, aim, name = each.fitting, each.aim, each.fitting.named.spoken
    page.heading(name[:1].upper() + name[1:], _room_said(fit, sought))
    page.row("Held", _held_said(desk, each, sought), only_if=bool(each.held.stems))
    own = [said for said in fit.against if said not in doubts and not said.endswith(ZONE_NOT_KNOWN)]
    page.row("But", "", *own[:2], only_if=bool(own))
    if each.enough:
        return
    if each.way is None:
        when = "by then" if sought.by is not None else "in the coming seasons"
        page.row("", f"No way gives {aim.want} as surely as that {when}.")
        return
    fewer = f", so {aim.want} of the {sought.want}" if sought.want and sought.want > aim.want else ""
    room = f"Room for {fit.fits}{fewer}: " if fewer else f"{aim.want} "
    ends = "" if sought.by is not None else ", when planting time ends"
    page.row("For", f"{room}to plant by {spoken(aim.by, desk.on)}{ends}.")
    page.row("Mother", mother_said(each.way.mother, name, each.held.stems))
    add_way(page, desk, each.way, aim, brief=True)


def _held_said(desk: Desk, each: Made, sought: Sought) -> str:
    """What is in care already, and how many of it could go here."""
    stages: Counter[str] = Counter()
    for lot in desk.book_then.live_lots():
        if lot.plant == each.fitting.named.name:
            stages.update({stage: lot.at(stage) for stage in LIVING})
    counts = spoken_counts({stage: stages[stage] for stage in LIVING})
    number, by = each.go_here, spoken(each.aim.by, desk.on)
    if not number:
        use = f"too few of them will be fit to plant by {by} to reckon with"
    elif sought.counted:
        use = f"{number} {'goes' if number == 1 else 'go'} here, fit to plant by {by}"
    else:
        use = f"{number} could go here, fit to plant by {by}"
    return f"You hold {each.held.stems} already ({counts}); {use}."


def _add_next(page: Page, desk: Desk, site: Site, made: Sequence[Made], sought: Sought) -> None:
    best = next((each for each in made if each.way is not None), None)
    steps = []
    if best is not None:
        named = best.fitting.named
        name = own_word(desk.catalogue, named.name, named.called)
        aim = f"--want {best.aim.want} --by {best.aim.by.isoformat()}{' --held' if sought.counted else ''}"
        steps.append(f"'cuttings goal \"{name}\" {aim}' shows every way, and keeps one.")
    if not sought.counted and any(each.go_here for each in made):
        steps.append("--held counts what you hold already.")
    if made:
        page.next_steps(*steps, f"'cuttings sites show \"{site.name}\"' draws the place.")


def _room_said(fit: Fitting, sought: Sought) -> str:
    if fit.fits is None:
        return "its room is not measured"
    more = " and more" if fit.fits >= sought.looked_for else ""
    return f"room for {fit.fits}{more}"


def _document(
    desk: Desk, site: Site, made: list[Made], refused: list[tuple[Named, RefusedSite]], sought: Sought
) -> dict[str, Any]:
    return {
        "site": site.name,
        "sure": round(sought.sure * 100),
        "held": [
            {
                "plant": each.fitting.named.name,
                "stems": each.held.stems,
                "alive": round(each.held.expected, 2),
                "go_here": each.go_here,
                "by": each.aim.by.isoformat(),
                "counted": sought.counted,
            }
            for each in made
            if each.held.stems
        ],
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
            if each.way is None and not each.enough
        ],
        "refused": [{"plant": named.name, "because": list(each.because)} for named, each in refused],
    }
