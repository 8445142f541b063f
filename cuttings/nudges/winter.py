"""What stems in pots need through the winter: shelter, a look now and then, air, and out again."""

from collections.abc import Iterable
from datetime import date

from cuttings.climate.frost import FROST_F
from cuttings.ledger import entries as e
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import once_frost_comes, once_ground_freezes, stakes, week_by_week
from cuttings.nudges.making import coming_round, days, now, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.hardening import needs_hardening
from cuttings.rules.odds import chance_of_freeze_already, chance_of_frozen_ground
from cuttings.rules.places import Place, place_of
from cuttings.rules.raising import FILL_POT_WEEKS
from cuttings.rules.seasons import Frosts, frosts, is_hardy, weeks
from cuttings.rules.transplant import next_planting
from cuttings.words import Stage

KEPT = (Stage.POTTED, Stage.READY)

WINTER_SOURCE = (
    "Iowa State University Extension: How can I over-winter unplanted perennials still in their containers"
)
"""Potted plants are sunk once dormant but before the soil freezes, and lifted when the soil thaws, several
weeks before the last frost (``WINTER_SOURCE``)."""

POT_FROZEN_SHARE = 0.3
"""The share of hardy plants lost whose pots stand above the ground through a hard winter; from memory. (A
trial lost every one of two shrubs in plastic pots: Neal, University of New Hampshire, WERA-058 report.)"""

TENDER_IN_WEEKS = 3
"""Weeks before the average first frost when tender plants begin to come in; from memory."""

LATE_WEEKS = 3
"""Weeks for which a missed winter job is still asked after; from memory."""

LOOK_IN_DAYS = 28
LOOK_IN = (
    "At rest it drinks little, but a mix that dries through kills as surely as frost. Take off what is dead "
    "or mouldy, and look for the marks of mice."
)
FORGOTTEN_SHARE = 0.02
"""Days between looks at what winters under cover, and the share that each week without one costs; from
memory."""

VENT_WHY = (
    "The sun heats closed air far above the air outside; more plants in a frame die of heat than of cold."
)
VENT_SOURCE = "K-State Research and Extension (in Leavenworth Times): Hotbeds and cold frames, 2013"
"""On bright days vents are opened even if the air outside is cool,
http://www.leavenworthtimes.com/article/20130228/blogs/130229894/0/ARTICLES."""

VENT_BEFORE_THAW_WEEKS = 6
COOKED_SHARE = 0.05
"""Weeks before the ground thaws when the sun is strong enough to cook a closed frame, and the share that a
week of closed sunny days costs; from memory."""

OUT_WEEKS = (6, 5, 3)
"""Weeks before the average last frost when pots begin to come out of their winter quarters, when it is best,
and when it closes, for then it is time to plant; from memory, within the "several weeks" of
``WINTER_SOURCE``."""


def wintering(known: Known, today: date) -> Iterable[Nudge]:
    """Into shelter, a look every few weeks, air, and out again in spring."""
    hardy = is_hardy(known.plant, known.climate)
    autumn = _autumn_at_hand(known, hardy, today)
    if autumn.frostless or (hardy and not autumn.freezes):
        return
    if not _may_be_planted_yet(known, autumn, today) and not _sheltered(known, hardy, today):
        yield _into_shelter(known, autumn, hardy, today)
    winter = _winter_of(known, today)
    if winter is None:
        return
    begins, spring = winter
    if hardy:  # from when it is sunk or under cover until it comes out
        first, ends = max(begins.first_autumn + weeks(LATE_WEEKS), begins.freeze), _comes_out(spring)
    else:  # until it grows again
        first, ends = begins.first_autumn + weeks(LATE_WEEKS), spring.last_spring - weeks(1)
    if first <= today < ends:
        window = coming_round(first, today, "look in", LOOK_IN, COMMON_PRACTICE, every=LOOK_IN_DAYS)
        late = week_by_week(window.opens, FORGOTTEN_SHARE)
        loss = stakes(known, KEPT, 1.0, late, "they dry through or rot unseen")
        job = "Look in on {}: water if the mix is dry, take off mould"
        yield nudge(known, "look-in", job, window, *KEPT, loss=loss, every=LOOK_IN_DAYS)
    if hardy:
        yield from _out_again(known, spring, today)


def _autumn_at_hand(known: Known, hardy: bool, today: date) -> Frosts:
    """The autumn whose shelter is still asked after, or the next; it may lie in last year's calendar."""
    late = weeks(LATE_WEEKS)
    autumns = [frosts(known.climate, year) for year in (today.year - 1, today.year, today.year + 1)]
    return next(each for each in autumns if (each.freeze if hardy else each.first_autumn) + late >= today)


def _comes_out(spring: Frosts) -> date:
    """The first day on which hardy plants come out of their winter quarters."""
    return max(spring.last_spring - weeks(OUT_WEEKS[0]), spring.thaw)


