"""Work named without a verb ("new drier", "caps on", "no brazing today")."""

from __future__ import annotations

from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.tense.conditions import is_advice, is_conditional, whenever_before
from dictate.mentions.tense.denials import (
    answered_behind,
    answered_like_a_form,
    denied_at_the_end,
    denied_behind,
    fronted_and_denied,
    reaches,
    turned_down,
)
from dictate.mentions.tense.given_up import is_given_up
from dictate.mentions.tense.infinitives import infinitive
from dictate.mentions.tense.plans import (
    framed_as,
    has_to_wait,
    is_framed,
    kept_for_later,
    list_of,
    listed_for_later,
    set_for_a_day,
)
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.unreal import before_arrival, is_unreal, list_governor
from dictate.mentions.tense.vocabulary import BE, Status, flat
from dictate.mentions.tense.whose_doing import is_ours
from dictate.vocabulary.load import word_set


def noun_of_work(talk: Talk, start: int, end: int) -> Status | None:
    """Return what became of work named without a verb ("new drier", "caps on", "no brazing today")."""
    words = talk.words
    _, last = talk.sentence(start)
    i = start
    if set_for_a_day(talk, end, last):
        return "planned"
    if turned_down(talk, i):
        return "not_done"
    if not is_ours(talk, i):
        return None
    if is_conditional(talk, i) or is_advice(talk, i):
        return None
    if words[talk.sentence(i)[0]] in ("if", "unless"):
        return None  # "if the boss signs off, new evaporator"
    if before_arrival(talk, talk.clause_start(i), talk.clause_end(i)):
        return None  # "disconnect off when I got there"
    if is_given_up(talk, i):
        return None  # "started the evacuation, but had to leave"
    clause = talk.clause_start(i)
    window = max(clause, i - 7)
    negated = planned = False
    for j in range(i - 1, window - 1, -1):
        word = words[j]
        if word in (";", ":") or (word == "," and not negated):
            break
        if word == "zero" and j > window and (words[j - 1] in NUMBER_WORDS or words[j - 1][:1].isdigit()):
            continue  # the last digit of a number: "part number four four zero power back on"
        if word == "none" and j > window and words[j - 1] in ("was", "is", "got", "found"):
            break  # "checked for voltage there was none": a result, told before
        if word == "zero" and words[i] == "zero":
            break  # "tested zero, zero and zero to ground"
        if word == "no" and {words[j + 1], " ".join(words[j + 1 : j + 3])} & word_set("behind_a_slip"):
            break  # "twenty-three fifty, no sorry, twenty-three": a slip, and no word of the work
        if j == talk.sentence(i)[0] and word in ("never", "don't") and talk.kind(i) == "base":
            return None  # "never braze on a full system": advice
        if talk.ends_with(j, "lists", "noun_negation", start=window) and reaches(talk, j, i):
            negated = True
            break
        if talk.ends_with(j, "lists", "negation", start=window) and j >= i - 4:
            negated = True
            break
        n = talk.ends_with(j, "lists", "planned", start=window)
        if n:
            if j - n >= clause and words[j - n] in ("may", "might", "could", "would"):
                return None
            if j - n >= clause and words[j - n] in flat("lists", "sources"):
                return None  # "the manual wants under 500 after ten minutes": what should be
            if j - n >= clause and words[j - n] in ("no", "not", "didn't", "don't", "doesn't"):
                negated = True
                break
            planned = True
            break
        if talk.kind(j) == "past" and word not in ("quoted", "ordered", "used", "left"):
            break
    if only_not_fully(talk, i):
        return None  # "not a full recovery": some of it was done
    negated = negated or object_of_denied(talk, i, clause)
    if negated or denied_behind(talk, end) or fronted_and_denied(talk, end) or denied_at_the_end(talk, i):
        return "not_done"
    if words[last - 1] == "?":
        return answered_behind(talk, i)
    answer = answered_like_a_form(talk, i)
    if answer is not None:
        return answer
    if i > clause and words[i - 1] == "to" and talk.kind(end - 1) == "base" and not moved_on_to(talk, i):
        wanted = infinitive(talk, i, i - 1, talk.sentence(i)[0])  # "meant to leak check it"
        return None if words[i - 2] == "supposed" else wanted
    if kept_for_later(talk, start, end):
        return "planned"
    listed = list_of(talk, talk.w.sentence_of[i])
    if listed is not None and listed[0] <= i < listed[1]:
        return "planned" if planned else listed[2]
    if not planned:
        row = list_governor(talk, i, clause)
        if row == "talk" or is_unreal(talk, clause, i):
            return None
        planned = row == "planned"
    if words[end : end + 1] in (("on",), ("of",)) and any(
        w in ("plate", "nameplate", "label", "tag", "sticker") for w in words[end : min(last, end + 4)]
    ):
        return None  # "test pressure on the plate"
    if words[end : end + 2] in (("wasn't", "enough"), ("didn't", "help"), ("didn't", "do"), ("made", "no")):
        return None  # "a quarter turn wasn't enough"
    if words[end : end + 1] in (("would",), ("could",), ("should",), ("might",), ("takes",)):
        return None  # "a leak search would take an hour"
    if words[end : end + 1] in (("is",), ("'s",), ("comes",), ("happens",)) and (
        talk.begins_with(end + 1, "lists", "plan_days", end=last)
        or talk.begins_with(end + 1, "lists", "plan_tails", end=last)
    ):
        return "planned"  # "the pressure test is Thursday"
    if words[end : end + 1] in (("is",), ("'s",)) and (
        "job" in words[end : min(last, end + 7)] or words[end + 1 : end + 3] in (("up", "to"), ("down", "to"))
    ):
        return None  # "evacuation is the next man's job"
    if joins_a_plan(talk, start):
        return "planned"
    if is_framed(talk, i) and not planned:
        return framed_as(talk, i)
    if planned or has_to_wait(talk, i) or listed_for_later(talk, start, end):
        return "planned"
    if talk.has(i, min(last, end + 4), "lists", "planned") is not None and talk.clause_end(i) > end:
        tail = talk.has(end, min(talk.clause_end(i), end + 5), "lists", "planned")
        if tail is not None and not any(w in (",", "and", "then") for w in words[end:tail]):
            return "planned"
    # "before the evacuation", "once the vacuum", "for the pressure test"
    when = whenever_before(talk, i)
    if when is not None and words[when] in ("before", "until", "till", "whenever"):
        return None
    return "done"


