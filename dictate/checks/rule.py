"""What a rule is: one function that reads the record and yields findings, with its page of facts.

A rule reads the record and nothing else: no sound, no file, no clock, no other rule's verdict. Verdicts are
the contract's; a rule that yields nothing was not applicable, and `run.py` says so in the record's place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from dictate.checks.facts import Facts
from dictate.record.base import At
from dictate.record.visit import Amount, Check, Outcome

Tag = Literal["published", "common practice", "from memory"]
RuleFunction = Callable[[Facts], Iterator["Finding"]]


@dataclass
class Finding:
    """One verdict before it is stamped with its rule: see the fields of `record.visit.Check`."""

    outcome: Outcome
    message: str
    question: str | None = None
    equipment: str | None = None
    evidence: list[str] = field(default_factory=list)
    computed: dict[str, Amount] = field(default_factory=dict)
    at: list[At] = field(default_factory=list)
    blocking: bool | None = None


@dataclass(frozen=True)
class Rule:
    """A rule of the catalogue: its id, its page and its function."""

    id: str
    checks: str
    applies: str
    source: str
    tag: Tag
    question: str
    caution: str | None
    blocking: bool
    function: RuleFunction

    def run(self, facts: Facts) -> Iterator[Check]:
        """Yield the rule's findings, stamped; one `not_applicable` when it had nothing to look at."""
        found = False
        for finding in self.function(facts):
            found = True
            open_ = finding.outcome in ("problem", "missing", "unsure")
            question = finding.question or (self.question if open_ else None)
            blocks = self.blocking if finding.blocking is None else finding.blocking
            yield Check(
                rule=self.id,
                outcome=finding.outcome,
                message=finding.message,
                question=question,
                equipment=finding.equipment,
                evidence=finding.evidence,
                computed=finding.computed,
                at=finding.at,
                source=self.source,
                tag=self.tag,
                caution=self.caution if open_ else None,
                blocking=blocks and open_,
            )
        if not found:
            yield Check(
                rule=self.id, outcome="not_applicable", message=self.applies, source=self.source, tag=self.tag
            )


def rule(
    *,
    id: str,  # the contract's word for it
    checks: str,
    applies: str,
    source: str,
    tag: Tag,
    question: str = "",
    caution: str | None = None,
    blocking: bool = False,
) -> Callable[[RuleFunction], Rule]:
    """Turn a function into a rule. `applies` says when it has something to look at."""

    def make(function: RuleFunction) -> Rule:
        return Rule(id, checks, applies, source, tag, question, caution, blocking, function)

    return make


def check_all(rules: Iterable[Rule], facts: Facts) -> list[Check]:
    """Run the rules in their order and number the findings from k1 on."""
    checks = [check for r in rules for check in r.run(facts)]
    for number, check in enumerate(checks, start=1):
        check.id = f"k{number}"
    return checks
