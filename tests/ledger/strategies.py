"""What hypothesis draws: whole entries of every kind, and candidate entries for one small garden."""

import types
import typing
from collections.abc import Mapping
from datetime import date, timedelta
from enum import Enum
from typing import Any

import attrs
from hypothesis import strategies as st

from cuttings.ledger import entries as e
from cuttings.ledger.containers import Containers
from cuttings.ledger.goals import Goal
from cuttings.ledger.kinds import KINDS
from cuttings.ledger.places import FixedPoint, Obstacle, Site
from cuttings.ledger.ticks import NudgeDone, NudgeLater, NudgeNever
from cuttings.words import LIVING, Cause, Light, Method, ObstacleKind, Purpose, Sign, Stage, Wood

LOTS = ("26-001", "26-002", "26-003", "26-004")
SITE = "kitchen bed"
PLACE = Site(name=SITE, area="kitchen side", light=Light.FULL_SUN)
FENCE = Obstacle(kind=ObstacleKind.FENCE, start=160.0, end=200.0, distance_m=4.0, height_m=1.8)
SPOTS = ("kitchen-bed@1,0.5", "kitchen-bed@2,0.5")
POTS = ("4in", "black squares", "9cm square", "72-cell tray", "bucket")
"""What pots are called: sizes, a name in the drawer, and one that is never there."""
MARKS = ("M26-001", "M26-002")
FIRST_DAY = date(2026, 4, 1)

_AWKWARD = '\x00\x07\x1b\x7f\x85\u2028\n\r\t"\\,:{}sum é中🌱'
TEXT = st.text(max_size=30) | st.text(alphabet=_AWKWARD, max_size=30)
"""Any Unicode text, and text full of what could break a line, a string or a terminal."""


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | TEXT,
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(TEXT, inside, max_size=3),
    max_leaves=5,
)
"""Anything JSON holds."""


def values(kind: Any) -> st.SearchStrategy[Any]:
    """Values of an annotated type, as far as entries use them."""
    origin, inside = typing.get_origin(kind), typing.get_args(kind)
    if origin in (types.UnionType, typing.Union):
        return st.one_of([st.none() if part is types.NoneType else values(part) for part in inside])
    if origin is tuple and inside[-1] is Ellipsis:
        return st.lists(values(inside[0]), max_size=3).map(tuple)
    if origin is tuple:
        return st.tuples(*map(values, inside))
    if origin is Mapping:
        return st.dictionaries(values(inside[0]), values(inside[1]), max_size=3)
    if kind is Any:
        return JSON
    if isinstance(kind, type) and issubclass(kind, Enum):
        return st.sampled_from(list(kind))
    if attrs.has(kind):
        return whole(kind)
    plain: Mapping[type, st.SearchStrategy[Any]] = {
        str: TEXT,
        bool: st.booleans(),
        int: st.integers(),
        float: st.floats(allow_nan=False, allow_infinity=False),
        date: st.dates(),
    }
    return plain[kind]


def whole(cls: type[Any]) -> st.SearchStrategy[Any]:
    """Instances of an attrs class, each field left at its default now and then."""
    attrs.resolve_types(cls)
    required: dict[str, st.SearchStrategy[Any]] = {}
    optional: dict[str, st.SearchStrategy[Any]] = {}
    for attribute in attrs.fields(cls):
        assert attribute.type is not None
        fields = required if attribute.default is attrs.NOTHING else optional
        fields[attribute.name] = values(attribute.type)
    return st.fixed_dictionaries(required, optional=optional).map(lambda fields: cls(**fields))


def any_entry() -> st.SearchStrategy[e.Entry]:
    """An entry of any kind, with any values its fields may hold."""
    return st.sampled_from(list(KINDS.values())).flatmap(whole)


_LEAVING = {e.Give: Stage.GIVEN, e.Sell: Stage.SOLD, e.Lose: Stage.LOST}
_USUAL: Mapping[type[e.LotEntry], tuple[tuple[Stage, Stage], ...]] = {
    e.Check: ((Stage.WAITING, Stage.ROOTED), (Stage.WAITING, Stage.LOST)),
    e.Pot: ((Stage.ROOTED, Stage.POTTED), (Stage.POTTED, Stage.POTTED)),
    e.Harden: ((Stage.POTTED, Stage.HARDENING),),
    e.Ready: ((Stage.HARDENING, Stage.READY), (Stage.POTTED, Stage.READY)),
    e.Plant: tuple(
        (stage, Stage.PLANTED) for stage in (Stage.ROOTED, Stage.POTTED, Stage.HARDENING, Stage.READY)
    ),
    **{kind: tuple((stage, end) for stage in (*LIVING, Stage.PLANTED)) for kind, end in _LEAVING.items()},
}
"""The moves each kind is for; giving or selling a planted stem is among them to be refused."""

