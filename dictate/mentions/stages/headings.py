"""Headings that tell the stage of what stands under them: "As left. Suction eleven psi. ..."."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words
from dictate.mentions.stages.phrases import at_word

_Stage = Literal["as_found", "as_left"]
_HEADINGS: dict[tuple[str, ...], _Stage] = {
    ("as", "found"): "as_found",
    ("as", "left"): "as_left",
    ("found",): "as_found",
    ("left",): "as_left",
    ("before",): "as_found",
    ("after",): "as_left",
    ("on", "arrival"): "as_found",
    ("on", "leaving"): "as_left",
    ("now",): "as_left",
}


def headings(narration: Narration, words: Words, works: Sequence[int] = ()) -> list[tuple[int, int, _Stage]]:
    """Return the words that stand under a heading of a stage: "As left. Suction eleven psi. ...".

    A heading is a sentence of its own; it holds up to the end of its paragraph or to the next one.
    """
    out: list[tuple[int, int, _Stage]] = []
    for n, (start, end) in enumerate(words.sentences):
        if end - start > 3 or end == start:
            continue
        stage = _HEADINGS.get(tuple(w for w in words.words[start:end] if w not in {".", ":", ","}))
        if stage is None:
            continue
        segment = narration.tokens[words.tokens[start]].segment
        last = end
        for first, until in words.sentences[n + 1 :]:
            if narration.tokens[words.tokens[first]].segment != segment:
                break
            last = until
        if out:
            out[-1] = (out[-1][0], min(out[-1][1], start), out[-1][2])
        out.append((end, last, stage))
    return out + opened(narration, words, works)


def opened(narration: Narration, words: Words, works: Sequence[int]) -> list[tuple[int, int, _Stage]]:
    """Return the words behind a sentence that opens with "As found" or "On arrival", up to the first work.

    It holds for what follows in its paragraph, not only for its sentence: "As found neither barrel would
    freeze, product was 44. Gear motor 2.1 amps. Low side 9. Pulled the plug." `works` are the words at which
    work was told, in order.
    """
    out: list[tuple[int, int, _Stage]] = []
    for n, (start, end) in enumerate(words.sentences):
        stage = _opens(words, start)
        if stage is None:
            continue
        segment = narration.tokens[words.tokens[start]].segment
        last = end
        for first, until in words.sentences[n + 1 :]:
            if narration.tokens[words.tokens[first]].segment != segment or _turns(words, first, until, stage):
                break
            last = until
        out.append((start, min([last, *(w for w in works if w > start)]), stage))
    return out


def _opens(words: Words, start: int) -> _Stage | None:
    """Return the stage of what a sentence opens with: "How I left it: ...", "Finished numbers first"."""
    head = tuple(words.words[start : start + 4])
    if any(head[: len(p)] == p for p in _OPENS) or at_word(words.words, start, "opens_found"):
        return "as_found"
    return "as_left" if at_word(words.words, start, "opens_left") else None


def _turns(words: Words, first: int, until: int, stage: _Stage) -> bool:
    """Tell whether a sentence speaks of another time than what was opened before it."""
    if stage == "as_found" and _TURNS & set(words.words[first:until]):
        return True
    return _opens(words, first) is not None or bool(
        stage == "as_left" and at_word(words.words, first, "turns_back")
    )


_OPENS = (("as", "found"), ("on", "arrival"), ("upon", "arrival"), ("at", "arrival"))
_TURNS = frozenset(("now", "after", "afterwards", "leaving"))
