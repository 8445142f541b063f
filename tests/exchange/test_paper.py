"""The printed page, read back by pypdf and drawn by PDFium."""

import os
import subprocess
import sys
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.exchange.paper import page_of
from cuttings.nudges.sheet import Sheet, Sitting
from tests.exchange.sheets import FIRST, item, many, nudge, printed, sheet

MILLIMETRE = 72 / 25.4
LETTER, A4 = (612.0, 792.0), (595.28, 841.89)
"""ISO 216 for A4, 210 by 297 mm; letter is 8.5 by 11 in (ANSI/ASME Y14.1)."""

POT = nudge("Pot {}", "26-004 rosemary", "Its roots are long enough. A tight ball stops growing.", minutes=12,
            tools=("pots", "mix"), cautions=("wear a mask when the mix is dusty.",))  # fmt: skip
DIG = nudge("Dig up {}", "the old hosta", "It is awake.", minutes=95, parts=3, closes=date(2026, 6, 20),
            tools=("spade",))  # fmt: skip
FEED = nudge("Feed {} lightly", "25-004 box", "New leaves grow.", closes=date(2026, 5, 30))
CUT_BACK = nudge("Cut back {}", "24-006 red currant", "It bleeds now. Wait for the leaves.", not_yet=True,
                 opens=date(2026, 7, 1), closes=date(2026, 8, 1))  # fmt: skip
WEEK = sheet(
    ("kitchen side", [item(1, POT, cost=2.5)]),
    ("wet corner", [item(2, DIG, sittings=[Sitting(25, 1)] * 3, taken=3)]),
    left=(item(3, FEED, cost=0.4, taken=0),),
    not_yet=(item(4, CUT_BACK, taken=0),),
    budget=150,
)

LATE = sheet(("", [item(1234, nudge(closes=date(2027, 12, 30)), cost=1.0)]))


def in_order(text: str, *parts: str) -> None:
    at = 0
    for part in parts:
        assert part in text[at:], f"{part!r} does not come next in {text[at:]!r}"
        at = text.index(part, at) + len(part)


def test_the_page_says_all_that_the_sheet_holds_in_its_order() -> None:
    in_order(
        printed(WEEK).text,
        "Quarry Bank",
        "Saturday 2 May to Friday 8 May 2026",
        "About 117 minutes in all; there are 150.",
        "kitchen side", "12 min, and 5 to go there and set up",
        "Take: pots, mix",
        "by 8 May", "1", "Pot 26-004 rosemary", "12 min",
        "Take care: wear a mask when the mix is dusty.",
        "Its roots are long enough. A tight ball stops growing.",
        "wet corner", "95 min, and 5 to go there and set up",
        "Take: spade",
        "until 20 Jun", "2", "Dig up the old hosta", "95 min",
        "3 sittings of 25 minutes with a rest of 10 between.",
        "It is awake.",
        "Wait", "from 1 Jul", "Cut back 24-006 red currant. It bleeds now.",
        "Left for another day", "by 30 May", "3", "Feed 25-004 box lightly.", "about 0.4 of a plant",
        "Notes",
        "cuttings week --from 2026-05-02 --done 1",
    )  # fmt: skip


@pytest.mark.parametrize("count", [1, 4, 9, 12])
def test_every_job_of_a_usual_week_is_there_in_order(count: int) -> None:
    week = many(count)
    parts = []
    for stop in week.stops:
        parts += [stop.area, f"Take: {', '.join(stop.tools)}"]
        for each in stop.items:
            parts += [str(each.number), each.nudge.what, f"{each.minutes} min"]
    in_order(printed(week).text, *parts)


@pytest.mark.parametrize("us", [True, False])
@pytest.mark.parametrize("left", [0, 40])
@pytest.mark.parametrize("alike", [True, False])
@pytest.mark.parametrize("count", [0, 1, 12, 60, 400])
def test_it_is_one_page_whatever_there_is_to_do(count: int, alike: bool, left: int, us: bool) -> None:
    page = printed(many(count, alike=alike, left=left), us=us)
    assert page.pages == 1
    box = page.reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(LETTER if us else A4, abs=0.01)
    assert min(size for _, size in page.sizes()) >= 9.5
    boxes = len(page.squares())
    assert boxes == count or f"and {count - boxes} more; the screen shows them all" in page.text


def test_what_has_no_room_is_what_costs_least_by_waiting() -> None:
    pressing = item(99, nudge("Lift {}", "the wallflowers", "Frost comes."), cost=50.0)
    week = many(60)
    week = sheet(*((stop.area, stop.items) for stop in week.stops), ("orchard edge", [pressing]))
    text = printed(week).text
    assert "Lift the wallflowers" in text
    assert "26-001 Siberian iris" in text
    assert "26-060 Siberian iris" not in text
    assert text.endswith("cuttings week --from 2026-05-02 --done 99")


