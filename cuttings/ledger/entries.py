"""The kinds of entry: dated facts, never edited. A mistake is put right by a reversing entry.

A move of stems has no source where they are new to the lot, and no target where they went on into another
lot. Lengths are metres, volumes litres, temperatures degrees Celsius.
"""

from collections.abc import Mapping
from datetime import date
from typing import Any, ClassVar

import attrs
from attrs import field, frozen

from cuttings.ledger.places import FixedPoint, Garden, Obstacle, Point, Site
from cuttings.words import Cause, Cover, DipForm, Method, PlantType, Purpose, Sign, Stage, Wood

MOST_WORTH = 1000.0
"""The most ordinary plants that one plant of a lot may count for."""


def _plain_date(_: object, attribute: "attrs.Attribute[date]", value: date) -> None:
    if type(value) is not date:  # a datetime passes isinstance, and would not survive the file
        raise TypeError(f"{attribute.name} must be a date, not {value!r}")


@frozen(kw_only=True)
class Move:
    """So many stems from one stage to another."""

    count: int
    source: Stage | None = None
    target: Stage | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Entry:
    """One dated fact. ``on`` is the day it happened; the id says when it was written down.

    Comparing and showing are written once here: generating them anew for each of the many kinds would
    double the time that every command takes to load them.
    """

    kind: ClassVar[str] = ""

    id: str
    on: date = field(validator=_plain_date)
    who: str = ""

    def __eq__(self, other: object) -> bool:
        if type(self) is not type(other):
            return NotImplemented
        return all(getattr(self, a.name) == getattr(other, a.name) for a in attrs.fields(type(self)))

    def __hash__(self) -> int:
        return hash(self.id)

    def __repr__(self) -> str:
        values = ", ".join(f"{a.name}={getattr(self, a.name)!r}" for a in attrs.fields(type(self)))
        return f"{type(self).__name__}({values})"

    @property
    def order(self) -> tuple[date, str]:
        return self.on, self.id


@frozen(kw_only=True, eq=False, repr=False)
class LotEntry(Entry):
    """An entry about one lot."""

    lot: str
    moves: tuple[Move, ...] = ()
    note: str = ""

    @property
    def stems(self) -> int:
        """How many stems the entry moves."""
        return sum(move.count for move in self.moves)


@frozen(kw_only=True, eq=False, repr=False)
class Start(LotEntry):
    """The beginning of a lot.

    ``plant`` is the name as understood, ``called`` the keeper's own; ``plant_type`` is told of a plant
    that nobody has entered.
    """

    plant: str
    called: str = ""
    plant_type: PlantType | None = None
    method: Method
    mother: str = ""
    where: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class Find(Start):
    """Stems found already rooted, or rooting, while working."""

    kind = "find"
    photo: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class Strike(Start):
    """Cuttings put in to root. ``dip_ppm`` of ``None`` means that no hormone was used."""

    kind = "strike"
    wood: Wood
    dip_ppm: int | None = None
    dip_form: DipForm | None = None
    medium: str = ""
    cover: Cover = Cover.NONE
    heat_c: float | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Layer(Start):
    """Stems pegged or wrapped to root while still on their mother."""

    kind = "layer"


@frozen(kw_only=True, eq=False, repr=False)
class Divide(Start):
    """Pieces of a clump."""

    kind = "divide"


@frozen(kw_only=True, eq=False, repr=False)
class Check(LotEntry):
    """A look at waiting stems: some rooted, some failed, the rest not yet."""

    kind = "check"
    not_yet: int = 0
    root_length_m: float | None = None
    seen: tuple[str, ...] = ()


@frozen(kw_only=True, eq=False, repr=False)
class Pot(LotEntry):
    """Stems put into pots. ``advised`` keeps what was recommended where the keeper chose otherwise."""

    kind = "pot"
    pot: str
    pot_volume_l: float | None = None
    mix: str = ""
    depth_m: float | None = None
    root_spread_m: float | None = None
    root_length_m: float | None = None
    where: str = ""
    shade_days: int | None = None
    label: str = ""
    advised: Mapping[str, str] = field(factory=dict)


@frozen(kw_only=True, eq=False, repr=False)
class Harden(LotEntry):
    """Hardening off begun, a day of it done, or a day missed (``reason`` says why). ``night_low_c`` is how
    cold the night after the day was, where somebody told it."""

    kind = "harden"
    step: str
    reason: str = ""
    night_low_c: float | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Ready(LotEntry):
    """Hardened off, or in no need of it: ready to be planted."""

    kind = "ready"


@frozen(kw_only=True, eq=False, repr=False)
class Plant(LotEntry):
    """Stems planted on a site; ``at`` holds a position for each stem whose place is known."""

    kind = "plant"
    site: str
    at: tuple[Point, ...] = ()
    spread_m: float | None = None
    spots: tuple[str, ...] = ()


