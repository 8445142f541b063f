"""Journeys: the real program, driven as a person would, and its screen read as a person would."""
