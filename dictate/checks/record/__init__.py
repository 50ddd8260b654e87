"""Is the record itself clear: which machine, which unit, which value counts."""

from dictate.checks.record import (
    equipment_identity_not_stated,
    labour_times_mismatch,
    reading_implausible,
    reading_machine_unclear,
    reading_repeated_apart,
    reading_unit_inconsistent,
    reading_unit_not_stated,
    refrigerant_unknown_designation,
)

RULES = (
    equipment_identity_not_stated.check,
    labour_times_mismatch.check,
    reading_implausible.check,
    reading_machine_unclear.check,
    reading_repeated_apart.check,
    reading_unit_inconsistent.check,
    reading_unit_not_stated.check,
    refrigerant_unknown_designation.check,
)
