"""Lots are a pure fold of entries: counted like money, refused when they do not fit."""

from datetime import date, datetime

import pytest

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Garden, Site
from cuttings.ledger.tally import tally
from cuttings.words import Cause, Drainage, Light, Method, Stage, Units
from tests.ledger.making import MAY, found, made, moved


def book_of(*entries: e.Entry) -> Book:
    """A book in which every entry has been accepted in turn."""
    book = Book()
    for entry in entries:
        book = book.accept([entry])
    return book


def lot_of(*entries: e.Entry) -> Lot:
    return book_of(*entries).lots["26-001"]


def checked(rooted: int = 3, on: date = MAY) -> e.Check:
    return moved(e.Check, rooted, Stage.WAITING, Stage.ROOTED, on=on)


def potted(count: int = 3) -> e.Pot:
    return moved(e.Pot, count, Stage.ROOTED, Stage.POTTED, pot="4in")


def site(name: str = "kitchen bed") -> e.SiteFacts:
    place = Site(name=name, area="kitchen side", light=Light.FULL_SUN, drainage=Drainage.GOOD)
    return made(e.SiteFacts, site=place)


def test_a_lot_stands_at_several_stages_at_once() -> None:
    lot = lot_of(
        found(count=12),
        checked(9),
        potted(7),
        moved(e.Lose, 2, Stage.ROOTED, Stage.LOST, cause=Cause.ROT),
    )
    assert lot.stages == {Stage.WAITING: 3, Stage.POTTED: 7, Stage.LOST: 2}
    assert lot.started == 12
    assert lot.living == 10


def test_a_count_the_lot_does_not_hold_is_refused_with_what_it_holds() -> None:
    with pytest.raises(Refused, match="26-001 holds 1 rooted and 2 waiting, so 2 cannot come out of rooted"):
        lot_of(found(), checked(1), potted(2))


def test_a_move_the_stage_order_does_not_allow_is_refused() -> None:
    with pytest.raises(Refused, match="waiting stems cannot become potted"):
        lot_of(found(), moved(e.Pot, 1, Stage.WAITING, Stage.POTTED, pot="4in"))


def test_what_has_left_cannot_come_back() -> None:
    with pytest.raises(Refused, match="given stems cannot become lost"):
        lot_of(
            found(), moved(e.Give, 1, Stage.WAITING, Stage.GIVEN), moved(e.Lose, 1, Stage.GIVEN, Stage.LOST)
        )


def test_an_entry_about_an_unknown_lot_is_refused() -> None:
    with pytest.raises(Refused, match="There is no lot 26-009"):
        book_of(moved(e.Give, 1, Stage.WAITING, Stage.GIVEN, lot="26-009"))


def test_an_entry_from_before_the_lot_began_is_refused() -> None:
    with pytest.raises(Refused, match="no lot 26-001 on 1 April"):
        lot_of(found(), checked(on=date(2026, 4, 1)))


def test_a_past_entry_sorts_where_it_belongs() -> None:
    book = book_of(found(), checked(2, on=date(2026, 6, 10)), checked(1, on=date(2026, 6, 1)))
    assert [entry.on.day for entry in book.lots["26-001"].entries] == [1, 1, 10]


def test_a_past_entry_that_would_starve_a_later_one_is_refused() -> None:
    entries = (found(), checked(3, on=date(2026, 6, 10)))
    past = moved(e.Lose, 1, Stage.WAITING, Stage.LOST, on=date(2026, 6, 1))
    with pytest.raises(Refused, match="The check entry of 10 June 2026 would no longer fit"):
        book_of(*entries, past)


def test_a_reversal_takes_an_entry_back() -> None:
    start, check = found(), checked(2)
    assert lot_of(start, check, made(e.Reverse, target=check.id)).stages == {Stage.WAITING: 3}


def test_a_reversal_can_itself_be_reversed() -> None:
    start, check = found(), checked(2)
    back = made(e.Reverse, target=check.id)
    lot = lot_of(start, check, back, made(e.Reverse, target=back.id))
    assert lot.stages == {Stage.WAITING: 1, Stage.ROOTED: 2}


def test_what_later_entries_rest_on_cannot_be_taken_back() -> None:
    start, check = found(), checked()
    with pytest.raises(Refused, match="The pot entry of 1 May 2026 would no longer fit"):
        lot_of(start, check, potted(), made(e.Reverse, target=check.id))


def test_a_reversal_of_nothing_is_refused() -> None:
    with pytest.raises(Refused, match="There is no entry"):
        book_of(made(e.Reverse, target="20260101-000000000-0000000000"))


def test_part_of_a_lot_goes_on_under_its_own_code_and_both_balance() -> None:
    book = book_of(found(), checked(2), moved(e.Split, 2, Stage.ROOTED, None, into="26-002"))
    assert (book.lots["26-001"].started, book.lots["26-002"].started) == (1, 2)
    assert book.lots["26-002"].stages == {Stage.ROOTED: 2}
    assert book.lots["26-002"].method is Method.SIMPLE_LAYER
    assert tally(book).balanced


def test_planting_fills_the_site_and_a_death_frees_it() -> None:
    beginning = (site(), found(), checked())
    plant = moved(
        e.Plant, 2, Stage.ROOTED, Stage.PLANTED, site="kitchen bed", at=((1.0, 0.5), (2.0, 0.5)), spread_m=1.2
    )
    book = book_of(*beginning, plant)
    assert [(p.x, p.lot) for p in book.sites["kitchen bed"].growing] == [(1.0, "26-001"), (2.0, "26-001")]
    book = book.accept([moved(e.Lose, 1, Stage.PLANTED, Stage.LOST, cause=Cause.FROST)])
    assert [p.x for p in book.sites["kitchen bed"].growing] == [1.0]


