"""Is the record itself clear: which machine, which unit, which value counts."""

from dictate.checks.record import (
    equipment_identity_not_stated,
)

RULES = (equipment_identity_not_stated.check,)
