"""The account of a year as its keeper gets it: a page, Markdown, a drawing, and a document."""

import io
import re
from collections.abc import Sequence
from contextlib import redirect_stderr, redirect_stdout
from datetime import date
from pathlib import Path
from typing import Any
from unittest.mock import patch
from xml.etree import ElementTree as ET

import pytest
from attrs import frozen
from markdown_it import MarkdownIt

from cuttings.commands.desk import Desk
from cuttings.commands.year_account import year_account
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.places import Garden, Site
from cuttings.ledger.store import Ledger
from cuttings.words import Cause, Light, Method, Stage, Units, Wood
from tests.commands.running import Result

NOVEMBER = date(2026, 11, 26)
TAKES = {"by": ["plant"], "groups": [{"key": {"plant": "box"}}], "comparison": None}
"""What the shares of the year's lots are, for the document."""


@frozen
class Answer(Result):
    """What the account answered."""

    @property
    def year(self) -> dict[str, Any]:
        year = self.document["year"]
        assert isinstance(year, dict)
        return year

    @property
    def text(self) -> str:
        """The page without its line breaks."""
        return " ".join(self.out.split())


def answered(
    folder: Path,
    year: int = 2026,
    *,
    on: date = NOVEMBER,
    plant: str = "",
    markdown: Path | None = None,
    svg: Path | None = None,
    prices: Sequence[str] = (),
    columns: int = 80,
    encoding: str = "utf-8",
    **desk: Any,
) -> Answer:
    """What the account answers at no terminal."""
    out = io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="")
    err = io.StringIO()
    at = Desk(ledger=Ledger(folder), today=on, on=on, **desk)
    files = str(markdown) if markdown else None, str(svg) if svg else None
    with patch.dict("os.environ", COLUMNS=str(columns)), redirect_stdout(out), redirect_stderr(err):
        year_account(at, year, plant, *files, prices, takes=TAKES)
    out.flush()
    out.seek(0)
    return Answer(0, out.read(), err.getvalue())


def kept(folder: Path, story: Story) -> Path:
    Ledger(folder).record(lambda _, __: story.entries())
    return folder


