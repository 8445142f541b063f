"""One night's work: which stems the forecast endangers, in the order to save them, and which may be left
alone."""

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import chain

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.places import Growing, Site
from cuttings.nudges.hardening_off import out_at_night
from cuttings.nudges.knowledge import Known, known
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Caution
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Advice
from cuttings.rules.cold import SLACK_C, Verdict, judge
from cuttings.rules.dangers import ADVISORY_C
from cuttings.rules.hardening import plan
from cuttings.rules.hardiness import hardened
from cuttings.rules.places import Place, place_of
from cuttings.rules.seasons import weeks
from cuttings.rules.shelter import WATER_FIRST, Seat, Shelter, Standing
from cuttings.words import LIVING, Cover, Method, Stage, Units, Wood

NEW_WEEKS = 4
"""Weeks after planting in which a plant has few roots to sprout from; from memory."""

SHELTERED_BY = {
    Cover.NONE: Shelter.OPEN,
    Cover.BAG: Shelter.BAG,
    Cover.FRAME: Shelter.FRAME,
    Cover.MIST: Shelter.FRAME,
}
"""What each cover of cuttings is against cold; mist is taken to stand under glass without heat."""

IN_THE_GROUND = frozenset({Method.ROOT_CUTTING, Method.HARDWOOD_CUTTING, Method.SEEDLING})
"""What is found growing where it stands, if it was not struck (common practice)."""


@frozen(kw_only=True)
class Group:
    """Stems that stand alike.

    ``lot`` is empty for a plant that never came through the ledger. ``name`` is what the keeper calls it,
    with its code; ``where`` its site, or the keeper's words.
    """

    lot: str
    plant: str
    name: str
    method: Method | None
    count: int
    stages: tuple[Stage, ...]
    where: str
    standing: Standing


@frozen(kw_only=True)
class Exposed:
    """A group of stems, and what the night means for it."""

    group: Group
    verdict: Verdict

    @property
    def what(self) -> str:
        return self.verdict.remedy.do.replace("{}", self.group.name, 1)

    @property
    def saves(self) -> float:
        """Stems that the remedy is expected to keep alive."""
        return self.group.count * self.verdict.saved

    @property
    def minutes(self) -> int:
        remedy = self.verdict.remedy
        return round(remedy.minutes + remedy.minutes_a_stem * self.group.count)


@frozen(kw_only=True)
class Night:
    """A night by its forecast low, degrees Celsius.

    ``act`` is what to save, most stems first and then the least work, and last what loses no more than soft
    growth; ``beyond`` what no cover would save;
    ``safe`` what may be left alone, the most easily harmed first. ``before`` is what to do ahead of it all.
    """

    low_c: float
    act: tuple[Exposed, ...]
    beyond: tuple[Exposed, ...]
    safe: tuple[Exposed, ...]
    before: tuple[Advice[str], ...]
    cautions: tuple[Caution, ...]


def tonight(book: Book, catalogue: Catalogue, climate: Climate, today: date, low_c: float) -> Night:
    """What the night after ``today`` means for every stem in the ledger and every plant on the sites.

    Args:
        low_c: the forecast low at shelter height, degrees Celsius.
    """
    units = book.garden.units if book.garden else Units.US
    groups = _together(
        chain(
            *(_in_care(known(lot, catalogue, climate, units), today) for lot in book.live_lots()),
            *(_on_site(site, book, catalogue, today) for site in book.sites.values()),
        )
    )
    found = [
        Exposed(group=group, verdict=judge(group.standing, climate, today, low_c, units)) for group in groups
    ]
    act = sorted((each for each in found if each.verdict.at_risk and not each.verdict.beyond), key=_urgency)
    return Night(
        low_c=low_c,
        act=tuple(act),
        beyond=tuple(each for each in found if each.verdict.beyond),
        safe=tuple(sorted((each for each in found if not each.verdict.at_risk), key=_sturdiness)),
        before=(WATER_FIRST,) if act and _worth_watering(climate, today, low_c) else (),
        cautions=tuple(dict.fromkeys(c for each in act for c in each.verdict.remedy.cautions)),
    )


def _worth_watering(climate: Climate, today: date, low_c: float) -> bool:
    """Whether the soil may freeze tonight, and is not frozen yet."""
    return low_c <= ADVISORY_C + SLACK_C and hardened(climate, today) < 0.5


def _urgency(exposed: Exposed) -> tuple[bool, float, int, str, str]:
    group, saves = exposed.group, -round(exposed.saves, 2)
    return exposed.verdict.spared, saves, exposed.minutes, group.name, group.where


def _sturdiness(exposed: Exposed) -> tuple[float, str, str]:
    begins_c = exposed.verdict.begins_c
    return (float("inf") if begins_c is None else -begins_c, exposed.group.name, exposed.group.where)


