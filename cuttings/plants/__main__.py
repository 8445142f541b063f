"""``python -m cuttings.plants``: say every fault of the plant records of a checkout."""

import sys

from cuttings.plants.checking import of_files
from cuttings.plants.standard import data_files


def main() -> int:
    """1 if there is a fault."""
    files = data_files()
    faults = of_files(files)
    plants = sum(len(data.get("plants", ())) for data in files.values())
    sys.stdout.writelines(f"{line}\n" for line in (*faults, f"{plants} records, {len(faults)} faults"))
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main())
