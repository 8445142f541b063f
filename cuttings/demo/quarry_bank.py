"""Quarry Bank: an invented sloping third of an acre with hard winters, and its keepers R. and M.

Everything here is made up: the place, the people, the history and every count in it.
"""

from datetime import date, timedelta
from typing import Any

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.places import Garden, Site
from cuttings.words import (
    Cause,
    Cover,
    DipForm,
    Drainage,
    Light,
    Method,
    Moisture,
    PathSide,
    Purpose,
    Stage,
    Units,
    Wood,
)

AREAS = ("gate strip", "kitchen side", "north wall", "orchard edge", "wet corner", "holding bench")

Plant = dict[str, Any]
STRIKING = "half perlite, half sieved bark"

CURRANT: Plant = {"plant": "Ribes rubrum", "called": "red currant"}
CLIMBER: Plant = {"plant": "Hydrangea anomala subsp. petiolaris", "called": "climbing hydrangea"}
IRIS: Plant = {"plant": "Iris sibirica", "called": "Siberian iris"}
ROSEMARY: Plant = {"plant": "Salvia rosmarinus", "called": "rosemary"}
BOX: Plant = {"plant": "Buxus sempervirens", "called": "box"}
ANEMONE: Plant = {"plant": "Eriocapitella hupehensis", "called": "Japanese anemone"}
SNOWDROP: Plant = {"plant": "Galanthus nivalis", "called": "snowdrop"}
BLACKCAP: Plant = {"plant": "Rubus occidentalis", "called": "black raspberry"}
HEUCHERA: Plant = {"plant": "Heuchera", "called": "heuchera"}
LUNGWORT: Plant = {"plant": "Pulmonaria officinalis", "called": "lungwort"}
JASMINE: Plant = {"plant": "Jasminum nudiflorum", "called": "winter jasmine"}
SWITCH_GRASS: Plant = {"plant": "Panicum virgatum", "called": "switch grass"}


def quarry_bank(today: date) -> list[e.Entry]:
    """The garden's whole history up to ``today``: two full seasons before this year's, and this year's."""
    story = Story(today)
    first = today.year - 2
    _place(story, date(first, 3, 1))
    _first_season(story, first)
    _second_season(story, first + 1)
    _third_season(story, first + 2)
    return story.entries()


def _place(story: Story, on: date) -> None:
    garden = Garden(
        name="Quarry Bank", lat=42.9, lon=-76.1, elevation_m=330.0, units=Units.US, zone="5b",
        last_frost_odds=((5, 28), (5, 15), (5, 2)), first_frost_odds=((9, 18), (9, 30), (10, 12)),
    )  # fmt: skip
    story.tell(e.GardenFacts, on, garden=garden, areas=AREAS)

    def site(name: str, area: str, light: Light, length_m: float, depth_m: float, **facts: Any) -> None:
        place = Site(name=name, area=area, light=light, length_m=length_m, depth_m=depth_m, **facts)
        story.tell(e.SiteFacts, on, site=place)

    def growing(site: str, plant: str, x: float, y: float, spread_m: float) -> None:
        story.tell(e.GrowingHere, on, site=site, plant=plant, at=(x, y), spread_m=spread_m)

    site("gate bed", "gate strip", Light.FULL_SUN, 6.0, 1.5, moisture=Moisture.DRY, drainage=Drainage.SHARP,
         path_side=PathSide.FRONT, setback_m=0.15)  # fmt: skip
    site("fruit row", "kitchen side", Light.FULL_SUN, 14.0, 2.0, ph=6.6)
    site("herb corner", "kitchen side", Light.FULL_SUN, 2.5, 1.5, moisture=Moisture.DRY,
         drainage=Drainage.SHARP, path_side=PathSide.LEFT, max_height_m=1.2, children=True)  # fmt: skip
    site("wall foot", "north wall", Light.PART_SHADE, 7.0, 1.2, moisture=Moisture.MOIST, ph=6.2)
    site("walnut fringe", "orchard edge", Light.PART_SHADE, 8.0, 2.0, walnut=True)
    site("wet bank", "wet corner", Light.PART_SUN, 6.0, 2.5, moisture=Moisture.MOIST, drainage=Drainage.SLOW)
    growing("gate bed", "Jasminum nudiflorum", 0.9, 0.9, 1.4)
    growing("fruit row", "Ribes rubrum", 8.2, 1.0, 1.4)
    growing("wall foot", "Hydrangea anomala subsp. petiolaris", 0.8, 0.6, 1.2)
    growing("wet bank", "Iris sibirica", 0.6, 1.8, 0.8)
    growing("herb corner", "Salvia rosmarinus", 2.0, 1.0, 0.8)


