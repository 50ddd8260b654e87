"""Rules of this subject: law."""

from dictate.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
