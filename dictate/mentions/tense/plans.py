"""Plans: those that a sentence opens with, and work that the words around it put off."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS, NUMBER_WORDS
from dictate.mentions.tense.announced import announced
from dictate.mentions.tense.headings import (
    below_undone,
    heading,
    heads_the_next,
    is_a_time,
    of_done_work,
    stands_now,
)
from dictate.mentions.tense.plan_ends import end_of_plan
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, CLOSERS, OURS, Status
from dictate.vocabulary.load import word_set


def is_framed(talk: Talk, i: int) -> bool:
    """Tell whether word i stands in a plan that was announced ("Tomorrow: braze, charge")."""
    number = talk.w.sentence_of[i]
    head = frame_of(talk, number)
    return head is not None and head <= i < end_of_plan(talk, head, talk.w.sentences[number][1])


def list_of(talk: Talk, number: int) -> tuple[int, int, Status] | None:
    """Return where a list of work begins and ends in a sentence, and what its heading says of it.

    The heading ends with a colon or is a sentence before it; other plans are told in sentences.
    """
    head = frame_of(talk, number)
    start, end = talk.w.sentences[number]
    below = head == start and (number in talk.headed or number in talk.listed)
    if head is None or not (below or talk.words[head - 1] == ":" or number in talk.undone):
        return None
    return head, end_of_plan(talk, head, end), framed_as(talk, head)


def framed_as(talk: Talk, i: int) -> Status:
    """Return what became of bare work in the frame of word i: planned, or not done below "Not done: ..."."""
    return "not_done" if talk.w.sentence_of[i] in talk.undone else "planned"


_AT_ONCE = 50
"""Sentences that are asked for one out of another at most."""


def frame_of(talk: Talk, number: int) -> int | None:
    """Return the word behind the plan that a sentence opens with.

    A plan that stands alone opens the next sentence.
    """
    if number not in talk.frames:
        first = number
        while first and first - 1 not in talk.frames:
            first -= 1
        for k in range(first + _AT_ONCE, number, _AT_ONCE):
            frame_of(talk, k)  # each asks for the one before: in an hour's talk they would go too deep
        talk.frames[number] = None
        talk.frames[number] = find_frame(talk, number)
    return talk.frames[number]


def find_frame(talk: Talk, number: int) -> int | None:
    """Return the word behind the plan that a sentence opens with; ask `frame_of`, which remembers it."""
    start, end = talk.w.sentences[number]
    headed = heading(talk, start, end)
    if headed is not None:
        if headed[1] == "not_done":
            talk.undone.add(number)
        return headed[0]
    if of_done_work(talk, start, end):
        return None
    if number and (below := _below_a_heading(talk, number)):
        if below == "not_done":
            talk.undone.add(number)
        return start
    k = start
    while k < end and talk.words[k] in word_set("plan_openers"):
        k += 1
    n = talk.begins_with(k, "lists", "plan_heads", end=end)
    if n:
        return k + n
    n = talk.begins_with(k, "lists", "plan_days", end=end)
    if n:
        j = k + n
        while j < end and talk.words[j] in (",", ":", "-", "then"):
            j += 1
        form = talk.forms.get(talk.words[j]) if j < end else None
        if form is not None and form.kind == "base" and talk.words[j] not in AMBIGUOUS:
            return k + n
    leave = leave_given(talk, k, end)
    if leave is not None:
        return leave
    colon = next((j for j in range(k + 2, min(end, k + 12)) if talk.words[j] == ":"), None)
    if colon is not None and talk.begins_with(k, "lists", "plan_headings", end=end):
        return colon + 1  # "to do when the parts come: recover, ..."
    if colon is not None and announces_plan(talk, k, colon):
        return colon + 1  # "the repair is booked for Monday: recover, ..."
    if none_of_it_happened(talk, number + 1):
        return start
    if number:
        before, stop = talk.w.sentences[number - 1]
        head = frame_of(talk, number - 1)
        alone = head is not None and before <= head and head not in talk.not_headings
        if alone and is_a_time(talk, before, stop) and stands_now(talk, start, end):
            return None  # "The switch I didn't. Next week. Port's capped.": said of what stands before it
        if head is not None and alone and all(w in CLOSERS for w in talk.words[head:stop]):
            talk.listed.add(number)
            return start
        if announces_plan(talk, before, stop) and (
            tells_nothing_done(talk, start, end) or gives_orders(talk, start, end)
        ):
            return start
        if head is not None and end_of_plan(talk, head, stop) == stop:
            if goes_on(talk, start, end):
                return start
            if number - 1 in talk.listed and only_lists(talk, start, end):
                talk.listed.add(number)
                return start
    return announced(talk, start, end)


def _below_a_heading(talk: Talk, number: int) -> Status | None:
    """Return what a heading that is a sentence of its own says of the sentence `number` below it."""
    start, end = talk.w.sentences[number]
    before, stop = talk.w.sentences[number - 1]
    status = talk.headed.get(number - 1) or heads_the_next(talk, before, stop)
    if status is None:
        return None
    lists = below_undone if status == "not_done" else only_lists
    if not lists(talk, start, end):
        return None
    talk.headed[number] = status
    return status


def only_lists(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a sentence only names work, below "Tuesday's list" ("Coil out, coil in")."""
    until = next((k for k in range(start, end) if talk.words[k] in ("till", "until", "once")), end)
    return not any(
        talk.words[k] in OURS
        or (talk.words[k] in word_set("ends_a_list") and k < until)
        or talk.kind(k) == "third"
        or (talk.kind(k) == "past" and talk.words[k] not in AMBIGUOUS)
        for k in range(start, end)
    )


