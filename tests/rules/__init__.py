"""Tests of the rules of the trade."""
