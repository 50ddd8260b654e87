"""Vacuums shut off from the pump and looked at again."""

from __future__ import annotations

from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.steps.found import Found
from dictate.mentions.tense import Scopes
from dictate.vocabulary.load import word_set

_OF_VACUUM = (
    "vac",
    "micron",
    "mbar",
    "millibar",
    "pump",
    "valve",
    "isolat",
    "rise",
    "decay",
    "torr",
    "pascal",
)


def vacuums_that_stood(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Return the vacuums that were shut off from the pump and looked at again.

    "... three ninety microns, and fifteen minutes after I had closed the valve it had crept to four sixty"
    """
    row = words.words
    out: list[Found] = []
    pulled = [f for f in found if f.code == "evacuated" and f.status == "done"]
    for f in pulled:
        _, last = words.sentences[min(len(words.sentences) - 1, words.sentence_of[f.start] + 2)]
        last = min(last, f.end + 45)
        later = [
            g.start
            for g in found
            if g.start > f.end and g.code in ("charged", "ports_capped", "power_restored")
        ]
        last = min([last, *later])
        if any(g.code == "vacuum_held" and f.start - 10 <= g.start <= last + 10 for g in found):
            continue
        for k in range(f.end, last):
            if not shuts_off(row, k):
                continue
            behind = row[k + 1 : min(last, k + 24)]
            if any(w in word_set("no_vacuum_signs") for w in behind[:12]):
                break
            if not any(w in NUMBER_WORDS or w[:1].isdigit() or w in word_set("stood_still") for w in behind):
                break
            if scopes.noun(k, k + 1) == "done":
                out.append(Found("vacuum_held", "done", k, k + 1, None))
            break
    return out


def stood_before_charge(words: Words, found: list[Found]) -> list[Found]:
    """Return the steps without holds of a vacuum that are told when the refrigerant was already in.

    "Pulled to 400. Charged twelve ounces, plugged it in. After 40 minutes it's at 5": that is the box.
    """
    held = [f for f in found if f.code == "vacuum_held" and f.status == "done"]
    if not held:
        return found
    pulls = [f.start for f in found if f.code == "evacuated"]
    filled = [f.start for f in found if f.code in ("charged", "power_restored") and f.status == "done"]
    out = []
    for f in found:
        if f in held:
            pull = max((p for p in pulls if p <= f.start), default=-1)
            start, end = words.sentences[words.sentence_of[f.start]]
            of_vacuum = any(w.startswith(_OF_VACUUM) for w in words.words[start:end])
            if pull >= 0 and not of_vacuum and any(pull < g < start for g in filled):
                continue
        out.append(f)
    return out


def shuts_off(row: tuple[str, ...], k: int) -> bool:
    """Tell whether a vacuum is shut off from its pump at word k."""
    word = row[k]
    if word in ("valved", "blanked", "isolated", "blocked"):
        return True
    after = row[k + 1 : k + 5]
    if word in ("shut", "closed", "killed", "stopped", "turned", "off", "closing", "shutting"):
        return (
            any(w in ("valve", "valves", "pump", "tool", "tools", "hose", "tap") for w in after)
            or after[:1] == ("off",)
            or (word == "closed" and after[:1] in (("it",), ("off",)))
        )
    return word == "pump" and after[:1] == ("off",)
