"""The account of a year: every stem accounted for, and nothing said that the ledger does not carry."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.tally import tally
from cuttings.takes.year import Account
from cuttings.takes.year_kinds import ENOUGH_STEMS, best_and_worst
from cuttings.takes.year_worth import Prices
from cuttings.words import LIVING, Cause, Method, Stage, Wood
from tests.ledger.strategies import candidates
from tests.takes.gardens import BOX, CURRANT, IRIS, ROSEMARY, a_garden, accounted, booked, day, told


def a_full_year() -> Account:
    """Twenty rosemary cuttings and five pieces of iris, followed to whatever became of them."""
    story = a_garden()
    rosemary = story.strike(day("2026-08-02"), 20, Wood.SEMI_RIPE, where="kitchen windowsill", **ROSEMARY)
    story.check(day("2026-08-30"), rosemary, rooted=12, failed=3, not_yet=5)
    story.pot(day("2026-08-30"), rosemary, 11, "4in", 0.5, "kitchen windowsill", label="rosemary")
    story.move(e.Give, day("2026-09-02"), rosemary, 1, Stage.ROOTED, Stage.GIVEN, to="next door")
    story.lose(day("2026-09-10"), rosemary, 2, Stage.POTTED, Cause.DRIED)
    story.move(e.Sell, day("2026-09-12"), rosemary, 3, Stage.POTTED, Stage.SOLD, price=4.0)
    iris = story.begin(e.Divide, day("2026-04-20"), 5, method=Method.CROWN_DIVISION, **IRIS)
    story.plant(day("2026-04-21"), iris, Stage.ROOTED, "gate bed", spread_m=0.7, count=4)
    story.lose(day("2026-07-21"), iris, 1, Stage.PLANTED, Cause.EATEN)
    return told(story)


def test_a_year_tells_what_was_started_by_method_and_by_month() -> None:
    starts = a_full_year().starts
    assert (starts.whole.lots, starts.whole.stems) == (2, 25)
    by_method = {method: begun.stems for method, begun in starts.methods}
    assert by_method == {Method.SEMI_RIPE_CUTTING: 20, Method.CROWN_DIVISION: 5}
    assert list(by_method) == [Method.SEMI_RIPE_CUTTING, Method.CROWN_DIVISION]
    assert [begun.stems for begun in starts.months] == [0, 0, 0, 5, 0, 0, 0, 20, 0, 0, 0, 0]


def test_every_stem_is_where_the_entries_put_it() -> None:
    fates = a_full_year().fates
    assert fates.stages == {
        Stage.WAITING: 5, Stage.ROOTED: 1, Stage.POTTED: 6, Stage.PLANTED: 3, Stage.GIVEN: 1, Stage.SOLD: 3,
        Stage.LOST: 6,
    }  # fmt: skip
    assert sum(fates.stages.values()) == fates.started == 25
    assert (fates.rooted, fates.potted, fates.planted) == (12 + 5, 11, 4)
    assert fates.lost_at == {Stage.WAITING: 3, Stage.POTTED: 2, Stage.PLANTED: 1}
    assert fates.lost_of == {"failed": 3, "dried": 2, "eaten": 1}
    assert (fates.on_the_way, fates.passed_on) == (12, 4)


def test_stems_seen_black_or_soft_have_rotted() -> None:
    story = a_garden()
    lot = story.strike(day("2026-08-02"), 9, Wood.SEMI_RIPE, **ROSEMARY)
    story.check(day("2026-08-20"), lot, failed=4, not_yet=5, seen=("black or soft",))
    assert told(story).fates.lost_of == {"rot": 4}


def test_a_lot_that_was_split_was_started_once() -> None:
    story = a_garden()
    lot = story.strike(day("2026-06-02"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-07-02"), lot, rooted=6, not_yet=4)
    story.tell(e.Split, day("2026-07-03"), lot=lot, into="26-002",
               moves=(e.Move(count=4, source=Stage.ROOTED),))  # fmt: skip
    story.pot(day("2026-07-04"), "26-002", 4, "4in", 0.5, "bench")
    account = told(story)
    assert (account.starts.whole.lots, account.starts.whole.stems) == (1, 10)
    assert account.fates.stages == {Stage.WAITING: 4, Stage.ROOTED: 2, Stage.POTTED: 4}
    assert (account.fates.rooted, account.fates.potted) == (6, 4)


def test_the_year_before_is_told_whole_and_by_the_same_day() -> None:
    story = a_garden("2026-06-30")
    story.strike(day("2025-05-20"), 8, Wood.SOFTWOOD, **BOX)
    story.strike(day("2025-08-20"), 12, Wood.SEMI_RIPE, **BOX)
    story.strike(day("2026-05-20"), 5, Wood.SOFTWOOD, **BOX)
    before = told(story).before
    assert before is not None
    assert (before.year, before.starts.whole.stems, before.by_now.stems) == (2025, 20, 8)
    over = told(story, 2025)
    assert over.before is None
    assert over.is_over


def test_what_happened_in_the_year_to_older_lots_is_kept_apart() -> None:
    story = a_garden()
    old = story.strike(day("2025-06-02"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2025-08-02"), old, rooted=8, failed=2)
    story.pot(day("2025-08-02"), old, 8, "4in", 0.5, "bench", label="box")
    story.plant(day("2026-05-02"), old, Stage.POTTED, "gate bed", spread_m=1.0, count=5)
    story.lose(day("2026-06-02"), old, 1, Stage.POTTED, Cause.EATEN)
    account = told(story)
    assert account.starts.whole.stems == account.fates.started == 0
    assert (account.older.lots, account.older.rooted) == (1, 0)
    assert (account.older.planted, account.older.lost) == (5, 1)
    assert [(each.site, each.planted) for each in account.filled] == [("gate bed", 5)]
    assert told(story, 2025).older.lots == 0


def test_a_site_tells_what_still_stands_of_what_was_planted() -> None:
    (filled,) = a_full_year().filled
    (placed,) = filled.placed
    assert (filled.site, filled.area) == ("gate bed", "gate strip")
    assert (placed.called, placed.planted, placed.standing) == ("Siberian iris", 4, 3)


def test_what_was_planted_there_before_or_after_is_another_year() -> None:
    story = a_garden("2027-12-31")
    for year in (2025, 2026, 2027):
        lot = story.begin(e.Divide, day(f"{year}-04-20"), year - 2023, method=Method.CROWN_DIVISION, **IRIS)
        planted = day(f"{year}-04-21")
        story.plant(planted, lot, Stage.ROOTED, "gate bed", spread_m=0.7, count=year - 2023)
    for year in (2025, 2026, 2027):
        (filled,) = told(story, year).filled
        assert [(each.planted, each.standing) for each in filled.placed] == [(year - 2023, year - 2023)]


def test_it_is_told_to_whom_stems_went_only_as_the_ledger_says() -> None:
    account = a_full_year()
    assert [(each.count, each.to) for each in account.given] == [(1, "next door")]
    assert [(each.count, each.to, each.price) for each in account.sold] == [(3, "", 4.0)]


def test_the_account_is_as_of_its_day() -> None:
    book = booked(_looked_at_twice())
    first = accounted(book, day("2026-08-31"), 2026)
    later = accounted(book, day("2026-12-31"), 2026)
    assert first.fates.stages == {Stage.WAITING: 5, Stage.ROOTED: 5}
    assert later.fates.stages == {Stage.ROOTED: 9, Stage.LOST: 1}


def _looked_at_twice() -> Story:
    story = a_garden()
    lot = story.strike(day("2026-08-02"), 10, Wood.SEMI_RIPE, **ROSEMARY)
    story.check(day("2026-08-30"), lot, rooted=5, not_yet=5)
    story.check(day("2026-09-30"), lot, rooted=4, failed=1)
    return story


def test_only_kinds_with_enough_stems_are_best_or_worst() -> None:
    story = a_garden()
    for count, rooted, plant in (
        *[(10, 10, BOX)] * 3,
        *[(10, 1, ROSEMARY)] * 3,
        (ENOUGH_STEMS - 1, ENOUGH_STEMS - 1, CURRANT),
    ):
        lot = story.strike(day("2026-06-02"), count, Wood.SOFTWOOD, **plant)
        story.check(day("2026-08-02"), lot, rooted=rooted, failed=count - rooted)
    named = best_and_worst(told(story).kinds)
    assert named is not None
    best, worst = named
    assert (best.called, worst.called) == ("box", "rosemary")
    assert (best.took, best.ended, worst.took, worst.ended) == (30, 30, 3, 30)


def test_one_kind_alone_is_neither_best_nor_worst() -> None:
    assert best_and_worst(told(_looked_at_twice()).kinds) is None
    assert best_and_worst(()) is None


def test_kinds_that_hardly_differ_are_neither_best_nor_worst() -> None:
    story = a_garden()
    for count, rooted, plant in ((12, 5, ROSEMARY), (20, 9, BOX)):
        lot = story.strike(day("2026-06-02"), count, Wood.SOFTWOOD, **plant)
        story.check(day("2026-08-02"), lot, rooted=rooted, failed=count - rooted)
    assert all(kind.is_enough for kind in told(story).kinds)
    assert best_and_worst(told(story).kinds) is None


def test_a_lot_that_still_waits_is_not_counted_as_taken() -> None:
    story = a_garden()
    lot = story.strike(day("2026-08-02"), 30, Wood.SEMI_RIPE, **ROSEMARY)
    story.check(day("2026-08-30"), lot, rooted=25, failed=1, not_yet=4)
    (kind,) = told(story).kinds
    assert (kind.took, kind.failed, kind.undecided) == (0, 0, 30)
    assert kind.share.mean == pytest.approx(kind.share.figure.mean, abs=0.01)
    assert not kind.is_enough


def test_pieces_took_when_they_went_on_alive() -> None:
    story = a_garden()
    iris = story.begin(e.Divide, day("2026-04-20"), 12, method=Method.CROWN_DIVISION, **IRIS)
    story.plant(day("2026-04-21"), iris, Stage.ROOTED, "gate bed", spread_m=0.7, count=9)
    story.lose(day("2026-05-21"), iris, 3, Stage.ROOTED, Cause.DRIED)
    (kind,) = told(story).kinds
    assert (kind.took, kind.failed, kind.undecided) == (9, 3, 0)


def test_an_empty_year_names_the_years_there_are() -> None:
    story = a_garden()
    story.strike(day("2024-08-02"), 10, Wood.SEMI_RIPE, **ROSEMARY)
    story.strike(day("2026-08-02"), 10, Wood.SEMI_RIPE, **ROSEMARY)
    assert told(story, 2025).is_empty
    assert told(story, 2025).years == (2024, 2026)
    assert not told(story, 2026).is_empty
    assert told(a_garden(), 2026).years == ()


def test_only_the_lots_asked_for_are_reckoned_with() -> None:
    story = a_garden()
    story.strike(day("2026-08-02"), 10, Wood.SEMI_RIPE, **ROSEMARY)
    story.strike(day("2026-08-02"), 7, Wood.SEMI_RIPE, **BOX)
    assert told(story, only=lambda lot: lot.called == "box").starts.whole.stems == 7


def test_a_sale_counts_at_its_own_price_before_the_one_given() -> None:
    story = a_garden()
    lot = story.begin(e.Divide, day("2026-04-20"), 9, method=Method.CROWN_DIVISION, **IRIS)
    story.move(e.Sell, day("2026-05-01"), lot, 2, Stage.ROOTED, Stage.SOLD, price=4.1)
    story.move(e.Sell, day("2026-05-02"), lot, 3, Stage.ROOTED, Stage.SOLD)
    story.move(e.Give, day("2026-05-03"), lot, 1, Stage.ROOTED, Stage.GIVEN)
    worth = told(story, prices=Prices(of_plant={"Iris sibirica": Decimal("3.30")})).worth
    assert worth is not None
    assert worth.value_sold == Decimal("8.2") + 3 * Decimal("3.30")
    assert worth.value == worth.value_sold + Decimal("3.30")
    assert (worth.sold, worth.given, worth.unpriced) == (5, 1, 0)
    unasked = told(story).worth
    assert unasked is not None
    assert (unasked.value, unasked.unpriced) == (Decimal("8.2"), 4)


def test_nothing_is_worth_anything_until_somebody_names_a_price() -> None:
    story = a_garden()
    lot = story.begin(e.Divide, day("2026-04-20"), 9, method=Method.CROWN_DIVISION, **IRIS)
    story.move(e.Give, day("2026-05-03"), lot, 4, Stage.ROOTED, Stage.GIVEN)
    assert told(story).worth is None
    other = told(story, prices=Prices(of_plant={"Buxus sempervirens": Decimal(6)})).worth
    assert other is not None
    assert (other.value, other.unpriced) == (Decimal(0), 4)
    priced = told(story, prices=Prices(any_plant=Decimal("2.5"))).worth
    assert priced is not None
    assert priced.value == Decimal(10)


def holds_together(account: Account) -> None:
    """Whatever was written down: all parts come to what was started."""
    fates = account.fates
    assert sum(fates.stages.values()) == fates.started == account.starts.whole.stems
    assert sum(begun.stems for _, begun in account.starts.methods) == fates.started
    assert sum(begun.stems for begun in account.starts.months) == fates.started
    assert sum(begun.lots for begun in account.starts.months) == account.starts.whole.lots
    lost = fates.at(Stage.LOST)
    assert sum(fates.lost_at.values()) == sum(fates.lost_of.values()) == lost
    assert fates.on_the_way + fates.at(Stage.PLANTED) + fates.passed_on + lost == fates.started
    assert fates.planted - fates.lost_at.get(Stage.PLANTED, 0) == fates.at(Stage.PLANTED)
    assert fates.at(Stage.WAITING) <= fates.started - fates.rooted
    assert sum(kind.fates.started for kind in account.kinds) == fates.started
    for stage in Stage:
        assert sum(kind.fates.at(stage) for kind in account.kinds) == fates.at(stage)
    for kind in account.kinds:
        low, high = kind.share.interval()
        assert 0 <= low <= kind.share.mean <= high <= 1
        assert kind.ended + kind.undecided <= kind.fates.started
    for filled in account.filled:
        assert all(0 <= each.standing <= each.planted for each in filled.placed)
    stems = [lesson.stems for lesson in account.lessons]
    assert stems == sorted(stems, reverse=True)
    assert all(stems)


@given(candidates(), st.sampled_from(["2026-04-20", "2026-07-01", "2027-03-01"]))
def test_every_stem_is_accounted_for_whatever_was_written_down(entries: list[e.Entry], on: str) -> None:
    book = fold(entries).as_of(day(on))
    account = accounted(book, day(on), 2026)
    holds_together(account)
    counted = tally(book)
    assert counted.started == account.fates.started
    assert {stage: count for stage, count in counted.stages.items() if count} == account.fates.stages


@pytest.mark.parametrize("year", [2024, 2025, 2026])
def test_the_demo_garden_holds_together_in_every_year(year: int) -> None:
    today = day("2026-11-26")
    account = accounted(fold(quarry_bank(today)), today, year)
    holds_together(account)
    assert account.fates.started > 20
    assert account.fates.on_the_way == sum(account.fates.at(stage) for stage in LIVING)
