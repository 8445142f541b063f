"""What a keeper means to have by a day, and the way they chose to get there."""

from datetime import date

from attrs import frozen

from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.ledger.entries import Entry
from cuttings.words import Method, PlantType


@frozen(kw_only=True, eq=False, repr=False)
class Goal(Entry):
    """So many of a plant wanted alive by a day, made by one method.

    ``sure`` is the wanted certainty in percent. So many (``start``) are to be started from ``opens`` to
    ``start_by``, with bottom heat of ``heat_c`` degrees Celsius where that is told; ``mother`` is the plant
    that the material comes from, empty where nobody said.
    """

    kind = "goal"
    plant: str
    called: str = ""
    plant_type: PlantType | None = None
    want: int
    by: date
    sure: int = 90
    method: Method
    start: int
    opens: date
    start_by: date
    heat_c: float | None = None
    mother: str = ""

    @property
    def key(self) -> tuple[str, Method]:
        """What a later goal takes the place of: the same plant by the same method."""
        return self.plant, self.method

    @property
    def spoken(self) -> str:
        return self.called or self.plant

    def check(self) -> None:
        """Raises:
        Refused: nothing is wanted or started, it is never or always sure, or its days are out of order.
        """
        if self.want < 1 or self.start < 1:
            raise Refused("A goal wants at least one plant, and starts at least one stem.")
        if not 1 <= self.sure <= 99:
            raise Refused(f"A goal is wanted with a certainty of 1 to 99 percent, not {self.sure}.")
        if not self.opens <= self.start_by <= self.by:
            raise Refused(f"The start of a goal lies between its first day and {spoken(self.by)}.")
