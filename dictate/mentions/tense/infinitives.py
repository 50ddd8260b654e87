"""Infinitives, "... to braze" and "... to be brazed", by what stands before."""

from __future__ import annotations

from dictate.mentions.tense.attempts import in_vain
from dictate.mentions.tense.chains import like_a_noun, past_between
from dictate.mentions.tense.plans import put_off_behind
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, Status, flat
from dictate.vocabulary.load import word_set


def infinitive(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge "... to braze" by what stands before "to"."""
    h = talk.skip_back(g - 1, start)
    if h < start:
        return None
    if wanted_of_others(talk, g - 1, start):
        return None  # "I want her to change that filter every month"
    # Longest match first, so that "didn't need to" wins over "need to".
    best: tuple[int, Status] | None = None
    for status in ("not_done", "done", "planned"):
        for end in {h, g - 1}:
            n = talk.ends_with(end, "to", status, start=start)
            if n and (best is None or n > best[0]):
                best = (n, status)
    if best is not None:
        status_found = best[1]
        first = h - best[0] + 1
        before = talk.skip_back(first - 1, start)
        if (
            status_found == "planned"
            and before >= start
            and talk.words[before] in ("was", "were")
            and talk.words[h] != "able"
        ):
            return None  # "I was going to": it came otherwise
        if (
            status_found == "done"
            and talk.words[h] == "able"
            and before >= start
            and talk.words[before] == "be"
        ):
            return "planned" if put_off_behind(talk, i) else None  # "should be able to braze it tomorrow"
        if status_found == "done" and talk.words[h] == "got" and "still" in talk.words[max(start, h - 3) : h]:
            return "planned"
        if status_found == "planned":
            if talk.words[h] == "supposed" and before < start:
                return None  # "supposed to hit five hundred": what it should be
            if before >= start and talk.words[before] in word_set("denies"):
                return "not_done"
            if before >= start and talk.words[before] in word_set("not_sure_subjects"):
                return None
            if talk.words[h] == "got":
                return (
                    "done" if before >= start and talk.words[before] in ("i", "we", "finally") else "planned"
                )
            if talk.words[h] == "set" or talk.words[h] == "like":
                return None
        tried = talk.words[h] in ("started", "began", "went")
        if tried and in_vain(tuple(talk.words[i + 1 : talk.sentence(i)[1]])):
            return (
                None  # "I started to recover but the machine quit", "went to change it, it's the wrong size"
            )
        return status_found
    # "used nitrogen to purge", "took the pump and ran it to ..." : the means were used, so it was done.
    for j in range(g - 1, max(start, g - 7) - 1, -1):
        if talk.words[j] == "used":
            return talk.verb(j) if talk.verb(j) != "planned" else "planned"
        if talk.words[j] == "using":
            return "done"
        if talk.kind(j) in ("past", "base") and not like_a_noun(talk, j, start):
            break
    # "coming back Thursday to braze it": a plan with a time between.
    clause = talk.clause_start(i)
    if talk.has(clause, g, "lists", "planned") is not None and not past_between(talk, clause, g):
        return "planned"
    for j in range(g - 1, max(start, g - 9) - 1, -1):
        if talk.words[j] in word_set("coming_back") and not past_between(talk, clause, g, but=j):
            return "planned"
    return None


def wanted_of_others(talk: Talk, k: int, start: int) -> bool:
    """Tell whether word k, before "to", is somebody of whom it is wanted ("I want her", "need the chef")."""
    if k <= start or talk.words[k] not in word_set("wanted_persons"):
        return False
    j = k - 1
    while j > start and talk.words[j] in word_set("articles"):
        j -= 1
    return talk.words[j] in word_set("wants_of_others")


def to_be(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge "be" + participle by what stands before it."""
    words = talk.words
    h = talk.skip_back(g - 1, start)
    if h < start:
        return None
    word = talk.words[h]
    if word == "to":
        found = infinitive(talk, i, h, start)
        if found == "done" and any(
            w in ("nothing", "none", "no", "neither") for w in words[max(start, h - 4) : h]
        ):
            return "not_done"  # "nothing had to be recovered"
        if (
            found is None
            and (h == start or words[h - 1] not in flat("lists", "no_plan_to_be"))
            and not any(
                talk.kind(k) in ("past", "third") or words[k] in BE or words[k] in OURS
                for k in range(start, h)
            )
        ):
            return "planned"  # "compressor to be replaced"
        return found
    if word in flat("modal", "negative"):
        return "not_done"
    if word == "not":
        return "not_done"
    if talk.ends_with(h, "modal", "planned", start=start):
        return "planned"
    return None
