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
    said = set(words[first:last])
    found = _measured(words, first, last) if not _measuring().isdisjoint(said) else []
    if not _words("says") & said:
        return found
    for i in range(first, last):
        if words[i] not in _words("says"):
            continue
        if not (who := _who(words, first, i)):
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
        was = (
            words[past] in {"was", "were", "got", "hit", "showed", "reached", "read", "had"}
            and "not" not in words[past:stop]
        )
        if named and was and words[stop : stop + 1] != ["i"]:
            return [(i, stop, "earlier", QUANTITIES)]
    return found


@cache
def _measuring() -> frozenset[str]:
    return frozenset(table("cues")["span"]["measured"]["verbs"])


def _who(words: list[str], first: int, at: int) -> list[str]:
    """Return the last words of a subject that names somebody else, [] where none does.

    Where he is told of is left out: "the lady | at the counter | says".
    """
    front = words[max(first, at - 8) : at]
    place = next(
        (k for k, w in enumerate(front) if w in {"at", "in", "behind", "from", "on"} and k > 0), None
    )
    if (
        place is not None
        and len(front) - place <= 4
        and front[place + 1 :][:1] in (["the"], ["that"], ["his"])
    ):
        front = front[:place]
    who = [w for w in front[-4:] if w not in {"'s", "the", "that", "just", "has", "had"}]
    return who if _words("people") & set(who[-2:]) else []


def _measured(words: list[str], first: int, last: int) -> list[tuple[int, int, str, frozenset[str]]]:
    """Return what somebody else measured before: "the lad had measured eight amps, I make it six"."""
    lists = table("cues")["span"]["measured"]
    for i in range(first + 1, last):
        if words[i] not in _measuring():
            continue
        had = words[i - 1] in lists["had"]
        subject = i - 1 if had and words[i - 1] in {"had", "has", "'d"} else i
        who = _who(words, first, subject) or (words[i - 1] in {"he'd", "she'd", "they'd"} and ["he"])
        if not who or {"i", "we", "i've", "i'd", "me"} & set(words[max(first, subject - 3) : subject]):
            continue
        end = next((k for k in range(i + 1, last) if words[k] in {",", ";", "and", "but"}), last)
        clause = set(words[i + 1 : end])
        own = bool(clause & set(lists["own"])) or bool(clause & set(lists["times"]))
        mine = words[end + 1 : end + 3] in lists["mine"] if end < last else False
        if had or own or mine:
            return [(i, end, "earlier", QUANTITIES)]
    return []


__all__ = ["reported"]
