"""What the ledger's own results teach: the share of stems that take, and when they root."""
