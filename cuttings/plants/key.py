"""A short key: a few things anybody can see in the hand, and which plants of the catalogue they leave.

It never names a plant for certain. A plant of which nobody entered a thing is not shut out by it.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from attrs import frozen

from cuttings.plants.model import Looks, Plant
from cuttings.words import PlantType

MANY = 8
"""The number of petals that stands for so many that nobody counts them."""


@frozen
class Answer:
    """One of the answers to a question, as a word of the records and as one would say it."""

    value: str
    words: str


@frozen
class KeyQuestion:
    """One thing to look at; ``seen`` tells which answers fit a plant, none where nobody entered it.

    ``can_tell`` is the share of finders who can answer it, on any day of the year; from memory.
    """

    name: str
    can_tell: float
    ask: str
    answers: tuple[Answer, ...]
    seen: Callable[[Plant], frozenset[str]]


GROWS_AS: Mapping[PlantType, str] = {
    PlantType.TREE: "woody",
    PlantType.SHRUB: "woody",
    PlantType.SUBSHRUB: "woody",
    PlantType.CLIMBER: "climbing",
    PlantType.GRASS: "grass",
    PlantType.FERN: "fern",
    PlantType.PERENNIAL: "soft",
    PlantType.BULB: "soft",
    PlantType.HERB: "soft",
    PlantType.TENDER_PERENNIAL: "soft",
}
MAY_BE_WOODY = frozenset({PlantType.HERB, PlantType.TENDER_PERENNIAL, PlantType.TREE, PlantType.SHRUB})
"""Types whose stems may be soft in one plant and woody in another, or while they are young."""


def _grows_as(plant: Plant) -> frozenset[str]:
    words = {GROWS_AS[plant.type]}
    if plant.type in MAY_BE_WOODY:
        words |= {"woody", "soft"}
    return frozenset(words)


def _look(part: str) -> Callable[[Plant], frozenset[str]]:
    def seen(plant: Plant) -> frozenset[str]:
        return frozenset() if plant.looks is None else _words(getattr(plant.looks, part))

    return seen


def _words(value: Any) -> frozenset[str]:
    match value:
        case None | "":
            return frozenset()
        case bool():
            return frozenset({"yes" if value else "no"})
        case str():
            return frozenset({value})
        case _:
            return frozenset(str(each) for each in value)


def _smell(plant: Plant) -> frozenset[str]:
    """The smells offered that stand in the record's words; where there is none, it smells of nothing much."""
    if plant.looks is None or plant.looks == Looks():
        return frozenset()
    words = plant.looks.smell.casefold()
    named = frozenset(smell for smell in ("onion", "mint", "lemon") if smell in words)
    return named or frozenset({"other" if words else "none"})


SEASONS: Mapping[str, frozenset[int]] = {
    "spring": frozenset({3, 4, 5}),
    "summer": frozenset({6, 7, 8}),
    "autumn": frozenset({9, 10, 11}),
    "winter": frozenset({12, 1, 2}),
}
"""Northern months of the seasons, as the plant records have months."""


def _flowers(plant: Plant) -> frozenset[str]:
    if plant.bloom is None:
        return frozenset()
    return frozenset(season for season, months in SEASONS.items() if months & set(plant.bloom.months))


HEIGHTS_M = {
    "knee": (0.0, 0.5),
    "waist": (0.5, 1.2),
    "head": (1.2, 2.0),
    "roof": (2.0, 6.0),
    "tree": (6.0, 99.0),
}
"""Up to where a grown plant reaches on a person, or beside a house; from memory."""


def _height(plant: Plant) -> frozenset[str]:
    if plant.height_m is None:
        return frozenset()
    low, high = plant.height_m
    return frozenset(word for word, (least, most) in HEIGHTS_M.items() if low < most and high > least)


def _answers(**words: str) -> tuple[Answer, ...]:
    return tuple(Answer(value.lstrip("_"), said) for value, said in words.items())


