"""Rules of this subject: missing."""

from dictate.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
