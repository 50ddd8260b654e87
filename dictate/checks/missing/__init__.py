"""What this kind of work needs and was not said: running, readings, settings, reasons."""

from dictate.checks.missing import (
    airflow_readings_not_stated,
    capacitor_rating_not_stated,
    commissioning_figures_not_stated,
    controls_setting_not_stated,
    customer_not_told,
    defrost_cycle_not_stated,
    inspection_findings_not_stated,
    part_reason_not_stated,
    run_check_not_stated,
    run_readings_not_stated,
)

RULES = (
    airflow_readings_not_stated.check,
    capacitor_rating_not_stated.check,
    commissioning_figures_not_stated.check,
    controls_setting_not_stated.check,
    customer_not_told.check,
    defrost_cycle_not_stated.check,
    inspection_findings_not_stated.check,
    part_reason_not_stated.check,
    run_check_not_stated.check,
    run_readings_not_stated.check,
)
