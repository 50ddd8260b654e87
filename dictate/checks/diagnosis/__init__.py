"""Where the fault lies, asked as a colleague would: patterns and isolation, as questions and not verdicts."""

from dictate.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
