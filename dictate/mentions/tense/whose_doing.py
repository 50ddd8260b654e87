"""Whether work is this technician's, on this job."""

from __future__ import annotations

from typing import Literal

from dictate.mentions.tense.denials import answered_behind
from dictate.mentions.tense.plans import frame_of, is_framed
from dictate.mentions.tense.reported import is_reported, others_end
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import COMPOUND, TELLING, flat
from dictate.mentions.tense.wishes import wished_for
from dictate.vocabulary.load import word_set

BEFORE_PERSONS = word_set("before_persons")


def is_ours(talk: Talk, i: int, *, telling: bool = False, to_come: bool = False) -> bool:
    """Tell whether the work at word i is this technician's, on this job.

    With `telling` only the words before count: what follows is what somebody was told. With `to_come` a
    month or a season is one ahead, and no time of long ago.
    """
    start, end = talk.sentence(i)
    if talk.words[end - 1] == "?" and answered_behind(talk, i) is None:
        return False
    if is_framed(talk, i):
        start = frame_of(talk, talk.w.sentence_of[i]) or start  # who gives leave does not do the work
    if is_reported(talk, start, i) or wished_for(talk, i):
        return False
    subject = whose_subject(talk, start, i)
    if subject == "other" or (talk.words[i] != "signed" and done_by_others(talk, i, end)):
        return False
    if to_come:
        return True
    first, last = talk.clause_start(i), i + 1 if telling else talk.clause_end(i)
    if first - start <= 5 and not any(talk.kind(k) in ("past", "third") for k in range(start, first)):
        first = start  # "in spring we had some added"
    if (
        start < first <= start + 10
        and talk.words[start] in word_set("opens_former_visit")
        and talk.has(start, first, "lists", "long_ago") is not None
    ):
        first = start  # "when I was here in March I weighed in four pounds"
    if talk.has(first, last, "lists", "this_job") is not None:
        return True
    old = talk.has(first, last, "lists", "long_ago")
    if old is None:
        old = next(
            (
                k
                for k in range(first, last - 1)
                if talk.words[k] in ("in", "since") and begins_a_year(talk.words[k + 1 : k + 3])
            ),
            None,
        )
    if old is None or only_compares(talk, old, first):
        return True
    return tells_how_it_was(talk, i, old)


def begins_a_year(words: tuple[str, ...]) -> bool:
    """Tell whether the words begin a year ("twenty nineteen", "two thousand", "2019")."""
    if not words:
        return False
    if len(words[0]) == 4 and words[0].isdigit() and words[0][:2] in ("19", "20"):
        return True
    teens = word_set("teens")
    if (
        words[0] == "nineteen"
        and len(words) > 1
        and words[1] in ("fifty", "sixty", "seventy", "eighty", "ninety")
    ):
        return True
    return words == ("two", "thousand") or (
        words[0] in ("twenty", "nineteen") and len(words) > 1 and words[1] in teens
    )


def only_compares(talk: Talk, old: int, first: int) -> bool:
    """Tell whether a time of long ago is only a comparison ("same as last time", "since last year")."""
    before = talk.words[max(first, old - 2) : old]
    return any(w in word_set("compares_with_old") for w in before)


def tells_how_it_was(talk: Talk, i: int, old: int) -> bool:
    """Tell whether the time is of a clause of how it was ("draws 0.6 where it pulled 0.9 in spring")."""
    return any(
        talk.words[k] == "where" and talk.words[k + 1] in ("it", "they", "that", "she", "last")
        for k in range(i + 1, old - 1)
    )


def whose_subject(talk: Talk, start: int, i: int) -> Literal["ours", "other"] | None:
    """Return whose doing the verb at i is, by the nearest subject before it in the sentence."""
    j = i - 1
    while j >= start:
        n = talk.ends_with(j, "lists", "ours", start=start)
        if n > 1 and talk.words[j + 1] == "from":
            return "other"  # "the apprentice from the other firm"
        if n and not (talk.words[j] == "me" and n == 1):
            return "ours"
        n = others_end(talk, j, start)
        if n and talk.words[j] in ("she", "he") and machine_does(talk, i):
            n = 0  # "she's running like a champ": a machine
        if (
            n
            and is_told(talk, j - n + 1, start)
            and (
                i - j == 1
                or talk.words[j + 1] in ("left", "finished", "started", "done", "out", "off", "wrapped")
            )
        ):
            n = 0  # "told the duty manager left at half two": who left is not said, and is the speaker
        first = j - n + 1
        aside = (
            n == 1
            and first > start
            and talk.words[first - 1] not in word_set("subject_openers")
            and "," in talk.words[j:i]
        )
        if n == 1 and talk.words[j] == "they" and undergoes(talk, j + 1, i):
            n = 0  # "both motors were locked so they got changed"
        if n and aside:
            n = 0  # "the line they put in, brazed two joints": a clause inside the thought
        if n and acts(talk, j + 1, i, talk.words[j]):
            if talk.words[j] in ("guy", "tech", "he", "she", "they", "technician") and (
                of_our_crew(talk, start, j) or is_our_helper(talk, j)
            ):
                return "ours"
            # "you" as in "you know", and objects of ours ("told the customer") do not act.
            return "other"
        j -= 1
    return None


