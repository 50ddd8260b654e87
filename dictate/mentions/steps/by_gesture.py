"""Steps told in a word or two while the hands work: no verb, and often not even a sentence.

"Breaker down. Probes. Zero. Zero. Zero."  "Lock's on it. Red to white, zip."  "Kill the switch. ... Switch."
"""

from __future__ import annotations

from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.steps.found import Found
from dictate.mentions.tense import Scopes
from dictate.vocabulary.load import word_set

REACH = 45
"""Words behind an isolation in which a meter that shows nothing is its proof."""
SNAP = 16
"""Words behind the screwdriver in which it pops."""
ASKED = 15
"""Words between the question whether it is off and the meter that shows nothing."""
LOOKED = 8
"""Words behind what starts up in which a meter is read."""
STARTED = "that the power is back on is told only by somebody who was bidden, or by what started up"
WORKED = 15
"""Words at least between an isolation and the word that ends it: work lies between."""


def by_gesture(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Return the proof that it was dead and the power that came back behind an isolation, and what popped."""
    isolated = [f for f in found if f.code == "power_isolated" and f.status == "done"]
    out = _shorted(words, scopes, found)
    if not isolated:
        isolated = _asked_off(words, found)
        out += isolated
    if not isolated:
        return out
    if not any(f.code == "absence_of_voltage_verified" for f in found):
        proofs = (p for f in isolated if (p := _proved_dead(words, scopes, f)) is not None)
        out += [p for p in [next(proofs, None)] if p is not None]
    last = max(isolated, key=lambda f: f.start)
    if not any(f.code == "power_restored" and f.start > last.start for f in found):
        back = _switched_on(words, scopes, last)
        out += [back] if back is not None else []
    return out


def _asked_off(words: Words, found: list[Found]) -> list[Found]:
    """Read "Is it off? Off? Meter says zero": somebody else threw the switch, and the meter bore it out."""
    row = words.words
    for f in found:
        if f.code != "absence_of_voltage_verified" or f.status != "done":
            continue
        for k in range(max(0, f.start - ASKED), f.start - 1):
            asked = set(row[words.sentences[words.sentence_of[k]][0] : k])
            if row[k] in word_set("off_words") and row[k + 1] == "?" and asked <= word_set("asks_if_off"):
                return [Found("power_isolated", "done", k, k + 2, None)]
    return []


def _proved_dead(words: Words, scopes: Scopes, off: Found) -> Found | None:
    """Read "Meter. Left to middle, zip", "Brown to blue, nothing" behind an isolation."""
    row = words.words
    for k in range(off.end, min(off.end + REACH, len(row) - 1)):
        if row[k] in word_set("ends_a_dead_test"):
            return None
        if row[k] not in word_set("shows_nothing"):
            continue
        start, end = words.sentences[words.sentence_of[k]]
        volts = row[k + 1] in ("volts", "volt", "v", "voltage")
        if (
            not volts
            and k + 1 < end
            and row[k + 1] not in (".", ",", ";", "!", "and", "zero", "too", "either")
        ):
            continue
        if not volts and not _on_the_mains(words, off.end, start, k):
            continue
        if scopes.noun(k, k + 1) == "done":
            return Found("absence_of_voltage_verified", "done", k, k + 1, None)
    return None


def _shorted(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Read "screwdriver across it. Snap": what pops is a capacitor."""
    if any(f.code == "capacitor_discharged" for f in found):
        return []
    row = words.words
    for k, word in enumerate(row):
        if word not in word_set("shorts_a_capacitor") or row[k + 1 : k + 2] not in (
            ("across",),
            (",",),
            ("on",),
        ):
            continue
        if word_set("pops").isdisjoint(row[k : k + SNAP]) or scopes.noun(k, k + 2) != "done":
            continue
        return [Found("capacitor_discharged", "done", k, k + 2, None)]
    return []


def _on_the_mains(words: Words, since: int, start: int, k: int) -> bool:
    """Tell whether a meter was put there, or two wires are told, and no part whose ohms are read."""
    row = words.words
    here = row[start:k]
    if not word_set("has_ohms").isdisjoint(here):
        return False
    before = words.sentences[max(0, words.sentence_of[start] - 2)][0]
    if not word_set("looks_for_leaks").isdisjoint(here):
        return False  # "pumped to three fifty and bubbled it, nothing"
    metered = not word_set("puts_on_a_meter").isdisjoint(row[max(since, before) : k])
    return metered or "to" in here[1:]


def _switched_on(words: Words, scopes: Scopes, off: Found) -> Found | None:
    """Read "Switch.", the whole sentence, where the switch was thrown off before and work lies between."""
    row = words.words
    first = words.sentence_of[off.start]
    told = row[off.start : off.end]
    for number in range(first + 1, len(words.sentences)):
        start, end = words.sentences[number]
        word = row[start]
        if start >= off.end + WORKED and (why := _told_to_switch_on(words, number)) is not None:
            return Found("power_restored", "done", start, end, None, why=why or None)
        if start < off.end + WORKED or word not in word_set("switched_in_a_word"):
            continue
        if row[start + 1 : end] not in ((), (".",), ("!",)) or (word not in told and word != "unlock"):
            continue
        if row[end : end + 1] != () and row[end] in word_set("thrown_off"):
            continue
        if scopes.noun(start, start + 1) in ("done", None):
            return Found("power_restored", "done", start, start + 1, None)
    return None


def _told_to_switch_on(words: Words, number: int) -> str | None:
    """Read "Jim? On!", "Go ahead, throw it.", "There she goes. Two forty": a reason to look, or none ("")."""
    start, end = words.sentences[number]
    row = words.words
    said = tuple(w for w in row[start:end] if w not in (".", "!", ",") and w not in word_set("bids"))
    if said == ("on",):
        asked = number > 0 and row[words.sentences[number - 1][1] - 1] == "?"
        return "" if asked or row[end - 1] == "!" else None
    phrase = " ".join(said)
    if phrase in word_set("bids_to_switch_on"):
        return STARTED
    following = row[end : end + LOOKED]
    if phrase in word_set("starts_up") and word_set("off_words").isdisjoint(following):
        read = any(w in NUMBER_WORDS or w[0].isdigit() for w in following)
        return STARTED if read else None
    return None
