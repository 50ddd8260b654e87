"""As found or as left where the words say so: `tell_stages(narration, mentions)` sets `stage` of readings.

    "it was 48 when I got here, it's 38 now"        48 as_found, 38 as_left, wherever they are told
    "head pressure 260 before, 210 after"           260 as_found, 210 as_left
    "the old one read 31, the new one 45"           31 as_found, 45 as_left

What the words leave open is decided later, from the order of the repair (writeup/stages.py).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.stages.contrast import (
    after_headings,
    contrasts,
    runs_again,
    section_starts,
    side_of_a_filter,
)
from dictate.mentions.stages.headings import headings
from dictate.mentions.stages.moments import began_at, moment, of_a_cycle, starts_from
from dictate.mentions.stages.pairs import short_of_what_it_should, was_and_is
from dictate.mentions.stages.phrases import at_word, by_first, stage_phrases
from dictate.mentions.stages.state import (
    moved_by_hand,
    renewed,
    second_round,
    told_by_state,
    turned_late,
)
from dictate.mentions.stages.told_first import goes_back, of_before, result_first
from dictate.mentions.stages.which_part import which_part
from dictate.mentions.told_outright import tell_stage_outright
from dictate.mentions.word_lists import word_list
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading

_Stage = Literal["as_found", "as_left"]
_REPAIR = frozenset({"part_replaced", "filter_drier_replaced", "charged", "cleaned", "adjusted", "brazed"})
_TOLD = frozenset({"measured", "retracted"})
_OF_PART = frozenset({"capacitance", "resistance"})  # of a part that may have come out
_NEVER = frozenset({"vacuum", "mass"})
_FAR_AHEAD = 14  # words from a phrase to the value behind it
_PROVED = 14  # words around "checked for voltage" in which the volts are those of the proof
_REACH = 6  # words from a value to a "when I left" behind it


def places_of(narration: Narration, words: Words, readings: list[Reading]) -> list[tuple[int, int, Reading]]:
    """Return (first word, end word, reading) in the order of the words."""

    def place(segment: int, word: int) -> int | None:
        tokens = narration.tokens_of(segment, word)
        return words.word_of_token(tokens.start) if tokens is not None else None

    out = []
    for r in readings:
        first = place(r.at.segment or 0, r.at.first_word or 0)
        last = place(
            r.at.segment or 0, r.at.last_word if r.at.last_word is not None else r.at.first_word or 0
        )
        if first is not None and last is not None:
            out.append((first, last + 1, r))
    return sorted(out, key=lambda x: (x[0], x[1]))


def tell_stages(narration: Narration, mentions: Mentions) -> None:
    """Set the stage of the measured readings that have none and whose words tell it."""
    words = words_of(narration)
    row = words.words
    done = [s for s in mentions.steps if s.step in _REPAIR and s.status == "done"]
    repaired = min((_word(narration, words, s.at.segment, s.at.first_word) for s in done), default=None)
    placed = places_of(narration, words, mentions.readings)
    parts = _named_parts(narration, words)
    sections = section_starts(row, words.sentences, {first for first, _, _ in placed})
    repairs = sorted(_word(narration, words, s.at.segment, s.at.first_word) for s in done)
    begins = [first for first, _, _ in placed]
    ends = sorted(e for _, e, _ in placed)
    # What proves a circuit dead is no value of the machine before or after its repair.
    dead = [
        _word(narration, words, s.at.segment, s.at.first_word)
        for s in mentions.steps
        if s.step == "absence_of_voltage_verified" and s.status == "done"
    ]
    turned = turned_late(row, words.sentences, repairs[-1] if repairs else None)
    works = sorted(
        _word(narration, words, s.at.segment, s.at.first_word)
        for s in mentions.steps
        if s.status == "done" and s.step in _REPAIR | {"power_isolated", "refrigerant_recovered"}
    )
    headed = headings(narration, words, works)
    paragraphs = [
        a
        for (_, b), (a, _) in pairwise(words.sentences)
        if narration.tokens[words.tokens[a]].segment != narration.tokens[words.tokens[b - 1]].segment
    ]
    opening_ends, story = (
        result_first(row, words.sentences, placed, works, paragraphs) if works else (0, False)
    )
    story_until = next((w for w in works if w >= opening_ends), 0) if story else 0
    wrong: _Stage | None = None
    for n, (first, end, reading) in enumerate(placed):
        if reading.role not in _TOLD or reading.stage is not None or reading.quantity in _NEVER:
            continue
        if reading.quantity == "voltage" and any(
            abs(first - d) <= _PROVED and words.sentence_of[first] == words.sentence_of[d] for d in dead
        ):
            continue
        start, stop = words.sentences[words.sentence_of[first]]
        follows = next((placed[k][0] for k in range(n + 1, len(placed)) if placed[k][0] >= end), stop)
        until = min(stop, follows)
        before = bisect_right(ends, first)
        begun = max(start, ends[before - 1]) if before else start
        fixed = (repaired is not None and repaired < first) or first < opening_ends
        earlier = placed[bisect_left(begins, start) : n]  # of the same sentence
        stage = _behind(row, end, until, fixed) or _moved(row, first, start, fixed)
        stage = stage or told_by_state(row, first, end, start, until, begun)
        if stage is None and first < opening_ends and reading.quantity not in _OF_PART:
            stage = "as_found" if of_before(row, start, begun, first) else "as_left"
        if first < opening_ends:
            tell_stage_outright(narration, reading.at)
        if stage is None and reading.point != "product" and reading.quantity != "duration":
            alike = n + 1 < len(placed) and placed[n + 1][2].quantity == reading.quantity
            stage = "as_found" if alike and starts_from(row, first, end, placed[n + 1][0]) else None
        stage = (
            stage
            or which_part(row, begun, first)
            or _named_part(row, parts, begun, first)
            or _newly(row, words.sentences, words.sentence_of[first], first)
        )
        stage = (
            stage
            or _follows_found(row, first, end, earlier, reading, start, fixed)
            or _ahead(row, start, first, fixed, earlier)
        )
        stage = stage or _was(row, start, first, fixed, earlier, reading)
        if stage is None and reading.point in (None, "box", "return", "supply"):
            stage = "as_found" if began_at(row, first) and reading.quantity == "temperature" else None
        if stage is None and start > 0:
            # "Left it in emergency heat. Supply with the strips alone one oh two."
            opening, _ = words.sentences[words.sentence_of[start - 1]]
            back = goes_back(row, start) or of_before(row, start, begun, first)
            stage = "as_left" if at_word(row, opening, "left_it") and not back else None
        if stage is None and first in turned and reading.role == "measured":
            stage = "as_found"
        if stage is None:
            stage = _in_turn(row, words, sections, repairs, first)
        said_anew = n and (placed[n - 1][2].role, placed[n - 1][2].quantity) == (
            "retracted",
            reading.quantity,
        )
        if stage is None and reading.retracts and said_anew:
            stage = wrong  # what puts a value right belongs to where the wrong one was said
        if stage is None and reading.role == "measured":
            stage = next((s for a, b, s in headed if a <= first < b), None)
            if stage is None and opening_ends <= first < story_until:
                stage = "as_found"  # the story behind a result told first, up to its first work
        wrong = stage
        if any(a <= first < b and s == stage for a, b, s in headed):
            tell_stage_outright(narration, reading.at)
        if stage is not None and reading.role == "measured":
            reading.stage = stage
    moved_by_hand(row, placed, [words.sentences[words.sentence_of[f]][0] for f, _, _ in placed])
    contrasts(row, placed, repaired)
    after_headings(row, placed, words.sentences)
    renewed(row, placed)
    second_round(row, placed, words, repaired)
    for n, (first, end, reading) in enumerate(placed):
        if n and reading.stage == "as_left" and row[end : end + 1] == ("now",):
            # "Coil's ninety eight coming off. Ninety one now."
            f, _, old = placed[n - 1]
            if (
                old.stage is None
                and old.role == "measured"
                and (old.quantity, old.point, old.component, old.equipment)
                == (reading.quantity, reading.point, reading.component, reading.equipment)
                and old.value != reading.value
                and first - f <= 12
            ):
                old.stage = "as_found"
    short_of_what_it_should(row, placed, words)
    was_and_is(row, placed, words)


def _named_parts(narration: Narration, words: Words) -> list[tuple[int, int, _Stage]]:
    """Return the parts that are called new or old: (first word, end word, stage)."""
    out: list[tuple[int, int, _Stage]] = []
    for c in find_components(narration):
        before = narration.lowers[max(0, c.start - 3) : c.start]
        for stage, names in (("as_left", "stage_new"), ("as_found", "stage_old")):
            if word_list(names) & set(before[-2:]):
                out.append((words.word_of_token(c.start), words.word_of_token(c.end - 1) + 1, stage))  # type: ignore[arg-type]
    return out


def _named_part(
    row: tuple[str, ...], parts: list[tuple[int, int, _Stage]], begun: int, first: int
) -> _Stage | None:
    """Read which part was measured, whatever it is called: "the new air sensor gave 32.6"."""
    for start, end, stage in reversed(parts):
        if begun <= start and end <= first and first - end <= 6:
            gap = row[end:first]
            if "." in gap or ";" in gap or _WANTED & set(row[max(0, start - 6) : first]):
                return None
            return stage
    return None


def _in_turn(
    row: tuple[str, ...], words: Words, sections: list[int], repairs: list[int], first: int
) -> _Stage | None:
    """Tell the stage by the turn: found where the next thing is looked at, left where one runs again."""
    k = bisect_right(sections, first) - 1
    begin = sections[k] if k >= 0 else 0
    until = sections[k + 1] if k + 1 < len(sections) else 10**9
    here = [r for r in repairs if begin <= r < until]
    number = words.sentence_of[first]
    if here and here[0] < first:
        start, _ = words.sentences[number]
        opening = runs_again(row, start)
        if not opening and number and start > here[0]:
            opening = runs_again(row, words.sentences[number - 1][0])
        if opening and row[first - 1] not in ("was", "were") and not any(r > first for r in here):
            return "as_left"
        return None
    start, stop = words.sentences[number]
    if {"later", "now", "after", "left", "leaving"} & set(row[start:stop]):
        return None
    if k >= 0 and any(r < begin for r in repairs) and (not here or here[0] > first):
        return "as_found"  # "Case 5. Air off 2.4": what was done before was done to case 4
    return None


def _newly(
    row: tuple[str, ...], sentences: Sequence[tuple[int, int]], number: int, first: int
) -> _Stage | None:
    """Read a part that went in as a sentence of its own: "New pump. It draws 6.3"."""
    if _new_part(row, *sentences[number], first):
        return "as_left"
    if number and sentences[number - 1][1] - sentences[number - 1][0] <= 6:
        start, stop = sentences[number - 1]
        return "as_left" if _new_part(row, start, stop, stop) else None
    return None


def _new_part(row: tuple[str, ...], start: int, stop: int, until: int) -> bool:
    if row[start : start + 1] == ("the",):
        start += 1
    said = row[start:until]
    return (
        len(said) > 1
        and said[0] == "new"
        and not _WANTED & set(row[start:stop])
        and any(at_word(row, start, "left_part"))
    )


def _follows_found(
    row: tuple[str, ...],
    first: int,
    end: int,
    earlier: list[tuple[int, int, Reading]],
    reading: Reading,
    start: int,
    fixed: bool,
) -> _Stage | None:
    """Read what is set against a found value of the same kind: "44 before, 38 after an hour"."""
    behind, before = next(
        ((e, r) for f, e, r in reversed(earlier) if f < first and r.quantity == reading.quantity), (0, None)
    )
    if before is None or before.stage != "as_found":
        return None
    if _is_now(row[behind:first]) and (before.point or "box") == (reading.point or "box"):
        return "as_left"  # "was forty-nine when I got here and it's thirty-nine at noon"
    if row[end : end + 1] in (("after",), ("afterwards",), ("now",), ("later",)):
        return "as_left"
    if not fixed:
        return None
    k = first - 1
    led = row[max(start, first - 3) : first]
    moved = led[-1:] in (("to",), ("at",)) and any(
        at_word(row, i, "moved") for i in range(max(start, k - 3), k)
    )
    return "as_left" if moved else None


def _is_now(gap: tuple[str, ...]) -> bool:
    """Tell whether what was found is set against what it is: "when I got here and it's ..."."""
    if gap[-2:] not in (("it", "'s"), ("it", "is"), ("she", "'s"), ("he", "'s"), ("they", "are")) and gap[
        -1:
    ] not in (
        ("it's",),
        ("she's",),
        ("he's",),
    ):
        return False
    told = any(
        moment(gap, i) == "as_found" or at_word(gap, i, "found_after") for i in range(min(2, len(gap)))
    )
    return told and not {".", ";"} & set(gap)


_WANTED = frozenset(
    (
        "need",
        "needs",
        "needed",
        "order",
        "ordered",
        "quote",
        "quoted",
        "tomorrow",
        "wants",
        "will",
        "should",
        "could",
    )
)


def _word(narration: Narration, words: Words, segment: int | None, word: int | None) -> int:
    tokens = narration.tokens_of(segment or 0, word or 0)
    return words.word_of_token(tokens.start if tokens is not None else 0)


def _stage(phrase: tuple[str, ...], stage: _Stage, fixed: bool) -> _Stage | None:
    """Return the stage that a phrase tells; a weak one tells it only once something was repaired."""
    return stage if fixed or phrase not in stage_phrases("weak") else None


def _behind(row: tuple[str, ...], end: int, until: int, fixed: bool) -> _Stage | None:
    """Read the words behind a value, up to the next value: "48 when I got here"."""
    for i in range(end, min(until, end + _REACH)):
        left, found = at_word(row, i, "left_after"), at_word(row, i, "found_after")
        if found and tuple(row[i + len(found) : i + len(found) + 1]) == ("back",):
            found = ()  # "when I came back around"
        began = found[-1:] == ("start",) or found[:2] in (("to", "start"), ("to", "begin"))
        if began and fixed and of_a_cycle(row, i + len(found)):
            found = ()  # "48 at the start of the freeze and 22 at the end" once it runs again
        if found and row[i - 1] in ("like", "as", "than"):
            return None  # "twenty-one, like before"
        told = moment(row, i) if max(len(left), len(found)) <= 1 else None
        if told is not None:
            return told
        if len(left) > len(found):
            return _stage(left, "as_left", fixed) if _alone(row, i, left, end) else None
        if found == ("then",) and not {"was", "were", "had"} & set(row[max(0, end - 8) : end]):
            return None  # "superheat six, suction one point one then": of the moment just told
        if found:
            return _stage(found, "as_found", fixed) if _alone(row, i, found, end) else None
        if row[i] in (",", ";", "and", "but", "so"):
            return None
    return None


def _alone(row: tuple[str, ...], i: int, phrase: tuple[str, ...], end: int) -> bool:
    """Tell whether a one-word phrase stands by itself: right behind the value, and nothing hangs on it."""
    if len(phrase) > 1:
        return True
    after = row[i + 1] if i + 1 < len(row) else "."
    if phrase[0] in ("before", "after") and side_of_a_filter(row, i):
        return False
    if phrase[0] in ("before", "after", "earlier", "leaving"):
        return after in (",", ".", ";", "and", "but", "so") and i - end <= 3
    return i - end <= 3


def _ahead(
    row: tuple[str, ...], start: int, first: int, fixed: bool, earlier: list[tuple[int, int, Reading]]
) -> _Stage | None:
    """Read the words in front of a value in its sentence; the nearest counts."""
    left_by, found_by = by_first("left_before"), by_first("found_before")
    for i in range(first - 1, max(start, first - _FAR_AHEAD) - 1, -1):
        if row[i] in word_list("stage_moment_openers") and (
            i == start
            or row[i - 1] in (",", ";", "and", "but")
            or (row[i] in ("before", "after") and i - start <= 3)  # "Head before I washed it was 310"
        ):
            told = moment(row, i)
            if told is not None:
                return told  # "by the time I wrapped up it was 39"
        if row[i] not in left_by and row[i] not in found_by:
            continue
        left, found = at_word(row, i, "left_before"), at_word(row, i, "found_before")
        phrase = left if len(left) > len(found) else found
        if not phrase:
            continue
        if (
            (phrase == ("now",) or (phrase[0] == "before" and len(phrase) <= 2))
            and not (i == start or row[i - 1] in (",", ";", "and", "but"))
            and first - i > 3
        ):
            continue
        if phrase in (("before",), ("after",)) and side_of_a_filter(row, i):
            continue
        if any(e == i and f >= start for f, e, _ in earlier):
            continue  # "74 when I started and an hour later it's 39"
        if phrase == ("after", "it"):
            # "Before that, suction 1.3; after it 1.7", but "before the strainer 2.3, after it 1.1" is a place
            event = any(row[k : k + 2] == ("before", "that") for k in range(start, i))
            if not event or i + 2 != first:
                continue
        if phrase == ("now",) and i == start and first - i > 2:
            continue  # "Now the compressor: ..." goes on to another thing
        if phrase == ("before",) and any(w in ("i", "we", "it", "they") for w in row[i + 1 : i + 2]):
            return None
        if i + len(phrase) > first:
            continue
        if phrase[-1] in ("to", "at") and first - i - len(phrase) > 2:
            continue
        return _stage(phrase, "as_left" if phrase is left else "as_found", fixed)
    return None


def _was(
    row: tuple[str, ...],
    start: int,
    first: int,
    fixed: bool,
    earlier: list[tuple[int, int, Reading]],
    reading: Reading,
) -> _Stage | None:
    """Read "head 260, was up at 395": after the repair, "was" behind a value of the same kind looks back."""
    k = first - 1
    while k >= start and row[k] in (
        "up",
        "down",
        "at",
        "about",
        "around",
        "only",
        "reading",
        "over",
        "way",
        "under",
    ):
        k -= 1
    if not fixed or k < start or row[k] not in ("was", "were"):
        return None
    k -= row[k - 1] in ("it", "that", "they", "which")
    same = [r for f, _, r in earlier if f < first and r.quantity == reading.quantity]
    if (
        not same
        or row[k - 1] not in (",", "and", ";", "it", "that", "which", "from", "(")
        or same[-1].stage == "as_found"
    ):
        return None
    return "as_found"


def _moved(row: tuple[str, ...], first: int, start: int, fixed: bool) -> _Stage | None:
    """Read "dropped from 260 to 210" after a repair, and "topped the system up to 1.5 bar"."""
    led = row[max(start, first - 7) : first]
    if led[-1:] == ("to",) and word_list("stage_brought") & set(led) and not (_WANTED | {"down"}) & set(led):
        return "as_left"
    if not fixed or first - 1 < start or row[first - 1] not in ("from", "to"):
        return None
    for i in range(first - 2, max(start, first - 12) - 1, -1):
        verb = at_word(row, i, "moved")
        if not verb:
            continue
        if row[first - 1] == "from":
            return "as_found"
        was = {"was", "from", "were"} & set(row[start:first])  # "box was 14, came to 8"
        return "as_left" if was else None
    return None
