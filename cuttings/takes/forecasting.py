"""When a lot roots, when to look at it, and when to give it up: as published, as learned, as seen."""

import math
from datetime import date, timedelta
from functools import lru_cache

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.plants.model import Way
from cuttings.rules.rooting import LONGEST_WAIT_DAYS, RootingClock, look_again
from cuttings.takes.curve import Curve
from cuttings.takes.evidence import begun_on, bench_of, looked_on, looks_of
from cuttings.takes.learned import Learned, Shift
from cuttings.takes.rooting import Looks, Posterior, Prior, first_day, posterior
from cuttings.words import Stage

ENOUGH_NEWS = 1 / 3
"""The chance of finding a stem newly rooted at which a look is worth disturbing the lot; from memory."""

TOO_FEW = 0.05
"""A stem that still waits is given up when fewer than so many like it would root yet; from memory."""

QUICK_MIDDLE_SLOW = (0.1, 0.5, 0.9)
"""The shares of the stems that root whose days a forecast tells."""

LONGEST_WAIT = timedelta(days=LONGEST_WAIT_DAYS)

WORTH_SAYING = 0.05
"""A shift smaller than this, in logarithms of days, is not told of."""

HOW_SURE = (
    "An estimate: we read the published range as holding eight in ten of the stems that root at all. "
    "Warmth, wood and weather move it."
)
FROM_THE_LOOKS = "An estimate from the published range and from what was seen at each look."
FROM_OWN_LOTS = "An estimate from the published range and from how your own lots have rooted."


@frozen(kw_only=True)
class Forecast:
    """When a lot roots. Of the stems that still wait and will root, one in ten have by ``p10``, nine in ten
    by ``p90``: as published, until something has been seen of the lot or learned from others.

    ``likely`` are the days between which the middle one of all its rooting stems has rooted, nine times in
    ten. ``next_look`` is the next day worth a look, for ``look_why``; after ``give_up`` there is no more to
    wait for, for ``give_up_why``. ``yet`` is how many of the stems that wait will root: the fewest and the
    most, nine times in ten, and between them the likely number; ``yet_mean`` is their mean.
    """

    p10: date
    p50: date
    p90: date
    likely: tuple[date, date]
    next_look: date
    give_up: date
    yet: tuple[int, int, int]
    yet_mean: float
    why: str
    look_why: str
    give_up_why: str
    source: str
    sure: str


@frozen
class Reckoned:
    """The days of a forecast, as its lot's clock counts them; by ``slow`` nine in ten were to have rooted
    before anybody looked."""

    p10: float
    p50: float
    p90: float
    likely: tuple[float, float]
    slow: float
    news: float
    hopeless: float
    posterior: Posterior


def forecast(lot: Lot, way: Way, climate: Climate, learned: Learned, source_name: str) -> Forecast | None:
    """When a lot will have rooted: from the published range of its way of increase, how the ledger's other
    lots have done, and what the looks at this one told.

    Args:
        source_name: the source of the range, spelled out.

    Returns:
        The forecast with ``p10 <= p50 <= p90 <= give_up`` and ``p10 <= next_look <= give_up`` before the
        first look, or ``None`` where it came with roots or no rooting time is known.
    """
    if lot.method.starts_rooted:
        return None
    clock = RootingClock.of(way, begun_on(lot, way), climate, bench_of(lot))
    if clock is None:
        return None
    prior, shift = learned.prior(lot, way, clock)
    looks = looks_of(lot, clock)
    told = reckoned(prior, looks, Curve.of_range(clock.low, clock.high))
    gap, looked = look_again(way.method), looked_on(lot)
    one_more_look, hopeless = clock.after(told.slow) + gap, clock.after(told.hopeless)
    give_up = min(max(hopeless, one_more_look), clock.after(told.slow) + LONGEST_WAIT)
    give_up = max(give_up, clock.after(looks.news))
    p10, p50, p90 = (min(clock.after(days), give_up) for days in (told.p10, told.p50, told.p90))
    if looked:
        next_look = max(clock.after(told.news), max(looked) + gap)
    else:  # other kinds of plant are no reason to dig before the first day that is published
        next_look = max(clock.after(told.news), p10 if shift.lots else max(p10, clock.after(clock.low)))
    next_look = min(clock.settled(next_look), give_up)
    return Forecast(
        p10=p10,
        p50=p50,
        p90=p90,
        likely=(clock.after(told.likely[0]), clock.after(told.likely[1])),
        next_look=next_look,
        give_up=give_up,
        yet=_yet(told.posterior),
        yet_mean=told.posterior.yet_mean,
        why=" ".join(filter(None, (clock.why, _shift_said(shift)))),
        look_why=_look_why(lot, told.posterior.news_by(clock.passed(next_look))),
        give_up_why=_give_up_why(hopeless >= one_more_look),
        source=source_name,
        sure=_how_sure(looks, shift),
    )


