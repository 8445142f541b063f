"""A ledger and adviser for new plants, from the find to the place where they grow."""

__version__ = "0.1.0"
