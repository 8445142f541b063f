"""A batch of a mix as a page and as a document, and the list of recipes."""

from typing import Any

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.ledger.lots import Lot
from cuttings.rules.advice import Advice
from cuttings.rules.batches import ALLOWANCES_SOURCE, COIR_SOURCE, COIR_WATER_L_PER_KG, Batch, Purchase, Share
from cuttings.rules.mixes import FILLING, LIMED, RECIPES, WETTING, Part, Recipe
from cuttings.rules.pots import TRADE_GALLON, Pot, several, single
from cuttings.show.page import Page
from cuttings.units import LITRES, in_units, show_volume
from cuttings.words import Units, listed


@frozen(kw_only=True)
class Mixed:
    """What was asked for, and the batch it comes to. ``pot`` and ``pots`` are empty where a volume was asked
    for; ``advice`` is the mix recommended for ``lot``."""

    recipe: Recipe
    with_peat: bool
    batch: Batch
    pot: Pot | None = None
    pots: int | None = None
    lot: Lot | None = None
    advice: Advice[str] | None = None


def page_of(desk: Desk, mixed: Mixed) -> Page:
    recipe, made = mixed.recipe, mixed.batch
    page = Page().heading(f"{recipe.name.capitalize()} mix", _of_what(desk, mixed))
    page.row("", recipe.purpose, f"Good for {recipe.good_for}.")
    if mixed.advice is not None and mixed.lot is not None:
        page.row(
            mixed.lot.code,
            _recommended(mixed, mixed.advice),
            desk.catalogue.reference(mixed.advice.source) if desk.why else "",
        )
    page.gap()
    for share in made.shares:
        page.row(
            _parts(share.part.parts),
            _ingredient(desk, share, made),
            in_units(share.part.material.note, desk.units),
        )
    page.row("In all", _total(desk, made), _allowed(made), ALLOWANCES_SOURCE if desk.why else "")
    source = recipe.version_source(with_peat=mixed.with_peat)
    page.row("", f"The parts are as in: {source}.", only_if=desk.why)
    _add_bags(page, desk, made)
    page.gap()
    page.row("Wet", WETTING)
    page.row("Fill", FILLING, only_if=mixed.pots is not None)
    page.row("Water", in_units(recipe.drainage, desk.units))
    acidity = f"{recipe.ph[0]:g} to {recipe.ph[1]:g}. {recipe.ph_note}"
    page.row("pH", acidity, recipe.ph_source if desk.why else "")
    page.row("Feed", recipe.feeding)
    page.row("Or", _other_version(recipe, with_peat=mixed.with_peat))
    page.row("", LIMED, only_if=mixed.with_peat and recipe.limed_peat)
    if mixed.pot is not None and (desk.why or mixed.pot.sure == TRADE_GALLON):
        page.row("Pot", mixed.pot.sure, only_if=bool(mixed.pot.sure))
    cautions = recipe.cautions(with_peat=mixed.with_peat)
    page.warnings(caution.text for caution in cautions)
    page.rows(("", caution.source) for caution in cautions if desk.why)
    return page.next_steps(_next(mixed, desk.units))


def _of_what(desk: Desk, mixed: Mixed) -> str:
    total = volume(mixed.batch.total_l, desk.units)
    if mixed.pot is None or mixed.pots is None:
        return total
    if mixed.pots == 1:
        return f"{total} for one {single(mixed.pot.name)}"
    a_pot = "to a cell" if mixed.pot.cells > 1 else "each"
    volume_of_one = show_volume(mixed.pot.volume_l, desk.units)
    return f"{total} for {mixed.pots} {several(mixed.pot.name)}, {volume_of_one} {a_pot}"


def _recommended(mixed: Mixed, advice: Advice[str]) -> str:
    if advice.value == mixed.recipe.name:
        return f"As advised: {advice.why}"
    return f"The advice for it is {advice.value}: {advice.why}"


def volume(litres: float, units: Units) -> str:
    """A volume of loose goods: from half a cubic foot on, in cubic feet too where they are sold by them."""
    feet = litres / LITRES["cuft"]
    too = f" ({feet:.1f} cu ft)" if units is Units.US and feet >= 0.5 else ""
    return f"{show_volume(litres, units)}{too}"


def _parts(count: int) -> str:
    return f"{count} part" if count == 1 else f"{count} parts"


def _ingredient(desk: Desk, share: Share, made: Batch) -> str:
    loose = volume(share.loose_l, desk.units)
    scoops = f"{share.scoops:g} {made.scoop}{'' if share.scoops == 1 else 's'}"
    return f"{share.part.material.name}: measure out {loose}, about {scoops}."


def _total(desk: Desk, made: Batch) -> str:
    loose, total = volume(made.loose_l, desk.units), volume(made.total_l, desk.units)
    return f"{loose} measured out loose makes {total}."


def _allowed(made: Batch) -> str:
    """What the difference is for."""
    allowed = made.allowance
    shares = [f"{allowed.mixing:.0%} for the fines that fall between coarse pieces"]
    if allowed.settling:
        shares += [f"{allowed.settling:.0%} for settling", f"{allowed.spilling:.0%} for what is spilt"]
    return f"That adds {listed(shares)}; growers differ over how much."


