"""The season's page: every lot and mark under its area, each job in a word, and what to do next."""

from datetime import date, timedelta

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.commands.season_view import season_days, season_page, season_sections, season_svg
from cuttings.demo.quarry_bank import AREAS, quarry_bank
from cuttings.ledger.book import fold
from cuttings.nudges.ahead import season
from cuttings.nudges.model import Loss, Nudge
from cuttings.plants.standard import standard
from cuttings.rules.advice import Window

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
NOVEMBER = date(2026, 11, 26)


def ahead(today: date, climate: Climate = COLD) -> list[Nudge]:
    book = fold(quarry_bank(today)).as_of(today)
    return season(book, standard(), climate, today, season_days(today)[1])


def window(opens: date) -> Window:
    closes = opens + timedelta(days=20)
    return Window(what="dig it in", opens=opens, best=(opens, opens), closes=closes, why="w", source="s")


@pytest.mark.parametrize(
    ("today", "first", "last"),
    [
        (date(2026, 5, 2), date(2026, 5, 1), date(2026, 12, 31)),
        (date(2026, 6, 30), date(2026, 6, 1), date(2027, 1, 31)),
        (date(2027, 7, 31), date(2027, 7, 1), date(2028, 2, 29)),
        (date(2026, 12, 1), date(2026, 12, 1), date(2027, 7, 31)),
    ],
)
def test_a_season_is_whole_months_from_this_one_on(today: date, first: date, last: date) -> None:
    assert season_days(today) == (first, last)


def test_rows_stand_under_their_areas_in_the_order_in_which_their_work_opens() -> None:
    nudges = ahead(NOVEMBER)
    sections = season_sections(nudges, NOVEMBER)
    assert {section.heading for section in sections} <= {*AREAS, "kitchen windowsill"}
    opening = [min(row.spans[0].opens for row in section.rows) for section in sections]
    assert opening == sorted(opening)
    for section in sections:
        opening = [row.spans[0].opens for row in section.rows]
        assert opening == sorted(opening)
    drawn = sum(len(row.spans) for section in sections for row in section.rows)
    assert drawn == len(nudges)


def test_each_job_has_a_word_and_a_mark_its_code_first() -> None:
    rows = {row.name: row for section in season_sections(ahead(NOVEMBER), NOVEMBER) for row in section.rows}
    assert [span.what for span in rows["24-006 red currant"].spans] == ["shelter", "out", "plant"]
    assert [span.what for span in rows["M26-002 red currant"].spans] == ["hardwood"]
    assert [span.what for span in rows["M26-001 snowdrop"].spans] == ["lift"]


def test_a_job_presses_if_leaving_it_for_a_week_costs_plants() -> None:
    def late(day: date) -> float:
        return 1.0 if day > date(2026, 6, 8) else 0.0

    nudge = Nudge(
        id="26-001:pot", job="Pot {}", name="26-001 box", lot="26-001", window=window(date(2026, 6, 1)),
        loss=Loss(plants=3.0, late=late),
    )  # fmt: skip
    for today, presses in ((date(2026, 6, 1), False), (date(2026, 6, 2), True)):
        (section,) = season_sections([nudge], today)
        assert section.heading == "Anywhere"
        assert section.rows[0].spans[0].pressing is presses


@pytest.mark.parametrize("width", [40, 60, 80, 120, 200])
@pytest.mark.parametrize("today", [date(2026, 5, 2), date(2026, 8, 20), NOVEMBER])
def test_the_page_fits_and_names_every_lot(today: date, width: int) -> None:
    nudges = ahead(today)
    first, last = season_days(today)
    page = season_page(nudges, first, last, today, "Quarry Bank")
    lines = ["".join(text for text, _ in line) for line in page.lines(width)]
    assert max(map(len, lines)) <= width
    assert lines[0].startswith("The season")
    assert any(line.startswith("- open, = at its best") for line in lines)
    for code in {nudge.lot or nudge.mark for nudge in nudges if nudge.lot or nudge.mark}:
        assert any(line.startswith(code) for line in lines), code


def test_the_plain_page_says_it_in_sentences() -> None:
    first, last = season_days(NOVEMBER)
    lines = list(season_page(ahead(NOVEMBER), first, last, NOVEMBER, "Quarry Bank").plain_lines())
    assert lines[0] == "The season. Quarry Bank, 1 November 2026 to 30 June 2027"
    plant = "plant from 7 April to 3 July 2027, best 24 April to 5 June 2027."
    assert f"24-006 red currant: {plant}" in lines
    assert lines[-1].startswith("Next: 'cuttings week'")


def test_without_frost_dates_the_page_asks_for_them() -> None:
    today = date(2026, 5, 2)
    first, last = season_days(today)
    page = season_page(ahead(today, Climate(lat=42.9, zone="5b")), first, last, today)
    assert "Tell the frost dates" in list(page.plain_lines())[-1]


def test_an_empty_season_says_so() -> None:
    first, last = season_days(NOVEMBER)
    assert "Nothing needs doing in these days." in list(season_page([], first, last, NOVEMBER).plain_lines())


def test_the_drawing_has_the_gardens_name() -> None:
    first, last = season_days(NOVEMBER)
    assert "Quarry Bank, 1 November 2026" in season_svg(ahead(NOVEMBER), first, last, NOVEMBER, "Quarry Bank")
