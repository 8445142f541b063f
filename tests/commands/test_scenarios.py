"""Weeks that a grower can judge: what was done before, what the sheet says then, and what it does not say.

The gardens are invented, the days are frozen. Each sheet is written out in the order in which it is told: how
many plants waiting costs, where the work is, and what it is; ``wait`` stands before what is better left
alone.
"""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from freezegun import freeze_time

from tests.commands.running import cuttings, recorded

Write = Callable[..., None]
Sheet = dict[str, dict[str, Any]]


@pytest.fixture
def write(ledger: Path) -> Write:
    """Write something down on a day, as the keeper did."""

    def written(day: str, *words: str) -> None:
        with freeze_time(day):
            recorded(*words, ledger=ledger, today=date.today())

    return written


def sheet(ledger: Path, day: str, *options: str) -> Sheet:
    """The nudges of the week that begins on a day, by their ids, in the order they are told."""
    with freeze_time(day):
        document = cuttings("week", *options, "--json", ledger=ledger, today=date.today()).document
    return {nudge["id"]: nudge for nudge in document["nudges"]}


def told(found: Sheet) -> Sequence[str]:
    return [
        f"{'wait' if nudge['not_yet'] else format(nudge['cost_of_waiting'], '.1f')}"
        f" {nudge['area'] or 'anywhere'}: {nudge['what']}"
        for nudge in found.values()
    ]


def hardening_rosemary(write: Write) -> str:
    """Six tender rosemaries from last August, in the second week of their hardening off."""
    write("2025-08-01", "strike", "rosemary", "--wood", "semi-ripe", "--count", "8", "--cover", "bag",
          "--where", "kitchen windowsill")  # fmt: skip
    write("2025-09-20", "check", "25-001", "--rooted", "6", "--failed", "2")
    write("2025-09-21", "pot", "25-001", "--count", "6", "--pot", "4in", "--where", "kitchen windowsill")
    write("2026-05-08", "harden", "25-001", "--start")
    for day in range(8, 16):
        write(f"2026-05-{day:02d}", "harden", "25-001", "--day-done")
    return "25-001"


def test_a_late_frost(ledger: Path, write: Write) -> None:
    """29 °F is forecast while rosemaries already stand out at night: in with them, and the plan waits."""
    rosemary = hardening_rosemary(write)
    found = sheet(ledger, "2026-05-16", "--low", "29F")
    assert told(found) == [
        "2.5 kitchen windowsill: Bring indoors for the night: 25-001 rosemary",
        "1.7 kitchen windowsill: Water 25-001 rosemary whenever the top of the mix is dry, daily in heat",
        "wait kitchen windowsill: Not yet: harden 25-001 rosemary, day 9 of 14: day and night out, the light "
        "of its new place, open",
    ]
    assert found[f"{rosemary}:hardening:cold"]["lost_by"] == "the cold night takes them"
    assert "29 °F is forecast, below its night limit of 50 °F" in found[f"{rosemary}:harden:wait"]["why"]
    assert f"{rosemary}:harden" not in found


def test_the_same_week_without_a_frost(ledger: Path, write: Write) -> None:
    rosemary = hardening_rosemary(write)
    found = sheet(ledger, "2026-05-16", "--low", "52F")
    assert "day 9 of 14" in found[f"{rosemary}:harden"]["what"]
    assert not [nudge for nudge in found.values() if nudge["not_yet"] or nudge["id"].endswith(":cold")]


def test_a_heat_wave_at_hardening(ledger: Path, write: Write) -> None:
    """At 94 °F nothing goes a step further: bright shade, and water twice a day."""
    rosemary = hardening_rosemary(write)
    found = sheet(ledger, "2026-05-16", "--high", "94F")
    assert told(found) == [
        "1.7 kitchen windowsill: Water 25-001 rosemary morning and evening, and move the pots out of the "
        "afternoon sun",
        "0.0 kitchen windowsill: Keep 25-001 rosemary out in bright shade, at the step it has reached, and "
        "water it in the morning",
    ]
    assert found[f"{rosemary}:harden"]["why"].startswith("94 °F is forecast")
    assert "University of Georgia" in found[f"{rosemary}:harden"]["source"]


