"""``takes --ask``: what to be told of, asked for at a terminal."""

from collections.abc import Callable, Mapping
from typing import Any

from cuttings.ask import Choice, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import filled, whole
from cuttings.dates import EARLIEST, LATEST
from cuttings.errors import Refused, Unfound
from cuttings.takes.cases import By

EVERY_PLANT, ONE_PLANT, ACCOUNT = "plants", "plant", "year"
ABOUT = Question(
    "by",
    "What about?",
    str,
    (
        Choice(EVERY_PLANT, "every plant by its methods"),
        Choice(ONE_PLANT, "one plant"),
        Choice(By.DIP, "with a dip or without"),
        Choice(By.MONTH, "by the month they were begun"),
        Choice(By.MEDIUM, "by what they stood in"),
        Choice(By.COVER, "by what covered them"),
        Choice(By.WOOD, "by their wood"),
        Choice(By.PLACE, "by where they stood"),
        Choice(ACCOUNT, "the account of a year"),
    ),
    allowed=f"{'|'.join(By)}, or --plant NAME, or --year YEAR",
)


def asked(desk: Desk, find: Callable[[str], object]) -> Mapping[str, Any]:
    """The options that somebody at a terminal would have typed for what they want to be told of.

    Args:
        find: finds the lots of a plant by its name, and refuses one that nobody knows.

    Raises:
        Misused: there is no terminal; the options that say it are named.
    """
    interview = desk.interview({}, [ABOUT])
    about = interview.ask(ABOUT)
    if about == EVERY_PLANT:
        return {}
    if about == ONE_PLANT:
        return {"plant": interview.ask(Question("plant", "Which plant?", _found_by(find)))}
    if about == ACCOUNT:
        return {"year": interview.ask(_which_year(desk))}
    return {"by": (about,)}


def _found_by(find: Callable[[str], object]) -> Callable[[str], str]:
    def parse(text: str) -> str:
        name = filled(text)
        try:
            find(name)
        except Refused as error:
            raise Unfound(error.sentence) from None
        return name

    return parse


def _which_year(desk: Desk) -> Question[str]:
    """Asks for a year, and offers the last in which anything was written down of a lot."""
    years = {entry.on.year for lot in desk.book_then.lots.values() for entry in lot.entries}
    read = whole(EARLIEST, LATEST)
    offered = str(max(years, default=desk.on.year))
    return Question("year", "Which year?", lambda text: str(read(text)), default=offered)
