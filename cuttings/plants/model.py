"""The shape of a plant's record. Lengths are metres, temperatures degrees Celsius, times as named.

Months are those of a northern garden in hardiness zones 5 and 6; a rule that uses them shifts them by
six in the southern hemisphere. Every record names its sources by key; the keys are spelled out in the
``references`` at the end of each data file. Two keys are always there: ``common practice`` for a fact
of the trade that any grower would confirm, and ``from memory`` for a figure nobody has checked yet.
"""

from collections.abc import Mapping

from attrs import field, frozen

from cuttings.words import Drainage, Light, Method, Moisture, PlantType

COMMON_PRACTICE = "common practice"
FROM_MEMORY = "from memory"
UNPUBLISHED = (COMMON_PRACTICE, FROM_MEMORY)

Range = tuple[float, float]


@frozen
class Reference:
    """A published source."""

    publisher: str
    title: str
    year: str = ""
    url: str = ""

    def __str__(self) -> str:
        year = f", {self.year}" if self.year else ""
        return f"{self.publisher}: {self.title}{year}"


@frozen(eq=False)
class Way:
    """One way of making more of a plant. Compared by identity, as plants are.

    ``rooting_days`` are counted from the day the material was struck or pegged, at
    ``reference_temp_c`` in the rooting medium where one is given, otherwise in the season named.
    ``take`` is the published share that rooted, where there is one. ``difficulty`` is ``easy``, ``moderate``
    or ``hard``; ``kind`` the sort of piece that is taken; ``sever`` when a layer is cut from its mother.
    """

    method: Method
    difficulty: str = ""
    kind: str = ""
    season: str = ""
    months: tuple[int, ...] = ()
    rooting_days: tuple[int, int] | None = None
    reference_temp_c: Range | None = None
    iba_ppm: tuple[int, int] | None = None
    length_m: Range | None = None
    take: Range | None = None
    prepare: str = ""
    medium: str = ""
    cover: str = ""
    rooted_when: str = ""
    sever: str = ""
    sever_months: tuple[int, ...] = ()
    source: str = FROM_MEMORY
    sources: Mapping[str, str] = field(factory=dict)

    def source_of(self, name: str) -> str:
        return self.sources.get(name, self.source)


@frozen
class Division:
    """When and how a clump is divided.

    ``per_piece`` is how many of what ``counted_in`` names (eyes, fans, shoots) each piece keeps.
    """

    season: str
    months: tuple[int, ...]
    every_years: tuple[int, int] | None = None
    pieces: str = ""
    per_piece: tuple[int, int] | None = None
    counted_in: str = ""
    replant: str = ""
    replant_depth_m: Range | None = None
    resents: bool = False
    source: str = FROM_MEMORY
    sources: Mapping[str, str] = field(factory=dict)

    def source_of(self, name: str) -> str:
        return self.sources.get(name, self.source)


@frozen
class Caution:
    """Something that can hurt a person, an animal, other ground or the law. ``parts`` are the harmful ones;
    ``harms`` is ``animals`` where a poison is known to harm no more than pets and stock."""

    kind: str
    text: str
    source: str = COMMON_PRACTICE
    parts: tuple[str, ...] = ()
    harms: str = ""


@frozen
class Bloom:
    """When a plant flowers, and whether on last year's wood (``old``) or this year's (``new``)."""

    months: tuple[int, ...]
    wood: str = ""


@frozen
class Looks:
    """What tells a plant from others in the hand; an empty part is one that nobody has entered.

    ``petals`` are the numbers of petals or petal-like parts a flower shows: 8 stands for many, 0 for none.
    """

    leaves: tuple[str, ...] = ()
    leaf: tuple[str, ...] = ()
    stem: str = ""
    sap: str = ""
    petals: tuple[int, ...] = ()
    below: tuple[str, ...] = ()
    prickles: bool | None = None
    smell: str = ""


@frozen
class Double:
    """A well-known unwanted plant that a sought-after one is mistaken for, and what tells them apart."""

    name: str
    common: str
    tell: str
    if_double: str
    source: str


@frozen(eq=False)
class Plant:
    """Everything known of one plant, after inheritance. Compared by identity: the catalogue makes each once.

    ``level`` is the record the plant was found at (``species``, ``cultivar``, ``genus`` or ``type``) and
    ``levels`` says, for each field that came from further up, from where. In a pot its roots are killed at
    ``root_kill_c``, and harmed from ``root_harm_c`` down, the coldest they came through fit for sale. An
    ``unwanted`` plant is known only so that a find of it is dealt with safely; nobody increases or plants it.
    ``salt`` is how it stands road salt or sea wind: ``tolerant``, ``some`` (moderately) or ``sensitive``.
    """

    name: str
    type: PlantType
    rank: str = "species"
    common: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    zones: tuple[int, int] | None = None
    height_m: Range | None = None
    spread_m: Range | None = None
    spacing_m: Range | None = None
    growth: str = ""
    light: tuple[Light, ...] = ()
    moisture: tuple[Moisture, ...] = ()
    drainage: tuple[Drainage, ...] = ()
    ph: Range | None = None
    evergreen: bool = False
    bloom: Bloom | None = None
    juglone: str = ""
    deer: str = ""
    salt: str = ""
    root_kill_c: float | None = None
    root_harm_c: float | None = None
    mix: str = ""
    potting_depth: str = ""
    planting_depth: str = ""
    planting_depth_m: Range | None = None
    runs: bool = False
    unwanted: bool = False
    looks: Looks | None = None
    ways: tuple[Way, ...] = ()
    division: Division | None = None
    doubles: tuple[Double, ...] = ()
    cautions: tuple[Caution, ...] = ()
    source: str = FROM_MEMORY
    sources: Mapping[str, str] = field(factory=dict)
    levels: Mapping[str, str] = field(factory=dict)

    @property
    def level(self) -> str:
        return self.rank

    @property
    def genus(self) -> str:
        return self.name.removeprefix("× ").split(" ")[0]

    def source_of(self, name: str) -> str:
        return self.sources.get(name, self.source)

    def way(self, method: Method) -> Way | None:
        return next((way for way in self.ways if way.method is method), None)