def spring_work(write: Write) -> None:
    write("2025-09-20", "find", "red currant", "--method", "simple-layer", "--count", "3", "--rooted",
          "--where", "gate strip")  # fmt: skip
    write("2025-09-20", "pot", "25-001", "--count", "3", "--pot", "4in", "--where", "holding bench")
    write("2025-10-10", "mark", "red currant", "--for", "move", "--where", "gate strip")
    write("2026-04-18", "divide", "Siberian iris", "--pieces", "4", "--where", "gate strip")


def test_a_wet_spring(ledger: Path, write: Write) -> None:
    """Three inches of rain are forecast: pieces cannot wait for their pots, beds can."""
    spring_work(write)
    found = sheet(ledger, "2026-04-25", "--rain", "3in")
    assert told(found) == [
        "3.0 gate strip: Pot the pieces of 26-001 Siberian iris, or plant them",
        "0.1 holding bench: Feel the mix of 25-001 red currant, and water it if it is dry",
        "wait holding bench: Not yet: plant 25-001 red currant out; 'cuttings spot' says where",
        "wait gate strip: Not yet: move red currant at mark M25-001, gate strip",
    ]
    for nudge in ("25-001:plant:wait", "M25-001:move:wait"):
        assert "3 in of rain is forecast. Dug wet, soil sets like brick." in found[nudge]["why"]
        assert found[nudge]["minutes"] == 0


def test_a_late_spring_that_was_seen(ledger: Path, write: Write) -> None:
    """The soil could be dug three weeks late, so bare roots are given their weeks from that day on."""
    spring_work(write)
    write("2026-04-29", "climate", "seen", "soil-workable")
    found = sheet(ledger, "2026-05-02")
    assert found["M25-001:move"]["window"]["opens"] == "2026-04-29"
    assert found["M25-001:move"]["window"]["closes"] > "2026-05-08"
    assert "days behind" in found["M25-001:move"]["why"]


def test_a_lot_that_will_not_root(ledger: Path, write: Write) -> None:
    """Looked at and aired while there is hope; then one plain word; then peace."""
    write("2026-06-10", "strike", "forsythia", "--wood", "softwood", "--count", "10", "--cover", "bag",
          "--where", "holding bench")  # fmt: skip
    write("2026-07-20", "check", "26-001", "--not-yet", "10")
    assert told(sheet(ledger, "2026-08-01")) == [
        "0.5 holding bench: Air 26-001 forsythia, pick off dead leaves, keep the mix just moist",
        "0.0 anywhere: Have 6 pots (4in) ready for 26-001 forsythia, and mix",
        "0.0 holding bench: Look for roots on 26-001 forsythia",
    ]
    hopeless = sheet(ledger, "2026-08-22")
    assert told(hopeless) == ["0.0 holding bench: Give up 26-001 forsythia, or find roots"]
    assert "the time for waiting is over" in hopeless["26-001:check"]["why"]
    write("2026-08-23", "week", "--never", "26-001:check")
    assert not sheet(ledger, "2026-08-29")


def test_marks_that_must_be_lifted(ledger: Path, write: Write) -> None:
    """Tulips once their leaves have gone, found by tape; dahlias once frost has blackened them."""
    write("2026-05-08", "mark", "tulip", "--for", "lift", "--where", "gate strip",
          "--tape", "A=3.20m B=4.75m", "--when", "before the asters go in")  # fmt: skip
    write("2026-05-08", "mark", "dahlia", "--for", "lift", "--where", "gate strip")
    assert not sheet(ledger, "2026-06-13")
    july = sheet(ledger, "2026-07-18")
    assert told(july) == [
        "0.0 gate strip: Lift tulip at mark M26-001, gate strip (tape: A=3.20m B=4.75m); you said: before "
        "the asters go in",
    ]
    assert "the leaves have died down" in july["M26-001:lift"]["why"]
    assert "tape measure" in july["M26-001:lift"]["tools"]
    write("2026-07-19", "mark", "--done", "M26-001")
    october = sheet(ledger, "2026-10-17")
    assert list(october) == ["M26-002:lift"]
    assert october["M26-002:lift"]["lost_by"] == "frost reaches it"
    assert october["M26-002:lift"]["cost_of_waiting"] > 0.3
    late = sheet(ledger, "2026-11-07")
    assert "It was to be done by 28 October" in late["M26-002:lift"]["why"]
    assert not sheet(ledger, "2026-12-05")


