"""What a bare number on an electrical part is: volts, amps or ohms by its place, its size and the talk.

Links of the chain of classes that read one sentence; `readings.py` holds its end and its order.

    supply           numbers of the size of a supply: volts of a row, of a place, of both sides
    grounds          what was read to ground, and what is lost across a contact
    electric         asks these, and goes by the part, the legs, the windings and the talk
"""

from __future__ import annotations

from dictate.mentions.electric.electric import Electric
from dictate.mentions.electric.grounds import GROUNDED, LINE_TO_LOAD

__all__ = ["GROUNDED", "LINE_TO_LOAD", "Electric"]
