"""What cannot be, and what the pressures and temperatures mean."""

from dictate.checks.physics import (
    pressure_below_vacuum,
)

RULES = (pressure_below_vacuum.check,)
