"""The console script, and ``python -m cuttings``."""

import gc
import os
import sys


def main() -> None:
    """Run the command line and exit with its code."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:  # closed by whoever called; no ledger file must take its place
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: PTH123, SIM115
    gc.disable()  # a command lives a fraction of a second; collecting would cost more than it frees
    from cuttings.app import run

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