def _together(groups: Iterable[Group]) -> Iterable[Group]:
    """Groups of one lot that stand alike in one place, as one."""
    found: dict[tuple[str, str, str, Standing], Group] = {}
    for group in groups:
        key = group.lot, group.plant, group.where, group.standing
        before = found.get(key)
        if before is not None:
            stages = tuple(dict.fromkeys((*before.stages, *group.stages)))
            group = evolve(before, count=before.count + group.count, stages=stages)
        found[key] = group
    return found.values()


def _in_care(about: Known, today: date) -> Iterator[Group]:
    """The stems of a lot that have not been planted, by stage."""
    lot = about.lot
    for stage in LIVING:
        if lot.at(stage):
            where = "" if stage is Stage.HARDENING and out_at_night(about) else lot.where_stand(stage)
            yield Group(
                lot=lot.code,
                plant=lot.plant,
                name=f"{lot.code} {lot.plant_called}",
                method=lot.method,
                count=lot.at(stage),
                stages=(stage,),
                where=where,
                standing=_sheltered(_standing(about, stage, today), where),
            )


def _standing(about: Known, stage: Stage, today: date) -> Standing:
    """How stems of a stage stand, going by what was done with them."""
    plant, lot = about.plant, about.lot
    if stage is Stage.HARDENING:
        steps = plan(plant, grown_under_cover=about.under_cover, climate=about.climate)
        return Standing(
            plant=plant,
            seat=Seat.POT,
            potted=True,
            soft=about.soft(today),
            night_limit_c=steps.night_min_c,
            night_source=steps.source,
        )
    if stage in (Stage.POTTED, Stage.READY):
        soft = stage is Stage.POTTED and about.soft(today)
        return Standing(plant=plant, seat=Seat.POT, potted=True, soft=soft)
    if lot.method is Method.AIR_LAYER:
        return Standing(plant=plant, seat=Seat.POT, attached=True)
    if lot.method.is_layer:
        return Standing(plant=plant, seat=Seat.GROUND)
    if lot.method.starts_rooted:
        return Standing(plant=plant, seat=Seat.LOOSE)
    return _cuttings(about)


def _cuttings(about: Known) -> Standing:
    """How cuttings stand: hardwood without a cover lines out in open ground, the rest is in trays."""
    origin, plant = about.lot.origin, about.plant
    if not isinstance(origin, e.Strike):
        seat = Seat.GROUND if about.lot.method in IN_THE_GROUND else Seat.POT
        return Standing(plant=plant, seat=seat)
    if origin.heat_c is not None:
        return Standing(plant=plant, seat=Seat.POT, shelter=Shelter.HEATED, soft=True)
    if origin.wood is Wood.HARDWOOD and origin.cover is Cover.NONE:
        return Standing(plant=plant, seat=Seat.GROUND, new=True)
    return Standing(plant=plant, seat=Seat.POT, shelter=SHELTERED_BY[origin.cover])


def _sheltered(standing: Standing, where: str) -> Standing:
    """The same with the shelter that the keeper's words for the place tell of, if that is more."""
    if standing.seat is Seat.GROUND or standing.attached:
        return standing
    place = place_of(where)
    if place is Place.INDOORS:
        return evolve(standing, shelter=Shelter.INDOORS, said=where)
    if place is Place.SUNK and standing.seat is Seat.POT:
        return evolve(standing, seat=Seat.GROUND, said=where)
    if place is Place.FRAME and standing.shelter in (Shelter.OPEN, Shelter.BAG):
        return evolve(standing, shelter=Shelter.FRAME, said=where)
    return standing


def _on_site(site: Site, book: Book, catalogue: Catalogue, today: date) -> Iterator[Group]:
    """What grows on a site, from a lot or from before the ledger."""
    return (_growing(growing, site, book, catalogue, today) for growing in site.growing)


def _growing(growing: Growing, site: Site, book: Book, catalogue: Catalogue, today: date) -> Group:
    lot = book.lots.get(growing.lot)
    plant = plant_for(catalogue, growing.plant, lot.plant_type if lot else None, lot.method if lot else None)
    called = plant.common[0] if plant.common and plant.rank == "species" else growing.plant
    new = growing.planted is not None and growing.planted + weeks(NEW_WEEKS) >= today
    return Group(
        lot=lot.code if lot else "",
        plant=growing.plant,
        name=f"{lot.code} {lot.plant_called}" if lot else called,
        method=lot.method if lot else None,
        count=1,
        stages=(Stage.PLANTED,),
        where=site.name,
        standing=Standing(plant=plant, seat=Seat.GROUND, new=new),
    )