def _first_season(story: Story, year: int) -> None:
    def day(month: int, number: int) -> date:
        return date(year, month, number)

    currant = story.begin(e.Find, day(4, 12), 3, method=Method.SIMPLE_LAYER, where="gate strip", **CURRANT,
                          mother="the old currant by the gate", note="under last year's leaves")  # fmt: skip
    iris = story.begin(e.Divide, day(4, 20), 5, method=Method.CROWN_DIVISION, where="wet corner", **IRIS)
    story.check(day(4, 26), currant, rooted=2, not_yet=1, root_length_m=0.06, seen=("roots to be seen",))
    story.pot(day(4, 26), currant, 2, "4in", 0.5, "holding bench", label="Ribes rubrum / layer")
    story.plant(day(4, 27), iris, Stage.ROOTED, "wet bank", (1.6, 1.6), (2.5, 1.6), (3.4, 1.6), spread_m=0.75)
    story.move(e.Give, day(5, 4), iris, 2, Stage.ROOTED, Stage.GIVEN, to="the plant swap")
    drops = story.mark(day(5, 6), purpose=Purpose.LIFT, where="gate strip", tape="A=3.20m B=4.75m",
                       note="thick clump under the hedge", **SNOWDROP)  # fmt: skip
    story.tell(e.MarkDone, day(6, 14), code=drops, who="M.")
    bulbs = story.begin(
        e.Find, day(6, 14), 16, method=Method.BULB_OFFSET, where="gate strip", who="M.", **SNOWDROP
    )
    story.plant(day(6, 14), bulbs, Stage.ROOTED, "walnut fringe", count=16, spread_m=0.1)
    story.lose(day(6, 20), currant, 1, Stage.WAITING, Cause.DRIED)
    rosemary = story.strike(day(8, 2), 12, Wood.SEMI_RIPE, dip_ppm=3000, dip_form=DipForm.POWDER,
                            medium=STRIKING, cover=Cover.BAG, where="kitchen side", **ROSEMARY)  # fmt: skip
    tips = story.begin(e.Layer, day(8, 22), 4, method=Method.TIP_LAYER, where="kitchen side", **BLACKCAP)
    story.check(day(9, 6), rosemary, rooted=0, failed=2, not_yet=10, seen=("black or soft",))
    story.plant(day(9, 8), currant, Stage.POTTED, "fruit row", (0.9, 1.0), (2.4, 1.0), spread_m=1.4)
    story.check(day(9, 27), rosemary, rooted=7, failed=1, not_yet=2, root_length_m=0.03)
    story.pot(
        day(9, 28), rosemary, 7, "SP4", 0.9, "kitchen windowsill", mix="gritty", label="Salvia rosmarinus"
    )
    story.lose(day(10, 20), rosemary, 2, Stage.WAITING, Cause.ROT)
    hardwood = story.strike(day(11, 10), 15, Wood.HARDWOOD, medium="sand trench", where="kitchen side",
                            **CURRANT, mother="the currant by the gate", note="prunings")  # fmt: skip
    _second_spring(story, year + 1, rosemary, tips, hardwood)


def _second_spring(story: Story, year: int, rosemary: str, tips: str, hardwood: str) -> None:
    """What became of the first season's lots."""

    def day(month: int, number: int) -> date:
        return date(year, month, number)

    story.check(day(4, 19), tips, rooted=3, failed=1, root_length_m=0.10)
    story.plant(day(4, 20), tips, Stage.ROOTED, "fruit row", (4.0, 1.0), (5.2, 1.0), spread_m=1.1)
    story.move(e.Give, day(4, 26), tips, 1, Stage.ROOTED, Stage.GIVEN, to="next door")
    begins = day(5, 12)
    story.harden(begins, rosemary, 7, [begins + timedelta(days=n) for n in range(12) if n != 4], day(5, 28))
    story.plant(day(5, 31), rosemary, Stage.READY, "herb corner", (0.7, 0.7), spread_m=0.9)
    story.plant(day(5, 31), rosemary, Stage.READY, "gate bed", (3.0, 0.8), (4.1, 0.8), spread_m=0.9)
    story.move(e.Sell, day(6, 7), rosemary, 3, Stage.READY, Stage.SOLD, price=4.0)
    story.move(e.Give, day(6, 7), rosemary, 1, Stage.READY, Stage.GIVEN, to="M.'s cousin")
    story.check(day(6, 15), hardwood, rooted=9, failed=2, not_yet=4, root_length_m=0.05)
    story.pot(day(6, 15), hardwood, 9, "#1", 2.8, "holding bench", label="Ribes rubrum / hardwood")
    story.check(day(7, 20), hardwood, rooted=2, failed=2, root_length_m=0.04)
    story.pot(day(7, 20), hardwood, 2, "4in", 0.5, "holding bench")
    story.plant(day(9, 14), hardwood, Stage.POTTED, "fruit row", (6.6, 1.0), spread_m=1.4)
    story.move(e.Sell, day(9, 20), hardwood, 5, Stage.POTTED, Stage.SOLD, price=6.0)


