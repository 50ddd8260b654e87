"""Passives: "was brazed", "gets changed", "has been pulled"."""

from __future__ import annotations

from dictate.mentions.tense.chains import previous_verb
from dictate.mentions.tense.conditions import whenever_before
from dictate.mentions.tense.plans import put_off_behind
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, Status, flat
from dictate.vocabulary.load import word_set


def passive_form(talk: Talk, i: int, g: int, start: int) -> Status | None:
    """Judge the participle at word i behind a form of "be" or "get" at word g."""
    words = talk.words
    word = words[g]
    if word.endswith("n't"):
        return "not_done"
    if words[i + 1 : i + 2] and words[i + 1] in word_set("done_badly"):
        return None  # "the valve was adjusted wrong" tells how it was found
    h = talk.skip_back(g - 1, start)
    before = words[h] if h >= start else ""
    if word == "been":
        if before in ("not", "haven't", "hasn't", "hadn't", "never"):
            return "not_done"
        if before in ("had", "'d"):
            first, last = talk.sentence(i)
            return "done" if talk.has(first, last, "lists", "this_job") is not None else None
        if before in ("should", "could", "would", "might", "must", "may"):
            return None
        clause = talk.clause_start(i)
        if any(w in word_set("done_before_signs") for w in words[clause : min(i + 3, talk.clause_end(i))]):
            return None
        if before in ("has", "have", "'s") and whenever_before(talk, i) is not None:
            return None  # "once it has been recovered"
        if before == "have":
            hh = talk.skip_back(h - 1, start)
            if hh >= start and words[hh] in ("should", "could", "would", "might", "must", "may"):
                return None
    if word == "being" and before in ("without", "not"):
        return "not_done"
    if before in ("not", "never", "no") or before in word_set("naught"):
        return "not_done"
    # "no refrigerant was added"
    for j in range(h, max(start, h - 4) - 1, -1):
        if words[j] in (",", ";", "but", "and", "so", "then"):
            break
        if words[j] == "no" or words[j] in word_set("naught") or not_one(talk, j):
            return "not_done"
    when = whenever_before(talk, i)
    if when is not None and word in ("is", "are", "'s", "gets"):
        return None
    if word == "gets" and put_off_behind(talk, i):
        return "planned"  # "the gasket gets changed next week"
    if word in ("gets", "getting"):
        return "planned" if word == "getting" and before in ("is", "'s") else None
    if word == "'s" and before in ("who", "he", "she"):
        return None
    if only_inferred(talk, g, start):
        return None
    if word in ("is", "are", "'s") and words[i : i + 2] in (("fitted", "with"), ("equipped", "with")):
        return None  # "it is fitted with two driers"
    if word in ("is", "are", "'s") and words[i : i + 2] in (("charged", "with"), ("filled", "with")):
        told = words[i : talk.clause_end(i)]
        return "done" if any(w in ("now", "again", "back") for w in told) else None
    if word in ("is", "are", "'s") and any(w in flat("lists", "kinds") for w in words[max(start, g - 4) : g]):
        return None  # "this model is charged with eleven ounces"
    return "done"


def not_one(talk: Talk, j: int) -> bool:
    """Tell whether "not one", "not any", "not a" begins at word j."""
    return talk.words[j] == "not" and talk.words[j + 1 : j + 2] in (("one",), ("any",), ("a",))


def only_inferred(talk: Talk, g: int, start: int) -> bool:
    """Tell whether the passive at word g is only concluded ("looks like it was changed")."""
    for j in range(start, g):
        n = talk.begins_with(j, "lists", "inference", end=g)
        if n and not any(w in (",", ";", "but", "so") or w in OURS for w in talk.words[j + n : g]):
            return True
    return False


def passive_before(talk: Talk, j: int, start: int) -> bool:
    """Tell whether the participle at j, or one it is joined to, stands behind a form of "be"."""
    g = talk.skip_back(j - 1, start)
    if g >= start and talk.words[g] in ("and", ",") and talk.kind(j) == "past":
        previous = previous_verb(talk, g, start)
        if previous is not None and j - previous <= 3:
            return passive_before(talk, previous, start)
    return g >= start and (talk.words[g] in BE or talk.words[g] == "be")
