"""What waiting and rooted stems need: a look, air, clean hands, a pot."""

from collections.abc import Iterable
from datetime import date

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between, once_frost_comes, stakes, week_by_week
from cuttings.nudges.making import coming_round, days, now, nudge, stretch
from cuttings.nudges.model import NO_LOSS, Loss, Nudge
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.rules.advice import Window
from cuttings.rules.growth import out_of_winter
from cuttings.rules.layering import sever_window
from cuttings.rules.looking import BLACK_OR_SOFT, how_to_look
from cuttings.rules.potting import ready_to_pot
from cuttings.rules.rooting import Bench, look_again
from cuttings.rules.seasons import frosts, weeks
from cuttings.rules.windows import next_potting
from cuttings.takes.forecasting import Forecast
from cuttings.words import Cause, Method, Stage

CARE_DAYS, CARE_AT_REST_DAYS = 7, 14
"""Days until cuttings under cover want seeing to again, and in the cold season; common practice, and from
memory."""

FIRST_LOOK_WEEKS = 4
"""When to look at a lot for which no rooting time is known; from memory."""

UNTIL_POTTED_WEEKS = 6
"""How long rooted cuttings and found layers may wait for their pots; from memory."""

PIECES_DRY_DAYS = 14
"""How long divided pieces may lie, kept moist, before they are potted or planted; from memory."""

BULBS_KEEP_WEEKS = 8
"""How long dormant bulbs keep, dry and cool, before they are planted; from memory."""

ROOTS_GROW_DAYS = 14
"""Days after which roots too short to pot are worth another look; from memory."""

GIVE_UP_WEEKS = 26
"""For how long a lot past hope is asked after, in rounds; its card says so for ever. From memory."""

PAST_HOPE = (
    "It should have rooted by now, and the time for waiting is over. Look once more, then write it off."
)
UNAIRED_SHARE, UNAIRED_AT_REST_SHARE = 0.1, 0.03
"""The share of covered cuttings that a week without air, water and a clean-up costs, and that it costs in the
cold season, when little grows and little rots; from memory."""

ROTTED_WEEKS = 6
"""For how long after stems have rotted the others are watched for mould; from memory."""

ROT_SPREADS = 0.2
"""The share of cuttings beside rotted ones that each week takes if they are left among them; from memory."""

OVERDUE_SHARE = {True: 0.2, False: 0.05}
"""The share that each week costs of rooted stems whose time to be potted is over, of those that came with
roots of their own and of others; from memory."""

CRAMPED_SHARE = 0.3
"""The share of rooted cuttings lost that stay in their tray too long, tangled and starved; from memory."""

MOULD_SOURCE = (
    "Pacific Northwest Plant Disease Management Handbook: Greenhouse Plants, Ornamental - Gray Mold"
)
"""Grey mould lives on dead and dying parts, and unrooted cuttings are very open to it, for the moisture that
they need favours it, https://pnwhandbooks.org/node/2529."""

AIR = "Cuttings without roots live on the water in the air round them, and rot starts on a dead leaf."
PIECES_DRY = "Cut roots dry fast; keep them moist and shaded until they are in soil again."
MOULD = (
    "Stems of it have rotted, and grey mould goes from the dead to the living in wet, still air. Take out "
    "every dead stem and leaf, give the rest room, and open the cover on mild days."
)
LEFT_TILL_SPRING = (
    "Potted now it would fill no pot before winter: leave it where it is, just moist and out of hard frost, "
    "and pot it when growth begins."
)
SPRING_HAS_COME = "It rooted too late to fill a pot before winter. Now that growth begins, it will."
BULBS = (
    "In leaf they wilt within days, so replant them at once; dormant ones keep for some weeks, dry and cool."
)