@pytest.fixture(scope="module")
def quarry(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo garden with all that was written down by November."""
    folder = tmp_path_factory.mktemp("year") / "quarry-bank"
    Ledger(folder).record(lambda _, __: quarry_bank(NOVEMBER))
    return folder


def a_good_year(name: str = "box", to: str = "next door") -> Story:
    """Twenty cuttings that rooted and were planted, given and sold."""
    story = Story(NOVEMBER)
    garden = Garden(name=f"{name} garden", lat=42.9, lon=-76.1, units=Units.US, zone="5b",
                    last_frost=(5, 15), first_frost=(9, 30))  # fmt: skip
    story.tell(e.GardenFacts, date(2026, 3, 1), garden=garden)
    site = Site(name=f"{name} bed", area=f"{name} side", light=Light.FULL_SUN)
    story.tell(e.SiteFacts, date(2026, 3, 1), site=site)
    lot = story.strike(date(2026, 5, 20), 20, Wood.SOFTWOOD, plant="Buxus sempervirens", called=name)
    story.check(date(2026, 7, 1), lot, rooted=20)
    story.pot(date(2026, 7, 1), lot, 20, "4in", 0.5, "bench", label="box")
    story.plant(date(2026, 9, 1), lot, Stage.POTTED, f"{name} bed", spread_m=1.0, count=14)
    story.move(e.Give, date(2026, 9, 2), lot, 4, Stage.POTTED, Stage.GIVEN, to=to)
    story.move(e.Sell, date(2026, 9, 3), lot, 2, Stage.POTTED, Stage.SOLD)
    return story


def test_the_page_leads_with_the_answer(quarry: Path) -> None:
    heading, first, *_ = answered(quarry).out.splitlines()
    assert heading == "Quarry Bank, 2026   as it stands on 26 November 2026"
    assert first == "2026     5 lots, 25 stems started; 10 rooted so far, 1 in its place, 2 lost."


def test_every_part_of_the_account_stands_on_the_page_in_its_order(quarry: Path) -> None:
    text = answered(quarry, 2025, prices=["3"]).text
    parts = ["What was started", "What became of it", "What it filled", "Best and worst",
             "What to do otherwise", "Money's worth", "Next"]  # fmt: skip
    assert [text.index(part) for part in parts] == sorted(text.index(part) for part in parts)
    assert "20 by semi-ripe cutting in 1 lot" in text
    assert "wall foot, north wall: 3 heuchera, 2 lungwort." in text
    assert "to next door: 1 black raspberry." in text
    assert "2024 6 lots, 55 stems." in text


def test_the_best_and_the_worst_are_told_with_their_counts_and_the_usual(quarry: Path) -> None:
    text = answered(quarry, 2024).text
    assert "Best snowdrop by bulb offset: 16 of 16 took." in text
    assert "Worst rosemary by semi-ripe cutting: 7 of 12 rooted." in text
    assert "nine times in ten between" in text
    assert "black raspberry by tip layer, 3 of 4 rooted" in text
    assert "too few to call good or bad" in text
    assert "%" not in text


def test_where_none_stands_out_one_row_says_so_with_the_counts(tmp_path: Path) -> None:
    story = a_good_year()
    lot = story.strike(date(2026, 5, 20), 12, Wood.SOFTWOOD, plant="Salvia rosmarinus", called="rosemary")
    story.check(date(2026, 7, 1), lot, rooted=11, failed=1)
    answer = answered(kept(tmp_path / "alike", story))
    counts = "box by softwood cutting, 20 of 20 rooted; rosemary by softwood cutting, 11 of 12 rooted."
    assert f"Best none stands out yet: {counts}" in answer.text
    assert "Worst" not in answer.text
    alone = answered(kept(tmp_path / "alone", a_good_year()))
    assert "Best none stands out yet: box by softwood cutting, 20 of 20 rooted." in alone.text
    assert "It takes two kinds" in alone.text
    year = answered(tmp_path / "alone", as_json=True).year
    assert (year["best"], year["worst"]) == (None, None)


def test_a_good_year_says_so(tmp_path: Path) -> None:
    text = answered(kept(tmp_path / "good", a_good_year())).text
    assert "Nothing was lost in 2026, and nothing in the ledger asks for a change. A good year." in text


def test_what_to_do_otherwise_is_numbered_with_its_reason(tmp_path: Path) -> None:
    story = a_good_year()
    story.lose(date(2026, 9, 20), "26-001", 3, Stage.PLANTED, Cause.EATEN)
    folder = kept(tmp_path / "eaten", story)
    text = answered(folder).text
    assert "1 3 stems were eaten (26-001 box): raise the pots" in text
    assert "its label and local rules go first" in text
    assert "Source" not in text
    assert "Source: common practice." in answered(folder, why=True).text


def test_a_year_with_nothing_in_it_names_those_that_have(quarry: Path, tmp_path: Path) -> None:
    page = tmp_path / "2019.md"
    answer = answered(quarry, 2019, markdown=page)
    assert "The ledger has nothing of 2019" in answer.text
    assert "It has the years 2024, 2025 and 2026." in answer.text
    assert not page.exists()
    assert "Nothing is written" in answer.err
    assert answered(quarry, 2019, as_json=True).year["years"] == [2024, 2025, 2026]
    assert "It has" not in answered(kept(tmp_path / "empty", Story(NOVEMBER)), 2026).out


@pytest.mark.parametrize("columns", [40, 80, 120])
@pytest.mark.parametrize("year", [2024, 2025, 2026])
def test_the_page_fits_its_columns(quarry: Path, columns: int, year: int) -> None:
    lines = answered(quarry, year, columns=columns, prices=["3"]).out.splitlines()
    assert max(map(len, lines)) <= min(columns, 100)
    assert all(line == line.rstrip() for line in lines)


def test_the_page_speaks_ascii_where_nothing_else_is_spoken(quarry: Path) -> None:
    plain, whole = answered(quarry, 2024, encoding="ascii").out, answered(quarry, 2024).out
    assert plain.isascii()
    assert "?" not in plain
    assert re.search(r"\|-+@", plain)
    assert len(plain.splitlines()) == len(whole.splitlines())


def test_the_plain_page_has_words_for_its_drawings(quarry: Path) -> None:
    lines = answered(quarry, 2025, plain=True).out.splitlines()
    assert "box, semi-ripe cutting, 20: 15 on the way, 2 waiting, 3 lost." in lines
    assert "Planted: wet bank, wet corner: 2 switch grass." in lines
    assert any(line.startswith("Stems started by month: April 6, the year before 8;") for line in lines)
    assert not any(sign in "".join(lines) for sign in "●│─○")
    assert not any(re.search("[=:+x-]{5}", line) for line in lines)


def test_money_is_reckoned_only_at_prices_that_somebody_named(quarry: Path, tmp_path: Path) -> None:
    recorded = answered(quarry, 2025).text
    assert "30.00 red currant, 5 sold." in recorded
    assert "2 stems of rosemary and black raspberry have no price and are not counted." in recorded
    assert "In all 42.00 for 8 sold." in recorded
    assert "Money's worth" not in answered(kept(tmp_path / "good", a_good_year())).text
    asked = answered(tmp_path / "good", prices=["2,50", "box=6"]).text
    assert "36.00 box, 2 sold and 4 given." in asked
    assert "In all 36.00 for 2 sold and 4 given, 12.00 of it for those sold." in asked
    assert not set("$€£¥") & set(asked)


def test_a_price_is_for_a_plant_by_any_of_its_names_and_a_cultivar_has_its_own(tmp_path: Path) -> None:
    story = Story(NOVEMBER)
    for cultivar in ("", " 'Red Lake'", " 'White Grape'"):
        lot = story.begin(e.Divide, date(2026, 5, 1), 4, method=Method.CROWN_DIVISION,
                          plant=f"Ribes rubrum{cultivar}", called=f"red currant{cultivar}")  # fmt: skip
        story.move(e.Give, date(2026, 5, 2), lot, 1, Stage.ROOTED, Stage.GIVEN)
    folder = kept(tmp_path / "currants", story)
    for prices in (
        ["Red Currants=3", "ribes rubrum 'red lake'=10"],
        ["red currant 'Red Lake'=10", "redcurrant=3"],
    ):
        lines = answered(folder, prices=prices, as_json=True).year["worth"]["plants"]
        assert {line["called"]: line["worth"] for line in lines} == {
            "red currant": 3.0, "red currant 'Red Lake'": 10.0, "red currant 'White Grape'": 3.0,
        }  # fmt: skip


@pytest.mark.parametrize("price", ["$4", "4 euros", "-1", "nan", "box=", "box=inf", "1e9", ""])
def test_a_price_is_a_plain_number(quarry: Path, price: str) -> None:
    with pytest.raises(Misused, match="is not a price; write a plain number"):
        answered(quarry, prices=[price])


def test_a_price_for_a_plant_that_the_ledger_does_not_have_is_refused(quarry: Path) -> None:
    with pytest.raises(Misused, match="no lot is called 'tree of heaven'"):
        answered(quarry, prices=["tree of heaven=4"])


def test_the_document_holds_the_whole_account_beside_the_shares(quarry: Path) -> None:
    answer = answered(quarry, 2025, as_json=True, prices=["3"])
    assert answer.document == {"schema": 1, **TAKES, "year": answer.year}
    year = answer.year
    assert (year["lots"], year["started"]) == (6, 48)
    assert sum(year["stages"].values()) == 48
    assert sum(month["started"] for month in year["months"]) == 48
    assert sum(each["started"] for each in year["methods"]) == 48
    assert sum(kind["started"] for kind in year["kinds"]) == 48
    assert sum(year["lost_at"].values()) == sum(year["lost_of"].values()) == year["stages"]["lost"]
    assert (year["before"]["year"], year["before"]["started"]) == (2024, 55)
    assert year["older"]["sold"] == sum(each["count"] for each in year["sold"]) == 8
    assert year["worth"]["total"] == 5 * 6.0 + 3 * 4.0 + 2 * 3.0
    assert all(each["why"] and each["source"] and each["stems"] for each in year["otherwise"])
    assert answered(quarry, 2024, as_json=True).year["worst"] == {
        "plant": "Salvia rosmarinus", "method": "semi-ripe-cutting",
    }  # fmt: skip


def test_only_one_plant_is_told_of_when_asked(quarry: Path) -> None:
    year = answered(quarry, 2026, plant="rosemary", as_json=True).year
    assert (year["lots"], year["started"]) == (1, 10)
    assert {kind["called"] for kind in year["kinds"]} == {"rosemary"}
    assert "nothing of 'red currant' of 2026" in answered(quarry, 2026, plant="red currant").text


def test_the_account_is_as_of_the_day_of_the_desk(quarry: Path) -> None:
    early = answered(quarry, 2026, on=date(2026, 5, 2), as_json=True).year
    assert (early["on"], early["started"]) == ("2026-05-02", 7)
    assert "as it stands on 2 May 2026" in answered(quarry, 2026, on=date(2026, 5, 2)).out


def test_the_page_is_kept_as_markdown_with_its_drawing_beside_it(quarry: Path, tmp_path: Path) -> None:
    page, drawing = tmp_path / "2025.md", tmp_path / "charts" / "the year.svg"
    drawing.parent.mkdir()
    answer = answered(quarry, 2025, markdown=page, svg=drawing)
    assert f"The drawing is in {drawing}." in answer.err
    assert f"The page is in {page}." in answer.err
    text = page.read_text(encoding="utf-8")
    assert text.startswith("# The year 2025 at Quarry Bank\n\n2025: 6 lots, 48 stems started;")
    assert "![The charts of 2025](charts/the%20year.svg)" in text
    assert "| box | semi-ripe cutting | 20 | not known yet | 0 | 0 | 15 | 2 | 3 |" in text
    assert "| April | 6 | 8 |" in text
    assert ET.parse(drawing).getroot().tag.endswith("svg")
    headings = re.findall("^## (.+)$", text, re.MULTILINE)
    assert headings == ["What was started", "What became of it", "What it filled", "Best and worst",
                        "What to do otherwise", "Money's worth"]  # fmt: skip


def test_without_a_drawing_the_page_links_to_none(quarry: Path, tmp_path: Path) -> None:
    page = tmp_path / "2025.md"
    answered(quarry, 2025, markdown=page)
    assert "![" not in page.read_text(encoding="utf-8")


def test_the_page_and_the_screen_say_the_same(quarry: Path, tmp_path: Path) -> None:
    page = tmp_path / "2024.md"
    screen = answered(quarry, 2024, markdown=page).text
    for line in page.read_text(encoding="utf-8").splitlines():
        if line.startswith(("- ", "1. ", "2. ", "  ")):
            said = re.sub(r"^(- (\w+( \w+)?: )?|\d\. | +)", "", line).replace("\\", "").strip()
            assert said in screen, line


def test_files_are_written_anew_but_never_over_something_else(quarry: Path, tmp_path: Path) -> None:
    page, drawing = tmp_path / "page.md", tmp_path / "drawing.svg"
    for year in (2024, 2025):
        answered(quarry, year, markdown=page, svg=drawing)
    assert page.read_text(encoding="utf-8").startswith("# The year 2025")
    page.write_text("# My own notes\n", encoding="utf-8")
    with pytest.raises(Refused, match="holds something else"):
        answered(quarry, 2025, markdown=page)
    assert page.read_text(encoding="utf-8") == "# My own notes\n"
    with pytest.raises(Refused, match="cannot be written"):
        answered(quarry, 2025, svg=tmp_path / "nowhere" / "a.svg")


NASTY = "*box* <b>[x](http://x.example)</b> | `c` \x1b[31m\n# d"


def test_names_that_people_typed_never_act_as_markup(tmp_path: Path) -> None:
    story = a_good_year(NASTY, to=NASTY)
    story.lose(date(2026, 9, 20), "26-001", 3, Stage.PLANTED, Cause.EATEN)
    folder = kept(tmp_path / "nasty", story)
    page, drawing = tmp_path / "nasty.md", tmp_path / "nasty.svg"
    answer = answered(folder, markdown=page, svg=drawing, prices=["2"])
    text = page.read_text(encoding="utf-8")
    tokens = [
        inside
        for token in MarkdownIt("commonmark").enable("table").parse(text)
        for inside in (token, *(token.children or []))
    ]
    found = {token.type for token in tokens}
    assert not found & {
        "html_block",
        "html_inline",
        "link_open",
        "em_open",
        "strong_open",
        "code_inline",
        "fence",
    }
    assert sum(token.type == "heading_open" for token in tokens) == 7
    assert sum(token.type == "image" for token in tokens) == 1
    assert "\x1b" not in text + answer.out + drawing.read_text(encoding="utf-8")
    assert {each.tag.rpartition("}")[2] for each in ET.parse(drawing).iter()} <= {
        "svg", "title", "desc", "g", "rect", "line", "circle", "text",
    }  # fmt: skip


def test_losses_are_told_by_cause_and_by_stage(quarry: Path) -> None:
    text = answered(quarry, 2024).text
    assert "Lost 6 found dead at a look, 4 of rot, 1 of drought; all of them while waiting for roots." in text
    text = answered(quarry, 2025, on=date(2026, 5, 2)).text
    assert "Lost 3 found dead at a look, 1 of drought, 1 of frost;" in text
    assert "3 of them while waiting for roots, 2 in their pots." in text
