"""Tests of the climate."""
