"""The chances that it is too late for a job, by what makes it too late."""

from datetime import date

from cuttings.nudges.model import Chance


def between(first: date, last: date) -> Chance:
    """Rises evenly from the end of a first day to that of a last; a plain reckoning of this program's own."""
    days = max((last - first).days, 1)

    def late(day: date) -> float:
        return min(max((day - first).days / days, 0.0), 1.0)

    return late
