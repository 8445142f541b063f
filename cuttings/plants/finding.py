"""From what a person types to the records it may mean: exact, in part, or with its spelling forgiven."""

from collections.abc import Iterable, Mapping
from functools import cached_property

from attrs import field, frozen

from cuttings.plants.files import Record
from cuttings.plants.names import cultivar_of, folded, without_gender

KINDS = frozenset({"bulb", "flower", "herb", "perennial", "plant", "shrub", "tree"})
"""Words for kinds of plant, which stand in the names of some."""

Owners = Mapping[str, str]
"""Names of records, each with the word it is known by there."""


@frozen(slots=False)
class Names:
    """Every name of the catalogue, folded, with the records that bear it.

    ``stems`` are the botanical names without the endings of Latin gender.
    """

    whole: Mapping[str, Owners] = field(factory=dict)
    stems: Mapping[str, Owners] = field(factory=dict)

    def and_of(self, record: Record) -> "Names":
        """These names and those of one more record."""
        more = names_of([record])
        return Names(_merged(self.whole, more.whole), _merged(self.stems, more.stems))

    @cached_property
    def words(self) -> Mapping[str, frozenset[str]]:
        """Each word that names are made of, with the names it stands in."""
        found: dict[str, set[str]] = {}
        for name in self.whole:
            for word in name.split():
                found.setdefault(word, set()).add(name)
        return {word: frozenset(names) for word, names in found.items()}

    def find(self, asked: str) -> tuple[str, Owners]:
        """How a name was understood (``exact``, ``part`` or ``spelling``), and the records it may mean.

        A cultivar that has a record of its own comes before its species. No records, and an empty first
        part, where the name means nothing.
        """
        wanted = folded(asked)
        if not wanted:
            return "", {}
        if cultivar_of(asked) and (owners := self.whole.get(folded(asked, keep_cultivar=True))):
            return "exact", owners
        steps = (
            ("exact", self._whole),
            ("spelling", self._of_other_gender),
            ("part", self._with_words),
            ("part", self._beginning),
            ("spelling", self._nearest),
            ("spelling", self._with_words_mended),
        )
        return next(((how, owners) for how, step in steps if (owners := step(wanted))), ("", {}))

    def _whole(self, wanted: str) -> Owners:
        return self.whole.get(wanted, {})

    def _of_other_gender(self, wanted: str) -> Owners:
        return self.stems.get(without_gender(wanted), {}) if " " in wanted else {}

    def _with_words(self, wanted: str) -> Owners:
        """The records one of whose names has all the wanted words; a word for a kind of plant is no name."""
        if wanted in KINDS:
            return {}
        return self._owners(self._holding(set(wanted.split())))

    def _beginning(self, wanted: str) -> Owners:
        """The records of the longest beginning, of two words or more, that is a name by itself: a cultivar's
        name typed without its quotes, or a remark behind the name."""
        words = wanted.split()
        beginnings = (" ".join(words[:length]) for length in range(len(words) - 1, 1, -1))
        return next((owners for each in beginnings if (owners := self._whole(each))), {})

    def _holding(self, words: Iterable[str]) -> Iterable[str]:
        """The names that hold all the words, in their own order."""
        holding = [self.words.get(word, frozenset()) for word in words]
        among = frozenset.intersection(*holding) if holding else frozenset()
        return (name for name in self.whole if name in among)

    def _owners(self, names: Iterable[str]) -> Owners:
        found: dict[str, str] = {}
        for name in names:
            for owner, word in self.whole[name].items():
                found.setdefault(owner, word)
        return found

    def _nearest(self, wanted: str) -> Owners:
        return self._owners(nearest(wanted, self.whole))

    def _with_words_mended(self, wanted: str) -> Owners:
        """As in part, when each word is taken for the known one it is nearest to."""
        mended = [nearest(word, self.words) for word in wanted.split()]
        if len(mended) < 2 or not all(len(choices) == 1 for choices in mended):
            return {}
        return self._with_words(" ".join(choice for (choice,) in mended))


def names_of(records: Iterable[Record]) -> Names:
    """The names those records are known by."""
    whole: dict[str, dict[str, str]] = {}
    stems: dict[str, dict[str, str]] = {}
    for record in records:
        name = record["name"]
        for word in (name, *record.get("common", ()), *record.get("synonyms", ())):
            whole.setdefault(folded(word, keep_cultivar=True), {}).setdefault(name, word)
        for word in (name, *record.get("synonyms", ())):
            if " " in (plain := folded(word)) and record["rank"] != "cultivar":
                stems.setdefault(without_gender(plain), {}).setdefault(name, word)
    return Names(whole, stems)


def _merged(some: Mapping[str, Owners], more: Mapping[str, Owners]) -> dict[str, Owners]:
    return {**some, **{name: {**some.get(name, {}), **owners} for name, owners in more.items()}}


def slips_forgiven(length: int) -> int:
    """How many letters may be wrong, missing, too many or swapped in a word of that many: one in four to
    five, so that no short word is taken for another plant; from memory, held by the tests of names."""
    return min(4, max(1, (length + 1) // 5)) if length > 2 else 0


FIRST_LETTER_HOLDS = 8
"""In words no longer than this the first letter must be right; people seldom miss that one."""


def nearest(wanted: str, names: Iterable[str]) -> list[str]:
    """The known names a misspelt one most likely means: those with the fewest slips; empty if none is near.

    Slips are counted as optimal string alignment has them: a letter left out, put in, changed, or swapped
    with its neighbour.
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    allowed = slips_forgiven(len(wanted))
    choices = list(names)
    found = process.extract(wanted, choices, scorer=OSA.distance, score_cutoff=allowed, limit=None)
    short = len(wanted) <= FIRST_LETTER_HOLDS
    near = [(slips, name) for name, slips, _ in found if not (short and name[0] != wanted[0])]
    fewest = min(near, default=(0, ""))[0]
    return [name for slips, name in near if slips == fewest]
