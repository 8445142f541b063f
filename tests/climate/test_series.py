"""The compact form of a station's readings: what is put away comes back, and damage is seen."""

import json
from datetime import date, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cuttings.climate.series import MISSING, VERSION, Series

READINGS = st.integers(-32768, 32767) | st.just(MISSING) | st.integers(-400, 450)


@st.composite
def series(draw: st.DrawFn) -> Series:
    days = draw(st.integers(1, 400))
    columns = [draw(arrays(np.int16, days, elements=READINGS, fill=READINGS)) for _ in range(3)]
    first = draw(st.dates(date(1700, 1, 1), date(2199, 12, 31)))
    return Series(draw(st.text(max_size=20)), first, *columns)


def small(days: int = 400) -> Series:
    wave = (100 * np.sin(np.arange(days) / 58)).astype(np.int16)
    return Series("XX000000001", date(2024, 2, 27), wave - np.int16(50), wave + np.int16(50), abs(wave))


@given(series())
def test_what_is_put_away_comes_back(given_series: Series) -> None:
    back = Series.from_bytes(given_series.to_bytes())
    assert (back.station, back.first, back.last) == (
        given_series.station,
        given_series.first,
        given_series.last,
    )
    for name in ("tmin", "tmax", "rain"):
        np.testing.assert_array_equal(getattr(back, name), getattr(given_series, name))


@given(st.data())
def test_a_changed_byte_is_seen(data: st.DataObject) -> None:
    stored = small().to_bytes()
    at = data.draw(st.integers(0, len(stored) - 1))
    changed = bytearray(stored)
    changed[at] ^= data.draw(st.integers(1, 255))
    try:
        back = Series.from_bytes(bytes(changed))
    except ValueError as error:
        assert str(error).startswith("The stored climate series ")  # noqa: PT017
    else:  # a blank of the first line, read the same way
        assert back.to_bytes() == stored


@given(st.integers(0, 10_000))
def test_a_piece_of_it_is_refused(length: int) -> None:
    stored = small().to_bytes()
    with pytest.raises(ValueError, match="damaged"):
        Series.from_bytes(stored[: length % len(stored)])


@given(st.binary(max_size=200))
def test_what_is_no_series_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="The stored climate series is damaged"):
        Series.from_bytes(content)


def test_a_newer_form_is_refused_with_what_to_do() -> None:
    line, _, packed = small().to_bytes().partition(b"\n")
    newer = json.dumps({**json.loads(line), "series": VERSION + 1}).encode()
    with pytest.raises(ValueError, match="newer version of this program; update the program"):
        Series.from_bytes(newer + b"\n" + packed)


def test_the_days_run_from_the_first_to_the_last_both_included() -> None:
    assert small(1).last == small(1).first
    assert small(3).last == date(2024, 2, 29)
    assert small().first + timedelta(days=small().days - 1) == small().last


def test_thirty_years_take_less_than_half_of_the_bare_readings() -> None:
    days = 10_958
    rng = np.random.default_rng(1)
    tmin = np.rint(100 - 130 * np.cos(np.arange(days) / 58.1) + rng.normal(0, 40, days)).astype(np.int16)
    kept = Series("XX000000001", date(1996, 1, 1), tmin, tmin + np.int16(110), np.zeros(days, np.int16))
    assert len(kept.to_bytes()) < 0.5 * 3 * 2 * days


def test_nobody_can_write_into_a_series() -> None:
    own = np.zeros(3, dtype=np.int16)
    kept = Series("", date(2024, 1, 1), own, own, own)
    own[0] = 7
    assert kept.tmin[0] == 0
    with pytest.raises(ValueError, match="read-only"):
        kept.tmin[0] = 7


def test_readings_of_unlike_length_or_of_no_day_are_no_series() -> None:
    two, three, none = (np.zeros(size, dtype=np.int16) for size in (2, 3, 0))
    with pytest.raises(ValueError, match="for each of its days"):
        Series("", date(2024, 1, 1), two, three, two)
    with pytest.raises(ValueError, match="for each of its days"):
        Series("", date(2024, 1, 1), none, none, none)


def test_an_instant_is_no_first_day() -> None:
    one = np.zeros(1, dtype=np.int16)
    with pytest.raises(TypeError, match="begins on a day"):
        Series("", datetime(2024, 1, 1), one, one, one)
