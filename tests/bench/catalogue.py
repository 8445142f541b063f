"""What it costs a command to read the plants it needs, against the same program that reads none.

Run it by hand: `python -m tests.bench.catalogue`. Both start a Python of their own and load what every
command loads; one of them then finds the plants of three lots and has their rules ready. They run in turn.
"""

import statistics
import subprocess
import sys
import time

from cuttings.plants.standard import BUILT, built, data_files

RUNS = 41
BARE = "import cuttings.app, cuttings.commands.desk, cuttings.nudges.week"
NAMES = ("red currant", "Iris sibirica", "Hydrangea anomala subsp. petiolaris")
READING = f"""{BARE}
from cuttings.plants.standard import standard
from cuttings.plants.understood import plant_for
for name in {NAMES!r}:
    plant_for(standard(), name, None, None)
"""


def milliseconds(program: str) -> float:
    begin = time.perf_counter()
    subprocess.run([sys.executable, "-c", program], check=True)
    return (time.perf_counter() - begin) * 1000


def main() -> None:
    BUILT.write_bytes(built(data_files()))  # as every build does
    pairs = [(milliseconds(BARE), milliseconds(READING)) for _ in range(RUNS)]
    bare, reading = (statistics.median(column) for column in zip(*pairs, strict=True))
    more = statistics.median(reading - bare for bare, reading in pairs)
    size = BUILT.stat().st_size / 1e6
    print(f"without the catalogue: median {bare:.0f} ms over {RUNS} runs")
    print(f"with three plants of it ({size:.1f} MB): median {reading:.0f} ms")
    print(f"difference: {more:.1f} ms; ratio {reading / bare:.2f}")


if __name__ == "__main__":
    main()