_FIELDS: Mapping[type[e.LotEntry], Mapping[str, Any]] = {
    e.Strike: {"wood": Wood.SOFTWOOD},
    e.Pot: {"pot": "4in"},
    e.Harden: {"step": "start"},
    e.Plant: {"site": SITE, "at": ((1.0, 0.5),)},
    e.Lose: {"cause": Cause.FROST},
}

_days = st.integers(0, 60).map(lambda days: FIRST_DAY + timedelta(days=days))
_counts = st.integers(1, 6)
_some_day = _days | st.none()
_labels = st.sampled_from(["Iris sibirica / 26-001", " "])
_wants = st.sampled_from([0, 2, 5])
_worths = st.sampled_from([None, 0.5, 5.0, 0.0])
_lots = st.sampled_from([*LOTS, *LOTS[:2] * 2])
_stages = st.sampled_from(list(Stage)) | st.none()


@st.composite
def _starting(draw: st.DrawFn, entry_id: str) -> e.Entry:
    kind: type[e.Start] = draw(st.sampled_from([e.Find, e.Strike, e.Layer, e.Divide]))
    target = draw(st.sampled_from([Stage.WAITING, Stage.ROOTED]))
    return kind(
        id=entry_id, on=draw(_days), lot=draw(_lots), plant="Ribes rubrum",
        method=Method.SIMPLE_LAYER, moves=(e.Move(count=draw(st.integers(1, 20)), target=target),),
        **_FIELDS.get(kind, {}),
    )  # fmt: skip


@st.composite
def _moving(draw: st.DrawFn, entry_id: str) -> e.Entry:
    kind = draw(st.sampled_from(list(_USUAL)))
    steps = draw(st.lists(st.sampled_from(_USUAL[kind]), min_size=1, max_size=2, unique=True))
    moves = tuple(e.Move(count=draw(_counts), source=source, target=target) for source, target in steps)
    fields = dict(_FIELDS.get(kind, {}))
    if kind is e.Pot:
        fields["pot"] = draw(st.sampled_from(POTS))
    elif kind in (e.Give, e.Sell):
        fields["with_pots"] = draw(st.booleans())
    return kind(id=entry_id, on=draw(_days), lot=draw(_lots), moves=moves, **fields)


@st.composite
def _drawer(draw: st.DrawFn, entry_id: str) -> e.Entry:
    """Pots put into the drawer or taken out, now and then more than there are or of another size."""
    kinds = {"4in": ("4in", 1), "black squares": ("9cm square", 1), "Squares": ("9cm square", 1)}
    kinds["plugs"] = ("72-cell tray", 72)
    name = draw(st.sampled_from(list(kinds)))
    size, cells = draw(st.sampled_from([kinds[name], kinds[name], kinds[name], ("2L", 1)]))
    change = draw(st.integers(-3, 20))
    return Containers(id=entry_id, on=draw(_days), name=name, size=size, cells=cells, change=change)


@st.composite
def _nonsense(draw: st.DrawFn, entry_id: str) -> e.Entry:
    """Any kind with any move, most of which must be refused."""
    kind: type[e.LotEntry] = draw(st.sampled_from([*_USUAL, e.Note, e.Find, e.Divide]))
    move = e.Move(count=draw(st.integers(-2, 3)), source=draw(_stages), target=draw(_stages))
    fields = dict(_FIELDS.get(kind, {}))
    if issubclass(kind, e.Start):
        fields |= {"plant": "Buxus", "method": Method.OFFSET}
    return kind(id=entry_id, on=draw(_days), lot=draw(_lots), moves=(move,), **fields)


@st.composite
def _splitting(draw: st.DrawFn, entry_id: str) -> e.Entry:
    steps = draw(st.lists(st.sampled_from(list(Stage)), min_size=1, max_size=2, unique=True))
    return e.Split(
        id=entry_id, on=draw(_days), lot=draw(_lots), into=draw(st.sampled_from(LOTS)),
        moves=tuple(e.Move(count=draw(_counts), source=stage) for stage in steps),
    )  # fmt: skip


