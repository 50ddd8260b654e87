"""A joint was made or refrigerant added, and no leak check was said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dictate.checks.facts import Facts
from dictate.checks.gaps import because, step_gap
from dictate.checks.rule import Finding, missing, rule
from dictate.checks.words import Said, said_after, when
from dictate.checks.work import jobs


@rule(
    id="leak-check.not-stated",
    checks="After every opened joint, and whenever refrigerant is added, a leak check is made.",
    applies="the circuit was opened and put together again, or refrigerant was added",
    source="EPA section 608 examination topics, leak detection; UFGS refrigerant piping (legacy 15182) "
    "(every joint)",
    tag="published",
    question="What was checked for leaks, by which method, and what was found?",
    caution="No flame for a leak search on flammable refrigerants.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = [*(job.openings if job.closed_up else []), *job.charged]
        checks = job.stated("leak_checked")
        if (
            checks
            and job.closed_up
            and not job.stated("pressure_tested")
            and _all_before(checks, job.openings)
        ):
            yield missing(
                f"A leak check after the repair was not stated; the one told{when(checks[0])} came before it "
                f"({because(job.openings)}).",
                *checks, *job.openings, equipment=job.machine,
            )  # fmt: skip
        elif called_by:
            yield step_gap(job, ["leak_checked"], "a leak check", called_by)


def _all_before(checks: Sequence[Said], openings: Sequence[Said]) -> bool:
    """True when every check is known to be told before every opening: it found the leak only."""
    return all(said_after(opening, check) is True for check in checks for opening in openings)
