"""What a rule is: one function that reads the record and yields findings, with its page of facts.

A rule reads the record and nothing else: no sound, no file, no clock, no other rule's verdict. Verdicts are
the contract's: `ok`, `problem` (measured, and not right), `missing` (this work needs it and it was not said),
`unsure` (cannot be decided from what was said, and says what would decide it). A rule that yields nothing had
nothing to look at; that is said as `not_applicable`, because silence would read as approval.

Three softenings are built in here, so that no single rule can forget them:

* A problem that rests on a value marked for review becomes `unsure`, and says "if the value is right".
* A rule whose source is `from memory` never gives a hard `problem`: it becomes `unsure`.
* A caution is printed only where something is open, and never reads as permission.

A rule file looks like this (folder `electrical`, listed by hand in that folder's `__init__.py`)::

    @rule(
        id="capacitor.out-of-tolerance",
        checks="A measured run capacitor lies within the tolerance printed on it.",
        applies="a capacitance was measured and the print of the capacitor was said",
        source="IEC 60252-1, marking of the capacitance tolerance",
        tag="published",
        question="What does the print on the capacitor say?",
        caution="A capacitor can hold its charge ...",
    )
    def check(facts: Facts) -> Iterator[Finding]:
        for reading in facts.readings("capacitance"):
            yield problem("...", reading, computed={"deviation": (-8.4, "%")})
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, Protocol

from dictate.checks.facts import Facts
from dictate.record.base import At
from dictate.record.visit import Amount, Check, Outcome

Tag = Literal["published", "common practice", "from memory"]
RuleFunction = Callable[[Facts], Iterator["Finding"]]
Numbers = Mapping[str, tuple[float, str]]


class Evidence(Protocol):
    """What a finding may rest on: a reading, step, movement, part, event, test or conclusion."""

    id: str
    equipment: str | None
    at: At


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
    resolved: bool = False


def _finding(
    outcome: Outcome,
    message: str,
    on: Iterable[Evidence],
    question: str | None,
    computed: Numbers | None,
    equipment: str | None,
    blocking: bool | None,
    resolved: bool = False,
) -> Finding:
    """Fill evidence, places and machine from the things that the verdict rests on."""
    things = list(dict.fromkeys(id(t) for t in on))
    by_id = {id(t): t for t in on}
    used = [by_id[key] for key in things]
    at = [place for t in used if isinstance(place := getattr(t, "at", None), At)]
    if equipment is None:
        equipment = next((t.equipment for t in used if t.equipment is not None), None)
    reasons = [why for t in used for why in getattr(t, "review", [])]
    if outcome == "problem" and reasons:
        outcome = "unsure"
        message = f"If the value is right: {message} It is marked for review ({'; '.join(reasons)})."
    return Finding(
        outcome=outcome,
        message=message,
        question=question,
        equipment=equipment,
        evidence=[t.id for t in used if t.id],
        computed={name: Amount(value=round(v, 4), unit=unit) for name, (v, unit) in (computed or {}).items()},
        at=at,
        blocking=blocking,
        resolved=resolved,
    )


def ok(
    message: str,
    *on: Evidence,
    computed: Numbers | None = None,
    equipment: str | None = None,
) -> Finding:
    """Measured or said, and as it should be. `on` is what it rests on; `computed` name -> (number, unit)."""
    return _finding("ok", message, on, None, computed, equipment, None)


def problem(
    message: str,
    *on: Evidence,
    question: str | None = None,
    computed: Numbers | None = None,
    equipment: str | None = None,
    blocking: bool | None = None,
    resolved: bool = False,
) -> Finding:
    """Measured, and not right. Becomes `unsure` by itself when something in `on` is marked for review.

    `resolved` says that this visit put it right (the part was replaced): a finding, and nothing left open.
    """
    return _finding("problem", message, on, question, computed, equipment, blocking, resolved)


def missing(
    message: str,
    *on: Evidence,
    question: str | None = None,
    computed: Numbers | None = None,
    equipment: str | None = None,
    blocking: bool | None = None,
) -> Finding:
    """Needed by the work that was said to be done (`on`), and not said."""
    return _finding("missing", message, on, question, computed, equipment, blocking)


def unsure(
    message: str,
    *on: Evidence,
    question: str | None = None,
    computed: Numbers | None = None,
    equipment: str | None = None,
    blocking: bool | None = None,
) -> Finding:
    """Cannot be decided from what was said; `message` or `question` says what would decide it."""
    return _finding("unsure", message, on, question, computed, equipment, blocking)


def not_applicable(message: str, *on: Evidence, equipment: str | None = None) -> Finding:
    """Looked at and out of the rule's reach, with the reason; for the plain case just yield nothing."""
    return _finding("not_applicable", message, on, None, None, equipment, None)


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

    @property
    def folder(self) -> str:
        """Return the subject folder that the rule lives in."""
        return self.function.__module__.split(".")[-2]

    @property
    def file(self) -> str:
        """Return the name of the rule's file, without its suffix; its case file has the same name."""
        return self.function.__module__.split(".")[-1]

    def run(self, facts: Facts) -> Iterator[Check]:
        """Yield the rule's findings, stamped; one `not_applicable` when it had nothing to look at."""
        found = False
        for finding in self.function(facts):
            found = True
            outcome = finding.outcome
            if outcome == "problem" and self.tag == "from memory":
                outcome = "unsure"
            open_ = outcome in ("problem", "missing", "unsure") and not finding.resolved
            question = finding.question or (self.question if open_ else None)
            blocks = self.blocking if finding.blocking is None else finding.blocking
            yield Check(
                rule=self.id,
                outcome=outcome,
                message=finding.message,
                question=question or None,
                equipment=finding.equipment,
                evidence=finding.evidence,
                computed=finding.computed,
                at=finding.at,
                source=self.source,
                tag=self.tag,
                caution=self.caution if open_ else None,
                blocking=blocks and open_,
                resolved=finding.resolved,
            )
        if not found:
            yield Check(
                rule=self.id,
                outcome="not_applicable",
                message=f"Nothing to look at: it needs that {self.applies}.",
                source=self.source,
                tag=self.tag,
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
    """Turn a function into a rule. `applies` completes "it needs that ..."."""

    def make(function: RuleFunction) -> Rule:
        return Rule(id, checks, applies, source, tag, question, caution, blocking, function)

    return make


def check_all(rules: Iterable[Rule], facts: Facts) -> list[Check]:
    """Run the rules in their order and number the findings from k1 on."""
    checks = [check for r in rules for check in r.run(facts)]
    for number, check in enumerate(checks, start=1):
        check.id = f"k{number}"
    return checks