def waiting(known: Known, today: date) -> Iterable[Nudge]:
    """Looks in rounds while they make sense, then the advice to give up; air and clean hands under cover."""
    lot = known.lot
    rooting = known.forecast()
    given_up = rooting.give_up if rooting is not None and today > rooting.give_up else None
    job, window = _look(known, rooting, today)
    if given_up is None or window.opens <= _settled(known, given_up) + weeks(GIVE_UP_WEEKS):
        yield nudge(known, "check", job, window, Stage.WAITING, task="check")
    if not lot.method.is_cutting or not known.closed_air or given_up is not None:
        return
    if _rotted_lately(known, today):
        loss = _week_by_week(known, today, ROT_SPREADS, "the rot spreads")
        window = now(today, "clean", MOULD, MOULD_SOURCE)
        yield nudge(
            known, "clean", "Clean up {} and let in air", window, Stage.WAITING, loss=loss, every=CARE_DAYS
        )
        return
    rests = _settled(known, today) != today
    share, every = (UNAIRED_AT_REST_SHARE, CARE_AT_REST_DAYS) if rests else (UNAIRED_SHARE, CARE_DAYS)
    loss = _week_by_week(known, today, share, "they dry or rot")
    window = stretch(today, (today, today + days(3)), today + days(6), "care", AIR, COMMON_PRACTICE)
    job = "Air {}, pick off dead leaves, keep the mix just moist"
    yield nudge(known, "air", job, window, Stage.WAITING, loss=loss, every=every)


def _week_by_week(known: Known, today: date, share: float, by: str) -> Loss:
    return stakes(known, (Stage.WAITING,), 1.0, week_by_week(today, share), by)


def _rotted_lately(known: Known, today: date) -> bool:
    """Whether stems of it were lately seen black or soft, or written off as rotted."""
    since = today - weeks(ROTTED_WEEKS)
    checks = (check for check in known.lot.of_kind(e.Check) if check.on >= since)
    lost = (lose for lose in known.lot.of_kind(e.Lose) if lose.on >= since)
    return any(BLACK_OR_SOFT in check.seen for check in checks) or any(
        lose.cause is Cause.ROT for lose in lost
    )


def _look(known: Known, rooting: Forecast | None, today: date) -> tuple[str, Window]:
    """The round of looks that is on or coming, or past hope the advice to give up."""
    lot = known.lot
    how = how_to_look(lot.method)
    if rooting is None:
        first = max([lot.started_on, *(check.on for check in lot.of_kind(e.Check))]) + weeks(FIRST_LOOK_WEEKS)
        why, source = f"No rooting time is known for it, so look every few weeks. {how}", FROM_MEMORY
    elif today > rooting.give_up:
        why = f"{PAST_HOPE} {rooting.give_up_why}"
        window = _rounds(known, rooting.give_up, today, why, rooting.source, every=28)
        return "Give up {}, or find roots", window
    else:
        first, source = rooting.next_look, rooting.source
        why = f"{rooting.why} {rooting.look_why} {how}"
    every = max(look_again(lot.method).days, 14)
    return "Look for roots on {}", _rounds(known, first, today, why, source, every=every)


def _rounds(known: Known, first: date, today: date, why: str, source: str, *, every: int) -> Window:
    def settle(day: date) -> date:
        return _settled(known, day)

    return coming_round(first, today, "look for roots", why, source, every=every, settle=settle)


def _settled(known: Known, day: date) -> date:
    """The day itself under cover; outdoors a day on which the ground is not cold."""
    return day if known.bench is Bench.WARM else out_of_winter(known.climate, day)


def rooted(known: Known, today: date) -> Iterable[Nudge]:
    """Into a pot, by how the stems came about; what is overdue is asked for until it is done."""
    lot = known.lot
    job, window = _into_soil(known, today)
    when = ""
    if today > window.closes:
        growing = out_of_winter(known.climate, today) == today
        soil = "pot or plant it now" if growing else "pot it and keep it just free of frost"
        job, when = f"Look after {{}}: {soil}", "overdue"
        late = spoken(window.closes, today)
        why = (
            f"It was to be done by {late}; roots that are short still do no better in a starved mix. "
            "If they have died, write that down."
        )
        due = window.closes
        window = stretch(due, (today, today), today + days(6), "pot", why, COMMON_PRACTICE)
        share = OVERDUE_SHARE[lot.method.starts_rooted]
        loss = stakes(known, (Stage.ROOTED,), 1.0, week_by_week(today, share), "they die where they lie")
    else:
        loss = _of_waiting_for_soil(known, window)
    name = "bulbs" if lot.method is Method.BULB_OFFSET else "pot"
    yield nudge(known, name, job, window, Stage.ROOTED, task="pot", loss=loss, when=when)


