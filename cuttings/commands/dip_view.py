"""What dip answers: the page and the document."""

from typing import Any

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.commands.naming import Named
from cuttings.plants.model import Caution
from cuttings.rules.advice import Advice
from cuttings.rules.caution import HORMONE, HORMONE_SOLUTION, HORMONE_VESSELS, Task, own_cautions
from cuttings.rules.dipping import LEFTOVERS, Dilution, Recommended, Treatment
from cuttings.rules.strengths import Parts, plain, show_strength
from cuttings.show.page import Page
from cuttings.units import in_units, show_mass, show_volume
from cuttings.words import DipForm, Units, Wood

SPOON_ML = 15.0
"""Below a tablespoon a part of a fluid ounce helps nobody, and a syringe does."""

LITRE_ML = 1000.0
OUNCE_G = 10.0
"""Below this a part of an ounce helps nobody, and a fine scale does."""


@frozen
class Told:
    """What the cuttings are of, as far as it was said, and the strength advised for them."""

    named: Named | None
    wood: Wood | None = None
    advice: Advice[Recommended] | None = None

    @property
    def advised(self) -> Recommended | None:
        return self.advice.value if self.advice else None

    @property
    def spoken(self) -> str:
        """``softwood cuttings of rosemary``; empty where nothing was said."""
        cuttings = f"{self.wood} cuttings" if self.wood else ""
        return " of ".join(filter(None, (cuttings, self.named.spoken if self.named else "")))


@frozen(kw_only=True)
class Answer:
    """What is to be mixed, how it is used, and what to be wary of."""

    told: Told
    mix: Dilution
    parts: Parts | None
    mixing: Advice[str]
    treatment: Advice[Treatment]
    doubts: tuple[Advice[str], ...]

    @property
    def cautions(self) -> tuple[Caution, ...]:
        own = own_cautions(self.told.named.plant, Task.STRIKE) if self.told.named else ()
        hormone = HORMONE_SOLUTION if self.mix.form is DipForm.LIQUID else HORMONE
        return (*own, hormone, HORMONE_VESSELS)


def page_of(desk: Desk, answer: Answer) -> Page:
    mix, told = answer.mix, answer.told
    page = Page().heading("Dip", told.spoken)
    strength = show_strength(mix.strength_ppm, mix.form)
    page.row("Strength", f"{strength}.", *_advised(desk, told), *_in_parts(answer))
    stock = f"{_amount(mix.stock, mix.form, desk.units)} of stock at {show_strength(mix.stock_ppm, mix.form)}"
    if mix.diluent > 0:
        rest, whole = (_amount(each, mix.form, desk.units) for each in (mix.diluent, mix.made))
        diluent = "water" if mix.form is DipForm.LIQUID else "talc"
        page.row("Measure", f"{stock}.", tone="accent")
        reasons = (answer.mixing.value, *_source(desk, answer.mixing))
        page.row("", f"{rest} of {diluent}, for {whole} in all.", *reasons, tone="accent")
    else:
        page.row("Measure", f"{stock}, as it is: nothing is added.", tone="accent")
    how = answer.treatment
    page.row("Use", in_units(how.value.how, desk.units), how.why, *_source(desk, how))
    page.row("After", LEFTOVERS.value, *_source(desk, LEFTOVERS))
    for doubt in answer.doubts:
        page.row("Take care", doubt.value, *_source(desk, doubt), tone="warning")
    for caution in answer.cautions:
        page.row("Take care", caution.text, caution.source if desk.why else "", tone="warning")
    return page.next_steps(_strike(answer))


def _advised(desk: Desk, told: Told) -> tuple[str, ...]:
    if told.advice is None:
        return ()
    return told.advice.why, told.advice.sure, *_source(desk, told.advice)


def _source(desk: Desk, advice: Advice[Any]) -> tuple[str, ...]:
    return (desk.catalogue.reference(advice.source),) if desk.why else ()


def _in_parts(answer: Answer) -> tuple[str, ...]:
    """What parts come to of the whole, for parts are understood in two ways."""
    if answer.parts is None:
        return ()
    stock, other = plain(answer.parts.stock), plain(answer.parts.diluent)
    whole = plain(answer.parts.stock + answer.parts.diluent)
    return (f"{stock} to {other} by parts is {stock} in {whole} of the whole.",)


def _amount(amount: float, form: DipForm, units: Units) -> str:
    """Millilitres or grams always, for a syringe or a scale; the garden's own units beside them."""
    if form is DipForm.POWDER:
        grams = f"{_measured(amount)} g"
        return f"{grams} ({show_mass(amount, units)})" if units is Units.US and amount >= OUNCE_G else grams
    millilitres = f"{_measured(amount)} mL"
    if amount < (SPOON_ML if units is Units.US else LITRE_ML):
        return millilitres
    return f"{millilitres} ({show_volume(amount / LITRE_ML, units)})"


def _measured(amount: float) -> str:
    """To what a syringe, a measure or a scale shows: hundredths below ten, tenths below a hundred."""
    places = 2 if amount < 10 else 1 if amount < 100 else 0
    text = f"{amount:.{places}f}"
    return text.rstrip("0").rstrip(".") if places else text


def _strike(answer: Answer) -> str:
    told, ppm = answer.told, max(round(answer.mix.strength_ppm), 1)
    name = told.named.spoken if told.named else "PLANT"
    plant = f'"{name}"' if " " in name else name
    words = f"cuttings strike {plant} --wood {told.wood or 'WOOD'} --dip {ppm} --dip-form {answer.mix.form}"
    return f"'{words}' writes down what was dipped in it."


def no_hormone_page(desk: Desk, told: Told) -> Page:
    """That nothing is to be mixed."""
    page = Page().heading("Dip", told.spoken)
    page.row("Strength", "none: nothing is to be mixed.", *_advised(desk, told))
    return page.next_steps("--want with a strength tells what to mix all the same.")


def document_of(desk: Desk, form: DipForm, told: Told, answer: Answer | None = None) -> dict[str, Any]:
    """The document; without an answer nothing is to be mixed, and all amounts are nought."""
    liquid, advised = form is DipForm.LIQUID, told.advised
    mix = answer.mix if answer else None
    amounts = {
        "stock": mix.stock if mix else 0.0,
        "diluent": mix.diluent if mix else 0.0,
        "total": mix.made if mix else 0.0,
    }
    how = answer.treatment.value if answer else Treatment("")
    return {
        "plant": told.named.name if told.named else None,
        "wood": told.wood.value if told.wood else None,
        "form": form.value,
        "stock_ppm": round(mix.stock_ppm, 3) if mix else None,
        "strength_ppm": round(mix.strength_ppm, 3) if mix else 0.0,
        **{f"{name}_ml": round(amount, 3) if liquid else None for name, amount in amounts.items()},
        **{f"{name}_g": None if liquid else round(amount, 3) for name, amount in amounts.items()},
        "active_mg": round(mix.active_mg, 3) if mix else 0.0,
        "advised_ppm": [advised.low, advised.high] if advised else None,
        "why": told.advice.why if told.advice else None,
        "source": desk.catalogue.reference(told.advice.source) if told.advice else None,
        "dip": how.how,
        "dip_seconds": list(how.seconds) if how.seconds else None,
        "soak_hours": list(how.hours) if how.hours else None,
        "doubts": [doubt.value for doubt in answer.doubts] if answer else [],
        "cautions": [caution.text for caution in answer.cautions] if answer else [],
    }
