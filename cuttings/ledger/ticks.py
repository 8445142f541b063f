"""What a keeper says of a nudge: that it is done, must wait, or is never to come back; what that comes to."""

from datetime import date

from attrs import evolve, frozen

from cuttings.errors import Refused
from cuttings.ledger.entries import Entry


@frozen(kw_only=True, eq=False, repr=False)
class NudgeEntry(Entry):
    """An entry about one nudge: its id, and its words on the day."""

    nudge: str
    what: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class NudgeDone(NudgeEntry):
    """Care that was given and leaves no entry of its own, to a lot or (``lot`` empty) to none.

    ``opens`` is the day on which its window was still to open, where it was done before that.
    """

    kind = "nudge-done"
    lot: str = ""
    opens: date | None = None


@frozen(kw_only=True, eq=False, repr=False)
class NudgeLater(NudgeEntry):
    """A nudge put off until a day, or until a condition holds; exactly one of the two is told."""

    kind = "nudge-later"
    until: date | None = None
    condition: str = ""


@frozen(kw_only=True, eq=False, repr=False)
class NudgeNever(NudgeEntry):
    """A nudge that is not to come back."""

    kind = "nudge-never"


@frozen(kw_only=True)
class Aside:
    """All that was said of one nudge.

    ``done`` is the last day on which it was done, and ``opened`` the latest opening of a window that this
    covers. It is put off since the day ``since`` until a day or a condition, unless it was done after that.
    """

    done: date | None = None
    opened: date | None = None
    until: date | None = None
    condition: str = ""
    since: date | None = None
    never: bool = False

    def after(self, entry: Entry) -> "Aside":
        """The same after one more entry about the nudge.

        Raises:
            Refused: it is put off until nothing, or until two things at once.
        """
        match entry:
            case NudgeDone():
                opened = max(entry.on, entry.opens or entry.on)
                return Aside(done=entry.on, opened=opened, never=self.never)
            case NudgeLater():
                if (entry.until is None) is (not entry.condition):
                    raise Refused("A nudge is put off until one day, or until one condition holds.")
                return evolve(self, until=entry.until, condition=entry.condition, since=entry.on)
            case _:
                return evolve(self, never=True)
