"""Lots as trials, made for tests."""

from datetime import date

from cuttings.takes.cases import By, Case, Fact
from cuttings.takes.evidence import Tally
from cuttings.takes.outcomes import Step
from cuttings.takes.shares import Counts, Figure

NOBODY = Step(0, 0, 0)
DAY = date(2026, 5, 2)
EVEN = Figure(0.5, 2.0, "from memory")


def fact(value: str | int) -> Fact:
    return Fact(value, str(value), (value if isinstance(value, int) else 0, str(value)))


def case(
    code: str,
    rooted: int,
    failed: int,
    waiting: int = 0,
    figure: Figure = EVEN,
    begun_as: str = "",
    plant: str = "Buxus sempervirens",
    method: str = "semi-ripe-cutting",
    **facts: str | int,
) -> Case:
    """A lot whose waiting stems count for nothing yet."""
    told = {"plant": plant, "method": method, **facts}
    return Case(
        code=code,
        begun_as=begun_as or code,
        facts={By(name): fact(value) for name, value in told.items()},
        stems=rooted + failed + waiting,
        told=Tally(rooted=rooted, failed=failed, waiting=waiting, gone=0),
        counts=Counts(rooted, failed),
        figure=figure,
        potted=NOBODY,
        a_year_on=NOBODY,
    )
