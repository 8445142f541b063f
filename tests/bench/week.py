"""How long `cuttings week` takes with a thousand entries, against a Python that does nothing.

Run it by hand: `python -m tests.bench.week`. Both commands are run in turn, so that whatever else the
machine does bears on both alike, and the medians are set against each other.
"""

import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from cuttings.ledger import entries as e
from cuttings.ledger.ids import new_id
from cuttings.ledger.store import Ledger, Stamp
from cuttings.words import Method, Stage

ENTRIES = 1_000
DAYS = 780
RUNS = 21
LAST_DAY = date(2026, 5, 2)
PLANTS = (
    ("Ribes rubrum", "red currant", Method.HARDWOOD_CUTTING),
    ("Salvia rosmarinus", "rosemary", Method.SEMI_RIPE_CUTTING),
    ("Iris sibirica", "Siberian iris", Method.RHIZOME_DIVISION),
    ("Rubus occidentalis", "black raspberry", Method.TIP_LAYER),
    ("Jasminum nudiflorum", "winter jasmine", Method.SIMPLE_LAYER),
)


def story(count: int) -> list[e.Entry]:
    """So many entries: lots begun, looked at, potted and planted over the two years before a day."""
    chance = random.Random(count)
    written: list[e.Entry] = []
    last = ""
    running: dict[int, int] = {}
    while len(written) < count:
        on = LAST_DAY - timedelta(days=round(DAYS * (1 - len(written) / count)))
        number = running[on.year] = running.get(on.year, 0) + 1
        lot = f"{on.year % 100:02d}-{number:03d}"
        name, called, method = chance.choice(PLANTS)
        stems = chance.randint(2, 20)
        stage = Stage.ROOTED if method.starts_rooted else Stage.WAITING
        moves: list[tuple[type[e.LotEntry], dict[str, object], Stage | None, Stage]] = [
            (e.Find, {"plant": name, "called": called, "method": method}, None, stage),
            (e.Check, {}, Stage.WAITING, Stage.ROOTED),
            (e.Pot, {"pot": "4in", "pot_volume_l": 0.6}, Stage.ROOTED, Stage.POTTED),
            (e.Plant, {"site": "fruit row"}, Stage.POTTED, Stage.PLANTED),
        ]
        for kind, fields, source, target in moves[: chance.randint(1, 4)]:
            if source is Stage.WAITING and stage is Stage.ROOTED:
                continue
            last = new_id(datetime(on.year, on.month, on.day, tzinfo=UTC), after=last)
            move = e.Move(count=stems, source=source, target=target)
            written.append(kind(id=last, on=on, lot=lot, moves=(move,), **fields))  # type: ignore[arg-type]
            stems = max(1, stems - chance.randint(0, 1)) if kind is not e.Find else stems
    return written[:count]


def make_ledger(folder: Path) -> None:
    """The demo garden's place with the story's entries in it."""
    from cuttings.demo.quarry_bank import quarry_bank

    def make(_: object, stamp: Stamp) -> list[e.Entry]:  # noqa: ARG001
        places = [x for x in quarry_bank(LAST_DAY) if isinstance(x, e.GardenFacts | e.SiteFacts)]
        return [*places, *story(ENTRIES - len(places))]

    Ledger(folder).record(make)


def seconds(command: list[str], env: dict[str, str]) -> float:
    begin = time.perf_counter()
    subprocess.run(command, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - begin


def main() -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary) / "ledger"
        make_ledger(folder)
        lines = len((folder / "ledger.jsonl").read_bytes().splitlines()) - 1
        env = {**os.environ, "CUTTINGS_LEDGER": str(folder)}
        week = [sys.executable, "-m", "cuttings", "week", "--on", LAST_DAY.isoformat()]
        nothing = [sys.executable, "-c", "pass"]
        seconds(week, env)
        seconds(nothing, env)
        times = [(seconds(week, env), seconds(nothing, env)) for _ in range(RUNS)]
    week_s, nothing_s = (statistics.median(column) for column in zip(*times, strict=True))
    print(f"cuttings week, {lines} entries: median {week_s * 1000:.0f} ms over {RUNS} runs")
    print(f"python -c pass: median {nothing_s * 1000:.0f} ms")
    print(f"ratio: {week_s / nothing_s:.1f}")


if __name__ == "__main__":
    main()
