"""What will crowd on a site, and what is done about it, in words."""

from collections.abc import Mapping
from datetime import date

from cuttings.commands.desk import Desk
from cuttings.ledger.places import Site
from cuttings.placement.crowding import Against, Crowd, Remedy, Standing, remedy
from cuttings.plants.model import Plant
from cuttings.units import show_length
from cuttings.words import Units


def known_on(desk: Desk, site: Site) -> Mapping[str, Plant]:
    """The catalogue's plant for each name that grows on a site, as far as it knows them."""
    found = {each.plant: desk.catalogue.find(each.plant).plant for each in site.growing}
    return {name: plant for name, plant in found.items() if plant is not None}


def crowd_words(crowd: Crowd, units: Units) -> str:
    """What meets what, and by how much it is too near or too high at full size."""
    much = show_length(max(round(crowd.overlap_m, 2), 0.01), units)
    name = _where(crowd.plant, units)
    match crowd.against:
        case Against.HEIGHT:
            return f"{name} grows higher than anything may here, in the end by {much}."
        case Against.PATH:
            return f"{name} reaches into the room kept free along the path, in the end by {much}."
        case Against.EDGE:
            return f"{name} reaches into the room kept free along the edge, in the end by {much}."
    assert crowd.other is not None
    if crowd.against is Against.HELD:
        return f"{name} grows over {crowd.other.held}, held for {crowd.other.lot}, in the end by {much}."
    return f"{name} and {_where(crowd.other, units)} meet, in the end overlapping by {much}."


def _where(plant: Standing, units: Units) -> str:
    if plant.x is None or plant.y is None:
        return plant.name
    along, back = (show_length(metres, units) for metres in (plant.x, plant.y))
    return f"{plant.name} ({along} along, {back} back)"


def remedy_words(crowd: Crowd, today: date) -> str:
    """What to do then, and to which of the two."""
    which, way = remedy(crowd, today)
    if crowd.against is Against.HELD:
        release = f"'cuttings spot --release {which.held}' lets the spot go"
        return f"{release}; 'cuttings spot {which.lot}' finds another."
    match way:
        case Remedy.DIVIDE:
            season = which.known.division.season if which.known and which.known.division else ""
            return (
                f"Divide {which.name}{f' in {season}' if season else ''} and replant the pieces further off."
            )
        case Remedy.MOVE:
            when = "when it is next" if crowd.now else "before then, while it is"
            return f"Move {which.name} {when} dormant or just coming up."
        case Remedy.CUT_BACK:
            return f"Cut {which.name} back each year from then on, or take it out."
        case Remedy.THIN:
            high = "what cannot be reached from the ground is work for a trained arborist"
            return f"Take {which.name} out while it is small; {high}."
