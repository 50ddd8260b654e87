"""Each step once for every actual doing: what is said again, taken back or planned before adds none."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from dictate.mentions.patterns import Words
from dictate.mentions.steps.found import BY_PART, TAKES_BACK, Found
from dictate.vocabulary.load import word_set

# Words within which a step is taken back, where what the meter showed may be told in between.
REACH = {"vacuum_held": 24}
# Steps that are done again when something else was done in between.
UNDONE_BY = {"power_isolated": "power_restored", "power_restored": "power_isolated"}
LATER = 8
"""Words behind which a doing is told for itself, and not in the breath that denied it."""
# Steps that were not done yet where the same circuit has them done later ("no flame till it was swept").
NOT_YET = frozenset({"power_restored", "brazed", "evacuated"})
# Steps that each machine of a visit needs for itself ("unplugged the freezer, too").
PER_MACHINE = frozenset({"power_isolated", "absence_of_voltage_verified", "ports_capped"})
REPAIRS = frozenset({"brazed", "part_replaced", "filter_drier_replaced", "pressure_tested"})
REPAIRED = frozenset(
    {
        "part_replaced",
        "filter_drier_replaced",
        "charged",
        "cleaned",
        "adjusted",
        "power_restored",
        "brazed",
        "evacuated",
    }
)


def not_taken_back(found: list[Found], words: Words) -> list[Found]:
    """Drop a step that was taken back at once ("charged it, no sorry, I didn't charge anything")."""
    denied = [g for g in found if g.status == "not_done"]

    def taken(f: Found) -> bool:
        return any(
            g.code == f.code
            and 0 <= g.start - f.end <= REACH.get(f.code, 9)
            and any(w in TAKES_BACK for w in words.words[f.end : g.start])
            for g in denied
        )

    def asserted(f: Found) -> bool:
        behind = words.words[f.end : f.end + 10]  # "didn't get to the caps, no wait, yes I did"
        return any(
            behind[k : k + 2] in (("i", "did"), ("we", "did")) and any(w in TAKES_BACK for w in behind[:k])
            for k in range(1, len(behind) - 1)
        )

    return [f for f in found if not (taken(f) if f.status == "done" else asserted(f))]


def each_once(found: list[Found], other_machine: Callable[[int, int], bool]) -> list[Found]:
    """Drop what is said again: same step, same status, nothing in between that undoes it.

    `other_machine` tells whether another machine is come to between two words.
    """
    out: list[Found] = []
    last: dict[tuple[str, str, str | None], Found] = {}
    for f in found:
        part = f.component if f.code in BY_PART else None
        key = (f.code, f.status, part)
        previous = last.get(key)
        if f.code in BY_PART and part is None:
            earlier = [g for g in out if g.code == f.code and g.status == f.status]
            previous = earlier[-1] if earlier else previous
        elif f.code in BY_PART and previous is None:
            # Named without the part first, with it now: one doing.
            earlier = [g for g in out if g.code == f.code and g.status == f.status and g.component is None]
            if earlier and f.start - earlier[-1].end < 25:
                out[out.index(earlier[-1])] = with_component(earlier[-1], part)
                last[key] = earlier[-1]
                continue
        anew = previous is None or done_anew(f, previous, out)
        if not anew and previous is not None and f.code in PER_MACHINE and f.status == "done":
            anew = other_machine(previous.end, f.start)
        if not anew:
            continue
        out.append(f)
        last[key] = f
    done = {(f.code, f.component if f.code in BY_PART else None) for f in out if f.status == "done"}
    return [
        f
        for f in out
        if not (
            (f.status == "planned" or (f.status == "not_done" and f.code in NOT_YET))
            and carried_out(f, out, done, other_machine)
        )
    ]


def with_component(f: Found, component: str | None) -> Found:
    """Return the same step with the part named later."""
    return replace(f, component=component)


def done_anew(f: Found, previous: Found, out: list[Found]) -> bool:
    """Tell whether the step was really done another time after `previous`."""
    if f.status != "done":
        return False
    if (
        f.again
        and f.code in ("evacuated", "pressure_tested", "vacuum_held", "charged")
        and f.start - previous.end > 2
    ):
        return True
    if f.code == "leak_checked" and any(
        g.code in REPAIRS and g.status == "done" and previous.start < g.start < f.start for g in out
    ):
        return True  # the search for the leak, and the check of the repair
    undone = UNDONE_BY.get(f.code)
    return undone is not None and any(
        g.code == undone and g.status == "done" and previous.start < g.start < f.start for g in out
    )


def carried_out(
    f: Found,
    out: list[Found],
    done: set[tuple[str, str | None]],
    other_machine: Callable[[int, int], bool],
) -> bool:
    """Tell whether a plan said before, or what was not done yet, was carried out later in the visit."""
    part = f.component if f.code in BY_PART else None
    if (f.code, part) not in done:
        return False
    later = [g for g in out if g.code == f.code and g.status == "done" and g.start > f.start]
    if f.status == "not_done" and f.code != "power_restored":
        return any(g.start - f.end >= LATER and not other_machine(f.end, g.start) for g in later)
    return bool(later)


def only_runs(words: Words, f: Found, found: list[Found]) -> bool:
    """Tell whether "is running" is how the machine was found: nothing was done to it before."""
    if f.code != "run_checked" or not any(
        w in ("running", "working", "runs") for w in words.words[f.start : f.end]
    ):
        return False
    _, end = words.sentences[words.sentence_of[f.start]]
    said = words.words[f.start : min(end, f.end + 3)]
    if any(w in word_set("runs_well") for w in said):
        return False
    return not any(g.code in REPAIRED and g.status == "done" and g.start < f.start for g in found)
