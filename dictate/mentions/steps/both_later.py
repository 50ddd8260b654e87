"""Work that was denied and put off together: "I added nothing and did not leak check it, both next month"."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS, Words
from dictate.mentions.steps.found import BY_PART, Found
from dictate.mentions.tense import Scopes
from dictate.vocabulary.load import word_set

_REACH = 45
"""Words before "both" in which the work was denied."""
_DO = frozenset(
    ("do", "get", "gets", "come", "comes", "are", "is", "be", "'s", "for", "wait", "waits", "next", "on")
)


def both_later(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Return as planned what was denied just before and is put off by "both" or "all of that"."""
    out: list[Found] = []
    for i, word in enumerate(words.words):
        if word not in ("both", "all") or scopes.conditional(i):
            continue
        number = words.sentence_of[i]
        _start, end = words.sentences[number]
        if word == "all" and words.words[i + 1 : i + 3] not in _ALL_OF:
            continue
        behind = words.words[i + 1 : min(end, i + 10)]
        if word_set("puts_off_work").isdisjoint(behind) or _DO.isdisjoint((*words.words[i - 1 : i], *behind)):
            continue
        if any(
            scopes.kind(k) == "past" and words.words[k] not in AMBIGUOUS | {"done"}
            for k in range(i, min(end, i + 10))
        ):
            continue
        first = max(words.sentences[max(0, number - 1)][0], i - _REACH)
        denied = [f for f in found if f.status == "not_done" and first <= f.start < i]
        denied.sort(key=lambda f: f.start)
        if len(denied) < 2:
            continue
        for f in denied[-2:] if word == "both" else denied:
            if not any(_same(f, g) for g in (*found, *out) if g.status == "planned"):
                out.append(Found(f.code, "planned", i, min(end, i + 2), f.component))
    return out


_ALL_OF = (("of", "that"), ("of", "those"), ("of", "it"), ("of", "these"), ("of", "this"), ("of", "them"))


def _same(f: Found, g: Found) -> bool:
    return f.code == g.code and (f.code not in BY_PART or f.component in (g.component, None))
