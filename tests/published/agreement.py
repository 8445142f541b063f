"""The agreement table: what is published of a plant or a method, beside what the catalogue says.

``facts.csv`` holds one published fact a row, restated, with its publisher, title and address: ``said`` is
the plant as printed, ``plants`` our records for it (``any`` stands for a method in general), ``field`` the
field of a record that holds such a fact. Where no field does, ``why`` says so. Where a record and a
published fact lie apart, ``why`` gives the reason; such rows are kept.

``python -m tests.published.agreement`` writes ``docs/agreement.md`` anew.
"""

import csv
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from attrs import frozen

from cuttings.plants.model import Plant, Way
from cuttings.plants.standard import standard
from cuttings.words import Method

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "docs" / "agreement.md"

Span = tuple[float, float]

FACTOR = {
    "days": 1.0, "weeks": 7.0, "months": 30.4, "years": 1.0, "zones": 1.0, "pH": 1.0, "ppm": 1.0,
    "%": 0.01, "percent IBA": 10_000.0, "each": 1.0, "yes": 1.0, "deg C": 1.0,
    "inches": 0.0254, "feet": 0.3048, "cm": 0.01, "m": 1.0,
}  # fmt: skip
"""What turns a printed unit into the catalogue's own: days, ppm, metres, shares of one."""

SLACK = 0.02
"""Inches do not come out even in centimetres, nor months in days: a fiftieth is no difference."""

RANKS = {"easy": "good", "moderate": "fair", "hard": "poor"}
"""Our words for how easily a plant roots, in those of a screen of fifteen species."""


GRADES = ("sensitive", "some", "tolerant")
"""How plants stand salt. Publishers grade it in three to five steps and do not say where one ends, so that
neighbouring grades overlap; opposite ones lie apart."""


@frozen
class Fact:
    """One published fact."""

    said: str
    plants: tuple[str, ...]
    method: str
    field: str
    low: str
    high: str
    unit: str
    condition: str
    publisher: str
    title: str
    url: str
    why: str

    @property
    def printed(self) -> str:
        span = self.low if self.high in ("", self.low) else f"{self.low} to {self.high}"
        return f"{span} {self.unit}".strip()


@frozen
class Finding:
    """A fact beside one record: ``within``, ``overlapping`` or ``apart``, or ``not held`` by any field."""

    fact: Fact
    plant: str
    ours: str
    verdict: str


def facts() -> Sequence[Fact]:
    with (HERE / "facts.csv").open(encoding="utf-8", newline="") as file:
        return [Fact(plants=tuple(row.pop("plants").split(";")), **row) for row in csv.DictReader(file)]


def findings() -> list[Finding]:
    """Every fact beside every record it is about."""
    return [_finding(fact, plant) for fact in facts() for plant in fact.plants]


def _finding(fact: Fact, plant: str) -> Finding:
    if not fact.field:
        return Finding(fact, plant, "", "not held")
    ours = list(_held(fact, plant))
    shown = "; ".join(dict.fromkeys(_shown(each) for each in ours)) or "nothing is entered"
    verdicts = {_compared(fact, each) for each in ours}
    best = next((verdict for verdict in ("within", "overlapping") if verdict in verdicts), "apart")
    return Finding(fact, plant, shown, best)


def _held(fact: Fact, name: str) -> Iterator[object]:
    """What the catalogue says there; for cuttings of no certain kind, what it says of each kind."""
    catalogue = standard()
    part, _, field = fact.field.rpartition(".")
    if name == "any":
        yield getattr(catalogue.way(Method(fact.method)), field)
        return
    plant = catalogue.find(name).plant
    if plant is None:
        return
    holders: Iterable[object] = (plant,)
    if fact.method:
        holders = _ways(plant, fact.method)
    elif part == "division":
        holders = (plant.division,) if plant.division else ()
    elif part == "cautions":
        holders = plant.cautions
    elif field == "sever_months":
        holders = tuple(way for way in plant.ways if way.method.is_layer)
    for holder in holders:
        yield from _values(holder, field)
    if field == "planting_depth_m" and plant.division is not None and plant.division.replant_depth_m:
        yield plant.division.replant_depth_m


def _values(holder: object, field: str) -> Iterator[object]:
    value = getattr(holder, "months" if field == "not_months" else field)
    if value not in (None, "", ()):
        yield value


def _ways(plant: Plant, method: str) -> Sequence[Way]:
    if method == "*cutting":
        return [way for way in plant.ways if way.method.is_cutting]
    return [way for way in plant.ways if way.method.value == method]


def months(text: str) -> frozenset[int]:
    """``11-2``, ``3-5,8``."""
    found: set[int] = set()
    for run in text.split(","):
        first, _, last = run.partition("-")
        month = int(first)
        found.add(month)
        while month != int(last or first):
            month = month % 12 + 1
            found.add(month)
    return frozenset(found)