def only_not_fully(talk: Talk, i: int) -> bool:
    """Tell whether only the whole of it is denied ("not a full recovery", "no complete clean")."""
    if i < 2 or talk.words[i - 1] not in word_set("whole_of_it"):
        return False
    return talk.words[i - 2] in ("no", "not") or talk.words[i - 3 : i - 1] == ("not", "a")


def object_of_denied(talk: Talk, i: int, clause: int) -> bool:
    """Tell whether the noun at word i is the object of a denied verb ("never put a machine on it")."""
    k = i - 1
    while k > clause and talk.words[k] in word_set("determiners"):
        k -= 1
    if k == i - 1 or k <= clause or talk.kind(k) not in ("base", "past"):
        return False
    g = talk.skip_back(k - 1, clause)
    denies = talk.words[g] in flat("lists", "negation") or talk.words[g] in flat("modal", "negative")
    return g >= clause and denies and talk.words[g] != "no"


def joins_a_plan(talk: Talk, i: int) -> bool:
    """Tell whether a plain form goes on with plans: "I'll braze in the coil, purge with nitrogen"."""
    words = talk.words
    if talk.kind(i) != "base" or words[i - 1 : i] not in ((",",), ("and",), ("then",), ("or",)):
        return False
    behind = words[i + 1] if i + 1 < len(words) else "."
    if behind in BE or behind in (",", ".", "and") or talk.kind(i + 1) in ("past", "third"):
        return False  # "I'll be back, charge is right"
    return talk.verb(i) == "planned"


def moved_on_to(talk: Talk, i: int) -> bool:
    """Tell whether "to" before the work at word i is a way, and no infinitive ("on to leak check")."""
    return i > 1 and talk.words[i - 2] in (
        "on",
        "back",
        "straight",
        "over",
        "down",
        "next",
        "then",
        "thanks",
        "due",
    )
