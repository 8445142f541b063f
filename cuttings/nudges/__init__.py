"""Rules turned into this week's work: what each lot and mark needs, when, and why."""
