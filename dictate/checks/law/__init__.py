"""Law of the USA on refrigerants and food, applied only where the visit's jurisdiction is the USA."""

from dictate.checks.law import (
    certificate_not_stated,
    co2_equivalent,
    inspection_record_incomplete,
    leak_over_full_charge,
    leak_rate_not_computable,
    leak_rate_over_trigger,
    owner_record_incomplete,
    product_too_warm,
    recovery_depth_not_stated,
    recovery_small_appliance_short,
    recovery_too_shallow,
    refrigerant_vented,
    verification_after_charge,
)

RULES = (
    certificate_not_stated.check,
    co2_equivalent.check,
    inspection_record_incomplete.check,
    leak_over_full_charge.check,
    leak_rate_not_computable.check,
    leak_rate_over_trigger.check,
    owner_record_incomplete.check,
    product_too_warm.check,
    recovery_depth_not_stated.check,
    recovery_small_appliance_short.check,
    recovery_too_shallow.check,
    refrigerant_vented.check,
    verification_after_charge.check,
)
