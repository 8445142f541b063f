"""Applying entries one by one to a half-made book; what each kind of entry may do stands here."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from attrs import evolve, frozen

from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.containers import Containers, Kind
from cuttings.ledger.goals import Goal
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Garden, Growing, Hold, Site
from cuttings.ledger.stages import MAY_FOLLOW, START_STAGES, shortage, wrong_step
from cuttings.ledger.ticks import Aside, NudgeEntry
from cuttings.words import LIVING, PLANTABLE, Method, Stage


@frozen
class Problem:
    """An entry that does not fit the ones before it, and why."""

    entry: str
    lot: str
    sentence: str


@frozen
class MarkState:
    """A mark, and the day it was come back to."""

    mark: e.Mark
    done: date | None = None


def effective(entries: Iterable[e.Entry]) -> list[e.Entry]:
    """The entries that hold, by day and id: all but those a reversing entry took back."""
    entries = list(entries)
    reversed_ids: set[str] = set()
    for entry in sorted(entries, key=lambda entry: entry.id, reverse=True):
        if isinstance(entry, e.Reverse) and entry.id not in reversed_ids and entry.target < entry.id:
            reversed_ids.add(entry.target)
    kept = (entry for entry in entries if entry.id not in reversed_ids)
    return sorted(kept, key=lambda entry: entry.order)


def filled_spots(entries: Iterable[e.Entry]) -> dict[str, str]:
    """For each spot that was planted, the id of the last planting."""
    filled: dict[str, str] = {}
    for entry in entries:
        if isinstance(entry, e.Plant):
            for spot in entry.spots:
                filled[spot] = max(entry.id, filled.get(spot, ""))
    return filled


LASTING = (e.GardenFacts, e.SiteFacts, e.PlantFacts)
_CARED_FOR = frozenset(LIVING)
_ALLOWED: Mapping[type[e.LotEntry], tuple[frozenset[Stage], frozenset[Stage]]] = {
    e.Check: (frozenset({Stage.WAITING}), frozenset({Stage.ROOTED, Stage.LOST})),
    e.Pot: (frozenset({Stage.ROOTED, Stage.POTTED}), frozenset({Stage.POTTED})),
    e.Harden: (frozenset({Stage.POTTED}), frozenset({Stage.HARDENING})),
    e.Ready: (frozenset({Stage.POTTED, Stage.HARDENING}), frozenset({Stage.READY})),
    e.Plant: (frozenset(PLANTABLE), frozenset({Stage.PLANTED})),
    e.Give: (_CARED_FOR, frozenset({Stage.GIVEN})),
    e.Sell: (_CARED_FOR, frozenset({Stage.SOLD})),
    e.Lose: (_CARED_FOR | {Stage.PLANTED}, frozenset({Stage.LOST})),
    e.Note: (frozenset(), frozenset()),
    e.Rename: (frozenset(), frozenset()),
    e.Labelled: (frozenset(), frozenset()),
}
"""For each kind of entry about a lot, the stages its stems may leave and reach."""


class Folding:
    """The half-made book. Each entry is checked whole before anything changes."""

    def __init__(self, ids: frozenset[str], filled: Mapping[str, str]) -> None:
        self.ids = ids
        self.filled = filled
        self.garden: Garden | None = None
        self.areas: list[str] = []
        self.sites: dict[str, Site] = {}
        self.lots: dict[str, Lot] = {}
        self.marks: dict[str, MarkState] = {}
        self.holds: dict[str, Hold] = {}
        self.signs: list[e.SeasonSign] = []
        self.plant_facts: list[e.PlantFacts] = []
        self.put_aside: dict[str, Aside] = {}
        self.containers: dict[str, Kind] = {}
        self.goals: dict[tuple[str, Method], Goal] = {}
        self.problems: list[Problem] = []

    def apply(self, entry: e.Entry) -> None:
        try:
            self._apply(entry)
        except Refused as refusal:
            lot = entry.lot if isinstance(entry, e.LotEntry) else ""
            self.problems.append(Problem(entry.id, lot, refusal.sentence))

    def _apply(self, entry: e.Entry) -> None:
        match entry:
            case e.Start():
                self._start(entry)
            case e.Split():
                self._split(entry)
            case e.LotEntry():
                self._move(entry)
            case e.Reverse():
                if entry.target not in self.ids or entry.target > entry.id:
                    raise Refused(f"There is no entry {entry.target} to take back.")
            case e.Mark():
                if entry.code in self.marks:
                    raise Refused(f"There is a mark {entry.code} already.")
                self.marks[entry.code] = MarkState(entry)
            case e.MarkDone():
                if entry.code not in self.marks:
                    raise Refused(f"There is no mark {entry.code} on {spoken(entry.on)}.")
                self.marks[entry.code] = evolve(self.marks[entry.code], done=entry.on)
            case NudgeEntry():
                self.put_aside[entry.nudge] = self.put_aside.get(entry.nudge, Aside()).after(entry)
            case Containers():
                self.containers[entry.key] = Kind.after(self.containers.get(entry.key), entry)
            case Goal():
                entry.check()
                self.goals[entry.key] = entry
            case _:
                self._place(entry)

    def _place(self, entry: e.Entry) -> None:
        match entry:
            case e.SeasonSign():
                self.signs.append(entry)
            case e.PlantFacts():
                self.plant_facts.append(entry)
            case e.GardenFacts():
                self.garden = entry.garden
                self._name_areas(entry.areas)
            case e.SiteFacts():
                site = entry.site
                before = self.sites.get(site.name)
                self.sites[site.name] = evolve(
                    site,
                    growing=before.growing if before else (),
                    obstacles=before.obstacles if before else (),
                    points=before.points if before else (),
                )
                self._name_areas((site.area,))
            case e.GrowingHere():
                x, y = entry.at or (None, None)
                plant = Growing(plant=entry.plant, x=x, y=y, spread_m=entry.spread_m, planted=entry.planted)
                self._grow(entry.site, (plant,))
            case e.Thinned():
                self._thin(entry)
            case e.ObstacleHere() | e.ObstacleGone() | e.PointHere():
                self._survey(entry)
            case e.HoldSpot():
                self._known_lot(entry.lot, entry.on)
                self._known_site(entry.site)
                if self.filled.get(entry.spot, "") > entry.id:
                    return  # planted since, though perhaps under an earlier day
                self.holds[entry.spot] = Hold(
                    spot=entry.spot, lot=entry.lot, site=entry.site, x=entry.at[0], y=entry.at[1],
                    radius_m=entry.radius_m, entry=entry.id,
                )  # fmt: skip
            case e.ReleaseSpot():
                if self.holds.pop(entry.spot, None) is None and entry.spot not in self.filled:
                    raise Refused(f"The spot {entry.spot} is not held.")

    def _start(self, entry: e.Start) -> None:
        if entry.lot in self.lots:
            raise Refused(f"There is a lot {entry.lot} already.")
        for move in entry.moves:
            if move.source is not None or move.target not in START_STAGES or move.count < 1:
                raise Refused(f"{entry.lot}: a new lot's stems begin as waiting or rooted.")
        if not entry.stems:
            raise Refused(f"{entry.lot}: a lot begins with at least one stem.")
        self.lots[entry.lot] = Lot(
            code=entry.lot, plant=entry.plant, called=entry.called, plant_type=entry.plant_type,
            method=entry.method, started_on=entry.on, started=entry.stems, stages=_after({}, entry.moves),
            mother=entry.mother, where=entry.where, origin=entry, entries=(entry,),
        )  # fmt: skip

    def _move(self, entry: e.LotEntry) -> None:
        lot = self._known_lot(entry.lot, entry.on)
        sources, targets = _ALLOWED[type(entry)]
        for move in entry.moves:
            if move.source is None or move.target is None:
                raise Refused(f"{lot.code}: a {entry.kind} entry moves stems from one stage to another.")
            if move.source not in sources or move.target not in targets:
                raise Refused(wrong_step(lot.code, move.source, move.target))
        self._check_moves(lot, entry.moves)
        worth = entry.worth if isinstance(entry, e.Note) else None
        if worth is not None and not 0 < worth <= e.MOST_WORTH:
            raise Refused(f"{lot.code}: one plant counts for more than 0 and at most {e.MOST_WORTH:g}.")
        if isinstance(entry, e.Labelled) and not entry.text.strip():
            raise Refused(f"{lot.code}: a label says something.")
        if isinstance(entry, e.Plant):
            self._plant(entry, lot)
        where = getattr(entry, "where", "") or lot.where
        moved = lot.after(entry, _after(lot.stages, entry.moves), where)
        if isinstance(entry, e.Rename):
            moved = evolve(moved, plant=entry.plant, called=entry.called, plant_type=entry.plant_type)
            self._rename_planted(lot.code, entry.plant)
        self.lots[lot.code] = moved
        if isinstance(entry, e.Lose):
            dead = sum(move.count for move in entry.moves if move.source is Stage.PLANTED)
            self._clear(lot.code, dead)
        if not self.lots[lot.code].living:
            self.holds = {spot: hold for spot, hold in self.holds.items() if hold.lot != lot.code}

    def _check_moves(self, lot: Lot, moves: Sequence[e.Move]) -> None:
        stages = dict(lot.stages)
        for move in moves:
            source = move.source
            if source is None or move.count < 1:
                raise Refused(f"{lot.code}: every move takes at least one stem from a stage.")
            if move.target is not None and move.target not in MAY_FOLLOW[source]:
                raise Refused(wrong_step(lot.code, source, move.target))
            if stages.get(source, 0) < move.count:
                raise Refused(shortage(lot.code, lot.stages, move.count, source))
            stages[source] -= move.count

    def _split(self, entry: e.Split) -> None:
        lot = self._known_lot(entry.lot, entry.on)
        if entry.into in self.lots:
            raise Refused(f"There is a lot {entry.into} already.")
        if not entry.moves or any(
            move.target is not None or move.source not in LIVING for move in entry.moves
        ):
            raise Refused(f"{lot.code}: a split names the living stems that go on into {entry.into}.")
        self._check_moves(lot, entry.moves)
        gone = tuple(e.Move(count=move.count, target=move.source) for move in entry.moves)
        self.lots[lot.code] = evolve(
            lot,
            started=lot.started - entry.stems,
            stages=_after(lot.stages, entry.moves),
            entries=(*lot.entries, entry),
        )
        self.lots[entry.into] = evolve(
            lot, code=entry.into, started=entry.stems, stages=_after({}, gone), entries=(*lot.entries, entry)
        )
        of_the_lot = f"{lot.code}:"
        self.put_aside |= {
            entry.into + nudge.removeprefix(lot.code): aside
            for nudge, aside in self.put_aside.items()
            if nudge.startswith(of_the_lot)
        }

    def _plant(self, entry: e.Plant, lot: Lot) -> None:
        if len(entry.at) > entry.stems:
            raise Refused(f"{lot.code}: {len(entry.at)} positions are too many for {entry.stems} stems.")
        known = [*entry.at, *[None] * (entry.stems - len(entry.at))]
        plants = tuple(
            Growing(
                plant=lot.plant, x=at[0] if at else None, y=at[1] if at else None,
                spread_m=entry.spread_m, planted=entry.on, lot=lot.code,
            )
            for at in known
        )  # fmt: skip
        self._grow(entry.site, plants)
        for spot in entry.spots:
            self.holds.pop(spot, None)

    def _grow(self, site: str, plants: Sequence[Growing]) -> None:
        known = self._known_site(site)
        self.sites[site] = evolve(known, growing=(*known.growing, *plants))

    def _thin(self, entry: e.Thinned) -> None:
        site = self._known_site(entry.site)
        own = [(n, each) for n, each in enumerate(site.growing) if not each.lot and each.plant == entry.plant]
        if entry.at is None:
            own.sort(key=lambda numbered: numbered[1].x is not None)  # first one that was never measured
        else:
            own = [(n, each) for n, each in own if (each.x, each.y) == entry.at]
        if not own:
            raise Refused(f"No {entry.plant} that came from no lot grows there on {site.name}.")
        number = own[0][0]
        left = site.growing[:number] + site.growing[number + 1 :]
        self.sites[site.name] = evolve(site, growing=left)

    def _survey(self, entry: e.ObstacleHere | e.ObstacleGone | e.PointHere) -> None:
        """What stands round a site, and the points on it to measure from."""
        site = self._known_site(entry.site)
        match entry:
            case e.ObstacleHere():
                new = evolve(entry.obstacle, entry=entry.id)
                site = evolve(site, obstacles=(*site.obstacles, new))
            case e.ObstacleGone():
                left = tuple(each for each in site.obstacles if each.entry != entry.obstacle)
                if left == site.obstacles:
                    raise Refused(f"Nothing of that kind stands round {site.name} any more.")
                site = evolve(site, obstacles=left)
            case e.PointHere():
                others = (each for each in site.points if each.name.casefold() != entry.point.name.casefold())
                site = evolve(site, points=(*others, entry.point))
        self.sites[site.name] = site

    def _rename_planted(self, lot: str, plant: str) -> None:
        for name, site in self.sites.items():
            growing = tuple(evolve(each, plant=plant) if each.lot == lot else each for each in site.growing)
            self.sites[name] = evolve(site, growing=growing)

    def _clear(self, lot: str, dead: int) -> None:
        """Take a lot's dead plants off the sites, the last planted first."""
        for name in reversed(list(self.sites)):
            site = self.sites[name]
            kept = []
            for plant in reversed(site.growing):
                if dead and plant.lot == lot:
                    dead -= 1
                else:
                    kept.append(plant)
            self.sites[name] = evolve(site, growing=tuple(reversed(kept)))

    def _known_lot(self, code: str, on: date) -> Lot:
        lot = self.lots.get(code)
        if lot is None:
            raise Refused(f"There is no lot {code} on {spoken(on)}; it begins later, or has been taken back.")
        return lot

    def _known_site(self, name: str) -> Site:
        site = self.sites.get(name)
        if site is None:
            raise Refused(f"There is no site called {name}; add it with 'cuttings sites add'.")
        return site

    def _name_areas(self, names: Iterable[str]) -> None:
        for name in names:
            if name and name.casefold() not in {area.casefold() for area in self.areas}:
                self.areas.append(name)


def _after(stages: Mapping[Stage, int], moves: Iterable[e.Move]) -> dict[Stage, int]:
    counts = dict(stages)
    for move in moves:
        if move.source is not None:
            counts[move.source] -= move.count
        if move.target is not None:
            counts[move.target] = counts.get(move.target, 0) + move.count
    return {stage: counts[stage] for stage in Stage if counts.get(stage)}
