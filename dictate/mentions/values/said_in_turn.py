"""One word said in turn for each of several: "to the frame, OL, OL, OL, OL", "meter on it, zip, zip, zip".

    said_in_turn(narration, words, out, taken) -> list[Value]

A meter's word that is said three times or more with nothing but commas between is as many values. Where no
other look took it, ohms or a live circuit have to be under talk.
"""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.values.ohms_told import spoken_of
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import phrases_by_first, word_list

_STOPS = frozenset((".", "?", "!", ";"))
_WHERE = frozenset((",", "between", "across", "on", "at"))
_FEWEST, _MOST = 3, 8
_TALK = 34  # words in front within which volts or amps are spoken of
_LED = 14  # words in front that may tell what each of them was read against
_GROUNDS = frozenset(
    (
        "shell",
        "frame",
        "case",
        "body",
        "chassis",
        "earth",
        "ground",
        "casing",
        "housing",
        "can",
        "pipe",
        "tube",
        "stub",
        "fins",
    )
)
_PINS = ("common-ground", "run-ground", "start-ground")


def said_in_turn(narration: Narration, words: list[str], out: list[Value], taken: set[int]) -> list[Value]:
    """Return the states with each of a row as a value of its own, in order."""
    phrases = phrases_by_first("said_in_turn_nothing", "said_in_turn_open")
    if phrases.keys().isdisjoint(words):
        return out
    end = 0
    for a in narration.starting(phrases.keys()):
        row = next((r for r in phrases[words[a]] if tuple(words[a : a + len(r)]) == r), None)
        spans = _run(words, a, row) if row and a >= end else []
        if len(spans) < _FEWEST:
            continue
        end = spans[-1][1]
        known = [v for v in out if v.start < end and v.end > a]
        state = _state(narration, words, a, " ".join(row or ()), known)
        grounds = not _GROUNDS.isdisjoint(words[max(0, a - _LED) : a])
        if state == "zero" or (state == "open" and grounds):
            value = Value(a, end, 0.0, state=state, ground=state == "open")
            pins = _PINS if len(spans) == len(_PINS) and state == "open" else ()
            value.points = pins or ("ground",) * len(spans)
            out = [*(v for v in out if v not in known), value]
            taken.update(range(a, end))
    return out


def _run(words: list[str], a: int, row: tuple[str, ...]) -> list[tuple[int, int]]:
    """Return where a phrase stands that is said over and over from a token on, up to a stop."""
    size, spans = len(row), [(a, a + len(row))]
    while True:
        k = spans[-1][1]
        k += words[k : k + 1] == [","]
        k += words[k : k + 1] == ["and"]
        if tuple(words[k : k + size]) != row or k == spans[-1][1] or len(spans) == _MOST:
            break
        spans.append((k, k + size))
    behind = words[spans[-1][1] : spans[-1][1] + 1]
    return spans if not behind or behind[0] in _STOPS | _WHERE else []


def _state(narration: Narration, words: list[str], a: int, said: str, known: list[Value]) -> str | None:
    """Return what the words mean on the meter that is in use; None where that cannot be told."""
    if known:
        own = {v.state for v in known}
        single = all(len(v.points) <= 1 for v in known)
        return known[0].state if len(own) == 1 and single else None
    talk = spoken_of(narration, words, a)
    if said in word_list("said_in_turn_open"):
        return "open" if talk == "ohms" else None
    if talk == "ohms":
        return "open"
    metered = not {"meter", "multimeter", "tester", "probes"}.isdisjoint(words[max(0, a - 10) : a])
    live = talk == "live" and not word_list("row_states_talk").isdisjoint(words[max(0, a - _TALK) : a])
    return "zero" if live or metered else None


__all__ = ["said_in_turn"]
