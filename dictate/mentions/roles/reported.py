"""Values of before that somebody else told of: "the manager says it hit forty-five on Saturday".

Who told it, a word of saying, a past verb and a time that is over make it earlier; up to where the speaker
comes back to now. The words are in cues.toml, [span.reported].
"""

from __future__ import annotations

from functools import cache

from dictate.vocabulary.load import table

QUANTITIES = frozenset({"temperature", "pressure", "current", "voltage", "resistance"})


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["reported"][name])


def reported(words: list[str], first: int, last: int) -> list[tuple[int, int, str, frozenset[str]]]:
    """Return (start, end, role, quantities) of what somebody told of an earlier time in one sentence."""
    if not _words("says") & set(words[first:last]):
        return []
    for i in range(first, last):
        if words[i] not in _words("says"):
            continue
        who = [
            w for w in words[max(first, i - 4) : i] if w not in {"'s", "the", "that", "just", "has", "had"}
        ]
        if not who or not _words("people") & set(who[-2:]):
            continue
        past = next((k for k in range(i + 1, min(last, i + 8)) if words[k] in _words("past")), None)
        if past is None or _words("stops") & set(words[i + 1 : past]):
            continue
        end = next(
            (
                k
                for k in range(past, last)
                if words[k] in _words("stops") or words[k : k + 2] == ["and", "it's"]
            ),
            last,
        )
        told = " ".join(words[past : min(last, end + 1)])
        if any(f" {t} " in f" {told} " for t in _words("times")):
            return [(i, end, "earlier", QUANTITIES)]
        # In the past tense it is of before as well, up to the first pause: "says the box was 52"
        stop = next((k for k in range(past, end) if words[k] in {",", "and"}), end)
        named = not {"they", "he", "she"} & set(who[-2:])
        was = words[past] in {"was", "were", "got", "hit"} and "not" not in words[past:stop]
        if named and was and words[stop : stop + 1] != ["i"]:
            return [(i, stop, "earlier", QUANTITIES)]
    return []


__all__ = ["reported"]
