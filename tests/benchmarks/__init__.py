"""Benchmarks that are run by hand: `python -m tests.benchmarks.NAME`."""
