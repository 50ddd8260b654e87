"""Clauses that say how a value came to be misread: "I had the wrong hose", "my thumb was over the gauge"."""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.corrections.correction_words import CUTS, correction_phrases, correction_words
from dictate.mentions.corrections.disowned import find_disowned
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers


@dataclass(frozen=True, slots=True)
class Mistake:
    """Words at the tokens [start, end) that tell of a misreading; `clear` when they alone say it."""

    start: int
    end: int
    clear: bool
    cue: bool = True
    """False for an aside that says where a value is from, and takes it back only beside another cue."""
    read: bool = False
    """True when it can be of nothing but a value that was read just before."""


def find_mistakes(narration: Narration) -> list[Mistake]:
    """Return the clauses that say that a value was misread, in the order of the words.

    >>> n = Narration.from_text("260, I had the wrong hose. 62, my thumb was over the gauge, 42.")
    >>> [m.clear for m in find_mistakes(n)]
    [True, False]
    """
    done: list[Mistake] | None = narration.found.get("mistakes")
    if done is not None:
        return done
    words = narration.lowers
    out = [Mistake(p.start, p.end, True) for p in correction_phrases("mistake", "phrases").find(narration)]
    out += [
        Mistake(p.start, p.end, True, read=True)
        for p in correction_phrases("mistake", "read").find(narration)
    ]
    other, touch = correction_words("mistake", "other"), correction_words("mistake", "touch")
    wrong_read = correction_words("mistake", "wrong")
    i_am, reads = correction_words("mistake", "i_am"), correction_words("mistake", "reads")
    for i, word in enumerate(words):
        if word in i_am and words[i + 1 : i + 2] and words[i + 1] in reads:
            # "that's the liquid line I'm hooked to"
            a, b = _bounds(words, i)
            if words[a : a + 2] in (["that's", "the"], ["that", "the"], ["this", "is"]) or (
                words[a : a + 3] in (["that", "was", "the"], ["that", "'s", "the"])
            ):
                out.append(Mistake(a, b, True))
        if word in {"meter", "switch", "display", "gauge", "clamp", "selector", "dial"}:
            a, b = _bounds(words, i)
            if words[i + 1 : i + 3] in (
                ["was", "on"],
                ["is", "on"],
                ["'s", "on"],
                ["was", "in"],
                ["was", "set"],
            ):
                setting = _setting(words, a, b)
                out.append(Mistake(a, b, setting, read=setting))
        if word == "wrong" and words[i + 1 : i + 2] and words[i + 1] in CUTS:
            a, b = _bounds(words, i)
            if {"i", "i'd", "i've"} & set(words[a:i]) and correction_words("mistake", "reads") & set(
                words[a:i]
            ):
                out.append(Mistake(a, b, True))
                continue
        if word == "wrong":
            j = _wrong_thing(words, i)
            if j and words[i - 1 : i] not in (["nothing"], ["what's"]):
                out.append(Mistake(i, j, True, read=words[j - 1] in wrong_read))
        elif word in {"that's", "that"} and "other" in words[i + 1 : i + 4]:
            j = words.index("other", i + 1)
            if words[i + 1 : j] in (["the"], ["was", "the"], ["is", "the"], ["'s", "the"]) and (
                words[j + 1 : j + 2] and words[j + 1] in other and not _named_before(words, i)
            ):
                out.append(Mistake(i, j + 2, True))
        elif word == "that" and words[i + 1 : i + 2] in (["was"], ["'s"], ["is"]) and (
            words[i + 2 : i + 3] and words[i + 2] in correction_words("mistake", "asides")
        ):  # fmt: skip
            out.append(Mistake(i, _bounds(words, i)[1], False, False))
        elif word == "twice":
            twice = _same_twice(words, i)
            if twice is not None:
                out.append(Mistake(*twice, True, read=True))
        elif word in touch:
            clause = _clause(words, i)
            if clause is not None:
                out.append(Mistake(*clause, False))
    out += [Mistake(d.start, d.end, False) for d in find_disowned(narration) if d.how == "misled"]
    known: set[int] = set()
    kept: list[Mistake] = []
    for m in sorted(out, key=lambda m: (not m.clear, m.start - m.end)):
        if known.isdisjoint(range(m.start, m.end)):
            known.update(range(m.start, m.end))
            kept.append(m)
    numbers = {t for n in find_numbers(narration) if not n.pronoun for t in range(n.start, n.end)}
    kept = [m for m in kept if m.clear or numbers.isdisjoint(range(m.start, m.end))]
    kept.sort(key=lambda m: m.start)
    narration.found["mistakes"] = kept
    return kept


