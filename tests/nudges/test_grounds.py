"""Sites that crowd, spots held too long, missing labels, and pots got ready."""

from datetime import date, timedelta

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.nudges.grounds import Crowding, crowded, grounds, moving_time
from cuttings.nudges.model import NO_LOSS, Nudge
from cuttings.plants.standard import standard
from cuttings.words import Cause, Cover, Method, Stage, Wood
from tests.nudges.gardens import COLD, book_of, garden, week_from, weeks_of

CURRANT = {"plant": "Ribes rubrum", "called": "red currant"}


def said(story: Story, first: date) -> dict[str, Nudge]:
    first, last = week_from(first)
    return {nudge.id: nudge for nudge in grounds(book_of(story, first), standard(), COLD, first, last)}


def potted(story: Story, on: date, label: str = "") -> str:
    lot = story.begin(e.Find, on, 3, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.pot(on, lot, 3, "4in", 0.5, "holding bench", label=label)
    return lot


def crowding(year: int = 2027, name: str = "Iris sibirica", site: str = "fruit row") -> Crowding:
    return Crowding(
        site=site,
        area="kitchen side",
        plants=(name, "Ribes rubrum"),
        year=year,
        remedy=f"Divide {name} and replant the pieces further off.",
        window=moving_time(standard().plant("Iris sibirica"), COLD, date(2026, 7, 15)),
    )


def test_one_crowd_a_site_is_spoken_of_when_plants_are_moved() -> None:
    crowds = [crowding(2028), crowding(2027), crowding(2027, site="gate bed")]
    sheets = [(first, crowded(crowds, first, last)) for first, last in weeks_of(date(2026, 6, 6), 52)]
    spoken = [(first, found) for first, found in sheets if found]
    assert 1 <= len(spoken) <= 2
    first, found = spoken[0]
    assert [nudge.site for nudge in found] == ["fruit row", "gate bed"]
    assert found[0].what == (
        "Make room on the fruit row: Iris sibirica and Ribes rubrum grow into one another by 2027. "
        "Divide Iris sibirica and replant the pieces further off."
    )
    assert found[0].loss == NO_LOSS
    assert any("pipes and cables" in caution for caution in found[0].cautions)
    assert 8 <= first.month <= 10


def test_what_crowds_in_many_years_is_no_work_for_this_one() -> None:
    window = crowding().window
    assert not crowded([crowding(2035)], window.best[0], window.best[0])


def held(story: Story, on: date, lot: str) -> None:
    story.tell(e.HoldSpot, on, spot="S1", lot=lot, site="fruit row", at=(2.0, 1.0), radius_m=0.6)


def test_a_spot_of_a_lot_that_is_gone_is_let_go_by_itself() -> None:
    story = garden()
    lot = potted(story, date(2026, 5, 1), "currant")
    held(story, date(2026, 5, 2), lot)
    story.lose(date(2026, 6, 10), lot, 3, Stage.POTTED, Cause.DRIED)
    assert not book_of(story, date(2027, 6, 13)).holds
    assert not [first for first, _ in weeks_of(date(2026, 6, 13), 80) if "hold:S1" in said(story, first)]


def test_a_spot_held_for_over_a_year_is_asked_about_outside_planting_time_only() -> None:
    story = garden()
    lot = potted(story, date(2026, 5, 1), "currant")
    held(story, date(2026, 5, 2), lot)
    days = [first for first, _ in weeks_of(date(2026, 5, 9), 104) if "hold:S1" in said(story, first)]
    assert days
    assert min(days) > date(2027, 4, 25)
    assert len(days) <= 8
    assert not [day for day in days if day.month == 9]  # its own nudge says "plant"
    assert said(story, days[0])["hold:S1"].what == (
        "Plant 26-001 red currant at its held spot on the fruit row when its season comes, or let the spot "
        "go: 'cuttings spot --release S1'"
    )


def test_pots_without_a_label_want_one_and_it_says_what_to_write() -> None:
    story = garden()
    lot = potted(story, date(2026, 6, 1))
    potted(story, date(2026, 6, 1), "labelled")
    nudge = said(story, date(2026, 6, 3))["area:holding bench:labels"]
    assert nudge.what == f"Write labels for {lot} red currant"
    assert "Ribes rubrum / 26-001 simple layer / 1 June 2026" in nudge.window.why
    assert (nudge.minutes, nudge.every, nudge.loss) == (4, 28, NO_LOSS)
    assert set(nudge.tools) == {"labels", "pencil"}


def test_labels_are_asked_for_in_rounds_and_not_for_ever() -> None:
    story = garden()
    potted(story, date(2026, 6, 1))
    key = "area:holding bench:labels"
    sheets = [first for first, _ in weeks_of(date(2026, 6, 3), 52) if key in said(story, first)]
    assert 3 <= len(sheets) <= 6
    assert max(sheets) < date(2026, 9, 1)


def cuttings_due(story: Story) -> str:
    return story.strike(
        date(2026, 6, 10), 9, Wood.SOFTWOOD, cover=Cover.BAG, where="holding bench",
        plant="Forsythia × intermedia", called="forsythia",
    )  # fmt: skip


def test_pots_and_mix_are_got_ready_before_the_roots_are_there() -> None:
    story = garden()
    lot = cuttings_due(story)
    found = [said(story, first) for first, _ in weeks_of(date(2026, 6, 13), 16)]
    pots = [nudge for sheet in found for key, nudge in sheet.items() if key.startswith("garden:pots")]
    assert 1 <= len(pots) <= 3
    assert len({nudge.id for nudge in pots}) <= 2
    assert pots[0].what == f"Have 7 pots (4in) ready for {lot} forsythia, and mix"
    assert "Mix: potting." in pots[0].window.why
    assert any("Legionella" in caution for caution in pots[0].cautions)


def test_no_pots_are_asked_for_in_the_depth_of_winter() -> None:
    story = garden()
    story.strike(date(2026, 11, 10), 12, Wood.HARDWOOD, where="kitchen side", **CURRANT)
    for first, _ in weeks_of(date(2026, 11, 14), 12):
        assert not [key for key in said(story, first) if key.startswith("garden:pots")]


def test_nothing_is_said_in_an_empty_garden() -> None:
    story = garden()
    for first, _ in weeks_of(date(2026, 1, 3), 52):
        assert not said(story, first)


def test_the_first_day_of_a_month_is_on_one_sheet_only() -> None:
    story = garden()
    cuttings_due(story)
    days = [date(2026, 6, 13) + timedelta(days=n) for n in range(40)]
    ids = {key for day in days for key in said(story, day) if key.startswith("garden:pots")}
    assert ids <= {"garden:pots:2026-07", "garden:pots:2026-08"}
