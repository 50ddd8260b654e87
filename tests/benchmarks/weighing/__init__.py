"""Weigh the evidence for what bare numbers are values of (`dictate/mentions/weighing.py`)."""
