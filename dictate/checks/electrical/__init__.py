"""Supply, power, windings, capacitors, contactors."""

from dictate.checks.electrical import voltage_unbalanced

RULES = (voltage_unbalanced.check,)