def bench_without_heat(write: Write) -> None:
    """Hardy currants potted late on an open bench, tender rosemaries, and heucheras in a cold frame."""
    write("2026-05-03", "divide", "heuchera", "--pieces", "5", "--where", "gate strip")
    write("2026-05-03", "pot", "26-001", "--count", "5", "--pot", "4in", "--where", "cold frame")
    write("2026-05-20", "find", "red currant", "--method", "simple-layer", "--count", "3", "--rooted",
          "--where", "gate strip")  # fmt: skip
    write("2026-09-28", "pot", "26-002", "--count", "3", "--pot", "4in", "--where", "holding bench")
    write("2026-07-20", "strike", "rosemary", "--wood", "semi-ripe", "--count", "8", "--cover", "bag",
          "--where", "holding bench")  # fmt: skip
    write("2026-09-10", "check", "26-003", "--rooted", "6", "--failed", "2")
    write("2026-09-10", "pot", "26-003", "--count", "6", "--pot", "4in", "--where", "holding bench")


def test_the_autumn_before_an_unheated_winter(ledger: Path, write: Write) -> None:
    """What does not stand frost comes in first; what can still be planted is not sunk."""
    bench_without_heat(write)
    found = sheet(ledger, "2026-09-19")
    assert "26-003:winter" in found
    assert found["26-003:winter"]["what"] == "Bring 26-003 rosemary indoors for the winter"
    assert found["26-003:winter"]["lost_by"] == "frost comes"
    assert 0.1 < found["26-003:winter"]["chance_of_loss"] < 0.5
    assert "26-001:plant" in found
    assert "26-001:winter" not in found


def test_an_unheated_winter(ledger: Path, write: Write) -> None:
    """Pots on the open bench are sunk before the ground freezes; those in the frame are not asked for."""
    bench_without_heat(write)
    november = sheet(ledger, "2026-11-14")
    assert "Sink the pots of 26-002 red currant" in november["26-002:winter"]["what"]
    assert november["26-002:winter"]["lost_by"] == "the pots freeze through"
    assert "26-001:winter" not in november
    assert not {nudge["what"] for nudge in november.values() if nudge["what"].startswith("Plant")}
    january = sheet(ledger, "2027-01-16")
    assert all("Look in on" in nudge["what"] for nudge in january.values())
    assert {nudge["lot"] for nudge in january.values()} == {"26-001", "26-002", "26-003"}


def test_the_end_of_an_unheated_winter(ledger: Path, write: Write) -> None:
    """First air in the frame, then everything hardy out of it; never both in one week."""
    bench_without_heat(write)
    march = sheet(ledger, "2027-03-06")
    assert march["26-001:vent"]["what"].startswith("Open the frame over 26-001")
    april = sheet(ledger, "2027-04-10")
    assert "26-001:vent" not in april
    assert april["26-001:out"]["what"].startswith("Set 26-001")
    assert april["26-002:out"]["source"].startswith("Iowa State University Extension")
    assert "26-003:out" not in april


