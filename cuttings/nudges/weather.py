"""What the forecast changes on the sheet: a cold night, a hot spell, a week of rain."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.ledger.places import Site
from cuttings.nudges.hardening_off import out_at_night
from cuttings.nudges.knowledge import Known, known
from cuttings.nudges.loss import plants_from
from cuttings.nudges.model import Chance, Loss, Nudge
from cuttings.nudges.outlook import Outlook
from cuttings.nudges.settling import WEEKLY_NEED_MM
from cuttings.nudges.tonight import Exposed, Group, tonight
from cuttings.nudges.whereabouts import whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Window
from cuttings.rules.dangers import ADVISORY_C
from cuttings.rules.hardening import DAY_MIN_C, plan
from cuttings.rules.seasons import is_hardy
from cuttings.takes.learned import Learned
from cuttings.units import fahrenheit_to_celsius, show_length, show_temperature
from cuttings.words import Stage, Units

HEAT_C = fahrenheit_to_celsius(90.0)
HEAT_SOURCE = (
    "University of Georgia: Keep plants healthy in hot weather; the limit of 90 °F is common practice"
)
"""In great heat pots are watered daily, and nothing is cut hard or fed,
https://news.uga.edu/keep-plants-healthy-in-hot-weather. The limit of 90 °F is common practice."""

SODDEN_MM = 50.0
"""Rain of a week after which beds are not dug for some days; from memory."""

SODDEN = (
    "Dug wet, soil sets like brick. Wait until a squeezed handful crumbles when you press it with a thumb."
)
PLANTS = frozenset({"plant", "plant-more"})
PAUSES = frozenset({"feed", "pot-on", "shade"})
"""What is left alone in a hot spell (``HEAT_SOURCE``)."""

IN_HEAT = {
    "pots": "Water {} morning and evening, and move the pots out of the afternoon sun",
    "air": "Shade {}, air it morning and evening, and keep the mix moist",
    "vent": "Shade and open the frame over {}, day and night while it is hot",
    "water": "Soak {} in the early morning, every day while it is hot",
}
"""What care becomes in a hot spell (common practice)."""


def under(
    nudges: Iterable[Nudge],
    book: Book,
    catalogue: Catalogue,
    climate: Climate,
    first: date,
    last: date,
    outlook: Outlook,
    learned: Learned | None = None,
) -> list[Nudge]:
    """The nudges as the forecast leaves them: what must wait is held back, care is changed to fit, and what a
    cold night endangers is added."""
    seen = _Forecast(book, catalogue, climate, first, last, outlook, learned)
    return [*seen.cold_nudges(), *(each for nudge in nudges for each in seen.changed(nudge))]


