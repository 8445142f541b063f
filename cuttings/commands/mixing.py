"""Mixing: how much of each ingredient for so many pots. It writes nothing down."""

from collections.abc import Sequence
from typing import Any

import click
from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import POT_FORMS, pot_in
from cuttings.commands.mixing_view import Mixed, document_of, list_document, list_page, page_of
from cuttings.commands.parsing import lot_in, maybe, whole
from cuttings.commands.telling import known_lot
from cuttings.errors import Misused, Refused
from cuttings.ledger.lots import Lot
from cuttings.rules.advice import Advice
from cuttings.rules.batches import BAG_FORM, FOR_A_HEAP, FOR_POTS, Bag, batch, parse_bags
from cuttings.rules.mixes import RECIPES, Part, Recipe, recipe_called
from cuttings.rules.pots import Pot
from cuttings.rules.potting import recommend_mix, recommend_pot
from cuttings.units import parse_volume
from cuttings.words import Stage

TO_BE_POTTED = (Stage.ROOTED, Stage.WAITING, Stage.POTTED)
"""Whose stems a batch for a lot is made for, the first that it holds."""


@frozen
class _ForLot:
    """A lot, and what is advised for it."""

    lot: Lot
    mix: Advice[str]
    pot: Advice[Pot]

    @property
    def stems(self) -> int:
        return next((self.lot.at(stage) for stage in TO_BE_POTTED if self.lot.at(stage)), 0)


@click.command(help="How much of each ingredient a mix for so many pots takes.")
@click.argument("recipe", required=False)
@click.option("--pots", metavar="N", help="how many pots")
@click.option("--size", metavar="POT", help=POT_FORMS)
@click.option("--volume", metavar="VOL", help="how much in all, instead of pots: 40L, 10gal or 2cuft")
@click.option("--bags", metavar="LIST", help="sizes to buy, such as 'coir 9L, perlite 100L'")
@click.option("--for", "for_", metavar="LOT", help="the mix, the pots and the number this lot wants")
@click.option("--peat", is_flag=True, help="the version with peat")
@click.option("--list", "listing", is_flag=True, help="the mixes there are, and what each is for")
@global_options
@with_desk
def mix(desk: Desk, listing: bool, peat: bool, for_: str | None, **given: Any) -> None:
    if listing:
        desk.answer(list_page(desk), list_document())
        return
    answers = {**given, "for": for_}
    if given["volume"] is not None and (given["pots"] or given["size"]):
        raise Misused("Give either --volume, or --pots with --size.")
    mixed = _asked_for(desk, answers, with_peat=peat)
    desk.answer(page_of(desk, mixed), document_of(mixed))


def _asked_for(desk: Desk, given: dict[str, Any], *, with_peat: bool) -> Mixed:
    """The answers, in the order of the bench: for what, which mix, how many of which pot, from which bags."""
    which, count, size, heap = _questions(desk)
    by_pots = given["volume"] is None
    needed: list[Question[Any]] = [count, size] if by_pots else []
    required = [] if given["for"] is not None else [which, *needed]
    interview = desk.interview(given, required)
    about = _lot(desk, interview)
    if about is not None:
        stems = about.stems
        which = which.offering(about.mix.value, about.mix.why)
        filled = -(-stems // about.pot.value.cells)
        if stems:
            count = count.offering(str(filled), f"{about.lot.code} has so many stems.")
        size = size.offering(about.pot.value.name, about.pot.why)
        if by_pots and not stems and given["pots"] is None and not interview.asking:
            raise Refused(
                f"{about.lot.code} has nothing left to pot; --pots says how many, or --volume how much."
            )
    recipe = interview.ask(which)
    pots, pot = (interview.ask(count), interview.ask(size)) if by_pots else (None, None)
    total_l = interview.ask(heap) if pots is None or pot is None else pots * pot.cells * pot.volume_l
    parts = recipe.version(with_peat=with_peat)
    bags = interview.ask(_bags(desk, parts)) or ()
    try:
        made = batch(parts, total_l, FOR_POTS if by_pots else FOR_A_HEAP, desk.units, bags)
    except ValueError as error:
        raise Misused(str(error)) from None
    return Mixed(
        recipe=recipe,
        with_peat=with_peat,
        batch=made,
        pot=pot,
        pots=pots,
        lot=about.lot if about else None,
        advice=about.mix if about else None,
    )


def _questions(desk: Desk) -> tuple[Question[Recipe], Question[int], Question[Pot], Question[float]]:
    named = tuple(Choice(recipe.name, f"{recipe.name}: for {recipe.good_for}") for recipe in RECIPES.values())
    which = Question("recipe", "Which mix?", recipe_called, named, argument=True, allowed="|".join(RECIPES))
    count = Question(
        "pots", "How many pots?", whole(), allowed="a whole number from 1, or --volume for the whole"
    )
    size = Question("size", "Which pot?", pot_in(desk.book, desk.units), allowed=POT_FORMS)
    heap = Question(
        "volume", "How much?", lambda text: parse_volume(text, desk.units), allowed="40L or 10gal"
    )
    return which, count, size, heap


def _lot(desk: Desk, interview: Interview) -> _ForLot | None:
    """The lot it is for: as named, or asked after where there are any and no mix was named."""
    question = Question(
        "for", "For which lot? (its code, or Enter for none)", maybe(lot_in(desk.book)), default=""
    )
    asked = interview.asking and any(desk.book.live_lots())
    lot = interview.ask(question) if asked else interview.given(question)
    if lot is None:
        return None
    plant = known_lot(desk, lot).plant
    return _ForLot(lot, recommend_mix(plant), recommend_pot(None, lot.method, plant, desk.units))


def _bags(desk: Desk, parts: Sequence[Part]) -> Question[tuple[Bag, ...] | None]:
    def read(text: str) -> tuple[Bag, ...]:
        return parse_bags(text, parts, desk.units)

    prompt = "In which bags do you buy them? (Enter to skip)"
    return Question("bags", prompt, maybe(read), default="", why=f"Write {BAG_FORM}.", allowed=BAG_FORM)
