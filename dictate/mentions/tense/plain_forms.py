"""Plain forms: what the word before makes of "braze"."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS, NUMBER_WORDS
from dictate.mentions.tense.chains import like_a_noun, previous_verb
from dictate.mentions.tense.conditions import is_advice, whenever_before
from dictate.mentions.tense.infinitives import infinitive
from dictate.mentions.tense.plans import (
    comes_another_day,
    frame_of,
    framed_as,
    is_framed,
    put_off_before,
    put_off_behind,
)
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import OBJECTS, TELLING, Status, flat
from dictate.vocabulary.load import word_set

ENDING_LOST = "heard without its ending: was it done, or is it to be done?"
LIST_WORDS = word_set("joins_list_of_work")


def is_bare(talk: Talk, i: int) -> bool:
    """Tell whether the verb at word i is a plain form that nothing governs: it may be a noun as well."""
    if talk.kind(i) == "third":
        return True
    if talk.kind(i) != "base" or talk.words[i] in AMBIGUOUS:
        return False
    start, _ = talk.sentence(i)
    g = talk.skip_back(i - 1, start)
    if g < start or like_a_noun(talk, i, start):
        return True
    word = talk.words[g]
    if word in (",", "and", "then"):
        # "if he goes for it, I'll put in a drier, pull it down": joined to a verb that is governed
        previous = previous_verb(talk, g, start)
        if previous is not None and talk.kind(previous) == "base" and talk.words[previous] not in AMBIGUOUS:
            return is_bare(talk, previous)
    governed = word in ("to", "i", "we", "you", "they", "he", "she") or any(
        word in flat("modal", name) for name in ("planned", "negative", "maybe", "emphatic")
    )
    return not governed


def plain_form(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge the plain form at word i, which word g governs."""
    words = talk.words
    if g < start:
        if is_framed(talk, i):
            return framed_as(talk, i)
        if put_off_behind(talk, i):
            return "planned"
        if has_lost_ending(talk, i, start) or told_live(talk, i):
            return "done"
        return None  # an imperative: an instruction or a note to self, not a report
    word = words[g]
    if talk.kind(i + 1) == "third" if i + 1 < len(words) else False:
        return None  # a noun: "..., meter shows zero"
    if is_framed(talk, i) and (word in LIST_WORDS or frame_of(talk, talk.w.sentence_of[i]) == g + 1):
        return framed_as(talk, i)
    if word == "to":
        return infinitive(talk, i, g, start)
    if word in ("not",) and g - 1 >= start and words[talk.skip_back(g - 1, start)] == "to":
        return "not_done"
    if word == "than" and g > start and words[g - 1] == "rather":
        return "not_done"
    if word in flat("modal", "negative"):
        who = words[talk.skip_back(g - 1, start)] if g > start else ""
        if word == "won't" and any(w in word_set("once_more") for w in words[i + 1 : talk.clause_end(i)]):
            return None  # "I won't gas it up a second time": what was done stays done
        if word == "never" and who in ("i'd", "we'd", "would"):
            return None  # "I'd never swap that board": what one would do
        if not who and word in ("don't", "never", "not"):
            return None  # "don't braze it with the charge in": advice
        return (
            None
            if who in ("you", "they", "it", "he", "she") and word in ("don't", "can't", "won't")
            else "not_done"
        )
    if talk.ends_with(g, "modal", "planned", start=start):
        return "planned"
    if word == "only" or (word in ("could", "would") and "only" in words[g:i]):
        return "done"
    if word in flat("modal", "maybe"):
        if word == "could" and words[max(start, g - 2) : g] in (("before", "i"), ("before", "we")):
            return "not_done"  # "had to go before I could braze it"
        return None
    if word in flat("modal", "emphatic"):
        if word == "did" and g > start and words[g - 1] in ("never", "not"):
            return "not_done"
        return "done" if word == "did" else None
    if word in ("was", "is", "'s") and "did" in words[start:g]:
        return "done"  # "all I did was change the belt"
    if word == "was" and "do" in words[start:g] and any(w in ("needed", "had") for w in words[start:g]):
        return "done"  # "all I had to do was clear the drain"
    if put_off_before(talk, i, start):
        return "planned"
    n = talk.ends_with(g, "lists", "ours", start=start)
    if n > 1 and g - n >= start and words[g - n] == "had":
        return "done"  # "had my helper pull the vacuum"
    if word in ("i", "we"):
        before = whenever_before(talk, i)
        if before is not None or in_that_clause(talk, g, start):
            return None
        # "the belt has cracks, I change it on Monday"
        return "planned" if comes_another_day(talk, i) else "done"
    if word in ("and", "or", ",", "then", "nor", "&"):
        previous = previous_verb(talk, g, start)
        if previous is None:
            if told_live(talk, i):
                return "done"
            return "planned" if put_off_behind(talk, i) else None
        form = talk.forms.get(words[previous])
        if word == "," and form is not None and form.verb in TELLING and form.kind == "past":
            return None  # "told the barback, change that filter"
        if words[i + 1 : i + 2] in ((".",), (",",), ()) and talk.kind(previous) == "past":
            # "quoted a drier, vacuum and charge": a noun beside nouns, no verb beside "quoted"
            return None if words[previous] not in AMBIGUOUS else talk.verb(previous)
        status = talk.verb(previous)
        if status == "not_done" and talk.kind(previous) == "past" and words[previous] not in AMBIGUOUS:
            return None  # "the needle never moved, and soap on the joints was clean": no verb of that row
        return status
    if word in flat("lists", "needs"):
        return "planned"
    if word in ("him", "her", "them") and words[max(start, g - 2) : g] in (("i", "had"), ("we", "had")):
        return "done"  # "I had him kill the disconnect"
    return None


