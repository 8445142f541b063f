"""One file a family of commands: ask, call the core, show."""
