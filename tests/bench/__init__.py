"""Benchmarks: ratios against a baseline of the same run; never assertions."""