QUESTIONS = (
    KeyQuestion(
        "grows", 0.95,
        "How does it grow?",
        _answers(
            woody="with woody stems: a shrub or a tree",
            climbing="it climbs or trails",
            soft="with soft stems, or leaves from the ground",
            grass="like grass",
            fern="like a fern",
        ),
        _grows_as,
    ),
    KeyQuestion(
        "leaves", 0.8,
        "How do the leaves stand on the stem?",
        _answers(
            opposite="in pairs, one across from the other",
            alternate="one by one, in turn",
            whorled="three or more in a ring",
            basal="all from the ground",
        ),
        _look("leaves"),
    ),
    KeyQuestion(
        "leaf", 0.8,
        "What is one leaf like?",
        _answers(
            simple="one blade, with or without teeth",
            lobed="one blade, cut into lobes",
            compound="made of leaflets",
            strap="long and narrow, like a strap or a sword",
            needle="a needle",
            scale="a scale pressed to the twig",
            frond="a fern's frond",
        ),
        _look("leaf"),
    ),
    KeyQuestion(
        "stem", 0.8,
        "What is the stem like between your fingers?",
        _answers(round="round", square="square", winged="with wings or ridges of cork or leaf"),
        _look("stem"),
    ),
    KeyQuestion(
        "sap", 0.6,
        "What comes out of a broken leaf stalk? (keep it off skin and out of eyes)",
        _answers(milky="milky sap", clear="clear sap, or none"),
        _look("sap"),
    ),
    KeyQuestion(
        "petals", 0.3,
        "If it is in flower, how many petals, or parts like petals?",
        _answers(
            _0="none to be seen", _1="one", _2="two lips", _3="three", _4="four", _5="five", _6="six",
            _7="seven", _8="eight or more, as in a daisy",
        ),
        _look("petals"),
    ),
    KeyQuestion(
        "below", 0.6,
        "What is below ground?",
        _answers(
            crown="a clump of thin roots",
            taproot="one thick root going down",
            bulb="a bulb",
            corm="a corm: like a bulb, but solid",
            tuber="a tuber, or several",
            rhizome="a thick creeping stem",
            runner="runners on or just under the ground",
            sucker="shoots from the roots",
            woody="woody roots",
        ),
        _look("below"),
    ),
    KeyQuestion(
        "height", 0.6,
        "How tall are grown ones of it, if you know?",
        _answers(
            knee="to the knee",
            waist="to the waist",
            head="to the head",
            roof="over the head, to a low roof",
            tree="higher",
        ),
        _height,
    ),
    KeyQuestion(
        "flowers", 0.4,
        "When does it flower?",
        _answers(spring="in spring", summer="in summer", autumn="in autumn", winter="in winter"),
        _flowers,
    ),
    KeyQuestion(
        "winter-leaves", 0.5,
        "Does it keep its leaves through winter?",
        _answers(yes="yes", no="no"),
        lambda plant: _words(plant.evergreen),
    ),
    KeyQuestion(
        "prickles", 0.9, "Has it thorns, spines or prickles?", _answers(yes="yes", no="no"), _look("prickles")
    ),
    KeyQuestion(
        "smell", 0.7,
        "Bruise a leaf: what does it smell of?",
        _answers(
            none="nothing much", onion="onion or garlic", mint="mint", lemon="lemon", other="something else"
        ),
        _smell,
    ),
)  # fmt: skip
BY_NAME = {question.name: question for question in QUESTIONS}

FEW = 6
"""So few plants are quicker to look at than another question."""

WORTH_ASKING = 0.9
"""A question is asked only if it may be expected to leave less than this share of the plants."""


def narrowed(plants: Iterable[Plant], answers: Mapping[str, str]) -> list[Plant]:
    """The plants that the answers, by question, do not shut out: those that fit in most ways first."""
    left = [(plant, fits) for plant in plants if (fits := _fits(plant, answers)) is not None]
    return [plant for plant, _ in sorted(left, key=lambda each: -each[1])]


def _fits(plant: Plant, answers: Mapping[str, str]) -> int | None:
    """How many answers are known to fit the plant; ``None`` if one does not."""
    fits = 0
    for name, answer in answers.items():
        seen = BY_NAME[name].seen(plant)
        if seen and answer not in seen:
            return None
        fits += bool(seen)
    return fits


def next_question(plants: Sequence[Plant], asked: Iterable[str]) -> KeyQuestion | None:
    """The question that may be expected to leave the fewest plants; ``None`` where none is worth it."""
    done = set(asked)
    open_questions = [question for question in QUESTIONS if question.name not in done]
    if len(plants) <= FEW or not open_questions:
        return None
    best = min(open_questions, key=lambda question: expected_left(question, plants))
    return best if expected_left(best, plants) < WORTH_ASKING * len(plants) else None


def expected_left(question: KeyQuestion, plants: Sequence[Plant]) -> float:
    """How many of the plants the question leaves on average, if each of them is as likely to be the one.

    A plant that may show several answers shows each as often; one of which nothing is known stays in
    whatever is answered. Where the finder cannot tell, all stay.
    """
    seen = [question.seen(plant) for plant in plants]
    unknown = sum(not words for words in seen)
    if unknown == len(plants):
        return float(unknown)
    weights: dict[str, float] = {}
    kept: dict[str, int] = {}
    for words in seen:
        for word in words:
            weights[word] = weights.get(word, 0.0) + 1 / len(words)
            kept[word] = kept.get(word, 0) + 1
    told = sum(weights.values())
    answered = unknown + sum(weights[word] / told * kept[word] for word in weights)
    return question.can_tell * answered + (1 - question.can_tell) * len(plants)


def to_tell_apart(plants: Iterable[Plant]) -> list[Plant]:
    """The plants to look among: species, and genera of which no species is known."""
    known = list(plants)
    with_species = {plant.genus for plant in known if plant.rank == "species"}
    return [
        plant
        for plant in known
        if plant.rank == "species" or (plant.rank == "genus" and plant.genus not in with_species)
    ]