def span(fact: Fact) -> Span:
    """The printed range in the catalogue's own units."""
    low, high = float(fact.low), float(fact.high or fact.low)
    if fact.unit == "deg F":
        return (low - 32.0) / 1.8, (high - 32.0) / 1.8
    return low * FACTOR[fact.unit], high * FACTOR[fact.unit]


def _compared(fact: Fact, ours: object) -> str:
    match ours:
        case bool():
            return "within" if ours else "apart"
        case str() if fact.field == "salt":
            return _grades_compared(fact, ours)
        case str():
            return "within" if RANKS.get(ours) == fact.low else "apart"
        case float() | int():
            return _temperature(fact, float(ours))
        case tuple() if fact.unit == "by month":
            return _months_compared(fact, frozenset(ours))
        case tuple() if fact.unit == "words":
            return "within" if {fact.low, "all"} & set(ours) else "apart"
        case tuple():
            return _spans_compared((float(ours[0]), float(ours[1])), span(fact))
    raise TypeError(f"{fact.field} of {fact.said} is {ours!r}")


def _temperature(fact: Fact, ours: float) -> str:
    """A trial that brought roots through a cold says that harm begins no warmer; one that killed, where."""
    if fact.unit == "no warmer than":
        return "within" if ours <= float(fact.low) + 0.1 else "apart"
    return "within" if abs(ours - span(fact)[0]) <= 1.0 else "apart"


def _grades_compared(fact: Fact, ours: str) -> str:
    low, high = GRADES.index(fact.low), GRADES.index(fact.high or fact.low)
    grade = GRADES.index(ours)
    if low == grade == high:
        return "within"
    return "overlapping" if low - 1 <= grade <= high + 1 else "apart"


def _months_compared(fact: Fact, ours: frozenset[int]) -> str:
    theirs = months(fact.low)
    if fact.field == "not_months":
        return "apart" if theirs <= ours else "within"
    if theirs <= ours:
        return "within"
    return "overlapping" if theirs & ours else "apart"


def _spans_compared(ours: Span, theirs: Span) -> str:
    slack = SLACK * max(*map(abs, ours), *map(abs, theirs))
    if ours[0] - slack <= theirs[0] and theirs[1] <= ours[1] + slack:
        return "within"
    return "overlapping" if ours[0] <= theirs[1] + slack and theirs[0] <= ours[1] + slack else "apart"


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(f"{each:g}" if isinstance(each, int | float) else str(each) for each in value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def share_in_agreement(found: Sequence[Finding]) -> float:
    """The share of what is compared that lies within or overlaps."""
    counts = Counter(each.verdict for each in found)
    return (counts["within"] + counts["overlapping"]) / (counts.total() - counts["not held"])


HEAD = ("| record | field | ours | published | by |", "| --- | --- | --- | --- | --- |")


def page() -> str:
    """The agreement table as a page of the docs."""
    found = findings()
    counts = Counter(each.verdict for each in found)
    compared = counts.total() - counts["not held"]
    lines = [
        "# The agreement table",
        "",
        "What extension services, universities, societies and trials publish of plants and methods, beside",
        "what the catalogue says. One row a fact and a record; a test prints it and holds it to the program.",
        "",
        f"Compared: {compared}. Within our range: {counts['within']}. Overlapping: {counts['overlapping']}.",
        f"Apart: {counts['apart']}. In agreement: {share_in_agreement(found):.1%}.",
        "",
        "Ranges are metres, days, degrees Celsius, ppm, shares of one and months by number, as the records",
        "have them; what is published stands as it is printed.",
        "",
    ]
    for verdict, heading in (
        ("apart", "Apart, and why"),
        ("overlapping", "Overlapping"),
        ("within", "Within"),
    ):
        lines += [
            f"## {heading}",
            "",
            "| record | field | ours | published | by |",
            "| --- | --- | --- | --- | --- |",
        ]
        lines += [_row(each) for each in found if each.verdict == verdict]
        lines.append("")
    lines += [
        "## Not held by any field",
        "",
        "Facts of these sources that no field of a record holds as a figure.",
        "",
        "| as printed | fact | where it belongs | by |",
        "| --- | --- | --- | --- |",
    ]
    lines += list(dict.fromkeys(_not_held(each.fact) for each in found if each.verdict == "not held"))
    return "\n".join(lines) + "\n"


def _row(each: Finding) -> str:
    fact = each.fact
    field = " ".join(part for part in (fact.method.replace("*", "any "), fact.field) if part)
    under = f" ({fact.condition})" if fact.condition else ""
    why = f" **{fact.why}**" if fact.why else ""
    record = "any plant" if each.plant == "any" else each.plant
    return f"| {record} | {field} | {each.ours} | {fact.printed}{under}{why} | {_source(fact)} |"


def _not_held(fact: Fact) -> str:
    return f"| {fact.said} | {fact.printed} {fact.condition} | {fact.why} | {_source(fact)} |"


def _source(fact: Fact) -> str:
    return f"[{fact.publisher}: {fact.title}]({fact.url})"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
