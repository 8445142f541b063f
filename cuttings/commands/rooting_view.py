"""When a lot roots, in words: on its card, and after a look at it."""

from typing import Any

from cuttings.commands.desk import Desk
from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.show.page import Page
from cuttings.takes.forecasting import Forecast
from cuttings.words import Stage


def rooting_rows(desk: Desk, page: Page, lot: Lot, rooting: Forecast | None) -> None:
    """When the stems that wait root, when to look and when to give up, each with its reason."""
    if rooting is None or not lot.at(Stage.WAITING):
        return
    source = desk.catalogue.reference(rooting.source) if desk.why else ""
    end = spoken(rooting.give_up, desk.on)
    if desk.on > rooting.give_up:
        page.row("Rooting", f"Past hope since {end}.", rooting.give_up_why, rooting.why, source)
        return
    page.row("Rooting", _odds(desk, rooting), _yet(lot, rooting), rooting.why, rooting.sure, source)
    look = spoken(rooting.next_look, desk.on)
    when = f"Look next on {look}" if rooting.next_look > desk.on else f"A look has been due since {look}"
    page.row("Look", f"{when}.", rooting.look_why)
    page.row("Give up", f"On {end}.", rooting.give_up_why)


def rest_rows(desk: Desk, page: Page, lot: Lot, rooting: Forecast | None) -> None:
    """After a look: how many of the rest will root, by when, and how long to wait for them."""
    if rooting is None or not lot.at(Stage.WAITING):
        return
    if desk.on >= rooting.give_up:
        since = f"Past hope since {spoken(rooting.give_up, desk.on)}; 'cuttings lose' writes them off."
        page.row("The rest", since, rooting.give_up_why)
        return
    wait = f"Wait for them until {spoken(rooting.give_up, desk.on)} at the latest."
    page.row("The rest", _yet(lot, rooting), f"{_odds(desk, rooting)} {wait}")


def rooting_document(rooting: Forecast | None) -> dict[str, Any] | None:
    """When a lot roots, as JSON; ``None`` where nothing waits or no time is known."""
    if rooting is None:
        return None
    days = ("p10", "p50", "p90", "next_look", "give_up")
    return {
        **{name: getattr(rooting, name).isoformat() for name in days},
        "likely": [day.isoformat() for day in rooting.likely],
        "yet": list(rooting.yet),
        "look_why": rooting.look_why,
        "give_up_why": rooting.give_up_why,
    }


def _odds(desk: Desk, rooting: Forecast) -> str:
    early, likely, late = (spoken(day, desk.on) for day in (rooting.p10, rooting.p50, rooting.p90))
    return f"As likely as not by {likely}: one in ten by {early}, nine in ten by {late}."


def _yet(lot: Lot, rooting: Forecast) -> str:
    """How many of the stems that wait will root, in words; empty before anybody has looked."""
    fewest, likely, most = rooting.yet
    waiting = lot.at(Stage.WAITING)
    if not lot.of_kind(e.Check):
        return ""
    if waiting == 1:
        told = {0: "is not likely to root", 1: "is all but sure to root"}
        return f"The one that waits {told[likely] if fewest == most else 'may root yet, or not'}."
    span = "" if fewest == most else f"; nine times in ten {fewest} to {most}"
    return f"Of the {waiting} that wait, about {likely} root yet{span}."