def _second_season(story: Story, year: int) -> None:
    def day(month: int, number: int) -> date:
        return date(year, month, number)

    climber = story.begin(e.Find, day(4, 5), 2, method=Method.SIMPLE_LAYER, where="north wall", **CLIMBER,
                          mother="the climber on the wall", note="rooted into the leaf mould")  # fmt: skip
    grass = story.begin(
        e.Divide, day(4, 26), 4, method=Method.CROWN_DIVISION, where="gate strip", **SWITCH_GRASS
    )
    story.plant(day(4, 27), grass, Stage.ROOTED, "wet bank", (4.6, 1.9), (5.4, 1.9), spread_m=0.7)
    story.pot(day(4, 27), grass, 2, "#1", 2.8, "holding bench")
    heuchera = story.begin(e.Divide, day(5, 3), 6, method=Method.CROWN_DIVISION, where="north wall", who="M.",
                           **HEUCHERA)  # fmt: skip
    story.pot(day(5, 3), heuchera, 6, "4in", 0.5, "holding bench", label="Heuchera / division")
    story.check(day(5, 18), climber, rooted=1, not_yet=1, root_length_m=0.08)
    story.pot(day(5, 18), climber, 1, "#1", 2.8, "north wall", label="climbing hydrangea")
    story.lose(day(7, 6), heuchera, 1, Stage.POTTED, Cause.DRIED, note="three hot days away")
    box = story.strike(day(8, 9), 20, Wood.SEMI_RIPE, dip_ppm=3000, dip_form=DipForm.POWDER,
                       medium="gritty mix", cover=Cover.FRAME, where="holding bench", **BOX)  # fmt: skip
    story.plant(
        day(9, 6), heuchera, Stage.POTTED, "wall foot", (2.6, 0.4), (3.2, 0.4), (3.8, 0.4), spread_m=0.45
    )
    lungwort = story.begin(
        e.Divide, day(9, 12), 4, method=Method.CROWN_DIVISION, where="north wall", **LUNGWORT
    )
    story.plant(day(9, 12), lungwort, Stage.ROOTED, "wall foot", (4.6, 0.5), (5.2, 0.5), spread_m=0.5)
    story.pot(day(9, 13), lungwort, 2, "4in", 0.5, "holding bench")
    story.check(day(11, 2), box, rooted=8, failed=2, not_yet=10, root_length_m=0.02)
    story.strike(day(11, 9), 12, Wood.HARDWOOD, medium="sand trench", where="kitchen side", **CURRANT)
    _third_spring(story, year + 1, climber, grass, box, lungwort)


def _third_spring(story: Story, year: int, climber: str, grass: str, box: str, lungwort: str) -> None:
    """What became of the second season's lots."""

    def day(month: int, number: int) -> date:
        return date(year, month, number)

    story.lose(day(3, 29), lungwort, 1, Stage.POTTED, Cause.FROST, note="the pot froze through on the bench")
    story.plant(day(4, 25), grass, Stage.POTTED, "gate bed", (5.2, 0.8), spread_m=0.7)
    story.check(day(5, 2), box, rooted=7, failed=1, not_yet=2, root_length_m=0.04)
    story.pot(day(5, 2), box, 15, "4in", 0.5, "holding bench", mix="gritty", label="Buxus / semi-ripe")
    story.plant(day(5, 9), climber, Stage.POTTED, "wall foot", (6.3, 0.6), spread_m=1.2)
    story.check(day(5, 9), climber, rooted=1, root_length_m=0.07)


def _third_season(story: Story, year: int) -> None:
    def day(month: int, number: int) -> date:
        return date(year, month, number)

    story.begin(e.Find, day(4, 10), 2, method=Method.SIMPLE_LAYER, where="gate strip", **JASMINE,
                note="where a stem lay on the bank")  # fmt: skip
    anemone = story.begin(e.Find, day(4, 18), 5, method=Method.ROOT_CUTTING, where="kitchen side", **ANEMONE,
                          note="bits of root left after clearing, shooting")  # fmt: skip
    story.check(day(5, 16), anemone, rooted=4, failed=1, root_length_m=0.05)
    story.pot(day(5, 16), anemone, 4, "4in", 0.5, "holding bench", label="Japanese anemone / root")
    story.mark(day(5, 8), purpose=Purpose.LIFT, where="north wall", tape="A=2.10m B=3.40m", **SNOWDROP)
    layers = story.begin(e.Layer, day(6, 6), 3, method=Method.SIMPLE_LAYER, where="north wall", **CLIMBER)
    story.tell(e.Note, day(6, 6), lot=layers, note="pegged with bent wire, a stone on each", who="M.")
    rosemary = story.strike(day(8, 8), 10, Wood.SEMI_RIPE, dip_ppm=3000, dip_form=DipForm.POWDER,
                            medium=STRIKING, cover=Cover.BAG, where="kitchen side", **ROSEMARY)  # fmt: skip
    story.begin(e.Layer, day(8, 24), 5, method=Method.TIP_LAYER, where="kitchen side", **BLACKCAP)
    story.check(day(9, 26), rosemary, rooted=6, failed=1, not_yet=3, root_length_m=0.03)
    story.pot(
        day(9, 27), rosemary, 6, "SP4", 0.9, "kitchen windowsill", mix="gritty", label="Salvia rosmarinus"
    )
    story.mark(day(10, 3), purpose=Purpose.TAKE_HARDWOOD, where="gate strip", **CURRANT,
               note="the old currant, before it is pruned")  # fmt: skip
    story.plant(day(9, 12), anemone, Stage.POTTED, "gate bed", (2.0, 0.8), spread_m=0.6)
