"""Run with `python -m dictate`."""

from dictate.cli import main

main()