def _of_waiting_for_soil(known: Known, window: Window) -> Loss:
    """What is lost if rooted stems wait: pieces and bulbs dry, cuttings cramp, layers live on their mother,
    except in the air, where frost takes their roots."""
    lot, late = known.lot, between(window.best[1], window.closes)
    if lot.method is Method.AIR_LAYER:
        frost = once_frost_comes(known.climate, frosts(known.climate, window.closes.year).first_autumn)
        return stakes(known, (Stage.ROOTED,), 1.0, frost, "frost comes to roots that hang in the air")
    if lot.method.is_layer:
        return NO_LOSS
    if lot.method.starts_rooted:
        return stakes(known, (Stage.ROOTED,), 1.0, late, "they dry out")
    return stakes(known, (Stage.ROOTED,), CRAMPED_SHARE, late, "they starve in their tray")


def _into_soil(known: Known, today: date) -> tuple[str, Window]:
    """The job that takes rooted stems to their next soil, and its window."""
    lot = known.lot
    since = lot.reached(Stage.ROOTED) or lot.started_on
    if lot.method is Method.BULB_OFFSET:
        return "Replant the bulbs of {}, or pot them", _soon(since, BULBS_KEEP_WEEKS * 7, BULBS)
    if lot.method.starts_rooted:
        return "Pot the pieces of {}, or plant them", _soon(since, PIECES_DRY_DAYS, PIECES_DRY)
    ready = ready_to_pot(lot.root_length_m, lot.method, known.units)
    short = lot.root_length_m is not None and not ready.value
    opens = since + days(ROOTS_GROW_DAYS) if short else since
    closes = min(opens + weeks(UNTIL_POTTED_WEEKS), _last_potting(known, opens))
    after = closes + days(1)
    for day in (opens,) if today <= closes else (opens, after, today):
        spring = _left_till_spring(known, day, today)
        if spring is not None:
            return "Pot {}", spring
    if lot.method.is_layer and (isinstance(lot.origin, e.Layer) or today > closes):
        return "Cut {} from its mother and pot it", _next_severing(known, today)
    job = "Look at the roots of {} again, and pot if they are long enough" if short else "Pot {}"
    return job, stretch(opens, (opens, opens + days(21)), closes, "pot", ready.why, ready.source)


def _left_till_spring(known: Known, day: date, today: date) -> Window | None:
    """The next season for cuttings that have rooted without heat once that of the year is over: they fill no
    pot before winter, and stand where they are until then. ``None`` in season, or where they need not
    wait."""
    if not known.lot.method.is_cutting or known.bench is Bench.WARM:
        return None
    season = next_potting(known.plant, known.climate, day)
    if season is None or season.opens <= day:
        return None
    closes = min(season.opens + weeks(UNTIL_POTTED_WEEKS), season.closes)
    best = (season.opens, season.opens + days(21))
    why = LEFT_TILL_SPRING if today < season.opens else SPRING_HAS_COME
    return stretch(season.opens, best, closes, "pot", why, COMMON_PRACTICE)


def _last_potting(known: Known, opens: date) -> date:
    """The last day on which it can still fill its pot with roots before winter, but a week at the least;
    roots made in the cold season wait under cover for spring."""
    season = next_potting(known.plant, known.climate, opens)
    if season is None or season.opens > opens:
        return opens + weeks(UNTIL_POTTED_WEEKS)
    return max(season.closes, opens + weeks(1))


def _next_severing(known: Known, today: date) -> Window:
    """The first season, from the layer's own on, in which it may still be cut from its mother."""
    started = known.lot.started_on
    window = sever_window(known.lot.method, started, known.climate)
    while window.closes < today:
        started += days(365)
        window = sever_window(known.lot.method, started, known.climate)
    return window


def _soon(since: date, keeps_days: int, why: str) -> Window:
    """A window for what should be in soil again within days, and keeps only so long."""
    return stretch(since, (since, since + days(2)), since + days(keeps_days), "pot", why, COMMON_PRACTICE)