def test_bare_pieces_before_everything_else(ledger: Path, write: Write) -> None:
    """Forty minutes: six pieces of iris lie drying at the gate, and nothing else is worth the walk."""
    write("2026-08-20", "strike", "box", "--wood", "semi-ripe", "--count", "12", "--cover", "frame",
          "--where", "holding bench")  # fmt: skip
    write("2026-09-05", "divide", "Siberian iris", "--pieces", "6", "--where", "gate strip")
    whole = sheet(ledger, "2026-09-12")
    assert list(whole)[:2] == ["26-002:pot", "26-001:air"]
    assert whole["26-002:pot"]["lost_by"] == "they dry out"
    assert whole["26-002:pot"]["cost_of_waiting"] > 4
    short = sheet(ledger, "2026-09-12", "--minutes", "40")
    assert [nudge["id"] for nudge in short.values() if nudge["planned"]] == ["26-002:pot"]
    assert short["26-002:pot"]["planned_sittings"] == 1 < short["26-002:pot"]["sittings"]


def test_the_plant_that_is_worth_most(ledger: Path, write: Write) -> None:
    """Two lots in the same plight; the keeper said that one plant of the first counts five."""
    write("2026-09-10", "divide", "Siberian iris", "--pieces", "4", "--where", "gate strip")
    write("2026-09-10", "divide", "heuchera", "--pieces", "4", "--where", "gate strip")
    assert list(sheet(ledger, "2026-09-12")) == ["26-001:pot", "26-002:pot"]
    write("2026-09-10", "note", "26-002", "the only one of its kind", "--worth", "5")
    found = sheet(ledger, "2026-09-12")
    assert list(found) == ["26-002:pot", "26-001:pot"]
    first, second = found.values()
    assert first["cost_of_waiting"] == pytest.approx(5 * second["cost_of_waiting"], abs=0.01)
    assert first["chance_of_loss"] == second["chance_of_loss"]


def test_mould_among_the_cuttings(ledger: Path, write: Write) -> None:
    """Where stems have rotted, cleaning up comes before airing the rest."""
    for plant in ("forsythia", "red currant"):
        write("2026-06-10", "strike", plant, "--wood", "softwood", "--count", "8", "--cover", "bag",
              "--where", "holding bench")  # fmt: skip
    write("2026-06-20", "lose", "26-001", "--count", "2", "--stage", "waiting", "--cause", "rot")
    found = sheet(ledger, "2026-06-27")
    assert list(found)[:2] == ["26-001:clean", "26-002:air"]
    assert found["26-001:clean"]["source"].startswith("Pacific Northwest Plant Disease Management Handbook")
    assert "26-001:air" not in found


def new_plantings(write: Write) -> None:
    """Currants in a dryish bed and irises in a wet bank, planted in May."""
    write("2026-04-01", "sites", "add", "wet bank", "--area", "wet corner", "--light", "full-sun",
          "--moisture", "wet", "--length", "4m", "--depth", "2m")  # fmt: skip
    write("2026-04-20", "find", "red currant", "--method", "simple-layer", "--count", "2", "--rooted",
          "--where", "gate strip")  # fmt: skip
    write("2026-05-23", "plant", "26-001", "--count", "2", "--site", "Gate Bed")
    write("2026-05-23", "divide", "Siberian iris", "--pieces", "3", "--where", "gate strip")
    write("2026-05-23", "plant", "26-002", "--count", "3", "--site", "wet bank")


def test_a_first_summer_in_the_ground(ledger: Path, write: Write) -> None:
    """Water by weeks since planting, by the ground, and by the rain that is forecast."""
    new_plantings(write)
    assert told(sheet(ledger, "2026-05-30")) == [
        "0.2 gate strip: Water 26-001 red currant every day unless it rains"
    ]
    assert not sheet(ledger, "2026-05-30", "--rain", "1.2in")
    assert told(sheet(ledger, "2026-07-11")) == [
        "0.1 gate strip: Water 26-001 red currant every two or three days unless it rains"
    ]
    assert told(sheet(ledger, "2026-09-19")) == [
        "0.0 gate strip: Water 26-001 red currant once a week unless it rains"
    ]