@lru_cache(maxsize=4096)
def reckoned(prior: Prior, looks: Looks, published: Curve) -> Reckoned:
    """The days of a forecast from what is thought of a lot and what was seen of it; ``published`` is the
    curve that holds until anything is known."""
    found = posterior(prior, looks)
    longest = _longest(found)
    if looks.tell or prior.shift:
        p10, p50, p90 = (found.rest_by(share, longest) for share in QUICK_MIDDLE_SLOW)
    else:
        p10, p50, p90 = (published.day(share) for share in QUICK_MIDDLE_SLOW)
    since = looks.news  # that none was found after it is what hope is given up for, whenever one looks
    hope = found if looks.last == since else posterior(prior, evolve(looks, last=since))
    slow = Curve(published.centre + prior.shift, published.spread).day(QUICK_MIDDLE_SLOW[-1])
    return Reckoned(
        p10=round(p10, 4),
        p50=round(p50, 4),
        p90=round(p90, 4),
        slow=round(slow, 4),
        likely=(found.half_by(0.05), found.half_by(0.95)),
        news=first_day(lambda days: found.news_by(days) >= ENOUGH_NEWS, max(looks.last, 0.5), longest),
        hopeless=first_day(lambda days: hope.still_to_root(days) < TOO_FEW, max(since, 0.5), _longest(hope)),
        posterior=found,
    )


def _longest(found: Posterior) -> float:
    """Days beyond which nothing of a lot is sought."""
    return found.half_by(0.95) * 6.0 + found.looks.last


def _yet(found: Posterior) -> tuple[int, int, int]:
    """The fewest of the stems waiting that root yet, the likely number, and the most, nine times in ten."""
    below, fewest, most = 0.0, 0, found.looks.waiting
    for number, chance in enumerate(found.yet_to_root):
        if below <= 0.05:
            fewest = number
        below += chance
        if below >= 0.95:
            most = number
            break
    return fewest, min(max(round(found.yet_mean), fewest), most), most


def _shift_said(shift: Shift) -> str:
    """What the ledger's own lots have changed, in a sentence; empty where they have not."""
    if abs(shift.mean) < WORTH_SAYING or not (shift.lots or shift.others):
        return ""
    told = round(abs(math.expm1(shift.mean)) * 100)
    way = "later" if shift.mean > 0 else "sooner"
    count = shift.lots or shift.others
    lots = "lot" if count == 1 else f"{count} lots"
    whose = f"own {lots} of it" if shift.lots else f"other {lots}"
    return f"By your {whose}, count on about {told} % {way}."


def _look_why(lot: Lot, news: float) -> str:
    waiting = lot.at(Stage.WAITING)
    which = "it has rooted" if waiting == 1 else f"at least one of the {waiting} has rooted"
    more = " since" if lot.of_kind(e.Check) else ""
    return f"By then the odds are {odds_said(news)} that {which}{more}."


def odds_said(chance: float) -> str:
    """A chance in tenths, as one says it: ``about 3 in 10``, ``less than 1 in 10``."""
    tenths = round(chance * 10)
    if tenths < 1:
        return "less than 1 in 10"
    return f"about {tenths} in 10" if tenths < 10 else "more than 9 in 10"


def _give_up_why(hopeless: bool) -> str:
    if hopeless:
        return "Of stems still without roots then, fewer than one in twenty would make any."
    return "By then nine in ten of those that root should have, and there has been time for one look more."


def _how_sure(looks: Looks, shift: Shift) -> str:
    if looks.tell:
        return FROM_THE_LOOKS
    return FROM_OWN_LOTS if shift.lots or shift.others else HOW_SURE
