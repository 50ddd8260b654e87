"""US or metric: which units a visit is spoken in, and the unit of a bare number.

system      `UnitSystem`: the answer, and the unit that a bare number has by it
evidence    the units and words that were said, mains voltages, sizes of numbers: `unit_system(narration)`
levels      how likely a temperature is at its place on either scale
settled     all of it weighed again with the readings that were taken; what stays open gets a reason
"""

from __future__ import annotations

from dictate.mentions.units_system.evidence import unit_system
from dictate.mentions.units_system.system import UnitSystem

__all__ = ["UnitSystem", "unit_system"]
