"""A lone amount is judged by the sentences before it ("Recovered it. Three pounds six.")."""

from __future__ import annotations

from dictate.mentions.movements.correction_words import takes_first_back
from dictate.mentions.movements.surroundings import vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import NUMBER_WORDS, Hit
from dictate.mentions.quantities import find_quantities, mass_of
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

FAR = 30  # words between an amount alone in its sentence and the work that it belongs to


def by_sentence_before(talk: Talk, start: int, s0: int) -> tuple[str, str | None, int]:
    """Judge a lone amount by the sentence before ("Recovered it. Three pounds six.")."""
    number = talk.w.sentence_of[start]
    lead = talk.words[s0:start]
    k = lead_taken_back(talk, s0, start)
    counted = talk.counted
    while k < len(lead):
        for n in (3, 2, 1):
            if tuple(lead[k : k + n]) in phrases("alone") or (n == 1 and lead[k] in (",",)):
                k += n
                break
        else:
            if s0 + k not in counted or counted[s0 + k] > start:
                return one_more_portion(talk, start, s0)
            k = counted[s0 + k] - s0  # "one seventy, one eighty, there, one hundred and eighty grams"
    if number == 0:
        return "unsaid", None, start
    for back in range(1, min(7, number + 1)):
        p0, p1 = talk.w.sentences[number - back]
        if s0 - p0 > FAR:
            break
        if back == 1 and (headed := heading_of(talk, p0)):
            return headed, "done", p0  # "Charge, now, I said six pounds on the phone. It was six four."
        if any(
            p0 <= talk.w.word_of_token(q.start) < p1 and mass_of(q) is not None
            for q in find_quantities(talk.narration)
        ):
            break
        last = [
            h
            for h in talk.hits
            if p0 <= h.start < p1
            and (h.verb is not None or talk.words[h.start : h.start + 2] == ("recovery", "machine"))
            and h.label in ("recovered", "charged")
            and talk.words[h.start : h.end] not in (("took",), ("put",), ("i", "got"))
            and not places_a_part(talk, h, p1)
        ]
        if last:
            talk.far = back > 1
            if last[-1].label == "recovered" and (back_at := went_back(talk, last[-1].end, p1)) is not None:
                return "charged", "done", back_at  # "Everything that was taken out went back in. ..."
            return last[-1].label, trigger_status(talk, last[-1]), last[-1].start
    return one_more_portion(talk, start, s0)


def places_a_part(talk: Talk, hit: Hit, p1: int) -> bool:
    """Tell whether a verb of placing has a part for its object: "put a bi-flow drier in the liquid line"."""
    row = talk.words[hit.start : hit.end]
    if row[0] not in word_set("placing_verbs"):
        return False
    first = hit.start + 1
    last = hit.end if len(row) > 2 else min(p1, hit.end + 6)
    for k in range(first, last):
        if talk.in_name(k) or (talk.words[k] in word_set("gas_words") and talk.words[k + 1] != "line"):
            return False  # "put liquid in the receiver"; "in the liquid line" is a place
    return any(first <= t.start < last for t in things_of(talk.w))


def went_back(talk: Talk, first: int, last: int) -> int | None:
    """Return the word where a sentence says that what was recovered went in again."""
    for k in range(first, last):
        if talk.words[k] in ("went", "goes", "gone", "put", "returned", "home"):
            row = talk.words[k : min(last, k + 4)]
            if vessel_in(talk.words[k : min(last, k + 7)]):
                continue
            if row[:1] == ("returned",) or {"back", "home", "in"} & set(row[1:3]):
                return k
    return None


def heading_of(talk: Talk, p0: int) -> str | None:
    """Return the direction that a heading gives with which a sentence begins: "Charge, now, I said ..."."""
    for n in (3, 2, 1):
        head = talk.words[p0 : p0 + n]
        if talk.words[p0 + n : p0 + n + 1] not in ((",",), (":",)):
            continue
        if head in phrases("heads_in") or head in phrases("heads_in_after"):
            return "charged"
        if head in phrases("heads_out"):
            return "recovered"
    return None


def lead_taken_back(talk: Talk, s0: int, start: int) -> int:
    """Return the words of "0.64, no weight, I've got that backwards," that come before the amount."""
    first = next(iter(talk.numbers_in(s0, s0 + 1)), None)
    if first is not None and takes_first_back(talk, talk.w.word_of_token(first.end), start):
        return start - s0
    return 0


def one_more_portion(talk: Talk, start: int, s0: int) -> tuple[str, str | None, int]:
    """Take "Then nine ounces, ..." for one more portion of what the sentences before moved."""
    lead = talk.words[s0:start]
    if lead in phrases("portions") or (
        talk.words[start] in ("another", "one")
        and bool(lead)
        and all(w in word_set("pauses") or w in NUMBER_WORDS or w[:1].isdigit() for w in lead)
    ):
        last = [a for a in talk.masses if a.kind in ("recovered", "charged") and a.status == "done"]
        if last and talk.w.sentence_of[start] - talk.w.sentence_of[last[-1].start] <= 2:
            if in_vacuum(talk, start):
                talk.vacuum = True
                return "charged", "done", start
            return last[-1].kind, "done", start
    if (not lead or lead in phrases("portions")) and in_vacuum(talk, start):
        talk.vacuum = True
        return "charged", "done", start
    return "unsaid", None, start


def in_vacuum(talk: Talk, start: int) -> bool:
    """Tell whether the sentence before told of the vacuum, after which only a charge goes in."""
    number = talk.w.sentence_of[start]
    if not number:
        return False
    p0, p1 = talk.w.sentences[number - 1]
    row = talk.words[p0:p1]
    return any(w in ("vacuum", "evacuated", "microns", "micron", "evac") for w in row)
