"""How long reading thirty years of a station file takes, against `csv.reader` over the same bytes.

Run it by hand: `python -m tests.bench.loading`. Both are run in turn in one process, so that whatever else
the machine does bears on both alike; the ratio is the median of the pairs' ratios.
"""

import csv
import io
import statistics
import time
from collections.abc import Callable

from cuttings.climate.stationfile import read_station_file
from tests.climate.station_files import LAYOUTS, quarry_bank_days

RUNS = 31


def seconds(work: Callable[[bytes], object], content: bytes) -> float:
    begin = time.perf_counter()
    work(content)
    return time.perf_counter() - begin


def rows(content: bytes) -> list[list[str]]:
    """What `csv.reader` makes of the file."""
    return list(csv.reader(io.StringIO(content.decode())))


def main() -> None:
    days = quarry_bank_days()
    for name, written in LAYOUTS.items():
        content = written(days)
        pairs = [(seconds(read_station_file, content), seconds(rows, content)) for _ in range(RUNS)]
        read_s, rows_s = (statistics.median(column) for column in zip(*pairs, strict=True))
        ratio = statistics.median(read / of_rows for read, of_rows in pairs)
        print(
            f"{name}: {len(days):,} days, {len(content) / 1e6:.1f} MB, read in {read_s * 1000:.1f} ms, "
            f"csv.reader {rows_s * 1000:.1f} ms, ratio {ratio:.1f}"
        )


if __name__ == "__main__":
    main()
