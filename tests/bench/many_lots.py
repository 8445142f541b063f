"""How long the week of 2,000 live lots takes, against the week of 200.

Run it by hand: `python -m tests.bench.many_lots`. Both ledgers are made by the same rule and asked in turn,
so that whatever else the machine does bears on both alike, and the medians are set against each other.
"""

import os
import random
import statistics
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from cuttings.demo.quarry_bank import quarry_bank
from cuttings.ledger import entries as e
from cuttings.ledger.ids import new_id
from cuttings.ledger.store import Ledger, Stamp
from cuttings.words import Stage
from tests.bench.week import PLANTS, seconds

FEW, MANY = 200, 2_000
RUNS = 11
LAST_DAY = date(2026, 5, 2)
PLACES = ("gate strip", "kitchen side", "north wall", "orchard edge", "wet corner", "holding bench")


def live_lots(count: int) -> Iterator[e.Entry]:
    """So many lots begun over the year before a day, each with stems that wait, have rooted or are potted."""
    chance = random.Random(count)
    last = ""
    for number in range(count):
        on = LAST_DAY - timedelta(days=round(365 * (1 - number / count)))
        lot = f"{on.year % 100:02d}-{number + 1:04d}"
        name, called, method = chance.choice(PLANTS)
        stems, place = chance.randint(2, 20), chance.choice(PLACES)
        stage = Stage.ROOTED if method.starts_rooted else Stage.WAITING
        begun: dict[str, object] = {"plant": name, "called": called, "method": method, "where": place}
        steps: list[tuple[type[e.LotEntry], dict[str, object], Stage | None, Stage]] = [
            (e.Find, begun, None, stage),
            (e.Check, {}, Stage.WAITING, Stage.ROOTED),
            (e.Pot, {"pot": "4in", "pot_volume_l": 0.6, "where": place}, Stage.ROOTED, Stage.POTTED),
        ]
        for kind, fields, source, target in steps[: chance.randint(1, 3)]:
            if source is Stage.WAITING and stage is Stage.ROOTED:
                continue
            last = new_id(datetime(on.year, on.month, on.day, tzinfo=UTC), after=last)
            move = e.Move(count=stems, source=source, target=target)
            yield kind(id=last, on=on, lot=lot, moves=(move,), **fields)  # type: ignore[arg-type]


def make_ledger(folder: Path, lots: int) -> None:
    """The demo garden's place with so many live lots in it."""

    def make(_: object, stamp: Stamp) -> list[e.Entry]:  # noqa: ARG001
        places = [x for x in quarry_bank(LAST_DAY) if isinstance(x, e.GardenFacts | e.SiteFacts)]
        return [*places, *live_lots(lots)]

    book, _ = Ledger(folder).record(make)
    assert len(book.live_lots()) == lots


def main() -> None:
    medians = {}
    with tempfile.TemporaryDirectory() as temporary:
        folders = {lots: Path(temporary) / str(lots) for lots in (FEW, MANY)}
        for lots, folder in folders.items():
            make_ledger(folder, lots)
        for words in (("week",), ("week", "--minutes", "90")):
            command = [sys.executable, "-m", "cuttings", *words, "--on", LAST_DAY.isoformat(), "--json"]
            times: dict[int, list[float]] = {FEW: [], MANY: []}
            for run in range(RUNS + 1):
                for lots, folder in folders.items():
                    taken = seconds(command, {**os.environ, "CUTTINGS_LEDGER": str(folder)})
                    if run:  # the first fills the caches of the disk
                        times[lots].append(taken)
            medians = {lots: statistics.median(each) for lots, each in times.items()}
            few, many = medians[FEW], medians[MANY]
            print(
                f"cuttings {' '.join(words)}: {FEW} live lots {few * 1000:.0f} ms, {MANY:,} live lots "
                f"{many * 1000:.0f} ms (medians of {RUNS} runs); ratio {many / few:.1f}"
            )


if __name__ == "__main__":
    main()
