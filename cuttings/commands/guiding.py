"""What is said before a start, and recommended at its questions: cuttings, layers and divisions."""

from collections.abc import Sequence

from attrs import evolve

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.naming import Named
from cuttings.commands.parsing import whole
from cuttings.commands.telling import because
from cuttings.dates import spoken
from cuttings.plants.model import Division, Way
from cuttings.rules.advice import Advice
from cuttings.rules.division import not_now, pieces_from_count, pieces_from_width
from cuttings.rules.increase import out_of_season
from cuttings.rules.starting import (
    how_to_divide,
    how_to_layer,
    how_to_strike,
    recommend_cover,
    recommend_dip,
    recommend_heat,
)
from cuttings.units import parse_length
from cuttings.words import Cover, Method, Units, Wood


def way_of(desk: Desk, named: Named, method: Method) -> Way:
    """The plant's own way of increase by a method, or the method's general figures."""
    return named.plant.way(method) or desk.catalogue.way(method)


def guide_strike(desk: Desk, interview: Interview, named: Named, wood: Wood) -> None:
    """Say how long to cut, what to do with it and how deep to set it."""
    way = way_of(desk, named, wood.method)
    say_advice(desk, interview, how_to_strike(way, wood, desk.units, evergreen=named.plant.evergreen))
    warn_of_season(desk, named, wood.method)


def guide_layer(desk: Desk, interview: Interview, named: Named, method: Method) -> None:
    """Say which stem to take, where to wound it, how deep it lies and what keeps it moist."""
    say_advice(desk, interview, how_to_layer(way_of(desk, named, method), desk.units))
    warn_of_season(desk, named, method)


def guide_divide(desk: Desk, interview: Interview, named: Named, method: Method) -> None:
    """Say what a good piece is and how it is set again, and warn of a plant or a time that does not suit."""
    say_advice(desk, interview, how_to_divide(named.plant, way_of(desk, named, method), desk.units))
    if not interview.asking and named.plant.division and named.plant.division.resents:
        desk.warn(f"{named.spoken} resents being divided; keep the root ball as whole as you can.")
    window = not_now(named.plant, desk.climate, desk.on)
    if window is not None:
        desk.warn(
            f"the next good time to divide {named.spoken} begins about {spoken(window.opens, desk.on)}."
        )


def say_advice(desk: Desk, interview: Interview, told: Sequence[Advice[str]]) -> None:
    """Say each advice with its reason; one that has nothing to advise is passed over."""
    for advice in told:
        if advice.value:
            interview.say(f"{advice.value} {because(desk, advice)}".rstrip())


def warn_of_season(desk: Desk, named: Named, method: Method) -> None:
    """Say so where a day is a poor one for a method with a plant."""
    if warning := out_of_season(named.plant, method, desk.on, desk.climate):
        desk.warn(warning)


def advised_dip(desk: Desk, way: Way, question: Question[int | None]) -> Question[int | None]:
    """The question for the dip, with the strength that suits the wood."""
    dip = recommend_dip(way)
    return question.offering("none" if dip.value is None else str(dip.value), because(desk, dip))


def advised_medium(desk: Desk, way: Way, question: Question[str]) -> Question[str]:
    """The question for the medium, with that of the record."""
    why = Advice(way.medium, "Open and poor, so that air reaches the cut end.", way.source_of("medium"))
    return question.offering(way.medium, because(desk, why)) if way.medium else question


def advised_cover(desk: Desk, way: Way, wood: Wood, question: Question[Cover]) -> Question[Cover]:
    """The question for the cover, with the first that the record names."""
    cover = recommend_cover(way, wood)
    return question.offering(cover.value.value, because(desk, cover))


def advised_heat(desk: Desk, way: Way, question: Question[float | None]) -> Question[float | None]:
    """The question for bottom heat, with the warmth that roots like; nobody is taken to have a heater."""
    return evolve(question, why=because(desk, recommend_heat(way, desk.units)))


Clump = int | float
"""How large a clump is: a whole number of eyes, fans or shoots, or its width in metres."""


def ask_pieces(desk: Desk, interview: Interview, named: Named, pieces: Question[int]) -> int:
    """How many pieces are made; a person is asked how large the clump is first, and told what it gives."""
    if not interview.asking or interview.given(pieces) is not None:
        return interview.ask(pieces)
    division = named.plant.division
    size = interview.ask(_clump_question(division, desk.units))
    if size is None:
        return interview.ask(pieces)
    found = _pieces(division, size)
    offered = str(found.value) if found.value > 1 else None  # nobody divides against advice by pressing Enter
    return interview.ask(pieces.offering(offered, because(desk, found)))


def _pieces(division: Division | None, size: Clump) -> Advice[int]:
    if isinstance(size, int) and division is not None:
        return pieces_from_count(division, size)
    return pieces_from_width(size)


def _clump_question(division: Division | None, units: Units) -> Question[Clump | None]:
    counted = division.counted_in if division is not None and division.per_piece is not None else ""
    wanted = f"how many {counted}, or its width" if counted else "its width"
    example = "2ft" if units is Units.US else "60cm"

    def read(text: str) -> Clump | None:
        if not text.strip():
            return None
        if counted and text.strip().isdecimal():
            return whole()(text)
        return parse_length(text, units)

    prompt = f"How large is the clump? ({wanted} such as {example}; Enter if not measured)"
    return Question("clump", prompt, read, default="")
