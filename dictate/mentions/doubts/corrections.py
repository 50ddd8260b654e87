"""Was a correction said near it that took nothing back."""

from __future__ import annotations

from dictate.mentions.doubts.talk import STOPS, Case, word_set


def _no_other_state(words: list[str], start: int, end: int) -> bool:
    """Tell whether a cue leads from one word for an open circuit to another: "OL, I mean nothing"."""
    nothing = word_set("no_way_through")
    front = [w for w in words[max(0, start - 3) : start] if w != ","]
    behind = [w for w in words[end : end + 5] if w not in {",", "it", "it's", "'s", "is", "reads", "wide"}]
    return bool(front and behind) and front[-1] in nothing and behind[0] in nothing


def uncorrected(c: Case) -> str | None:
    """Doubt a value beside words of correction that took nothing back."""
    if c.reading.retracts is not None:
        return None  # it puts another value right
    talk = c.talk
    for cue in talk.n.found["doubt cues"]:
        if cue.start >= c.end:
            if cue.start - c.end > 8:
                continue
            gap = talk.words[c.end : cue.start]
            if len([w for w in gap if w in STOPS]) > 1:
                continue
            if talk.numbers_between(c.end, cue.start + 1):
                continue
        elif cue.end <= c.start and cue.key != "misread":
            if c.start - cue.end > 4:
                continue
            gap = talk.words[cue.end : c.start]
            if STOPS & set(gap):
                continue
            if talk.numbers_between(cue.end, c.start):
                continue
        else:
            continue
        if _no_other_state(talk.words, cue.start, cue.end):
            continue
        named = [(x.start, x.end) for x in talk.labels] + [(x.start, x.end) for x in talk.points]
        if any(0 <= cue.start - y <= 1 for _, y in named) and any(0 <= x - cue.end <= 1 for x, _ in named):
            continue  # a place put right: "vapor side, no sorry, suction"
        if cue.start and talk.words[cue.start - 1] == "i" and talk.words[cue.start] in {"make", "no"}:
            continue
        said = talk.n.heard(cue.start, cue.end)
        return f"{said!r} was said beside it and nothing was taken back"
    return None
