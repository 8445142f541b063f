"""A nudge: one thing worth doing, with its reason, its window and its minutes."""

from datetime import date

from attrs import frozen

from cuttings.rules.advice import Window


@frozen(kw_only=True)
class Nudge:
    """One thing worth doing.

    ``id`` stays the same from week to week for the same thing. ``job`` is the sentence, with ``{}`` where
    ``name``, the lot or plant it is for, belongs. ``task`` is the command that records it, empty for care
    that leaves no entry. ``stake`` is how many stems would be lost if it were never done.
    """

    id: str
    job: str
    name: str
    window: Window
    task: str = ""
    lot: str = ""
    mark: str = ""
    area: str = ""
    stake: int = 0
    minutes: int = 5

    @property
    def what(self) -> str:
        return self.job.replace("{}", self.name, 1)

    def cost_of_waiting(self, until: date) -> float:
        """Stems at stake if it is not done by a day: all once the window has closed.

        Before that, the share of the time from the end of the best stretch to the close that will have
        passed; a plain reckoning of this program's own, not a published figure.
        """
        closes, best_end = self.window.closes, self.window.best[1]
        if until >= closes:
            return float(self.stake)
        if until <= best_end:
            return 0.0
        return self.stake * (until - best_end).days / (closes - best_end).days
