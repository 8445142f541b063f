"""``python -m cuttings``."""

from cuttings.app import main

if __name__ == "__main__":
    main()
