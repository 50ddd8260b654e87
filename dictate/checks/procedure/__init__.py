"""Rules of this subject: procedure."""

from dictate.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