@st.composite
def _placing(draw: st.DrawFn, entry_id: str) -> e.Entry:
    on, lot = draw(_days), draw(_lots)
    spot, code = draw(st.sampled_from(SPOTS)), draw(st.sampled_from(MARKS))
    nudge = f"{lot}:{draw(st.sampled_from(['feed', 'check']))}"
    return draw(
        st.sampled_from(
            [
                e.Note(id=entry_id, on=on, lot=lot, note="looks well", worth=draw(_worths)),
                e.Rename(id=entry_id, on=on, lot=lot, plant="Iris sibirica"),
                e.Labelled(id=entry_id, on=on, lot=lot, text=draw(_labels)),
                e.PlantFacts(id=entry_id, on=on, plant="Iris sibirica", facts={"zones": [3, 8]}),
                e.SiteFacts(id=entry_id, on=on, site=PLACE),
                e.HoldSpot(id=entry_id, on=on, lot=lot, site=SITE, spot=spot, at=(1.0, 0.5), radius_m=0.6),
                e.ReleaseSpot(id=entry_id, on=on, spot=spot),
                e.Mark(id=entry_id, on=on, code=code, plant="Galanthus", purpose=Purpose.LIFT),
                e.MarkDone(id=entry_id, on=on, code=code),
                e.SeasonSign(id=entry_id, on=on, sign=Sign.LAST_SNOW),
                Goal(
                    id=entry_id,
                    on=on,
                    plant="Ribes rubrum",
                    method=Method.SIMPLE_LAYER,
                    want=draw(_wants),
                    start=6,
                    opens=on,
                    start_by=on,
                    by=on,
                ),
                e.GrowingHere(id=entry_id, on=on, site=SITE, plant="Iris sibirica"),
                e.Thinned(id=entry_id, on=on, site=SITE, plant="Iris sibirica"),
                e.ObstacleHere(id=entry_id, on=on, site=SITE, obstacle=FENCE),
                e.ObstacleGone(id=entry_id, on=on, site=SITE, obstacle=numbered(1)),
                e.PointHere(id=entry_id, on=on, site=SITE, point=FixedPoint(name="A", x=0.0, y=0.0)),
                NudgeDone(id=entry_id, on=on, nudge=nudge, lot=lot, what="Feed it"),
                NudgeLater(id=entry_id, on=on, nudge=nudge, until=draw(_some_day), condition="rooted"),
                NudgeLater(id=entry_id, on=on, nudge=nudge, until=draw(_some_day)),
                NudgeNever(id=entry_id, on=on, nudge=nudge),
            ]
        )
    )


def numbered(number: int) -> str:
    """The id of the entry written down as the so-manyeth."""
    return f"20260701-000000000-{number:010d}"


@st.composite
def candidates(draw: st.DrawFn, most: int = 30) -> list[e.Entry]:
    """Entries as they might be offered to one book in turn, sensible and not, in any order of days.

    The first few begin a site, a mark and two lots with stems at every stage and a spot held, so that
    the rest have something to move.
    """
    entries = _beginning()
    several = [_moving] * 7 + [_placing] * 5 + [_splitting] * 2 + [_drawer] * 2
    kinds = st.sampled_from([*several, _starting, _starting, _nonsense, None])
    for make in draw(st.lists(kinds, min_size=5, max_size=most)):
        entry_id = numbered(len(entries))
        if make is None:
            target = draw(st.integers(0, len(entries) + 1))
            entries.append(e.Reverse(id=entry_id, on=draw(_days), target=numbered(target)))
        else:
            entries.append(draw(make(entry_id)))
    return entries


def _beginning() -> list[e.Entry]:
    entries: list[e.Entry] = [
        e.SiteFacts(id=numbered(0), on=FIRST_DAY, site=PLACE),
        e.ObstacleHere(id=numbered(1), on=FIRST_DAY, site=SITE, obstacle=FENCE),
        e.GrowingHere(id=numbered(2), on=FIRST_DAY, site=SITE, plant="Iris sibirica"),
    ]
    for lot in LOTS[:2]:
        start = (e.Move(count=8, target=Stage.WAITING), e.Move(count=20, target=Stage.ROOTED))
        entries.append(
            e.Find(
                id=numbered(len(entries)), on=FIRST_DAY, lot=lot, plant="Rosmarinus",
                method=Method.SIMPLE_LAYER, moves=start,
            )
        )  # fmt: skip
        steps: tuple[tuple[type[e.LotEntry], int], ...] = ((e.Pot, 15), (e.Harden, 10), (e.Ready, 5))
        for kind, count in steps:
            source, target = _USUAL[kind][0]
            moves = (e.Move(count=count, source=source, target=target),)
            more = _FIELDS.get(kind, {})
            entries.append(kind(id=numbered(len(entries)), on=FIRST_DAY, lot=lot, moves=moves, **more))
    return [
        *entries,
        e.HoldSpot(
            id=numbered(len(entries)), on=FIRST_DAY, lot=LOTS[0], site=SITE, spot=SPOTS[0], at=(1.0, 0.5),
            radius_m=0.6,
        ),
        e.Mark(
            id=numbered(len(entries) + 1), on=FIRST_DAY, code=MARKS[0], plant="Galanthus",
            purpose=Purpose.LIFT,
        ),
    ]  # fmt: skip