def _add_bags(page: Page, desk: Desk, made: Batch) -> None:
    margin = "Buy"
    for share in made.shares:
        if share.left_l is None:
            continue
        bought = listed([_bought(each, desk.units) for each in share.bags])
        left = f"{show_volume(share.left_l, desk.units)} left over" if share.left_l else "nothing left over"
        page.row(margin, f"{share.part.material.name}: {bought}, with {left}.", *_soaking(desk, share))
        margin = ""
    unbagged = [share.part.material.name for share in made.shares if share.left_l is None]
    page.row("", f"No bag is named for {listed(unbagged or [''])}.", only_if=margin == "" and bool(unbagged))


def _bought(purchase: Purchase, units: Units) -> str:
    bag, plural = purchase.bag, "" if purchase.count == 1 else "s"
    if bag.kg is None:
        return f"{purchase.count} bag{plural} of {volume(bag.litres, units)}"
    weight = f"{bag.kg:.3g} kg" if bag.kg >= 1 else f"{bag.kg * 1000:.3g} g"
    makes = show_volume(purchase.count * bag.litres, units)
    return f"{purchase.count} pressed block{plural} of {weight} (about {makes} once soaked)"


def _soaking(desk: Desk, share: Share) -> tuple[str, ...]:
    """How to soak the blocks, where there are any."""
    water_l = sum(each.count * (each.bag.kg or 0.0) for each in share.bags) * COIR_WATER_L_PER_KG
    if not water_l:
        return ()
    told = f"Soak it in {show_volume(water_l, desk.units)} of water for some hours and break it up."
    return (told, COIR_SOURCE if desk.why else "")


def _other_version(recipe: Recipe, *, with_peat: bool) -> str:
    said = listed([f"{part.parts} {part.material.name}" for part in recipe.version(with_peat=not with_peat)])
    return f"Without peat: {said}." if with_peat else f"With peat ('--peat'): {said}."


def _next(mixed: Mixed, units: Units) -> str:
    if not any(share.bags for share in mixed.batch.shares):
        size = "2cuft" if units is Units.US else "50L"
        bag = f"{mixed.batch.shares[0].part.material.name} {size}"
        return f"With --bags '{bag}' it tells how many bags to buy; 'cuttings mix --list' has the others."
    if mixed.lot is not None:
        return f"'cuttings pot {mixed.lot.code}' pots them."
    return "'cuttings mix --list' has the other mixes."


def document_of(mixed: Mixed) -> dict[str, Any]:
    recipe, made, pot = mixed.recipe, mixed.batch, mixed.pot
    return {
        "recipe": recipe.name,
        "purpose": recipe.purpose,
        "with_peat": mixed.with_peat,
        "lot": mixed.lot.code if mixed.lot else None,
        "advised": mixed.advice.value if mixed.advice else None,
        "pots": mixed.pots,
        "pot": pot.name if pot else None,
        "pot_l": round(pot.volume_l, 3) if pot else None,
        "total_l": made.total_l,
        "parts": [_share_document(share) for share in made.shares],
        "loose_l": made.loose_l,
        "allowed": {
            "mixing": made.allowance.mixing,
            "settling": made.allowance.settling,
            "spilling": made.allowance.spilling,
            "source": ALLOWANCES_SOURCE,
        },
        "scoop": {"name": made.scoop, "litres": round(made.scoop_l, 4)},
        "drainage": recipe.drainage,
        "ph": list(recipe.ph),
        "other_version": _version_document(recipe.version(with_peat=not mixed.with_peat)),
        "cautions": [caution.text for caution in recipe.cautions(with_peat=mixed.with_peat)],
        "source": recipe.version_source(with_peat=mixed.with_peat),
    }


def _share_document(share: Share) -> dict[str, Any]:
    return {
        "ingredient": share.part.material.name,
        "parts": share.part.parts,
        "litres": share.litres,
        "loose_l": share.loose_l,
        "scoops": share.scoops,
        "bags": [{"litres": each.bag.litres, "count": each.count} for each in share.bags],
        "left_l": share.left_l,
    }


def _version_document(parts: tuple[Part, ...]) -> list[dict[str, Any]]:
    return [{"ingredient": part.material.name, "parts": part.parts} for part in parts]


def list_page(desk: Desk) -> Page:
    """The recipes, each with what it is for and its parts."""
    page = Page().heading("Mixes", "by parts of volume")
    for recipe in RECIPES.values():
        parts = listed([f"{part.parts} {part.material.name}" for part in recipe.parts])
        source = recipe.source if desk.why else ""
        page.row(recipe.name, recipe.purpose, f"{parts}; for {recipe.good_for}.", source)
    return page.next_steps("'cuttings mix potting --pots 12 --size 4in' tells how much of each.")


def list_document() -> dict[str, Any]:
    return {
        "recipes": [
            {
                "recipe": recipe.name,
                "purpose": recipe.purpose,
                "good_for": recipe.good_for,
                "parts": _version_document(recipe.parts),
                "with_peat": _version_document(recipe.peat),
                "ph": list(recipe.ph),
                "source": recipe.source,
            }
            for recipe in RECIPES.values()
        ]
    }
