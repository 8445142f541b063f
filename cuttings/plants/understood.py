"""From what a person calls a plant to the name and the rules that go with it."""

from collections.abc import Mapping, Sequence

from attrs import frozen

from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.plants.names import cultivar_of, folded
from cuttings.words import Method, PlantType, either

GUESSED_TYPE: Mapping[Method, PlantType] = {
    Method.CROWN_DIVISION: PlantType.PERENNIAL,
    Method.RHIZOME_DIVISION: PlantType.PERENNIAL,
    Method.TUBER_DIVISION: PlantType.PERENNIAL,
    Method.OFFSET: PlantType.PERENNIAL,
    Method.BULB_OFFSET: PlantType.BULB,
    Method.BASAL_CUTTING: PlantType.PERENNIAL,
    Method.ROOT_CUTTING: PlantType.PERENNIAL,
    Method.LEAF_CUTTING: PlantType.TENDER_PERENNIAL,
    Method.SEEDLING: PlantType.PERENNIAL,
}
"""The type of a plant nobody has entered, from how it is increased; a shrub otherwise (common practice)."""


FEW_NAMED = 3
MOST_NAMED = 8
"""Of more plants than this, nobody wants to read all the names."""


@frozen
class Understood:
    """A plant's name as it goes into the ledger, and how it was come by.

    ``called`` is the keeper's own word for it; ``remark`` tells what was forgiven or is not known; ``unsure``
    is a plant that the keeper cannot name either.
    """

    name: str
    called: str
    plant: Plant | None
    candidates: tuple[str, ...] = ()
    remark: str = ""
    unsure: bool = False

    @property
    def could_be(self) -> str:
        """What an ambiguous name could mean, in a sentence that says what to do."""
        named = list(self.candidates[:MOST_NAMED])
        if len(named) < len(self.candidates):
            named.append(f"one of {len(self.candidates) - len(named)} more")
        return f"'{self.name}' could be {either(named)}; give the full name."


def understand(catalogue: Catalogue, asked: str) -> Understood:
    """What a person means by a plant's name; ``plant`` is ``None`` where nobody has entered it."""
    asked = " ".join(asked.split())
    match = catalogue.find(asked)
    cultivar = cultivar_of(asked)
    if match.candidates:
        return Understood(asked, "", None, match.candidates)
    if match.plant is None:
        remark = f"Nobody has entered '{asked}' yet, so the general rules for its kind of plant apply."
        return Understood(asked, "", None, remark=remark)
    plant = match.plant
    if match.how == "genus":
        remark = f"'{asked}' is not in the catalogue itself; what holds for {plant.name} in general applies."
        return Understood(asked[:1].upper() + asked[1:], "", plant, remark=remark)
    if plant.rank == "cultivar":
        cultivar = ""  # its own name has it
    name = f"{plant.name} {cultivar}".strip()
    word = match.word
    if folded(word) == folded(plant.name):
        word = plant.common[0] if plant.common and plant.rank != "genus" else ""
    called = f"{word} {cultivar}".strip() if word else ""
    forgiven = match.how in ("part", "spelling")
    meant = plant.name if match.word == plant.name else f"{match.word} ({plant.name})"
    remark = f"'{asked}' was taken for {meant}." if forgiven else ""
    species = catalogue.species_of(plant.name) if plant.rank == "genus" else ()
    if species:
        more = f"What holds for {plant.name} in general applies; {_few(species)} has more."
        remark = f"{remark} {more}".strip()
    return Understood(name, called, plant, remark=remark)


def _few(names: Sequence[str]) -> str:
    """The names, or where there are more than a few the first of them."""
    more = ("another of its species",) if len(names) > FEW_NAMED else ()
    return either((*names[:FEW_NAMED], *more))


def plant_for(catalogue: Catalogue, name: str, plant_type: PlantType | None, method: Method | None) -> Plant:
    """The plant of a ledger entry: its own record, its genus's, or its type's general rules."""
    found = catalogue.find(name).plant
    if found is not None:
        return found
    kind = plant_type or (GUESSED_TYPE.get(method, PlantType.SHRUB) if method else PlantType.PERENNIAL)
    return catalogue.general(kind, name)
