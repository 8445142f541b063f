"""Tonight: what the forecast endangers, and in what order to save it."""

from collections.abc import Iterable, Sequence
from typing import Any

import click

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.dates import spoken
from cuttings.nudges.tonight import Exposed, Group, Night
from cuttings.nudges.tonight import tonight as night_of
from cuttings.rules.dangers import limits_said
from cuttings.rules.shelter import SEE_TO_HEAT
from cuttings.show.page import Page
from cuttings.units import parse_temperature, show_temperature
from cuttings.words import listed

MOST_NAMED, FEW_NAMED = 12, 2
"""How many lots one job names, and one reason for leaving lots alone or for covering what would live
anyway; the rest are counted."""

SMALL_CHANCE = 0.1
"""A chance of loss that is called small; this program's own."""

SAFE_REASONS = 3
"""How many reasons for leaving lots alone are told on the page; the document has them all."""


@click.command(help="Which stems tonight's cold endangers, in the order to save them.")
@click.option("--low", metavar="TEMP", help="the forecast low, such as 29F or -2C")
@global_options
@with_desk
def tonight(desk: Desk, low: str | None) -> None:
    question = _low(desk)
    low_c = desk.interview({"low": low}, [question]).ask(question)
    night = night_of(desk.book.as_of(desk.on), desk.catalogue, desk.climate, desk.on, low_c)
    desk.answer(_page(desk, night), _document(desk, night))


def _low(desk: Desk) -> Question[float]:
    return Question(
        "low",
        "How low does the forecast go tonight?",
        lambda text: parse_temperature(text, desk.units),
        allowed="a temperature such as 29F or -2C",
    )


def _page(desk: Desk, night: Night) -> Page:
    where = f"{desk.garden.name}, " if desk.garden else ""
    low = show_temperature(night.low_c, desk.units)
    page = Page().heading("Tonight", f"{where}{spoken(desk.on, desk.on)}, a low of {low}")
    spared = [each for each in night.act if each.verdict.spared]
    deadly = [each for each in night.act if not each.verdict.spared]
    if not (deadly or night.beyond):
        page.row("", "Nothing should die of it." if spared else _all_well(desk, night))
    for advice in night.before:
        page.row("First", f"{advice.value} {advice.why}", advice.source if desk.why else "")
    _add_jobs(page, desk, deadly)
    for job in _alike(night.beyond):
        _add_job(page, desk, "Beyond", job, _why(desk, job))
    for job in _alike(spared):
        _add_spared(page, desk, job)
    _add_safe(page, desk, night.safe)
    page.warnings(caution.text for caution in night.cautions)
    minutes = sum(each.minutes for each in deadly)
    page.row("In all", f"about {minutes} minutes.", only_if=bool(minutes))
    return page.next_steps(_next(night))


def _all_well(desk: Desk, night: Night) -> str:
    """That nothing is at risk, and what would be the first."""
    if not night.safe:
        return "Nothing is at risk: nothing alive is in the ledger or on the sites."
    first = night.safe[0]
    begins_c = first.verdict.begins_c
    if begins_c is None:
        return "Nothing is at risk tonight, and nothing here would be on a colder night."
    begins = show_temperature(begins_c, desk.units)
    return f"Nothing is at risk tonight. The first to suffer would be {first.group.name}, near {begins}."


def _alike(found: Iterable[Exposed]) -> list[list[Exposed]]:
    """What is the same work for the same reason stands together, in the order of the most pressing of it."""
    jobs: dict[tuple[str, str], list[Exposed]] = {}
    for each in found:
        jobs.setdefault((each.verdict.remedy.do, each.verdict.cause), []).append(each)
    return list(jobs.values())


def _add_jobs(page: Page, desk: Desk, act: Sequence[Exposed]) -> None:
    """What to act on, numbered; a cause that the job before gave already is not told again."""
    told = ""
    for number, job in enumerate(_alike(act), start=1):
        cause = job[0].verdict.cause
        why = f"For the same reason. {_limits(desk, job)}".rstrip() if cause == told else _why(desk, job)
        _add_job(page, desk, str(number), job, why, tone="accent")
        told = cause


def _add_job(
    page: Page, desk: Desk, margin: str, job: Sequence[Exposed], why: str, *, tone: str = ""
) -> None:
    verdict = job[0].verdict
    what = verdict.remedy.do.replace("{}", _by_place(job), 1)
    minutes = sum(each.minutes for each in job)
    effort = f"{_saves(job)} {minutes} min.".lstrip() if minutes else ""
    page.row(margin, f"{what}. {effort}".rstrip(), why, verdict.source if desk.why else "", tone=tone)