@frozen(kw_only=True, eq=False, repr=False)
class Give(LotEntry):
    """Stems given away; ``with_pots`` where the pots they stood in went with them."""

    kind = "give"
    to: str = ""
    with_pots: bool = False


@frozen(kw_only=True, eq=False, repr=False)
class Sell(LotEntry):
    """Stems sold, at a price each in whatever money the keeper uses; ``with_pots`` as of those given away."""

    kind = "sell"
    price: float | None = None
    to: str = ""
    with_pots: bool = False


@frozen(kw_only=True, eq=False, repr=False)
class Lose(LotEntry):
    """Stems that died."""

    kind = "lose"
    cause: Cause = Cause.UNKNOWN


@frozen(kw_only=True, eq=False, repr=False)
class Split(LotEntry):
    """Part of a lot that goes on under a code of its own."""

    kind = "split"
    into: str


@frozen(kw_only=True, eq=False, repr=False)
class Note(LotEntry):
    """Something worth remembering about a lot; ``worth`` is what one of its plants counts against an ordinary
    one, more than 0 and at most ``MOST_WORTH``."""

    kind = "note"
    worth: float | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Rename(LotEntry):
    """What a lot turned out to be, once somebody knew."""

    kind = "rename"
    plant: str
    called: str = ""
    plant_type: PlantType | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Labelled(LotEntry):
    """A label written, and stuck in; ``text`` is what it tells, parted by `` / ``."""

    kind = "labelled"
    text: str


@frozen(kw_only=True, eq=False, repr=False)
class Reverse(Entry):
    """Takes another entry back, as if it had never been made."""

    kind = "reverse"
    target: str
    note: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class Mark(Entry):
    """Something in the ground to come back to later.

    ``tape`` holds two measurements that find it. ``site`` and ``at`` are its place on a plan; where the two
    fixed points stand on no plan, ``apart_m`` is the distance between them, and ``at`` the way along the line
    from the first to the second and to its left. ``side`` is the side of that line on which it lies.
    """

    kind = "mark"
    code: str
    plant: str
    called: str = ""
    plant_type: PlantType | None = None
    purpose: Purpose
    when: str = ""
    tape: str = ""
    site: str = ""
    at: Point | None = None
    apart_m: float | None = None
    side: str = ""
    where: str = ""
    note: str = ""
    photo: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class MarkDone(Entry):
    """A mark come back to."""

    kind = "mark-done"
    code: str
    note: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class SeasonSign(Entry):
    """Something seen in the garden that tells how far on the spring is; ``plant`` for a first bloom."""

    kind = "sign"
    sign: Sign
    plant: str = ""
    called: str = ""
    note: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class PlantFacts(Entry):
    """What the keeper knows of a plant that the catalogue does not, or knows better.

    ``facts`` are fields of a plant record, by the names the plant records have; the newest of a field holds.
    """

    kind = "plant-facts"
    plant: str
    facts: Mapping[str, Any]


@frozen(kw_only=True, eq=False, repr=False)
class GardenFacts(Entry):
    """The garden as its keeper describes it; the newest holds."""

    kind = "garden"
    garden: Garden
    areas: tuple[str, ...] = ()


@frozen(kw_only=True, eq=False, repr=False)
class SiteFacts(Entry):
    """A site as its keeper describes it; the newest of a name holds."""

    kind = "site"
    site: Site


@frozen(kw_only=True, eq=False, repr=False)
class GrowingHere(Entry):
    """A plant that stood on a site before the ledger knew of it."""

    kind = "growing"
    site: str
    plant: str
    at: Point | None = None
    spread_m: float | None = None
    planted: date | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Thinned(Entry):
    """A plant that came from no lot taken off a site; ``at`` tells which of several."""

    kind = "thinned"
    site: str
    plant: str
    at: Point | None = None
    note: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class ObstacleHere(Entry):
    """Something that keeps the sun off a site."""

    kind = "obstacle"
    site: str
    obstacle: Obstacle


@frozen(kw_only=True, eq=False, repr=False)
class ObstacleGone(Entry):
    """An obstacle cut down or taken away; ``obstacle`` is the entry it was written down with."""

    kind = "obstacle-gone"
    site: str
    obstacle: str


@frozen(kw_only=True, eq=False, repr=False)
class PointHere(Entry):
    """A fixed point of a site to measure from; the newest of a name holds."""

    kind = "point"
    site: str
    point: FixedPoint


@frozen(kw_only=True, eq=False, repr=False)
class HoldSpot(Entry):
    """A spot kept for a lot."""

    kind = "hold"
    lot: str
    site: str
    spot: str
    at: Point
    radius_m: float


@frozen(kw_only=True, eq=False, repr=False)
class ReleaseSpot(Entry):
    """A held spot let go."""

    kind = "release"
    spot: str