def undergoes(talk: Talk, k: int, i: int) -> bool:
    """Tell whether the participle at word i is a passive of the subject before k ("they got changed")."""
    while k < i and talk.words[k] in flat("adverbs"):
        k += 1
    if k >= i or talk.words[k] not in ("got", "were", "are", "'re", "get"):
        return False
    return talk.kind(i) == "past" and all(talk.words[m] in flat("adverbs") for m in range(k + 1, i))


def is_told(talk: Talk, i: int, start: int) -> bool:
    """Tell whether the person named at word i is the object of "told", "showed", "informed" ..."""
    j = i - 1
    while j >= start and i - j <= 3 and talk.words[j] in BEFORE_PERSONS:
        j -= 1
    form = talk.forms.get(talk.words[j]) if j >= start else None
    return form is not None and form.kind == "past" and form.verb in TELLING


def done_by_others(talk: Talk, i: int, end: int) -> bool:
    """Tell whether "by the last guy" stands behind the verb."""
    for k in range(i + 1, min(end, i + 6)):
        if talk.words[k] in (",", "and", "but", ";"):
            return False
        if talk.words[k] == "by":
            j = k + 1
            while j < end and talk.words[j] in ("the", "a", "an", "some", "their", "his"):
                j += 1
            if talk.begins_with(j, "lists", "others", end=end):
                return talk.words[j] != "you"
            # "by the shop's own electrician": who owns them stands in front
            owner = next((m for m in range(j, min(end, j + 3)) if talk.words[m] == "'s"), None)
            return owner is not None and any(
                talk.begins_with(m, "lists", "others", end=end) for m in range(owner + 1, min(end, owner + 3))
            )
    return False


def machine_does(talk: Talk, i: int) -> bool:
    """Tell whether the verb at word i is what a machine does."""
    form = talk.forms.get(talk.words[i])
    if form is not None and form.kind == "base" and talk.words[i - 1] in ("to", "will", "'ll"):
        return False
    return form is not None and form.verb in word_set("machine_verbs")


def of_our_crew(talk: Talk, start: int, j: int) -> bool:
    """Tell whether "he" is one of us on an earlier day of this job ("we were here last week.

    He recovered it").
    """
    before = talk.words[start:j]
    return (
        any(w in ("we", "we've", "us") for w in before)
        and talk.has(start, j, "lists", "this_job") is not None
    )


def is_our_helper(talk: Talk, j: int) -> bool:
    """Tell whether "he" or "she" is our helper: the person named last before, in the sentences just before.

    "That was my apprentice's. He put a new one in."
    """
    if talk.words[j] not in ("he", "she"):
        return False
    first = talk.w.sentences[max(0, talk.w.sentence_of[j] - HELPER_REACH)][0]
    for k in range(j - 1, first - 1, -1):
        if talk.words[k] in word_set("helpers") and talk.words[k - 1] in ("my", "the", "our", "his", "her"):
            return talk.words[k - 1] in ("my", "our") or talk.words[k] in ("apprentice", "helper")
        if talk.words[k] in PRONOUNS_OF_PERSONS:
            continue
        if talk.ends_with(k, "lists", "others", start=first):
            return False
    return False


HELPER_REACH = 4
PRONOUNS_OF_PERSONS = ("he", "she", "him", "her", "his", "they", "them", "you")


def acts(talk: Talk, k: int, i: int, noun: str) -> bool:
    """Tell whether the noun before word k is the subject of a verb that stands at k or soon after."""
    if noun in ("you",) and talk.words[k] in ("know", "see", "can"):
        return False
    while k < i and (
        talk.words[k] in flat("adverbs")
        or talk.words[k] in COMPOUND
        or talk.words[k] in word_set("after_actor")
    ):
        if talk.words[k] in ("'s", "'d", "who"):
            return True
        k += 1
    if k >= i:
        return k == i
    if talk.kind(k) in ("past", "third") or talk.words[k] in word_set("acting"):  # fmt: skip
        return True
    return talk.kind(k) == "base" and noun in word_set("plain_actors")