def in_frames(known: Known, today: date) -> Iterable[Nudge]:
    """Air for what stands in a frame, once the sun is strong enough to cook it and until frost is over."""
    stages = [stage for stage in KEPT if known.lot.at(stage)]
    framed = [stage for stage in stages if place_of(known.lot.where_stand(stage)) is Place.FRAME]
    if framed and any(_cooks(known, frosts(known.climate, today.year + turn), today) for turn in (0, 1)):
        window = now(today, "air", VENT_WHY, VENT_SOURCE)
        late = week_by_week(today, COOKED_SHARE)
        loss = stakes(known, tuple(framed), 1.0, late, "the sun cooks them in closed air")
        job = "Open the frame over {} on sunny days, and shut it by mid-afternoon"
        yield nudge(known, "vent", job, window, *framed, loss=loss, every=7)


def _cooks(known: Known, spring: Frosts, today: date) -> bool:
    """Whether a day lies in the weeks of a spring in which the sun cooks a full frame that is shut."""
    hardy = is_hardy(known.plant, known.climate)
    ends = _comes_out(spring) - days(1) if hardy else spring.safe_spring
    return spring.thaw - weeks(VENT_BEFORE_THAW_WEEKS) <= today <= ends


def _may_be_planted_yet(known: Known, autumn: Frosts, today: date) -> bool:
    """Whether there is still time to plant before the ground freezes, so that no shelter is needed."""
    potted = known.lot.reached(Stage.POTTED) or known.lot.started_on
    from_day = today if known.lot.at(Stage.READY) else max(today, potted + weeks(FILL_POT_WEEKS))
    planting = next_planting(known.plant, known.climate, from_day)
    if planting is None:
        return False
    return planting.opens < autumn.freeze and planting.closes >= autumn.first_autumn


def _sheltered(known: Known, hardy: bool, today: date) -> bool:
    """Whether its pots stand in what shelters them, by the keeper's words. Tender ones that were not put
    indoors this season may have stood outside for the summer."""
    place = place_of(known.lot.where_stand(Stage.POTTED))
    pot = known.lot.latest(e.Pot)
    if hardy:
        return place is not Place.OPEN
    lately = pot is not None and pot.on >= frosts(known.climate, today.year).last_spring
    return lately and place is Place.INDOORS


def _into_shelter(known: Known, autumn: Frosts, hardy: bool, today: date) -> Nudge:
    """Pots that will not be planted before the ground freezes need their roots kept from the worst cold."""
    climate = known.climate
    if hardy:
        job = "Sink the pots of {} in soil, or group them in a cold frame"
        why = "Roots in a pot above the ground meet far more cold than roots in the ground."
        opens, closes, source = autumn.first_autumn, autumn.freeze, WINTER_SOURCE
        best = (opens + weeks(2), closes - weeks(1))
        late, by, share = once_ground_freezes(climate), "the pots freeze through", POT_FROZEN_SHARE
    else:
        job, why = "Bring {} indoors for the winter", "It does not stand frost."
        closes, source = autumn.first_autumn, COMMON_PRACTICE
        opens = closes - weeks(TENDER_IN_WEEKS)
        best = (opens, closes - weeks(1))
        late, by, share = once_frost_comes(climate, closes), "frost comes", 1.0
    if closes < today <= closes + weeks(LATE_WEEKS):
        job, why = "Keep {} under cover from now on", f"{why} The time to see to it has just passed."
        opens, best, closes = closes, (closes, closes + weeks(1)), closes + weeks(LATE_WEEKS)
        spoiled = None
    elif hardy:
        spoiled = chance_of_frozen_ground(climate, best[0])
    else:
        spoiled = chance_of_freeze_already(climate, best[0], FROST_F)
    window = stretch(opens, best, closes, "winter", autumn.said(why), source, spoiled)
    loss = stakes(known, KEPT, share, late, by)
    return nudge(known, "winter", job, window, *KEPT, loss=loss)


def _winter_of(known: Known, today: date) -> tuple[Frosts, Frosts] | None:
    """The autumn and the spring of the winter that a day lies in, for stems that were in pots by then."""
    potted = known.lot.reached(Stage.POTTED) or known.lot.started_on
    for year in (today.year - 1, today.year):
        begins = frosts(known.climate, year)
        ends = frosts(known.climate, year if known.climate.southern else year + 1)
        in_it = begins.first_autumn <= today <= ends.last_spring
        if in_it and potted <= begins.first_autumn + weeks(LATE_WEEKS):
            return begins, ends
    return None


def _out_again(known: Known, spring: Frosts, today: date) -> Iterable[Nudge]:
    """Hardy plants come out of their winter quarters before they grow; what grew soft is hardened off."""
    soft = needs_hardening(
        known.plant, grown_under_cover=known.soft(today), on=today, climate=known.climate
    ).value
    best, closes = (spring.last_spring - weeks(before) for before in OUT_WEEKS[1:])
    opens = _comes_out(spring)
    if soft or closes - days(1) < opens:
        return
    why = "Left in, it grows soft in the warmth of the frame, or its buried pot drowns as the ground thaws."
    window = stretch(opens, (best, closes - days(1)), closes - days(1), "out", why, WINTER_SOURCE)
    job = "Set {} out again: lift sunk pots, open the frame for good"
    yield nudge(known, "out", job, window, *KEPT)
