"""What a keeper may tell of a plant: for each fact its option, how it is asked for, and how it is read."""

import re
from collections.abc import Callable
from typing import Any, TypeVar

from attrs import frozen

from cuttings.ask import Question
from cuttings.commands.parsing import maybe, one_of, words, yes_no
from cuttings.dates import parse_month
from cuttings.plants.fields import BLOOM, PLANT, WAY, Check
from cuttings.units import parse_length
from cuttings.words import Drainage, Light, Moisture, Units

T = TypeVar("T")
_TO = re.compile(r"\s*(?:\bto\b|-|\u2013)\s*")


def _list_of(parse: Callable[[str], T]) -> Callable[[str], list[T]]:
    """Several words with commas between them."""
    return lambda text: [parse(part) for part in text.split(",") if part.strip()]


def _span_of(parse: Callable[[str], Any]) -> Callable[[str], list[Any]]:
    """``4-8``, ``1m to 1.5m``; one value alone stands for both ends."""

    def read(text: str) -> list[Any]:
        ends = _TO.split(text.strip())
        if len(ends) > 2 or not all(ends):
            raise ValueError(f"'{text}' is not one value, or a low and a high such as 4-8.")
        return [parse(ends[0]), parse(ends[-1])]

    return read


def _lengths(units: Units) -> Callable[[str], list[float]]:
    """A span of lengths; the unit may stand at the end alone: ``60-90cm``."""

    def read(text: str) -> list[float]:
        ends = _TO.split(text.strip())
        unit = re.sub(r"^[\d.,\s]+", "", ends[-1])
        whole = " to ".join(end if re.search(r"[a-z\"']", end, re.IGNORECASE) else end + unit for end in ends)
        return _span_of(lambda part: parse_length(part, units))(whole)

    return read


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise ValueError(f"'{text}' is not a number.") from None


def _whole(text: str) -> int:
    number = _number(text)
    if number != int(number):
        raise ValueError(f"'{text}' is not a whole number.")
    return int(number)


def _share(text: str) -> float:
    """A share, as ``0.7`` or ``70%``."""
    number = _number(text.removesuffix("%"))
    return number / 100 if number > 1 or text.endswith("%") else number


def _months(text: str) -> list[int]:
    """``11-2``, ``apr, sep-oct``."""
    found: list[int] = []
    for part in text.split(","):
        first, last = _span_of(parse_month)(part)
        run = [first]
        while run[-1] != last:
            run.append(run[-1] % 12 + 1)
        found += [month for month in run if month not in found]
    return found


@frozen
class Fact:
    """A field of a plant record that may be told: its option, how it is asked for, and how it is read.

    Of a new plant only what is ``wanted`` is asked; the options tell the rest, now or with ``amend`` later.
    """

    field: str
    option: str
    prompt: str
    allowed: str
    read: Callable[[str, Units], Any]
    check: Check
    wanted: bool = False

    def question(self, units: Units) -> Question[Any]:
        def read(text: str) -> Any:
            value = self.read(text, units)
            if wrong := self.check(value):
                raise ValueError(f"{wrong}.")
            return value

        prompt = f"{self.prompt}? ({self.allowed}; Enter to skip)"
        return Question(self.option, prompt, maybe(read), default="", allowed=self.allowed)


def _span_of_lengths(text: str, units: Units) -> list[float]:
    return _lengths(units)(text)


def _fact(
    field: str,
    prompt: str,
    allowed: str,
    read: Callable[[str], Any],
    option: str = "",
    *,
    wanted: bool = False,
) -> Fact:
    check = (
        {"bloom": BLOOM["months"], "cautions": WAY["prepare"]}.get(field) or PLANT.get(field) or WAY[field]
    )
    return Fact(
        field, option or field.replace("_", "-"), prompt, allowed, lambda t, _: read(t), check, wanted
    )


def _length_fact(field: str, prompt: str, example: str, *, wanted: bool = False) -> Fact:
    check = PLANT.get(field) or WAY[field]
    return Fact(
        field, field.removesuffix("_m"), prompt, f"such as {example}", _span_of_lengths, check, wanted
    )


PLANT_FACTS = (
    _fact("common", "What do people call it", "names, commas between", _list_of(words), wanted=True),
    _fact("synonyms", "Older botanical names", "names, commas between", _list_of(words), "synonym"),
    _fact("zones", "Hardy in which zones", "such as 4-8", _span_of(_whole), wanted=True),
    _length_fact("height_m", "How tall does it grow", "3-5ft", wanted=True),
    _length_fact("spread_m", "How wide does it grow", "3-5ft", wanted=True),
    _length_fact("spacing_m", "How far apart is it planted", "2-3ft"),
    _fact("light", "In what light", "|".join(Light), _list_of(one_of(Light)), wanted=True),
    _fact("moisture", "How wet a ground", "|".join(Moisture), _list_of(one_of(Moisture)), wanted=True),
    _fact("drainage", "What drainage", "|".join(Drainage), _list_of(one_of(Drainage))),
    _fact("ph", "Soil pH", "such as 5.5-7", _span_of(_number)),
    _fact("growth", "How fast does it grow", "slow|medium|fast", words),
    _fact("evergreen", "Does it keep its leaves", "yes|no", yes_no),
    _fact("bloom", "When does it flower", "months here, such as 6-8", _months),
    _fact("juglone", "Near black walnut", "tolerant|sensitive", words),
    _fact("deer", "Browsed by deer", "seldom|sometimes|often", words),
    _fact("salt", "Stands road salt or salt wind", "tolerant|some|sensitive", words),
    _fact("planting_depth", "How deep is it planted", "in your words", words),
    _fact("runs", "Does it run into its neighbours", "yes|no", yes_no),
    _fact("cautions", "What is harmful about it", "in your words", words, "poison"),
)
WAY_FACTS = (
    _fact("season", "In what state is the wood or the clump", "in your words", words),
    _fact("months", "In which months", "months here, such as 11-2", _months, wanted=True),
    _fact("rooting_days", "How many days to root", "such as 28-56", _span_of(_whole), wanted=True),
    _fact("iba_ppm", "What rooting hormone", "ppm, such as 0-3000", _span_of(_whole), "iba"),
    _length_fact("length_m", "How long a piece", "4-6in"),
    _fact("take", "What share of them rooted", "such as 60-80%", _span_of(_share)),
    _fact("difficulty", "How easy is it", "easy|moderate|hard", words),
    _fact("prepare", "How is a piece made ready", "in your words", words),
)
