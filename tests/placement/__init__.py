"""Tests of where plants can go."""
