"""The console script, and ``python -m cuttings``."""

import gc
import sys


def main() -> None:
    """Run the command line and exit with its code."""
    gc.disable()  # a command lives a fraction of a second; collecting would cost more than it frees
    from cuttings.app import run

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