def test_a_page_with_much_room_has_large_type_and_lines_to_write_on() -> None:
    page = printed(WEEK)
    assert ("Pot 26-004 rosemary", 16.0) in page.sizes()
    assert "Notes" in page.lines


@pytest.mark.parametrize("count", [1, 12, 60, 400])
def test_jobs_are_in_type_of_eleven_points_or_more(count: int) -> None:
    page = printed(many(count, left=3))
    jobs = [size for text, size in page.sizes() if "Siberian iris" in text]
    assert jobs
    assert min(jobs) >= 11


def test_with_nothing_to_do_it_says_so_and_leaves_room_for_notes() -> None:
    page = printed(sheet())
    in_order(page.text, "Quarry Bank", "Nothing needs doing.", "Notes")
    assert "--done" not in page.text
    assert page.squares() == []


def test_the_same_work_for_several_lots_is_one_entry_with_a_box_for_each() -> None:
    names = ["25-004 box", "25-006 red currant", "26-004 rosemary"]
    lots = [item(n, nudge("Look for roots on {}", name), cost=0.0) for n, name in enumerate(names, 1)]
    other = item(4, nudge("Look for roots on {}", "26-001 winter jasmine", "Another reason."))
    page = printed(sheet(("gate strip", [*lots, other])))
    in_order(
        page.text,
        "until 8 May Look for roots on these 3 15 min",
        "1 25-004 box 2 25-006 red currant",
        "3 26-004 rosemary",
        "It is time.",
        "4 Look for roots on 26-001 winter jasmine",
        "Another reason.",
    )
    assert page.text.count("It is time.") == 1
    assert len(page.squares()) == 4


def test_what_is_partly_planned_says_which_part_and_what_the_rest_risks() -> None:
    half = item(7, DIG, cost=3.0, sittings=[Sitting(25, 1), Sitting(30, 1), Sitting(25, 1)], taken=2)
    text = printed(sheet(("wet corner", [half]), left=(half,))).text
    in_order(
        text,
        "7 Dig up the old hosta 65 min",
        "2 of its 3 sittings, 25 and 30 minutes with a rest of 10 between.",
    )
    in_order(
        text, "Left for another day waiting risks", "7 Dig up the old hosta, the rest of it.", "about 1 plant"
    )


def test_a_long_reason_ends_with_a_sentence() -> None:
    told = [f"Sentence {n} says something about roots in general." for n in range(1, 9)]
    page = printed(sheet(("", [item(1, nudge(why=" ".join(told)))])))
    shown = page.text[page.text.index("Sentence 1") : page.text.index("Notes")].strip()
    assert shown in [" ".join(told[:count]) for count in (1, 2, 3)]
    assert page.lines.index("Notes") - page.lines.index(next(x for x in page.lines if "Sentence 1" in x)) <= 2


