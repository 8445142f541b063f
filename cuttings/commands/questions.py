"""Questions that several commands share."""

from collections.abc import Sequence

from cuttings.ask import Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import lot_choices, lot_in, whole, words
from cuttings.errors import Refused, Unfound
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage
from cuttings.words import LIVING, PLANTABLE, Stage

NOTE = Question("note", "Anything to remember? (Enter to skip)", words, default="")


def which_lot(desk: Desk, prompt: str, *stages: Stage) -> Question[Lot]:
    """The question for a lot, offering those that hold stems at the stages."""
    if desk.asker is not None and not desk.book.lots:
        raise Refused("There are no lots yet; begin with 'cuttings find', 'strike', 'layer' or 'divide'.")
    offered = lot_choices(desk.book, *(stages or LIVING))
    stand = "alive" if not stages or stages == LIVING else " or ".join(stages)
    nothing = f"No lot holds stems that are {stand}; 'cuttings lots' shows where they stand."
    return Question(
        "lot", prompt, lot_in(desk.book), offered, argument=True, allowed="a lot's code", nothing=nothing
    )


def how_many(lot: Lot, stages: Sequence[Stage], prompt: str, default: int) -> Question[int]:
    """The question for a number of stems, at most what the lot holds at those stages."""
    held = sum(lot.at(stage) for stage in stages)

    def read(text: str) -> int:
        count = whole()(text)
        if count > held:
            raise Unfound(shortage(lot.code, lot.stages, count, stages[0] if len(stages) == 1 else None))
        return count

    offered = str(default) if default else None
    return Question("count", f"{prompt} (up to {held})", read, default=offered, allowed=f"1 to {held}")


def taken(lot: Lot, count: int, stages: Sequence[Stage], target: Stage | None) -> tuple[e.Move, ...]:
    """Moves that take so many stems from the stages in that order.

    Raises:
        Refused: the lot does not hold so many there.
    """
    moves = []
    left = count
    for stage in stages:
        part = min(left, lot.at(stage))
        if part:
            moves.append(e.Move(count=part, source=stage, target=target))
            left -= part
    if left:
        raise Refused(shortage(lot.code, lot.stages, count, stages[0] if len(stages) == 1 else None))
    return tuple(moves)


def furthest(lot: Lot) -> int:
    """How many stems stand at the furthest plantable stage that the lot holds."""
    return next((lot.at(stage) for stage in PLANTABLE if lot.at(stage)), 0)