def _same_twice(words: list[str], at: int) -> tuple[int, int] | None:
    """Return the clause that says that one was read for another: "I looked at the same one twice"."""
    a, _ = _bounds(words, at)
    said = words[a:at]
    read = correction_words("mistake", "read_twice") & set(said)
    if not read or said[-1] not in correction_words("mistake", "twice_of"):
        return None
    return a, at + 1


def _setting(words: list[str], a: int, b: int) -> bool:
    """Tell whether a clause says what a meter was on by mistake: "the meter was on nanofarads"."""
    if words[b - 1] not in correction_words("mistake", "settings"):
        return False
    return words[b - 1] in {"range", "scale"} or not any(w[:1].isdigit() for w in words[a:b])


def _named_before(words: list[str], at: int) -> bool:
    """Tell whether an aside only says which thing was named: "circuit two, that's the other one, 65"."""
    if words[at - 1 : at] != [","] or not words[at - 3 : at - 2]:
        return False
    other, which = correction_words("mistake", "other"), correction_words("mistake", "which")
    return words[at - 3] in other and words[at - 2] in which


def _wrong_thing(words: list[str], at: int) -> int | None:
    """Return where "the wrong ring" ends, None when "wrong" is said of a thing: "the wrong fan blade"."""
    wrong, things = correction_words("mistake", "wrong"), correction_words("mistake", "wrong_things")
    known = wrong | things
    for j in (at + 1, at + 2):
        if not words[j : j + 1] or words[j] not in known:
            continue
        behind = words[j + 1 : j + 2]
        if behind and behind[0] in known:
            continue
        ends = not behind or behind[0] in CUTS | correction_words("mistake", "ends")
        told = correction_words("mistake", "told") & set(words[_bounds(words, at)[0] : at])
        if words[j] in wrong or (ends and told):
            return j + 1
    return None


def _bounds(words: list[str], at: int) -> tuple[int, int]:
    """Return the tokens of the clause around one, without the fillers at its head."""
    a = b = at
    while a > 0 and words[a - 1] not in CUTS and at - a < 12:
        a -= 1
    while b < len(words) and words[b] not in CUTS and b - at < 12:
        b += 1
    while a < at and words[a] in correction_words("mistake", "fillers"):
        a += 1
    return a, b


_CHANGES = frozenset(("going", "coming", "dropping", "climbing", "falling", "rising", "creeping", "heading"))
"""With "down" or "up" they tell what a value does: "probe in the salmon going down, was four, now one"."""


def _clause(words: list[str], at: int) -> tuple[int, int] | None:
    """Return the clause around a word when it can tell of a misreading: "my thumb was over the gauge"."""
    a, b = _bounds(words, at)
    said = words[a:b]
    if (
        len(said) < 3
        or len(said) > 12
        or said[0] not in correction_words("mistake", "opens")
        or correction_words("mistake", "does") & set(said)
        or _only_named(said)
        or (_CHANGES & set(said) and {"down", "up"} & set(said))
        or not correction_words("mistake", "parts").isdisjoint(words[at + 1 : at + 2])
    ):
        return None
    return a, b


def _only_named(said: list[str]) -> bool:
    """Tell whether a clause only names an instrument, or tells what it always does.

    "My own probe, minus sixteen" and "probe in the box, four" say what read the next value; "that dial's
    always been a liar" speaks of no one reading.
    """
    words = set(said)
    if words & correction_words("mistake", "always"):
        return True
    if not words & correction_words("mistake", "instruments") or words & correction_words("mistake", "verbs"):
        return False
    ended = any(w.endswith(("ed", "ing", "n't")) for w in said)
    return not ended and not words & correction_words("mistake", "over")


def words_of_correction(narration: Narration, start: int, end: int) -> frozenset[str]:
    """Return the words around a repair at the tokens [start, end) that tell of the correction alone."""
    words = narration.lowers
    near = [m for m in find_mistakes(narration) if start - 16 <= m.start and m.end <= end + 10]
    found = {w for m in near for w in words[m.start : m.end]}
    return frozenset(found) | correction_words("recall", "verbs") | correction_words("behind", "words")
