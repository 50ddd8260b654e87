"""Values of before that somebody else told of: "the manager says it hit forty-five on Saturday".

Who told it, a word of saying, a past verb and a time that is over make it earlier; up to where the speaker
comes back to now. The words are in cues.toml, [span.reported].
"""

from __future__ import annotations

from collections.abc import Set
from functools import cache

from dictate.mentions.narration import lowers
from dictate.vocabulary.load import table

Told = tuple[int, int, str, frozenset[str], bool]
"""Start, end, role, quantities, and whether the words can mean nothing else."""

QUANTITIES = frozenset({"temperature", "pressure", "current", "voltage", "resistance"})


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["reported"][name])


def reported(words: list[str], first: int, last: int, numbers: Set[int] = frozenset()) -> list[Told]:
    """Return what somebody told of an earlier time in one sentence."""
    said = set(words[first:last])
    if first in numbers and not said.isdisjoint(_DENIES) and (end := _denied_outright(words, first, last)):
        return [(first, end, "earlier", QUANTITIES, True)]
    found = _measured(words, first, last, numbers) if not _measuring().isdisjoint(said) else []
    if not found and not (_words("said") | _words("now_said")).isdisjoint(said):
        found = _gave(words, first, last, numbers)
    if not _words("says") & said:
        return found
    for i in range(first, last):
        if words[i] not in _words("says"):
            continue
        if not (who := _who(words, first, i)):
            continue
        if _denied_behind(words, last, numbers):
            return [(i, last, "earlier", QUANTITIES, True)]
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
            return [(i, end, "earlier", QUANTITIES, words[i] == "had")]
        # In the past tense it is of before as well, up to the first pause: "says the box was 52"
        stop = next((k for k in range(past, end) if words[k] in {",", "and"}), end)
        named = not {"they", "he", "she"} & set(who[-2:])
        was = (
            words[past] in {"was", "were", "got", "hit", "showed", "reached", "read", "had"}
            and "not" not in words[past:stop]
        )
        if named and was and words[stop : stop + 1] != ["i"]:
            return [(i, stop, "earlier", QUANTITIES, False)]
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


def _gave(words: list[str], first: int, last: int, numbers: Set[int]) -> list[Told]:
    """Return the number that somebody else gave: "the cook told me forty-eight", "the guard reckoned 41".

    What he says now is his as well where the speaker sets his own against it in the next sentence.

    A helper who calls out what he reads now does not count.
    """
    for i in range(first + 1, last):
        now = words[i] in _words("now_said")
        if not now and words[i] not in _words("said"):
            continue
        who = _who(words, first, i)
        if not who or _words("helpers") & set(who[-2:]):
            continue
        at = i + 1
        while at < last and words[at] in _words("said_leads") and at - i < 5:
            at += 1
        since = "since" in words[at + 1 : min(last, at + 4)]  # "is telling 20 degrees since two days"
        if now and not since and not _own_behind(words, last):
            continue  # "says it's blowing 20. I get 15"
        if at in numbers:
            return [(at, at + 1, "earlier", QUANTITIES, True)]
    return []


def _own_behind(words: list[str], last: int) -> bool:
    """Tell whether the next sentence opens with a reading of the speaker's own: "I get", "mine says"."""
    at = last + (words[last : last + 1] in (["but"], ["well"], ["and"]))
    return words[at : at + 2] in table("cues")["span"]["measured"]["mine"]


@cache
def _denials() -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(lowers(said)) for said in table("cues")["span"]["reported"]["denials"])


def _denied_behind(words: list[str], last: int, numbers: Set[int]) -> bool:
    """Tell whether the next sentence says that it is not so: "says it's ten below. It's not."."""
    at = last + (words[last : last + 1] in (["but"], ["well"], ["and"]))
    at += words[at : at + 1] == [","]
    if at in numbers:
        return _denied_outright(words, at, min(len(words), at + _DENIAL)) is not None
    end = next((at + len(d) for d in _denials() if tuple(words[at : at + len(d)]) == d), None)
    return end is not None and words[end : end + 1] in ([], ["."], [","], ["!"], [";"])


_DENIES = frozenset({"not", "isn't", "ain't", "wasn't"})
_DENIAL = 8
"""Words of a sentence that only says that a value is not so."""


def _denied_outright(words: list[str], first: int, last: int) -> int | None:
    """Return where the number ends of "Seventy it is not.", "Forty degrees it ain't, ..."."""
    for at in range(first + 1, min(last, first + 5)):
        for denial in _denials():
            end = at + len(denial)
            if denial[0] == "it" and tuple(words[at:end]) == denial:
                return at if words[end : end + 1] in ([], ["."], [","], ["!"], [";"]) else None
    return None


def _measured(words: list[str], first: int, last: int, numbers: Set[int]) -> list[Told]:
    """Return what somebody else measured before: "the lad had measured eight amps, I make it six"."""
    lists = table("cues")["span"]["measured"]
    for i in range(first + 1, last):
        if words[i] not in _measuring():
            continue
        if words[i] == "had" and numbers.isdisjoint((i + 1, i + 2)):
            continue  # "the tenant had 81 on his at noon", but "the tenant had his door open"
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
            return [(i, end, "earlier", QUANTITIES, words[i] == "had")]
    return []


__all__ = ["reported"]