def none_of_it_happened(talk: Talk, number: int) -> bool:
    """Tell whether a sentence says of the one before that nothing of it was done ("None of that today")."""
    if number >= len(talk.w.sentences):
        return False
    start, end = talk.w.sentences[number]
    while start < end and talk.words[start] in word_set("plan_openers"):
        start += 1
    if talk.words[start : start + 1] not in (("none",), ("nothing",)) or not 3 <= end - start <= 14:
        return False
    return talk.words[start + 1] == "of" and talk.words[start + 2] in ("that", "this", "it", "which", "those")


def announces_plan(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a short sentence only says when things will be done ("So planned for Thursday.")."""
    if end - start > 14 or not tells_nothing_done(talk, start, end):
        return False
    place = talk.has(start, end, "lists", "announces_plan")
    return place is not None and not any(
        talk.kind(k) == "base" and talk.words[k] not in word_set("plain_in_announcement")
        for k in range(start, end)
    )


def tells_nothing_done(talk: Talk, start: int, end: int) -> bool:
    """Tell whether no past form stands in the words, so that they tell of nothing that was done."""
    return not any(
        (
            talk.kind(k) == "past"
            and talk.words[k] not in AMBIGUOUS
            and talk.words[k] not in word_set("plan_pasts")
            and talk.words[k - 1] not in ("gets", "be")
        )
        or talk.words[k] in ("was", "were", "i've", "we've")
        for k in range(start, end)
    )


def goes_on(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a plan goes on in the next sentence: it gives orders, and nobody did anything in it."""
    if any(w in OURS for w in talk.words[start:end]):
        return False
    if talk.words[start] == "then" and tells_nothing_done(talk, start, end):
        # "Then the four pounds goes back in."
        return any(talk.kind(k) == "third" or talk.words[k] == "goes" for k in range(start, end))
    return gives_orders(talk, start, end)


def gives_orders(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a sentence opens with an order and nobody did anything in it.

    What is only named with what will have been done to it is ordered too: "pull the charge, new coil brazed
    in".
    """
    k = start
    while k < end and talk.words[k] in word_set("plan_openers"):
        k += 1
    form = talk.forms.get(talk.words[k]) if k < end else None
    if form is None or form.kind != "base" or talk.words[k] in AMBIGUOUS:
        return False
    if talk.words[k + 1 : k + 2] in (("'s",), ("is",), ("are",), ("has",)):
        return False  # "disconnect's back in": a noun
    return not any(
        talk.words[j] in ("was", "were")
        or talk.words[j] in OURS
        or (
            talk.kind(j) == "past"
            and talk.words[j] not in AMBIGUOUS
            and talk.words[j] not in word_set("plan_pasts")
            and talk.words[j] not in word_set("orders_like_a_past")
            and talk.words[j - 1] in word_set("before_a_doing")
        )
        for j in range(k + 1, end)
    )


def leave_given(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "when he says go it's", "once they agree, it's", if that stands at k."""
    n = 2 if talk.words[k : k + 2] == ("soon", "as") else 1
    n = 3 if talk.words[k : k + 3] == ("as", "soon", "as") else n
    if k + n >= end or (n == 1 and talk.words[k] not in ("when", "once")):
        return None
    for j in range(k + n + 1, min(end - 2, k + 14)):
        if talk.words[j - 1] == "then" or talk.words[j - 1 : j + 1] in ((",", "it"), (",", "that")):
            pass
        elif talk.kind(j - 1) == "past" and talk.words[j - 1] not in ("approved", "signed", "okayed"):
            return None
        if talk.words[j] not in ("it", "that") or j == k + n:
            continue
        for tail in (("'s",), ("'ll", "be"), ("will", "be"), ("is",)):
            if talk.words[j + 1 : j + 1 + len(tail)] == tail:
                return j + 1 + len(tail)
        if talk.words[j - 1] == "," and talk.words[j + 1] in ("gets", "needs"):
            return j + 2  # "when we do it, it gets a recovery"
    return None


def put_off_behind(talk: Talk, i: int) -> bool:
    """Tell whether the words behind a plain form at word i put it off ("braze it tomorrow")."""
    end = talk.clause_end(i)
    for j in range(i + 1, end):
        if talk.kind(j) == "past" and talk.words[j] not in AMBIGUOUS:
            return False
        if talk.begins_with(j, "lists", "plan_tails", end=end):
            return True
    return False


def comes_another_day(talk: Talk, i: int) -> bool:
    """Tell whether a day to come stands right behind what one does ("I change it on Monday")."""
    end = talk.clause_end(i)
    end = next((k for k in range(i + 1, end) if talk.words[k] in ("and", ",", "then", "but")), end)
    return any(
        talk.begins_with(k, "lists", "plan_days", end=end)
        or talk.begins_with(k, "lists", "plan_tails", end=end)
        for k in range(i + 1, min(end, i + 9))
    )


def put_off_before(talk: Talk, i: int, start: int) -> bool:
    """Tell whether the words before a plain form put it off ("Thursday I come back, braze it")."""
    if any(
        talk.kind(k) == "past" and talk.words[k] not in AMBIGUOUS and talk.words[k] != "come"
        for k in range(start, i)
    ):
        return False
    told = talk.words[start:i]
    if not any(w in ("i", "we", "i'll", "we'll") for w in told):
        return False
    if any(talk.begins_with(k, "lists", "plan_tails", end=i) for k in range(start, i)):
        return True
    return any(w in ("come", "comes", "coming", "back", "return") for w in told) and any(
        talk.begins_with(k, "lists", "plan_days", end=i) for k in range(start, i)
    )


def has_to_wait(talk: Talk, i: int) -> bool:
    """Tell whether the work named at word i is put off behind it ("brazing has to wait")."""
    end = talk.clause_end(i)
    for j in range(i + 1, min(end, i + 7)):
        if talk.words[j] in (",", ".", "and"):
            return False
        if talk.words[j] == "waits" and talk.words[j + 1 : j + 2] in (
            ("till",),
            ("until",),
            ("for",),
            ("on",),
        ):
            return True  # "washing that condenser waits till the tap thaws"
        if talk.words[j] == "wait" and talk.words[j - 1] in ("to", "will", "must", "can", "'ll"):
            return True
    return False


def listed_for_later(talk: Talk, i: int, end: int) -> bool:
    """Tell whether work named in a row without a verb is put off ("vacuum and charge tomorrow")."""
    start, last = talk.sentence(i)
    k = talk.has(end, last, "lists", "plan_tails")
    if k is not None and talk.words[k : k + 3] == ("in", "the", "morning") and tells_the_time(talk, k - 1):
        return False  # "nitrogen on at seven fifty in the morning"
    return k is not None and not any(
        talk.kind(j) in ("past", "third") or talk.words[j] in BE or talk.words[j] in OURS
        for j in range(start, last)
    )


def tells_the_time(talk: Talk, i: int) -> bool:
    """Tell whether a time of the day ends at word i ("seven fifty", "8:15", "eight o'clock")."""
    word = talk.words[i]
    return word in NUMBER_WORDS or word[:1].isdigit() or word in ("o'clock", "oclock", "past")


def set_for_a_day(talk: Talk, end: int, last: int) -> bool:
    """Tell whether a day is set behind work that was named: "leak check is planned for July"."""
    k = end
    if k < last and talk.words[k] in ("is", "'s", "gets", "are"):
        k += 1
    elif talk.words[k : k + 1] != ("due",):
        return False
    k += k < last and talk.words[k] in ("now", "already", "all")
    if k + 1 >= last or talk.words[k] not in word_set("set_for_a_day"):
        return False
    behind = talk.words[k + 1 : min(last, k + 7)]
    gone = any(w in ("last", "ago", "before") for w in behind)
    return not gone and not word_set("days_and_times_to_come").isdisjoint(behind)


def kept_for_later(talk: Talk, start: int, end: int) -> bool:
    """Tell whether the named work at [start, end) is kept for later ("leaving the vacuum for Friday")."""
    k = start - 1
    while k >= 0 and talk.words[k] in word_set("determiners"):
        k -= 1
    if k < 0 or talk.words[k] not in word_set("keeps_for_later"):
        return False
    last = talk.clause_end(start)
    for j in range(end, min(last - 1, end + 5)):
        if talk.words[j] in (",", "."):
            return False
        if talk.words[j] not in ("for", "until", "till", "to"):
            continue
        behind = talk.words[j + 1]
        return (
            behind
            in ("the", "next", "them", "another", "spring", "summer", "fall", "autumn", "winter", "later")
            or bool(talk.begins_with(j + 1, "lists", "plan_tails", end=last))
            or bool(talk.begins_with(j + 1, "lists", "plan_days", end=last))
        )
    return False
