"""A joint was made or refrigerant added, and no leak check was said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dictate.checks.facts import Facts
from dictate.checks.gaps import because, step_gap
from dictate.checks.rule import Finding, missing, ok, rule, unsure
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
        checks: list[Said] = [*job.stated("leak_checked")]
        # A search that was told in other words counts as well, where it comes after the repair.
        searched = [p for p in job.phrases("leak_search") if all(said_after(p, o) for o in job.openings)]
        put_off = job.stated("leak_checked", status="planned") + job.stated("leak_checked", status="not_done")
        if called_by and searched and not put_off and (not checks or _all_before(checks, job.openings)):
            yield ok(
                f"A leak check was stated: “{searched[0].heard}”{when(searched[0])}.",
                searched[0], equipment=job.machine,
            )  # fmt: skip
            continue
        if checks and job.closed_up and _all_before(checks, job.openings):
            tested = job.stated("pressure_tested")
            say = unsure if tested else missing
            held = "; a pressure test was stated" if tested else ""
            yield say(
                f"A leak check after the repair was not stated; the one told{when(checks[0])} came before it "
                f"({because(job.openings)}){held}.",
                *checks, *job.openings, *tested, question="Were the new joints checked for leaks, and how?",
                equipment=job.machine,
            )  # fmt: skip
        elif called_by:
            yield step_gap(job, ["leak_checked"], "a leak check", called_by)


def _all_before(checks: Sequence[Said], openings: Sequence[Said]) -> bool:
    """True when every check is known to be told before every opening: it found the leak only."""
    return all(said_after(opening, check) is True for check in checks for opening in openings)
