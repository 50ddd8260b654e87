"""Transcript -> mentions: numbers, readings, movements, steps, parts, machines, as said."""
