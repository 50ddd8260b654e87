"""Where the fault lies, asked as a colleague would: patterns and isolation, as questions and not verdicts."""

from dictate.checks.diagnosis import (
    board_condemned_early,
    compressor_condemned_early,
    isolation_device_open,
    isolation_next_test,
    isolation_open_downstream,
    isolation_supply_absent,
    overcurrent_cause_not_stated,
    pattern_dirty_condenser,
    pattern_low_airflow,
    pattern_low_charge,
    pattern_overcharge,
    pattern_restriction,
    start_parts_not_tested,
)

RULES = (
    board_condemned_early.check,
    compressor_condemned_early.check,
    isolation_device_open.check,
    isolation_next_test.check,
    isolation_open_downstream.check,
    isolation_supply_absent.check,
    overcurrent_cause_not_stated.check,
    pattern_dirty_condenser.check,
    pattern_low_airflow.check,
    pattern_low_charge.check,
    pattern_overcharge.check,
    pattern_restriction.check,
    start_parts_not_tested.check,
)