@frozen
class _Forecast:
    book: Book
    catalogue: Catalogue
    climate: Climate
    first: date
    last: date
    outlook: Outlook
    learned: Learned | None

    @property
    def units(self) -> Units:
        return self.book.garden.units if self.book.garden else Units.US

    def cold_nudges(self) -> Iterator[Nudge]:
        """What the coldest of these nights endangers, each with what saves it."""
        low_c = self.outlook.low_c
        if low_c is None:
            return
        night = tonight(self.book, self.catalogue, self.climate, self.first, low_c)
        found: dict[str, Nudge] = {}
        for nudge in (self._saved(each, low_c) for each in night.act if not each.verdict.spared):
            before = found.get(nudge.id)
            found[nudge.id] = nudge if before is None else _both(before, nudge)
        yield from found.values()

    def _saved(self, exposed: Exposed, low_c: float) -> Nudge:
        group, verdict = exposed.group, exposed.verdict
        site = self.book.sites.get(group.where)
        window = Window(
            what="save from cold",
            opens=self.first,
            best=(self.first, self.last),
            closes=self.last,
            why=f"{show_temperature(low_c, self.units)} is forecast: do it before dark. {verdict.cause}",
            source=verdict.source,
        )
        return Nudge(
            id=":".join((*filter(None, (group.lot, group.where)), _standing(group), "cold")),
            job=verdict.remedy.do,
            name=f"{group.name} on {group.where}" if group.stages == (Stage.PLANTED,) else group.name,
            window=window,
            lot=group.lot,
            site=site.name if site is not None else "",
            area=self._area(group, site),
            stems=group.count,
            minutes=exposed.minutes,
            loss=Loss(
                plants=self._plants(group),
                late=_after(self.first, verdict.saved),
                by="the cold night takes them",
            ),
            when="cold day",
            cautions=tuple(each.text for each in verdict.remedy.cautions),
            every=(self.last - self.first).days + 1,
        )

    def _known(self, code: str) -> Known:
        return known(self.book.lots[code], self.catalogue, self.climate, self.units, self.learned)

    def _plants(self, group: Group) -> float:
        """How many plants its stems stand for; each that came from no lot is one."""
        if not group.lot:
            return float(group.count)
        return plants_from(self._known(group.lot), group.stages[0], group.count)

    def _area(self, group: Group, site: Site | None) -> str:
        """Where the work is: on the site, or where the lot's stems are worked on."""
        if site is not None:
            return site.area
        lot = self.book.lots.get(group.lot)
        return group.where if lot is None else whereabouts(self.book).area_of(lot, group.stages[0])

    def changed(self, nudge: Nudge) -> Iterator[Nudge]:
        """A nudge as the forecast leaves it: held back, changed, dropped, or as it was."""
        kind = nudge.id.rpartition(":")[2]
        why = self._holds(nudge, kind)
        if why:
            yield held(nudge, why, self.first, self.last)
        elif kind == "water" and self._weekly_rain_mm >= WEEKLY_NEED_MM:
            return
        elif self._hot and kind == "harden" and nudge.step == "day-done":
            yield self._sheltered(nudge)
        elif self._hot and kind in IN_HEAT:
            yield evolve(
                nudge, job=IN_HEAT[kind], window=self._in_heat(nudge.window), minutes=2 * nudge.minutes
            )
        else:
            yield nudge

    @property
    def _weekly_rain_mm(self) -> float:
        """The forecast rain for so many days as a week has; of fewer days it is all that is known."""
        days = (self.last - self.first).days + 1
        return (self.outlook.rain_mm or 0.0) * min(7 / days, 1.0)

    @property
    def _hot(self) -> bool:
        return self.outlook.high_c is not None and self.outlook.high_c >= HEAT_C

    def _holds(self, nudge: Nudge, kind: str) -> str:
        """Why a nudge is held back; empty where it is not."""
        if nudge.digs and self._weekly_rain_mm >= SODDEN_MM:
            rain = show_length((self.outlook.rain_mm or 0.0) / 1000, self.units)
            return f"{rain} of rain is forecast. {SODDEN}"
        if self._hot and kind in PLANTS:
            return f"{self._said_high} is forecast: new roots cannot keep up. Plant once it is cooler."
        if self._hot and kind in PAUSES:
            return f"{self._said_high} is forecast: feed and disturb nothing until the heat is over."
        if nudge.task in ("plant", "harden"):
            return self._too_cold(nudge)
        return ""

    @property
    def _said_high(self) -> str:
        return show_temperature(self.outlook.high_c or 0.0, self.units)

    def _too_cold(self, nudge: Nudge) -> str:
        """Why it is too cold to plant a lot, or for its day of hardening off."""
        low_c, high_c = self.outlook.low_c, self.outlook.high_c
        about = self._known(nudge.lot)
        tender = not is_hardy(about.plant, self.climate)
        if nudge.task == "plant" and tender and low_c is not None and low_c <= ADVISORY_C:
            return f"{show_temperature(low_c, self.units)} is forecast, and it does not stand frost."
        if nudge.step not in ("start", "day-done"):
            return ""
        steps = plan(about.plant, grown_under_cover=about.under_cover, climate=self.climate)
        nights_out = nudge.step == "day-done" and out_at_night(about)
        if low_c is not None and nights_out and low_c < steps.night_min_c:
            low, limit = (show_temperature(c, self.units) for c in (low_c, steps.night_min_c))
            return f"{low} is forecast, below its night limit of {limit}: bring it in until it is milder."
        if high_c is not None and high_c < DAY_MIN_C:
            limit = show_temperature(DAY_MIN_C, self.units)
            return f"No day above {limit} is forecast: it stays in."
        return ""

    def _sheltered(self, nudge: Nudge) -> Nudge:
        """A day of hardening off in a hot spell: outside, but no further on."""
        return evolve(
            nudge,
            job="Keep {} out in bright shade, at the step it has reached, and water it in the morning",
            window=self._in_heat(nudge.window),
            task="",
            step="",
        )

    def _in_heat(self, window: Window) -> Window:
        why = f"{self._said_high} is forecast; young roots cannot keep soft leaves in water."
        return evolve(window, why=why, source=HEAT_SOURCE)


def held(nudge: Nudge, why: str, first: date, last: date) -> Nudge:
    """The nudge turned into one that says to wait, for so long as these days last."""
    window = Window(
        what=f"wait: {nudge.window.what}",
        opens=first,
        best=(first, last),
        closes=last,
        why=why,
        source=COMMON_PRACTICE,
    )
    return evolve(
        nudge,
        id=f"{nudge.id}:wait",
        job=f"Not yet: {nudge.job[:1].lower()}{nudge.job[1:]}",
        window=window,
        task="",
        step="",
        minutes=0,
        parts=1,
        loss=Loss(),
        tools=(),
        cautions=(),
        not_yet=True,
    )


def _standing(group: Group) -> str:
    return group.stages[0] if group.lot else group.plant


def _both(one: Nudge, other: Nudge) -> Nudge:
    """Stems of one lot in one place that stand differently, as one nudge: the worse of the two speaks."""
    worse, _ = sorted((one, other), key=lambda nudge: -nudge.loss.expected(*nudge.window.best))
    loss = evolve(worse.loss, plants=one.loss.plants + other.loss.plants)
    return evolve(worse, stems=one.stems + other.stems, minutes=one.minutes + other.minutes, loss=loss)


def _after(day: date, chance: float) -> Chance:
    """In time on a day, and too late on the next with a chance."""
    following = day + timedelta(days=1)

    def late(asked: date) -> float:
        return chance if asked >= following else 0.0

    return late
