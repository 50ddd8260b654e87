"""What was said against harm: isolation, stored energy, test gas, flammable refrigerants, cylinders."""

from dictate.checks.safety import (
    capacitor_discharge_not_stated,
    energised_under_vacuum,
    flammable_charge_over_limit,
    flammable_precautions_not_stated,
    flammable_removal_not_stated,
    flammable_retrofit,
    flammable_sweep_not_stated,
    flammable_torch_search,
    nitrogen_regulator_not_stated,
    power_dead_test_not_stated,
    power_isolation_not_stated,
    power_reisolation_not_stated,
    power_return_not_stated,
    recovery_cylinder_overfilled,
    recovery_into_disposable,
    test_gas_unsafe,
)

RULES = (
    capacitor_discharge_not_stated.check,
    energised_under_vacuum.check,
    flammable_charge_over_limit.check,
    flammable_precautions_not_stated.check,
    flammable_removal_not_stated.check,
    flammable_retrofit.check,
    flammable_sweep_not_stated.check,
    flammable_torch_search.check,
    nitrogen_regulator_not_stated.check,
    power_dead_test_not_stated.check,
    power_isolation_not_stated.check,
    power_reisolation_not_stated.check,
    power_return_not_stated.check,
    recovery_cylinder_overfilled.check,
    recovery_into_disposable.check,
    test_gas_unsafe.check,
)
