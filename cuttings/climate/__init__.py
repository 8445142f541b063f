"""When cold comes and goes, from what the keeper knows of it."""
