"""What people look at: pages over rich, and their plain twins."""