@pytest.mark.parametrize(
    "week",
    [WEEK, LATE, many(12, alike=True, left=5), many(60)],
    ids=["three", "next year", "twelve", "sixty"],
)
@pytest.mark.parametrize("us", [True, False])
def test_it_is_black_on_white_with_empty_boxes_within_white_edges(week: Sheet, us: bool) -> None:
    page, scale = printed(week, us=us), 4.0
    pixels = page.pixels(scale)
    assert (pixels == pixels[:, :, :1]).all(), "something is coloured"
    grey = pixels[:, :, 0]
    rows, columns = (grey < 250).nonzero()
    height, width = grey.shape
    edge = 13.5 * MILLIMETRE * scale
    assert rows.min() > edge
    assert rows.max() < height - edge
    assert columns.min() > edge
    assert columns.max() < width - edge
    assert 0.01 < (grey < 128).mean() < 0.12, "the page is empty, or crowded"

    planned = sum(len(stop.items) for stop in week.stops)
    squares = page.squares()
    assert squares
    assert len(squares) == planned or len(week.stops[0].items) > 15
    for left, low, right, high in squares:
        assert right - left >= 4 * MILLIMETRE
        x1, x2 = round(left * scale), round(right * scale)
        y1, y2 = round(height - high * scale), round(height - low * scale)
        thick = 8
        assert (grey[y1 + thick : y2 - thick, x1 + thick : x2 - thick] == 255).all(), "a box is not empty"
        assert (grey[y1:y2, x1 - 3 * thick // 2 : x1 - thick] == 255).all(), "a date runs into a box"
        middle = grey[(y1 + y2) // 2, x1 - thick : x2 + thick]
        assert middle[: 2 * thick].min() < 60
        assert middle[-2 * thick :].min() < 60


NASTY = {
    "markup": "**bold** __under__ --struck-- <b>tag</b> \\ ( ) %",
    "controls": "a\x00b\x1b[31mc\u202ed\u200be\nf\tg",
    "emoji": "🌱 fern 👩‍🌾",
    "arabic": "نعناع",
    "surrogate": "half \ud83c pair",
    "marks": "e\u0301 z\u0351\u0489 a",
    "long": "Llanfair" * 60,
    "wide": "WWWWWWWWWW" * 200,
    "long words": " ".join(["incomprehensibilities"] * 80),
}


@pytest.mark.parametrize("name", NASTY.values(), ids=NASTY)
def test_no_name_runs_off_the_page_or_is_obeyed(name: str) -> None:
    bad = nudge("Water {} well", name, name, tools=(name, name), cautions=(name[:300],))
    one, two, three = item(1, bad, cost=1.0), item(2, bad, cost=0.5), item(3, nudge("Pot {}", name, "Why."))
    week = sheet(
        (name, [one, two, three]), left=(item(4, bad, cost=1.0, taken=0),), not_yet=(item(5, bad, taken=0),)
    )
    page = printed(week, garden=name)
    assert page.pages == 1
    grey = page.pixels(2.0)[:, :, 0]
    inked = (grey < 250).nonzero()[1]
    assert inked.min() > 13.5 * MILLIMETRE * 2
    assert inked.max() < grey.shape[1] - 13.5 * MILLIMETRE * 2


def test_markup_in_a_name_is_printed_as_it_is_typed() -> None:
    page = printed(sheet(("", [item(1, nudge("Pot {}", NASTY["markup"]))])))
    assert "".join(f"Pot {NASTY['markup']}".split()) in page.letters


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Ribes × nidigrolaria ‘Josta’ ½ – 5 °C", "Ribes × nidigrolaria ‘Josta’ ½ – 5 °C"),
        ("Žluťoučký kůň, Łódź, ștefan", "Žluťoučký kůň, Łódź, ștefan"),
        ("Δάφνη η ευγενής", "Δάφνη η ευγενής"),
        ("смородина, їжа, ђак", "смородина, їжа, ђак"),
        ("e\u0301glantine", "églantine"),
        ("Ｆｅｒｎ", "Fern"),
        ("梅 plum", "? plum"),
        ("a\u200bb\x1bc", "abc"),
    ],
)
def test_letters_come_back_as_typed_or_as_their_nearest(name: str, said: str) -> None:
    assert f"Pot {said}" in printed(sheet(("", [item(1, nudge("Pot {}", name))]))).text


@settings(max_examples=20, deadline=None)
@given(name=st.text(max_size=200), garden=st.text(max_size=80), count=st.integers(1, 6))
def test_any_names_make_one_page(name: str, garden: str, count: int) -> None:
    jobs = [item(n, nudge("Pot {}", name), cost=float(n % 2)) for n in range(1, count + 1)]
    page = printed(sheet((name, jobs)), garden=garden)
    assert page.pages == 1
    assert len(page.squares()) == count


def test_it_is_the_same_bytes_twice_and_in_another_run() -> None:
    assert page_of(WEEK, garden="Quarry Bank", today=FIRST, us=True) == printed(WEEK).pdf
    code = "from tests.exchange.test_paper import *; sys.stdout.buffer.write(printed(many(12, left=9)).pdf)"
    runs = [
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]
    assert runs[0] == runs[1]
    assert runs[0].startswith(b"%PDF-")


def test_the_document_says_what_it_is() -> None:
    reader = printed(WEEK).reader
    told = reader.metadata
    assert told is not None
    assert told.title == "Quarry Bank, Saturday 2 May to Friday 8 May 2026"
    assert told.creation_date is not None
    assert told.creation_date.date() == FIRST
    assert str(reader.root_object["/Lang"]) == "en"
    assert len(printed(many(60)).pdf) < 100_000


def test_days_of_two_years_and_one_day_alone_are_said_in_full() -> None:
    new_year = Sheet(first=date(2026, 12, 29), last=date(2027, 1, 4), stops=())
    assert "Tuesday 29 December 2026 to Monday 4 January 2027" in printed(new_year).text
    assert "Saturday 2 May 2026" in printed(Sheet(first=FIRST, last=FIRST, stops=())).text
    assert "by 30 Dec 27 1234 Pot" in printed(LATE).text
