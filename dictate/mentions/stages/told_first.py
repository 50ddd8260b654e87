"""The end told first: `result_first(row, sentences, ...)` returns where it ends and whether a story follows.

    "Starting at the end: it's heating, supply 104. What it took ..."     announced
    "Done. Box is 37, was 52. Superheat's eight. Took four pounds ..."    the work is said to be finished
    "Suction 36, head 240, that's with everything done. ..."              said behind the values
    "She's sitting on four degrees, no worries. So they reckoned ..."     the result is good, then the story

What the opening tells is how it was left, until the talk goes back: by a phrase ("What it was in for"), by a
sentence of the past ("It was 23 when I got here"), by the first work, or by a trouble.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from dictate.mentions.stages.phrases import at_word, stage_phrases
from dictate.mentions.stages.state import turns
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_Placed = tuple[int, int, Reading]
_LEADS = frozenset(
    ("okay", "ok", "so", "right", "and", "but", "now", "well", "anyway", ",", "alright", "yeah")
)
_OPENING = 3  # sentences in which the end may be announced
_LONGEST = 9  # sentences that an opening may take
_SHORT = 8  # words of a sentence that only tells what a value was before
_SOON = 7  # words from a value to the one that it is set against
_CLAUSE_ENDS = frozenset((",", ".", ";", ":", "and", "but", "so", "!"))


class Opening(NamedTuple):
    """The word at which an opening that tells the result ends, and whether the talk goes back there."""

    end: int
    story: bool


def result_first(
    row: tuple[str, ...],
    sentences: Sequence[tuple[int, int]],
    placed: Sequence[_Placed] = (),
    works: Sequence[int] = (),
    paragraphs: Sequence[int] = (),
) -> Opening:
    """Return the opening that tells the result; it ends at word 0 where the talk opens otherwise.

    `works` are the words at which work was told, `paragraphs` those at which a paragraph begins.
    """
    if not sentences:
        return Opening(0, False)
    old = _announced(row, sentences)
    if old:
        return Opening(old, True)
    begun = [f for f, _, r in placed if r.role == "measured"]
    if not begun:
        return Opening(0, False)
    sure = _finished(row, sentences, begun[0])
    set_against = _set_against(row, sentences, placed)
    sure = sure or set_against
    held, kinds = 0, {r.quantity for _, _, r in placed[:_OPENING]}
    end, story, turned, left, good = 0, False, False, False, False
    for n, (start, stop) in enumerate(sentences[:_LONGEST]):
        if works and works[0] < start:
            end = end or start
            break
        end = start
        if n and goes_back(row, start):
            story = turned = True
            break
        here = [p for p in placed if start <= p[0] < stop]
        told = any(f < start for f in begun)
        if told and _of_the_past(row, start, here[0][0] if here else stop):
            if len(here) == 1 and stop - start <= _SHORT and here[0][2].quantity in kinds:
                held = held or start  # "Room's at three. It had been twelve. Suction two. ..."
                end = stop
                continue
            story = True
            break
        if told and start in paragraphs and not sure:
            break
        closer = _closes(row, start, stop)
        if closer and (told or here):
            left = True
            end = stop
            if closer != "goes on":
                break
        if told and word_list("stage_no_result") & set(row[start:stop]) - _MILD:
            story = True
            break
        good = good or any(_good(row, k) for k in range(start, stop))
        end = stop
    if held and not turned and not left:
        end, story = held, True  # nothing tells where the talk went back, if not there
    inside = [p for p in placed if p[0] < end and p[2].role == "measured"]
    if not inside or not (left or sure or (good and turned)):
        return Opening(0, False)
    if _read_again_later(placed, inside, max(end, works[-1] if works else 0)):
        return Opening(0, False)
    if left:
        story = goes_back(row, end) if end < len(row) else False
    return Opening(end, story)


_MILD = frozenset(("but", "not", "n't", "hot", "only", "says", "said", "fine", "half"))


def of_before(row: Sequence[str], start: int, begun: int, first: int) -> bool:
    """Tell whether a value of the opening is what it was set against: "box is 37, was 52"."""
    clause = row[max(start, begun) : first]
    return bool(word_list("stage_past") & set(clause)) and not {"now", "is", "'s", "are"} & set(clause[-3:])


def goes_back(row: Sequence[str], start: int) -> bool:
    """Tell whether a sentence goes back to the story, whatever it begins with: "Okay backing up, sorry"."""
    for _ in range(4):
        if turns(row, start):
            return True
        if start >= len(row) or row[start] not in _LEADS:
            return False
        start += 1
    return False


def _finished(row: tuple[str, ...], sentences: Sequence[tuple[int, int]], first: int) -> bool:
    """Tell whether the work is said to be finished in front of the first value."""
    for start, stop in sentences[:_OPENING]:
        for k in range(start, min(stop, first)):
            opens = k == start or row[k - 1] in _CLAUSE_ENDS
            if not opens:
                continue
            if at_word(row, k, "end_first"):
                return True
            phrase = at_word(row, k, "finished")
            behind = k + len(phrase)
            if phrase and (phrase in stage_phrases("finished_at") or row[behind] in _CLAUSE_ENDS):
                return True
    return False


def _set_against(
    row: tuple[str, ...], sentences: Sequence[tuple[int, int]], placed: Sequence[_Placed]
) -> bool:
    """Tell whether one of the first values is at once set against another.

    As in "Head's two fifty now. It was three ninety when I come up on it".
    """
    until = sentences[min(_OPENING, len(sentences)) - 1][1]
    for (first, end, one), (begin, behind, two) in pairwise(placed):
        if begin >= until:
            return False
        stop = next((b for a, b in sentences if a <= begin < b), until)
        now = row[end : end + 1] == ("now",) or {"is", "'s", "are", "at"} & set(
            row[max(0, first - 2) : first]
        )
        alike = (one.role, two.role, one.quantity) == ("measured", "measured", two.quantity)
        if not (alike and now) or one.value == two.value or begin - end > _SOON:
            continue
        told = any(len(at_word(row, k, "found_after")) > 1 for k in range(behind, min(stop, behind + _SOON)))
        if told and {"was", "were", "it'd", "been"} & set(row[end:begin]):
            return True
    return False


def _closes(row: tuple[str, ...], start: int, stop: int) -> str:
    """Tell whether a sentence says of the values before it that they were left so: "that's how I left".

    More of the same may follow what is only said beside them: "that's with everything done. Freeze 16".
    """
    told = [p for k in range(start, stop) if (p := at_word(row, k, "closes_left"))]
    return "" if not told else "goes on" if told[0][-1] in {"after", "done"} else "ends"


def _good(row: tuple[str, ...], k: int) -> bool:
    """Tell whether a clause at word k praises the result: "she's cooling grand", "no worries"."""
    return bool(at_word(row, k, "good_result"))


def _of_the_past(row: Sequence[str], start: int, until: int) -> bool:
    """Tell whether a sentence is told of the past before it comes to a value: "It was 23 ..."."""
    return bool(word_list("stage_past") & set(row[start:until]))


def _read_again_later(placed: Sequence[_Placed], inside: Sequence[_Placed], end: int) -> bool:
    """Tell whether most of the values were read anew later, with another result: then these were no end."""
    anew = 0
    for _, _, one in inside:
        later = [
            r
            for f, _, r in placed
            if f >= end
            and r.role == "measured"
            and r.stage != "as_found"
            and (r.quantity, r.unit, r.component, r.point, r.equipment)
            == (one.quantity, one.unit, one.component, one.point, one.equipment)
        ]
        anew += bool(later) and later[-1].value != one.value
    return 2 * anew > len(inside)


def _announced(row: Sequence[str], sentences: Sequence[tuple[int, int]]) -> int:
    """Return where an opening ends that announces the end or says that it runs, and turns by a phrase."""
    start, stop = sentences[0]
    said = row[start:stop]
    opens = tuple(said[:12])
    if any(opens[k : k + len(p)] == p for p in stage_phrases("end_first") for k in range(5)):
        return _turn(row, sentences[1:8])  # "Starting at the end: it's heating"
    if (
        (len(said) > 16 and (said[0] != "all" or len(said) > 50))  # "All sorted now, it's pulling ..."
        or not word_list("stage_result_opens") & set(said)
        or word_list("stage_no_result") & set(said)
    ):
        return 0
    if not {"'s", "is", "are", "'re", "they're", "we're", "all", "runs", "now"} & set(said[:5]):
        return 0
    return _turn(row, sentences[1:8])


def _turn(row: Sequence[str], sentences: Sequence[tuple[int, int]]) -> int:
    """Return the word at which the talk turns from the result to the story, 0 where it does not.

    A short sentence of what was before is none where another one follows: "It had been twelve. Suction two".
    """
    turned = [(begin, stop) for begin, stop in sentences if goes_back(row, begin)]
    if len(turned) > 1 and turned[0][1] - turned[0][0] <= _SHORT and row[turned[0][0] + 1] == "had":
        turned = turned[1:]
    return turned[0][0] if turned else 0
