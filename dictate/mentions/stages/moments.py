"""Moments that tell as found from as left: coming and going, and before and after a piece of work.

    moment(row, i)              "when I rocked up", "by the time I'd tidied up", "after I washed it down"
    starts_from(row, ...)       the first value of "from 47 to 39", of "started at 61, now at 19"

A moment is a small grammar, no list of phrases: a word of time, who it was, and a verb of coming, of going or
of work. What it does not know says nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from dictate.mentions.word_lists import word_list

_Stage = Literal["as_found", "as_left"]
_WHO = frozenset(("i", "we", "i'd", "we'd", "i'm", "he", "they"))
_FILL = frozenset(
    ("'d", "had", "was", "were", "first", "finally", "just", "'m", "actually", "all", "got", "been")
)
_BEING_DONE = frozenset((a, b) for a in ("it", "that", "they") for b in ("was", "were", "had", "got", "'d"))
_RETURNS = frozenset(("came", "swung", "went", "got", "checked", "looked", "circled", "popped"))
_BY = frozenset(("around", "round", "by", "past", "through", "over", "to"))
_UP = frozenset(("up", "in", "on", "here", "there", "onto", "into"))


def moment(row: Sequence[str], i: int) -> _Stage | None:
    """Return the stage that a moment told at word i means, None where none is told there."""
    word = row[i] if i < len(row) else ""
    if word not in word_list("stage_moment_openers"):
        return None
    k = i + 1
    if word == "by":
        if tuple(row[k : k + 2]) != ("the", "time"):
            return None
        k += 2
    if row[k : k + 1] and row[k] in {"leaving", "arriving", "arrival", "departing", "departure"}:
        if word in {"when", "on", "at", "while", "before"}:
            return "as_found" if row[k].startswith("arriv") else "as_left"
        return None
    if word in {"once", "after", "before"} and tuple(row[k : k + 2]) in _BEING_DONE:
        done = set(row[k + 2 : k + 4]) & word_list("stage_worked")  # "3.1 once it was brushed out"
        return None if not done else "as_found" if word == "before" else "as_left"
    if word in {"on", "at", "while"} or not (row[k : k + 1] and row[k] in _WHO):
        return None
    k += 1
    while k < len(row) and row[k] in _FILL and row[k + 1 : k + 2] and row[k + 1] not in _UP:
        k += 1
    verb, behind = row[k : k + 1], set(row[k + 1 : k + 3])
    if not verb:
        return None
    said = verb[0]
    near = {"here", "there", "in"} if word == "by" else _UP  # "by the time I rolled up my cords"
    comes = said in word_list("stage_comes") or (
        said in word_list("stage_comes_with") and bool(near & behind)
    )
    if row[k + 1 : k + 2] == ("back",) and said in _RETURNS and row[k + 2 : k + 3] and row[k + 2] in _BY:
        return "as_left" if word in {"when", "as", "by"} else None  # "zero when I came back around"
    if "back" in behind or (comes and word != "before" and said in word_list("stage_comes_only_before")):
        return None  # "when I came back", "when I opened the stem"
    if comes:
        return "as_left" if word == "after" else "as_found"
    gone = said == "went" and tuple(row[k + 1 : k + 2]) in ((".",), (",",), (";",), ("and",), ())
    goes = gone or said in word_list("stage_goes")  # "4 when I went"
    # "when I knocked off", not "when I shut it off" nor "when I took off the panel"
    away = row[k + 1 : k + 2] and row[k + 1] in word_list("stage_goes_behind")
    away = away and not {"the", "a", "my", "that"} & set(row[k + 2 : k + 3]) - {
        "my" if said == "rolled" else ""
    }
    if goes and said in _OF_A_THING and not _of_the_job(row[k + 1 : k + 4]):
        return None  # "before I'd finished my coffee"
    if goes or (said in word_list("stage_goes_with") and away):
        return None if word == "after" else "as_left"
    if said in word_list("stage_worked"):
        return "as_found" if word == "before" else "as_left" if word in {"after", "once"} else None
    return None


_OF_A_THING = frozenset(("finished", "closed", "done", "packed", "wrapped", "ended"))
_THE_JOB = word_list("stage_the_job") | {",", ".", ";"}


def _of_the_job(behind: Sequence[str]) -> bool:
    """Tell whether what was finished is the work: nothing, "up", "the job", "my tools" stands behind."""
    row = [w for w in behind if w not in {"my", "our", "his"}]
    return not behind or (behind[0] in _THE_JOB) or bool(row and row[0] in _THE_JOB)


def starts_from(row: Sequence[str], first: int, end: int, following: int | None) -> bool:
    """Tell whether a value is the one that another one behind it came from: "from plus 14 to minus 11"."""
    k = first - 1
    while k > 0 and row[k] in {"plus", "minus", "about", "around", "a", "-"}:
        k -= 1
    off = row[k] == "off" and row[k - 1] in {"down", "came", "dropped", "went"}  # "came down off 51 to 43"
    if not (off or row[k] == "from") or following is None or following - end > 6:
        return False
    gap = row[end:following]
    return "to" in gap and not {".", ";"} & set(gap)


def began_at(row: Sequence[str], first: int) -> bool:
    """Tell whether a value is where something began: "box started at sixty-one"."""
    return row[first - 1] == "at" and row[first - 2] in {"started", "began", "starting", "starts"}


def of_a_cycle(row: tuple[str, ...], i: int) -> bool:
    """Tell whether a start is one of the machine's own: of a freeze or a cycle, or set against its end."""
    behind = row[i : i + 12]
    behind = behind[: behind.index(".")] if "." in behind else behind
    then = "when" in behind and behind[:1] == ("and",)  # "36 to start with and 22 when it dropped the slab"
    return bool(word_list("stage_cycles") & set(behind[:4])) or ("end" in behind and "at" in behind) or then
