"""Tests of the invented garden."""
