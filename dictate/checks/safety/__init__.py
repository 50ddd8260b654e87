"""Rules of this subject: safety."""

from dictate.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
