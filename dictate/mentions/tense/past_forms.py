"""Past forms and participles: done, unless something before them says otherwise."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.chains import previous_verb
from dictate.mentions.tense.conditions import whenever_before
from dictate.mentions.tense.infinitives import to_be
from dictate.mentions.tense.not_the_work import describes, found_so, machine_did, of_itself, only_matter
from dictate.mentions.tense.passives import not_one, passive_before, passive_form
from dictate.mentions.tense.plans import framed_as, is_framed
from dictate.mentions.tense.reported import others_end
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.unreal import described_repair
from dictate.mentions.tense.vocabulary import BE, OURS, Status, flat
from dictate.mentions.tense.whose_doing import is_ours
from dictate.vocabulary.load import word_set


def past_form(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge the past form or participle at word i, which word g governs."""
    words = talk.words
    if of_itself(talk, i) or only_matter(talk, i):
        return None
    if g < start:
        return open_past(talk, i, start)
    word = words[g]
    if described_repair(talk, i, start):
        return None
    if machine_did(talk, i, g, start) or describes(talk, i, start) or found_so(talk, i, start):
        return None
    if word in ("not", "never") or word in flat("lists", "negation"):
        return "not_done"
    if word == "be":
        return to_be(talk, i, g, start)
    if word in ("been", "being") or word in BE:
        return passive_form(talk, i, g, start)
    if word in word_set("modals_run_together"):
        return left_at_that(talk, i)
    if word in ("have", "has", "had", "'ve", "having"):
        return perfect_form(talk, i, g, start)
    if word in ("i'd", "we'd") and talk.words[i] in AMBIGUOUS:
        # "before that I'd put the coil on" against "I'd put a new one in"
        told = talk.words[start:g]
        return "done" if any(w in word_set("time_signs") for w in told) else None
    if word in ("and", "or", "nor", ",", "then", "&"):
        previous = previous_verb(talk, g, start)
        if previous is not None and word in ("or", "nor"):
            return talk.verb(previous)
        chained = previous is not None and talk.verb(previous) is None and talk.kind(previous) == "past"
        if chained and previous is not None and not is_ours(talk, previous):
            return None  # somebody else's chain goes on until a subject of ours comes
        follows = words[i + 1] if i + 1 < len(words) else "."
        # What has an object is no passive: "nothing had to be recovered, and added the extra".
        takes = word in (",", "and") and follows in ("the", "it", "them", "a", "my", "another", "some")
        if (
            previous is not None
            and word in ("and", ",")
            and not takes
            and passive_before(talk, previous, start)
        ):
            passive = talk.verb(previous)
            if passive in ("planned", "not_done"):
                return passive
    if word in ("or",):
        return None
    if word in flat("lists", "needs") and word not in ("get", "have"):
        return "planned"  # "needs replaced"
    return open_past(talk, i, start)


def open_past(talk: Talk, i: int, start: int) -> Status | None:
    """Judge a past form without a helping verb: done, unless its object was only needed or denied."""
    words = talk.words
    if is_framed(talk, i) and not any(w in OURS for w in words[start:i]):
        return framed_as(talk, i)
    # "no charge added", "nothing replaced", "need the drier changed", "get it recovered"
    for j in range(i - 1, max(start, i - 6) - 1, -1):
        word = words[j]
        if word in (",", ";", "but", "and", "so", "then", ".") or word in OURS:
            break
        if word in word_set("naught") and i - j <= 3:
            return "not_done"
        if word in ("zero", "nought", "nil") and j == i - 1 and j == talk.clause_start(i):
            return "not_done"  # "zero recovered", and no end of a number
        if (word in ("no", "zero") or not_one(talk, j)) and any(
            w in flat("lists", "undone_nouns") for w in words[j + 1 : i]
        ):
            # "no charge added"; but "no leaks found" and "no drop, evacuated it" deny something else
            return "not_done"
        if word in ("keep", "keeping"):
            return None  # "keep the coil cleaned"
        if talk.kind(j) == "past" and word not in ("got", "used"):
            break
        if word in flat("lists", "needs") or word in ("needing", "wants", "want"):
            g = talk.skip_back(j - 1, start)
            if g >= start and words[g] in ("didn't", "don't", "doesn't", "not"):
                return "not_done"
            if word == "get":
                got = talk.verb(j)
                return got if got is not None else "planned"
            if word == "have" and g >= start and words[g] not in ("to", "will", "i'll", "we'll"):
                break
            if g >= start and (words[g] in flat("lists", "sources") or others_end(talk, g, start)):
                return None
            return "planned"
    before = whenever_before(talk, i)
    if before is not None and present_between(talk, before, i):
        return None
    return "done"


def present_between(talk: Talk, start: int, end: int) -> bool:
    """Tell whether the words between are in the present ("once it's brazed", "after I've charged")."""
    return any(w in word_set("present_signs") for w in talk.words[start:end])


def perfect_form(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge the participle at word i behind a form of "have" at word g."""
    words = talk.words
    h = talk.skip_back(g - 1, start)
    before = words[h] if h >= start else ""
    word = words[g]
    if before in ("without", "not", "never", "didn't", "don't", "couldn't", "can't"):
        return "not_done"
    if before in ("should", "could", "would", "might", "must", "may", "to", "you", "they", "he", "she"):
        return left_at_that(talk, i)
    if word == "had":
        if before in OURS or before in ("and", ",", "then", "that", ""):
            return "done"
        return None
    if word in ("have", "has") and before in ("i", "we", "", "and", ",", "it", "that"):
        return None if whenever_before(talk, i) is not None else "done"
    if word == "having":
        return "done"
    return None


def left_at_that(talk: Talk, i: int) -> Status | None:
    """Return what became of what could have been done: "could have brazed it, but I didn't"."""
    _, end = talk.sentence(i)
    return "not_done" if talk.words[end - 2 : end] == ("didn't", ".") else None