def test_a_first_winter_in_the_ground(ledger: Path, write: Write) -> None:
    """A mulch as the ground freezes, and a look for what frost has lifted as it thaws."""
    new_plantings(write)
    assert told(sheet(ledger, "2026-11-14")) == [
        "0.0 gate strip: Water 26-001 red currant once a week unless it rains",
        "0.0 gate strip: Mulch 26-001 red currant for the first winter",
        "0.0 wet corner: Mulch 26-002 Siberian iris for the first winter",
    ]
    march = sheet(ledger, "2027-03-20")
    assert [nudge["lost_by"] for nudge in march.values()] == ["its crown dries out"] * 2
    assert not [
        nudge for nudge in sheet(ledger, "2028-03-18").values() if "frost has lifted" in nudge["what"]
    ]


def test_a_spot_that_is_held(ledger: Path, write: Write) -> None:
    """What has its spot is planted there while there is time, and sunk for the winter when there is not."""
    write("2026-04-20", "find", "red currant", "--method", "simple-layer", "--count", "2", "--rooted",
          "--where", "gate strip")  # fmt: skip
    write("2026-04-20", "pot", "26-001", "--count", "2", "--pot", "4in", "--where", "holding bench")
    with freeze_time("2026-08-01"):
        offered = recorded("spot", "26-001", "--site", "Gate Bed", ledger=ledger, today=date.today()).document
    write("2026-08-01", "spot", "26-001", "--hold", offered["plan"][0]["spot"])
    autumn = sheet(ledger, "2026-08-29")
    assert (
        autumn["26-001:plant"]["what"] == "Plant 26-001 red currant out on Gate Bed, where its spot is held"
    )
    assert "26-001:winter" not in autumn
    late = sheet(ledger, "2026-11-14")
    assert list(late) == ["26-001:winter"]


def test_shrubs_that_are_cut_back_anyway(ledger: Path, write: Write) -> None:
    """Currant prunings are hardwood cuttings in November; forsythia is left alone until it has bloomed."""
    for plant, at in (("forsythia", "1,0.8"), ("red currant", "4,0.8")):
        write("2022-04-01", "sites", "growing", "Gate Bed", plant, "--at", at, "--spread", "1.4m")
    assert told(sheet(ledger, "2026-11-14")) == [
        "0.0 gate strip: Cutting back the red currant on the Gate Bed: keep the prunings, they make hardwood "
        "cuttings"
    ]
    february = sheet(ledger, "2026-02-07")
    assert told(february) == ["wait gate strip: Do not cut back the forsythia yet"]
    assert "last year's wood" in next(iter(february.values()))["why"]
    june = sheet(ledger, "2026-06-27")
    assert [nudge["what"] for nudge in june.values()] == [
        "Cutting back the forsythia on the Gate Bed: keep the prunings, they make semi-ripe cuttings"
    ]


def test_nothing_nags_twice(ledger: Path, write: Write) -> None:
    """Done, put off until the leaves are down, or never: each leaves the sheet, and comes back only in its
    time."""
    write("2026-06-10", "strike", "forsythia", "--wood", "softwood", "--count", "10", "--cover", "bag",
          "--where", "holding bench")  # fmt: skip
    write("2026-06-20", "week", "--done", "26-001:air")
    assert "26-001:air" not in sheet(ledger, "2026-06-20")
    assert "26-001:air" in sheet(ledger, "2026-06-27")
    write("2026-10-31", "mark", "red currant", "--for", "take-hardwood", "--where", "gate strip")
    assert "M26-001:take-hardwood" in sheet(ledger, "2026-11-14")
    write("2026-11-14", "week", "--later", "M26-001:take-hardwood", "2026-12-05")
    assert "M26-001:take-hardwood" not in sheet(ledger, "2026-11-14")
    assert "M26-001:take-hardwood" in sheet(ledger, "2026-12-05")
    write("2026-12-05", "week", "--never", "M26-001:take-hardwood")
    assert "M26-001:take-hardwood" not in sheet(ledger, "2027-01-16")
