"""Plants, sites and gardens the placement tests are tried on; all invented."""

from collections.abc import Mapping, Sequence

from attrs import evolve
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Growing, Hold, Point, Site
from cuttings.placement.packing import Packing, Want
from cuttings.placement.room import Circle, bed_of
from cuttings.placement.wanted import Need, Setting
from cuttings.plants.model import Bloom, Caution, Plant
from cuttings.words import Drainage, Light, Moisture, PathSide, PlantType, SeenFrom, Units

COLD = Climate(42.9, zone="5b")
SOUTHERN = Climate(-43.5, zone="8b")
NOWHERE = Climate(42.9)

CURRANT = Plant(
    "Ribes rubrum",
    PlantType.SHRUB,
    zones=(3, 7),
    height_m=(0.9, 1.5),
    spread_m=(0.9, 1.5),
    light=(Light.FULL_SUN, Light.PART_SUN),
    moisture=(Moisture.MEDIUM, Moisture.MOIST),
    drainage=(Drainage.GOOD,),
    ph=(5.5, 7.0),
    bloom=Bloom((4, 5)),
    juglone="tolerant",
)
HEUCHERA = Plant(
    "Heuchera sanguinea",
    PlantType.PERENNIAL,
    zones=(4, 8),
    height_m=(0.2, 0.4),
    spread_m=(0.3, 0.5),
    light=(Light.PART_SUN, Light.PART_SHADE),
    moisture=(Moisture.MEDIUM,),
    drainage=(Drainage.GOOD,),
    bloom=Bloom((5, 6)),
)
UNHEARD_OF = Plant("Planta ignota", PlantType.PERENNIAL)

BED = Site(
    name="Kitchen bed",
    area="kitchen side",
    light=Light.FULL_SUN,
    length_m=4.0,
    depth_m=1.5,
    ph=6.5,
)


def setting(
    units: Units = Units.US,
    known: Mapping[str, Plant] | None = None,
    garden: Sequence[Site] = (),
    **more: float,
) -> Setting:
    """The matcher's setting in a cold garden."""
    return Setting(COLD, units, known or {}, garden, **more)


def free_positions(
    site: Site, radius_m: float, occupied: Sequence[Circle] = (), step_m: float = 0.1
) -> list[Point]:
    """The positions on a net where a plant could stand; none where the ground is used up."""
    bed = bed_of(site, occupied, step_m=step_m)
    if bed is None:
        return []
    need, nodes = Need(radius_m), bed.nodes()
    packing = Packing(bed, {need: nodes[bed.allowed(nodes, need)]})
    if packing.place(Want(0, need), lambda at: at[:, 1]) is None:
        return []
    return [(float(x), float(y)) for x, y in nodes[bed.allowed(nodes, need)]]


def grown(*places: tuple[float, float, float]) -> tuple[Growing, ...]:
    return tuple(Growing(plant="Salvia", x=x, y=y, spread_m=spread) for x, y, spread in places)


def hold(site: Site, lot: str, x: float, y: float, radius_m: float) -> Hold:
    return Hold(
        spot=f"{site.name.lower()}@{x:.2f},{y:.2f}",
        lot=lot,
        site=site.name,
        x=x,
        y=y,
        radius_m=radius_m,
        entry="e",
    )


metres = st.integers(60, 600).map(lambda cm: cm / 100)
radii = st.integers(8, 90).map(lambda cm: cm / 100)

OUTLINES = (
    (),
    ((0.0, 0.0), (5.0, 0.0), (5.0, 1.2), (2.0, 1.2), (2.0, 3.0), (0.0, 3.0)),
    ((0.0, 0.0), (0.0, 3.0), (4.0, 1.0)),
    ((1.0, 0.0), (4.0, 0.5), (3.5, 3.0), (0.0, 2.0)),
)


@st.composite
def sites(draw: st.DrawFn, name: str = "Bed") -> Site:
    """A rectangle or a crooked plot, with or without a path, with plants anywhere on it or none."""
    length, depth = draw(metres), draw(metres)
    places = draw(
        st.lists(st.tuples(st.floats(0, length), st.floats(0, depth), st.floats(0.1, 1.0)), max_size=4)
    )
    return Site(
        name=name,
        area="a",
        light=draw(st.sampled_from([None, *Light])),
        length_m=length,
        depth_m=depth,
        corners=draw(st.sampled_from(OUTLINES)),
        moisture=draw(st.sampled_from(Moisture)),
        drainage=draw(st.sampled_from(Drainage)),
        ph=draw(st.sampled_from([None, 5.0, 6.5, 8.0])),
        max_height_m=draw(st.sampled_from([None, 0.5, 2.0])),
        path_side=draw(st.sampled_from(PathSide)),
        setback_m=draw(st.sampled_from([0.0, 0.1, 0.3])),
        wall_side=draw(st.sampled_from(PathSide)),
        wall_gap_m=draw(st.sampled_from([0.0, 0.2])),
        seen_from=draw(st.sampled_from(SeenFrom)),
        walnut=draw(st.booleans()),
        salt=draw(st.booleans()),
        deer=draw(st.booleans()),
        barrier=draw(st.booleans()),
        children=draw(st.booleans()),
        growing=grown(*places),
    )


@st.composite
def plants(draw: st.DrawFn) -> Plant:
    """Any plant, much or little known of it."""
    some = st.sampled_from([(), *((each,) for each in Light), (Light.FULL_SUN, Light.PART_SUN)])
    wide = draw(radii)
    return evolve(
        CURRANT,
        zones=draw(st.sampled_from([None, (3, 7), (7, 9), (2, 4)])),
        height_m=draw(st.sampled_from([None, (0.3, 0.6), (1.0, 3.0)])),
        spread_m=draw(st.sampled_from([None, (wide, 2 * wide)])),
        light=draw(some),
        moisture=draw(st.sampled_from([(), (Moisture.DRY,), (Moisture.MOIST, Moisture.WET)])),
        drainage=draw(st.sampled_from([(), (Drainage.SHARP,), (Drainage.GOOD, Drainage.SLOW)])),
        ph=draw(st.sampled_from([None, (4.5, 5.5), (6.0, 7.5)])),
        juglone=draw(st.sampled_from(["", "sensitive", "tolerant"])),
        runs=draw(st.booleans()),
        bloom=draw(st.sampled_from([None, Bloom((6,)), Bloom((4, 5))])),
        cautions=draw(st.sampled_from([(), (Caution("poison", "All of it is poisonous."),)])),
    )
