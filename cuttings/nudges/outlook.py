"""What is known of the weather of some days to come."""

from attrs import frozen


@frozen
class Outlook:
    """What the forecast says for some days: the lowest night and the highest day, °C, and the rain in all,
    mm; ``None`` where nobody said."""

    low_c: float | None = None
    high_c: float | None = None
    rain_mm: float | None = None


FAIR = Outlook()
"""Nobody said what the forecast is."""