def has_lost_ending(talk: Talk, i: int, start: int | None = None) -> bool:
    """Tell whether a base form that opens a sentence is a past whose ending was not heard.

    A recogniser drops "-ed" ("Charge two pounds" for "Charged two pounds"). In heard speech that tells of
    work done otherwise, such a form is taken as done, and what rests on it carries a reason to look.
    """
    begin = talk.sentence(i)[0] if start is None else start
    form = talk.forms.get(talk.words[i])
    if form is None or form.kind != "base" or i != begin or i + 1 >= len(talk.words):
        return False
    follows = talk.words[i + 1]
    # "Charge: two pounds", "Charge on the plate" are nouns; an object follows a doing.
    if not (follows in OBJECTS or follows in NUMBER_WORDS or follows[:1].isdigit()):
        return False
    return talk.tells_in_the_past


def told_live(talk: Talk, i: int) -> bool:
    """Tell whether a plain form that opens its sentence is told while it is done ("Pull the cord.").

    Its object follows, and behind it comes what was found; nothing before it gives an order, and nobody
    is spoken to.
    """
    number = talk.w.sentence_of[i]
    _start, end = talk.sentence(i)
    if talk.words[i] in AMBIGUOUS or not talk.w.opens(i) or i + 1 >= end:
        return False
    if talk.words[i + 1] not in word_set("live_objects") or talk.words[end - 1] == "?":
        return False
    first = talk.w.sentences[max(0, number - 2)][0]
    if any(w in word_set("orders") for w in talk.words[first:end]):
        return False
    last = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    behind = talk.words[i + 2 : last]
    if any(w in word_set("orders") for w in behind):
        return False
    return any(
        w in NUMBER_WORDS or w[:1].isdigit() or w in word_set("live_results") for w in behind
    ) and not any(talk.words[k] in ("will", "won't", "'ll", "i'll") for k in range(i, last))


def in_that_clause(talk: Talk, g: int, start: int) -> bool:
    """Tell whether the clause of word g says what should be done."""
    return is_advice(talk, g) or (g > start and talk.words[g - 1] in ("that", "should"))
