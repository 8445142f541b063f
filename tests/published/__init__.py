"""Checks against outside sources, each named beside its figure."""
