"""The words that tell what a value is, and where they stand: `find_cues`, `find_relations`, `relation_of`.

The phrases are in cues.toml; `roles.py` decides which value each of them reaches.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from operator import attrgetter

from dictate.mentions.narration import Narration, lowers
from dictate.mentions.phrases import Phrase, Phrases
from dictate.mentions.spoken_numbers import numbers_by_end
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class Cue:
    """A role cue at the tokens [start, end)."""

    start: int
    end: int
    role: str
    where: str
    reach: str
    only: frozenset[str] = frozenset()
    needs: frozenset[str] = frozenset()
    unless: frozenset[str] = frozenset()
    sure: bool = False
    """True where the words can mean nothing else: no judge of all the words overrules them."""


Slot = dict[str, list[tuple[str, ...]]]
"""The phrases that may stand in one place of a pattern, by their first word."""


_Begun = list[tuple[str, list[Slot]]]


@cache
def _patterns() -> dict[str, dict[str, _Begun]]:
    """Return the phrases with classes of words in them, by each word that they can begin with and the next.

    A phrase that may end with its first word stands under every next word, and under "" for all others.
    """
    by_first = _patterns_by_first()
    out: dict[str, dict[str, _Begun]] = {}
    for word, begun in by_first.items():
        seconds = [_seconds(word, pattern) for _, pattern in begun]
        nexts = {"", *(w for s in seconds for w in s)}
        out[word] = {
            nxt: [b for b, s in zip(begun, seconds, strict=True) if nxt in s or "" in s] for nxt in nexts
        }
    return out


def _seconds(word: str, pattern: list[Slot]) -> set[str]:
    """Return the words that may stand behind the first word of a pattern; "" among them when any may."""
    out: set[str] = set()
    for phrase in pattern[0][word]:
        if len(phrase) > 1:
            out.add(phrase[1])
        else:
            out.update(pattern[1] if len(pattern) > 1 else ("",))
    return out


def _patterns_by_first() -> dict[str, _Begun]:
    classes = table("cues")["classes"]
    slots = {name: _slot(said) for name, said in classes.items()}
    out: dict[str, _Begun] = {}
    for i, entry in enumerate(table("cues")["role"]):
        for phrase in entry["said"]:
            if "{" not in phrase:
                continue
            parts = [p.strip() for p in _CLASS.split(phrase) if p.strip()]
            pattern = [slots[p[1:-1]] if p.startswith("{") else _slot([p]) for p in parts]
            for word in pattern[0]:
                out.setdefault(word, []).append((f"{i}", pattern))
    return out


_CLASS = re.compile(r"(\{\w+\})")


def _slot(said: Sequence[str]) -> Slot:
    out: Slot = {}
    for words in dict.fromkeys(tuple(lowers(phrase)) for phrase in said):
        out.setdefault(words[0], []).append(words)
    return out


def _end_of(words: list[str], i: int, pattern: list[Slot], slot: int = 0) -> int | None:
    """Return where the longest match of the slots from one on ends that begins at word i, or None."""
    if slot == len(pattern):
        return i
    longest = None
    for phrase in pattern[slot].get(words[i], ()) if i < len(words) else ():
        after = i + len(phrase)
        if len(phrase) == 1 or tuple(words[i:after]) == phrase:
            end = _end_of(words, after, pattern, slot + 1)
            if end is not None and (longest is None or end > longest):
                longest = end
    return longest


def _pattern_phrases(narration: Narration) -> list[Phrase]:
    patterns, words = _patterns(), narration.lowers
    return [
        Phrase(i, end, key)
        for i, (word, following) in enumerate(zip(words, [*words[1:], ""], strict=True))
        if (begun := patterns.get(word)) is not None
        for key, pattern in (begun.get(following) or begun[""])
        if (end := _end_of(words, i, pattern)) is not None
    ]


@cache
def _role_phrases() -> Phrases:
    said = {
        f"{i}": [p for p in entry["said"] if "{" not in p] for i, entry in enumerate(table("cues")["role"])
    }
    said["pseudo"] = table("cues")["pseudo"]["said"]
    return Phrases(said)


def find_cues(narration: Narration) -> list[Cue]:
    """Return the role cues in order; of overlapping ones of the same direction the longest stays."""
    done: list[Cue] | None = narration.found.get("cues")
    if done is not None:
        return done
    entries = table("cues")["role"]
    by_where: dict[str, list[Phrase]] = {"before": [], "after": [], "around": []}
    found = _role_phrases().all(narration) + _pattern_phrases(narration)
    none = _no_cues(narration, [p for p in found if p.key == "pseudo"])
    for phrase in found:
        if phrase.key != "pseudo" and not any(
            a <= phrase.start and phrase.end <= b + (narration.lowers[b : b + 1] == ["'s"])
            for a, b in none.get(phrase.start, ())
        ):
            by_where[entries[int(phrase.key)]["where"]].append(phrase)
    out: list[Cue] = []
    for where, phrases in by_where.items():
        taken: set[int] = set()
        for phrase in sorted(
            phrases, key=lambda p: (p.start - p.end, p.start, not entries[int(p.key)].get("sure"))
        ):
            if where != "around" and not taken.isdisjoint(range(phrase.start, phrase.end)):
                continue
            taken.update(range(phrase.start, phrase.end))
            entry = entries[int(phrase.key)]
            reach, only = entry.get("reach", "clause"), frozenset(entry.get("only", ()))
            needs, unless = frozenset(entry.get("needs", ())), frozenset(entry.get("unless", ()))
            sure = entry.get("sure", False)
            out.append(Cue(phrase.start, phrase.end, entry["role"], where, reach, only, needs, unless, sure))
    out += _modal(narration, {t for c in out if c.where == "before" for t in range(c.start, c.end)})
    out.sort(key=lambda c: (c.start, -c.end))
    narration.found["cues"] = out
    return out


def _no_cues(narration: Narration, pseudo: list[Phrase]) -> dict[int, list[tuple[int, int]]]:
    """Return the spans inside of which a cue is none, by each of their tokens.

    They are the phrases that only look like a cue, and names of parts that hold one ("termination klixon").
    """
    from dictate.mentions.labels import find_components

    spans = [(p.start, p.end) for p in pseudo]
    spans += [(c.start, c.end) for c in find_components(narration) if c.end - c.start > 1]
    out: dict[int, list[tuple[int, int]]] = {}
    for a, b in spans:
        for i in range(a, b):
            out.setdefault(i, []).append((a, b))
    return out


_MODALS = {"should", "ought", "must", "shouldn't"}


def _modal(narration: Narration, taken: set[int]) -> list[Cue]:
    """Take "should" with any verb as what should be ("should now be", "it shouldn't draw")."""
    return [
        Cue(t.index, t.index + 1, "target", "before", "clause")
        for t in narration.tokens
        if t.lower in _MODALS and t.index not in taken
    ]


@cache
def _correction_phrases() -> Phrases:
    return Phrases({"cue": table("cues")["correction"]["cues"]})


def find_correction_cues(narration: Narration) -> list[Phrase]:
    """Return the words with which a speaker takes something back, in order."""
    done: list[Phrase] | None = narration.found.get("correction_cues")
    if done is None:
        cues = [p for p in _correction_phrases().find(narration) if not _still_thinking(narration, p)]
        done = [p for n, p in enumerate(cues) if not (n and _said_after(narration, cues[n - 1], p))]
        narration.found["correction_cues"] = done
    return done


def _said_after(narration: Narration, before: Phrase, cue: Phrase) -> bool:
    """Tell whether "I mean" only ends a correction: "50 pascals, sorry, half a millibar I mean, ..."."""
    words = narration.lowers
    if words[cue.start : cue.end] != ["i", "mean"] or not 0 < cue.start - before.end <= _IN_ONE:
        return False
    return words[cue.end : cue.end + 1] in ([","], ["."], [";"], []) and words[cue.start - 1] != ","


_IN_ONE = 5


def _still_thinking(narration: Narration, cue: Phrase) -> bool:
    """Tell whether a value is still to come after a pause: "left one for comparison is, hang on, ..."."""
    words = narration.lowers
    paused = words[cue.start : cue.end] in (["hang", "on"], ["hold", "on"], ["wait"], ["just", "a", "second"])
    if not paused or cue.start < 3 or words[cue.start - 1] != ",":
        return False
    return words[cue.start - 2] in word_list("roles_still_open") and words[cue.start - 3] not in {
        "no",
        "well",
    }


@cache
def _relation_phrases() -> dict[str, Phrases]:
    out: dict[str, dict[str, list[str]]] = {"before": {}, "after": {}}
    for entry in table("cues")["relation"]:
        out[entry["where"]].setdefault(entry["sign"], []).extend(entry["said"])
    return {where: Phrases(said) for where, said in out.items()}


def find_relations(narration: Narration) -> dict[str, list[Phrase]]:
    """Return the relation words: {"before": [...], "after": [...]}, each with its sign as the key."""
    done: dict[str, list[Phrase]] | None = narration.found.get("relations")
    if done is None:
        done = {where: phrases.find(narration) for where, phrases in _relation_phrases().items()}
        narration.found["relations"] = done
    return done


_start = attrgetter("start")
_end = attrgetter("end")
_BETWEEN = word_list("roles_between")


def relation_of(narration: Narration, start: int, end: int) -> str:
    """Return the relation that the words next to a value give it."""
    tokens = narration.tokens
    found = find_relations(narration)
    after = found["after"]
    for phrase in after[bisect_left(after, end, key=_start) : bisect_left(after, end + 2, key=_start)]:
        if phrase.start == end or (tokens[end].lower in {"-", ",", "degrees"} and phrase.key == "~"):
            if tokens[phrase.start].lower in {"about", "plus", "at", "more"} and _number_follows(
                narration, phrase.end
            ):
                continue
            return phrase.key
    best = None
    led = found["before"]
    for phrase in led[bisect_left(led, start - 3, key=_end) : bisect_right(led, start, key=_end)]:
        if all(t.lower in _BETWEEN for t in tokens[phrase.end : start]):
            best = phrase
    if best is None:
        return "="
    if best.key in _OTHER_WAY and _not_reached(narration.lowers, best.start):
        return _OTHER_WAY[best.key]
    word = tokens[best.end - 1].lower
    before = tokens[best.start - 1].lower if best.start else ""
    if best.end - best.start == 1:
        if word == "over" and tokens[best.end].lower in {",", "."}:
            return "="  # "did it over, two thousand from common"
        if word == "over" and before in {"carried", "all", "left", "turned", "switched", "started", "change"}:
            return "="
        if word == "over" and numbers_by_end(narration).get(best.start) is not None and best.end == start:
            return "="  # "she's running two ninety-eight over forty-five"
        if word == "under" and before in {
            "overnight",
            "left",
            "sat",
            "sitting",
            "stood",
            "standing",
        }:
            return "="  # "left overnight under two hundred fifty pounds"
        if word == "say" and before in word_list("cues_what_shows"):
            return "="  # "clamp say twenty-two"
        if word == "over" and best.end < start and tokens[best.end].lower == ",":
            return "="  # "did it over, two thousand from common"
        if word == "over" and _of_minutes(narration, end):
            return "="  # "held at 395 over fifteen minutes"
        if word == "near" and start - best.end > 0:
            return "="
        if word == "say" and before == "should":
            return "="
        if word == "say" and before in {"they", "to", "you", "would", "tags", "labels"}:
            return "="
        if word == "probably" and before == "will":
            return "="
    return best.key


def _of_minutes(narration: Narration, end: int) -> bool:
    """Tell whether the unit that a value ends with is one of time."""
    return narration.lowers[end - 1] in {"minutes", "minute", "seconds", "hours", "min"}


_OTHER_WAY = {"<": ">=", ">": "<="}


def _not_reached(words: list[str], i: int) -> bool:
    """Tell whether a bound was not passed: "wouldn't pull down | below 900", "never got | past 3"."""
    k = i
    while k > 0 and i - k < 4 and words[k - 1] in word_list("relations_moves"):
        k -= 1
    return 0 < k < i and words[k - 1] in word_list("relations_not")


def _number_follows(narration: Narration, i: int) -> bool:
    from dictate.mentions.spoken_numbers import numbers_by_start

    return not numbers_by_start(narration).keys().isdisjoint((i, i + 1))


def cue_starts(narration: Narration) -> list[int]:
    """Return where the role cues begin; computed once per narration."""
    done: list[int] | None = narration.found.get("cue_starts")
    if done is None:
        done = narration.found["cue_starts"] = [c.start for c in find_cues(narration)]
    return done
