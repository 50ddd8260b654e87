"""What a value with its unit is a value of, and what an ambiguous unit means here.

Links of the chain of classes that read one sentence; `readings.py` holds its end and its order.

    meanings         what an ambiguous unit means here: pounds, inches, degrees, "K", "mike"
    durations        is a time one of the machine or of a test, and no working time?
    said_units       asks these, and chooses what was measured
"""

from __future__ import annotations

from dictate.mentions.said_units.said_units import SaidUnits

__all__ = ["SaidUnits"]