def test_planting_on_an_unknown_site_is_refused() -> None:
    with pytest.raises(Refused, match="There is no site called moon"):
        book_of(found(), checked(), moved(e.Plant, 1, Stage.ROOTED, Stage.PLANTED, site="moon"))


def test_a_held_spot_ends_with_the_planting() -> None:
    beginning = (site(), found(), checked())
    hold = made(
        e.HoldSpot,
        lot="26-001",
        site="kitchen bed",
        spot="kitchen-bed@1.00,0.50",
        at=(1.0, 0.5),
        radius_m=0.6,
    )
    book = book_of(*beginning, hold)
    assert list(book.holds) == ["kitchen-bed@1.00,0.50"]
    plant = moved(
        e.Plant,
        1,
        Stage.ROOTED,
        Stage.PLANTED,
        site="kitchen bed",
        at=((1.0, 0.5),),
        spots=("kitchen-bed@1.00,0.50",),
    )
    assert not book.accept([plant]).holds


def test_a_described_site_keeps_what_grows_there() -> None:
    book = book_of(
        site(), made(e.GrowingHere, site="kitchen bed", plant="Iris sibirica", at=(1.0, 1.0)), site()
    )
    assert len(book.sites["kitchen bed"].growing) == 1


def test_a_plant_thinned_without_its_position_is_one_that_was_never_measured() -> None:
    def iris(at: tuple[float, float] | None) -> e.GrowingHere:
        return made(e.GrowingHere, site="kitchen bed", plant="Iris sibirica", at=at)

    def thinned(at: tuple[float, float] | None) -> e.Thinned:
        return made(e.Thinned, site="kitchen bed", plant="Iris sibirica", at=at)

    book = book_of(site(), iris((1.0, 1.0)), iris(None), iris((2.0, 1.0)), thinned(None))
    assert [each.x for each in book.sites["kitchen bed"].growing] == [1.0, 2.0]
    left = book.accept([thinned((2.0, 1.0))])
    assert [each.x for each in left.sites["kitchen bed"].growing] == [1.0]
    with pytest.raises(Refused, match="No Iris sibirica that came from no lot grows there"):
        left.accept([thinned((2.0, 1.0))])


def test_codes_run_by_year_and_are_never_used_twice() -> None:
    first = found()
    book = book_of(first, made(e.Reverse, target=first.id))
    assert not book.lots
    assert book.next_code(MAY) == "26-002"
    assert book.next_code(date(2027, 1, 1)) == "27-001"
    assert book.next_code(MAY, "M") == "M26-001"


def test_areas_are_named_once_whatever_their_case() -> None:
    garden = made(
        e.GardenFacts,
        garden=Garden(name="Quarry Bank", lat=42.9, lon=-76.1, elevation_m=330.0, units=Units.US),
        areas=("Kitchen side",),
    )
    assert book_of(garden, site()).areas == ("Kitchen side",)


def test_one_bad_entry_does_not_hide_the_others() -> None:
    book = fold([found(), potted(9), checked(1)])
    assert book.lots["26-001"].stages == {Stage.WAITING: 2, Stage.ROOTED: 1}
    result = tally(book)
    assert not result.balanced
    assert [problem.lot for problem in result.broken] == ["26-001"]


def test_the_tally_counts_every_stage() -> None:
    result = tally(book_of(found(), found("26-002", 4), checked(2)))
    assert (result.lots, result.started) == (2, 7)
    assert result.stages[Stage.WAITING] == 5
    assert result.balanced


def test_a_moment_is_no_date() -> None:
    with pytest.raises(TypeError, match="must be a date"):
        made(e.Note, lot="26-001", on=datetime(2026, 5, 1, 12))


def test_a_planting_under_an_earlier_day_ends_a_hold_made_since() -> None:
    beginning = (site(), found(), checked())
    hold = made(
        e.HoldSpot,
        on=date(2026, 9, 12),
        lot="26-001",
        site="kitchen bed",
        spot="kitchen-bed@1.00,0.50",
        at=(1.0, 0.5),
        radius_m=0.6,
    )
    plant = moved(
        e.Plant, 1, Stage.ROOTED, Stage.PLANTED, on=date(2026, 9, 5), site="kitchen bed", at=((1.0, 0.5),),
        spots=("kitchen-bed@1.00,0.50",),
    )  # fmt: skip
    book = book_of(*beginning, hold, plant)
    assert not book.holds
    assert len(book.sites["kitchen bed"].growing) == 1


def test_a_site_described_today_holds_for_what_was_planted_before() -> None:
    beginning = (found(), checked())
    later = made(e.SiteFacts, on=date(2026, 11, 25), site=Site(name="kitchen bed", area="kitchen side"))
    plant = moved(e.Plant, 1, Stage.ROOTED, Stage.PLANTED, on=date(2026, 9, 5), site="kitchen bed")
    book = book_of(*beginning, later, plant)
    assert book.sites["kitchen bed"].growing[0].lot == "26-001"


def test_areas_named_twice_in_one_breath_are_one() -> None:
    garden = made(
        e.GardenFacts,
        garden=Garden(name="Quarry Bank", lat=42.9, lon=-76.1, units=Units.US),
        areas=("North wall", "north wall"),
    )
    assert book_of(garden).areas == ("North wall",)
