"""What the windows of many lots cost, in a garden that goes by thirty years of daily weather.

Run it by hand: `python -m tests.bench.windows`. Three things are set against each other in one run: every
window of 2,000 lots against those of 200, and those of 200 against the time a plain `cuttings week` takes
to import what it needs. Each is done afresh in a process of its own, so that nothing is remembered from one
to the next.
"""

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

RUNS = 9
DAY = "2026-05-02"

IMPORTS = """
import sys, time
begin = time.perf_counter()
import cuttings.app, cuttings.commands.advising, cuttings.ledger.store
print(time.perf_counter() - begin)
"""

WINDOWS = """
import sys, time
from datetime import date
from pathlib import Path
from cuttings.commands.desk import Desk
from cuttings.ledger.book import fold
from cuttings.ledger.store import Ledger
from cuttings.nudges.knowledge import known
from cuttings.nudges.lots import nudges_for
from cuttings.plants.standard import standard
from cuttings.words import Units
from tests.bench.week import story

day, lots = date.fromisoformat(sys.argv[1]), int(sys.argv[3])
desk = Desk(ledger=Ledger(Path(sys.argv[2])), today=day, on=day)
begun = [entry for entry in story(10 * lots) if entry.on <= day]
book = fold(begun)
chosen = [lot for lot in book.lots.values() if lot.living][:lots]
assert len(chosen) == lots
catalogue = standard()
begin = time.perf_counter()
climate = desk.climate
assert climate.normals is not None
windows = sum(len(nudges_for(known(lot, catalogue, climate, Units.US), day)) for lot in chosen)
spent = time.perf_counter() - begin
assert windows >= lots
print(spent)
"""


def seconds(code: str, *words: str) -> float:
    root = Path(__file__).parents[2]
    ended = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=root,
        env={**os.environ, "PYTHONPATH": str(root)},
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    return float(ended.stdout)


def main() -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary) / "quarry-bank"
        demo = [sys.executable, "-m", "cuttings", "demo", "--keep", str(folder), "--json"]
        subprocess.run(demo, stdout=subprocess.DEVNULL, check=True)
        few, many, imports = [], [], []
        for _ in range(RUNS):
            imports.append(seconds(IMPORTS))
            few.append(seconds(WINDOWS, DAY, str(folder), "200"))
            many.append(seconds(WINDOWS, DAY, str(folder), "2000"))
    week_s, few_s, many_s = (statistics.median(times) for times in (imports, few, many))
    print(f"imports of a plain week: median {week_s * 1000:.0f} ms over {RUNS} runs")
    print(f"windows of 200 lots: median {few_s * 1000:.0f} ms; of 2,000 lots: {many_s * 1000:.0f} ms")
    print(f"ratio of 2,000 lots to 200: {many_s / few_s:.1f}")
    print(f"ratio of 200 lots to the imports: {few_s / week_s:.2f}")


if __name__ == "__main__":
    main()
