"""Spots for one lot and for many: what is shown, drawn, held, and what happens when somebody stops."""

import json
import shlex
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cuttings.commands import spots
from cuttings.ledger.store import Ledger
from cuttings.placement.match import Joint
from cuttings.placement.programme import State
from tests.commands.running import Result, cuttings

SVG = "{http://www.w3.org/2000/svg}"


def said(line: str, ledger: Path) -> Result:
    return cuttings(*shlex.split(line), ledger=ledger)


def document(line: str, ledger: Path) -> dict[str, object]:
    result = said(f"{line} --json", ledger)
    assert result.code == 0, result.err
    return result.document


def test_each_site_offers_as_many_spots_as_there_are_stems(demo: Path) -> None:
    plan = document("spot 24-006", demo)["plan"]
    assert isinstance(plan, list)
    by_site: dict[str, list[str]] = {}
    for placed in plan:
        by_site.setdefault(placed["site"], []).append(placed["spot"])
    assert max(len(each) for each in by_site.values()) == spots.MOST_SPOTS
    assert len({spot for each in by_site.values() for spot in each}) == len(plan)


def test_the_best_site_is_drawn_and_the_plain_page_says_the_same(demo: Path) -> None:
    drawn, plain = said("spot 25-003", demo).out, said("spot 25-003 --plain", demo).out
    assert "seen from above, its front below" in drawn
    assert "+-----" in drawn
    assert "+-----" not in plain
    assert "25-003 heuchera" in plain
    assert ": offered." in plain


def test_what_speaks_for_the_other_sites_is_told_with_why(demo: Path) -> None:
    short, whole = said("spot 25-003", demo).out, said("spot 25-003 --why", demo).out
    assert whole.count("It is hardy to zone 4") > short.count("It is hardy to zone 4") == 1


def test_the_joint_plan_tells_how_near_the_best_it_is(demo: Path) -> None:
    plan = document("spot --all --seconds 1", demo)
    assert 0.0 < float(str(plan["total"])) <= float(str(plan["bound"]))
    gap = (float(str(plan["bound"])) - float(str(plan["total"]))) / float(str(plan["bound"]))
    assert float(str(plan["gap"])) == pytest.approx(gap, abs=1e-3)


def test_every_spot_of_the_joint_plan_can_be_held_at_once(demo: Path) -> None:
    result = said("spot 25-002 25-005 --seconds 1 --hold-all", demo)
    assert result.code == 0
    assert "2 spots are held." in result.out
    held = [hold.lot for hold in Ledger(demo).book().holds.values()]
    assert sorted(held) == ["25-002", "25-005"]
    again = document("spot 25-002 25-005 --seconds 1", demo)
    assert [placed["for"][0] for placed in again["plan"]] == ["This spot is held for it already."] * 2  # type: ignore[attr-defined]


def test_the_beds_are_written_as_a_drawing(demo: Path, tmp_path: Path) -> None:
    file = tmp_path / "beds.svg"
    result = said(f"spot 24-006 25-003 --seconds 1 --svg {file}", demo)
    assert "holds the plans of the beds" in result.err
    root = ET.parse(file).getroot()
    assert root.tag == f"{SVG}svg"
    words = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    assert "24-006 red currant" in words
    circles = list(root.iter(f"{SVG}circle"))
    assert len(circles) > 7
    assert said("spot 24-006 --svg /nowhere/beds.svg", demo).code == 1


def test_groups_are_asked_for_with_a_number(demo: Path) -> None:
    plan = document("spot 24-006 --group 3 --site 'fruit row' --overlap 20 --seconds 1", demo)
    assert len(plan["plan"]) in (2, 3, 5)  # type: ignore[arg-type]
    assert said("spot 24-006 --group none", demo).code == 2
    assert said("spot 24-006 --overlap 80", demo).code == 2


def test_stopping_takes_the_plan_as_it_stands(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = Joint.states

    def stopped(self: Joint) -> Iterator[State]:
        states = whole(self)
        yield next(states)
        raise KeyboardInterrupt

    monkeypatch.setattr(Joint, "states", stopped)
    result = said("spot --all --json", demo)
    assert result.code == 0
    assert "Stopped; this is the best plan so far." in result.err
    assert json.loads(result.out)["plan"]


def test_stopping_before_there_is_a_plan_is_stopping(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(_: Joint) -> Iterator[State]:
        raise KeyboardInterrupt

    monkeypatch.setattr(Joint, "states", stopped)
    assert said("spot --all", demo).code == 130


def test_a_stretch_a_wall_salt_and_deer_are_written_down_and_told(demo: Path) -> None:
    line = ("sites add 'under the window' --area 'north wall' --light part-shade --length 4m --depth 1.5m "
            "--wall-side back --wall-gap 30cm --limit '1m 2.5m 80cm' --seen-from both --slope 30 --water 40m "
            "--salt --deer --barrier")  # fmt: skip
    result = said(line, demo)
    assert result.code == 0, result.err
    told = (
        "a wall at the back",
        "seen from front and back",
        "rises 30 % to the back",
        "salt comes there",
        "deer come there",
        "a root barrier round it",
        "nothing over 2 ft 7 in",
    )
    for words in told:
        assert words in " ".join(result.out.split())
    again = said("sites add 'under the window' --depth 1.6m --json", demo).document
    assert again["limits"] == [{"from_m": 1.0, "to_m": 2.5, "height_m": 0.8}]
    assert (again["wall_gap_m"], again["water_m"], again["deer"]) == (0.3, 40.0, True)
    wrong = said("sites add 'under the window' --limit '1m 80cm'", demo)
    assert (wrong.code, wrong.err.split(":")[0]) == (2, "--limit")
    assert said("sites add 'under the window' --limit none --json", demo).document["limits"] == []


def test_a_site_nobody_has_measured_is_not_drawn_as_another(demo: Path) -> None:
    line = "sites add 'a rich bed' --area 'north wall' --light part-shade --moisture moist"
    assert said(line, demo).code == 0
    for site in ("wall foot", "walnut fringe"):
        assert said(f"sites add '{site}' --light full-sun", demo).code == 0
    told = said("spot 25-005", demo).out
    best = told[: told.index("Elsewhere")]
    assert best.split("\n")[1].split()[1:4] == ["a", "rich", "bed"]
    assert "seen from above" not in best