def _add_spared(page: Page, desk: Desk, job: Sequence[Exposed]) -> None:
    """Soft growth worth covering if there is time; the plants live, so a few are named."""
    verdict = job[0].verdict
    what = verdict.remedy.do.replace("{}", listed([_placed(each.group) for each in job], FEW_NAMED), 1)
    page.row("If time", f"{what}.", _why(desk, job), verdict.source if desk.why else "")


def _why(desk: Desk, job: Sequence[Exposed]) -> str:
    """The reason of a job, with limits that hold for all of its stems."""
    return f"{job[0].verdict.cause} {_limits(desk, job)}".rstrip()


def _limits(desk: Desk, job: Sequence[Exposed]) -> str:
    near = [each.verdict.danger for each in job if each.verdict.danger is not None]
    return limits_said(near, desk.units) if near else ""


def _by_place(job: Sequence[Exposed]) -> str:
    """The groups of a job, those that stand in one place together, and each lot once in it."""
    counts: dict[tuple[str, str], int] = {}
    for each in job:
        named = each.group.where, each.group.name
        counts[named] = counts.get(named, 0) + each.group.count
    places: dict[str, list[str]] = {}
    for (where, name), count in list(counts.items())[:MOST_NAMED]:
        places.setdefault(where, []).append(f"{name} ({count})")
    told = [f"{listed(names)}, {where}" if where else listed(names) for where, names in places.items()]
    more = f"; {len(counts) - MOST_NAMED} more" if len(counts) > MOST_NAMED else ""
    return f"{'; '.join(told)}{more}"


def _saves(job: Sequence[Exposed]) -> str:
    """How many stems the work is expected to keep alive, and how many may be lost all the same; nothing
    where all depends on the heat."""
    if job[0].verdict.remedy is SEE_TO_HEAT:
        return ""
    if all(each.verdict.chilled and not each.verdict.chance for each in job):
        return "None would die, but all be set back."
    count, saves = sum(each.group.count for each in job), sum(each.saves for each in job)
    dying = sum(each.group.count * each.verdict.chance for each in job)
    if saves < 0.5:
        if dying <= SMALL_CHANCE * count:
            return "The chance of loss is small."
        return f"The chance of loss falls from {dying / count:.0%} to {(dying - saves) / count:.0%}."
    lost = dying - saves
    still = f"; {round(lost)} may be lost all the same" if lost >= 0.5 else ""
    return f"Saves {'it' if count == 1 else f'about {round(saves)} of {count}'}{still}."


def _add_safe(page: Page, desk: Desk, safe: Sequence[Exposed]) -> None:
    """What may be left alone, by reason; the reasons that most depend on the night come first."""
    reasons: dict[str, list[Exposed]] = {}
    for each in safe:
        reasons.setdefault(each.verdict.why, []).append(each)
    shown = sorted(reasons.items(), key=lambda reason: not reason[1][0].group.standing.said)
    for number, (why, found) in enumerate(shown[:SAFE_REASONS]):
        names = listed([_placed(each.group) for each in found], FEW_NAMED)
        source = found[0].verdict.source if desk.why else ""
        page.row("Safe" if number == 0 else "", f"{names}.", why, source)
    left = sum(len(found) for _, found in shown[SAFE_REASONS:])
    page.row("", f"{left} more, each for its own reason; '--json' tells them all.", only_if=bool(left))


def _placed(group: Group) -> str:
    """A lot by its code; a plant that never came through the ledger by where it grows."""
    return group.name if group.lot else f"{group.name} on {group.where}"


def _next(night: Night) -> str:
    dying = (each for each in (*night.act, *night.beyond) if each.verdict.chance)
    code = next((each.group.lot for each in dying if each.group.lot), "")
    if not code:
        return "'cuttings week' tells what else is worth doing."
    return f"'cuttings lose {code} --cause frost' writes down what it killed."


def _document(desk: Desk, night: Night) -> dict[str, Any]:
    return {
        "on": desk.on.isoformat(),
        "low_c": round(night.low_c, 2),
        "act": [{**_told(each), "order": number} for number, each in enumerate(night.act, start=1)],
        "beyond": [_told(each) for each in night.beyond],
        "safe": [_told(each) for each in night.safe],
        "before": [advice.value for advice in night.before],
        "cautions": [caution.text for caution in night.cautions],
    }


def _told(exposed: Exposed) -> dict[str, Any]:
    group, verdict = exposed.group, exposed.verdict
    return {
        "lot": group.lot or None,
        "plant": group.plant,
        "stems": group.count,
        "at": [stage.value for stage in group.stages],
        "where": group.where,
        "do": exposed.what,
        "why": verdict.why,
        "source": verdict.source,
        "chance": round(verdict.chance, 3),
        "saves": round(exposed.saves, 2),
        "minutes": exposed.minutes,
        "at_risk_below_c": None if verdict.begins_c is None else round(verdict.begins_c, 2),
    }
