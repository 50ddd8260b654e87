"""Work that is only talked of: under a modal verb, as a rule, or in a list of what is quoted or asked for."""

from __future__ import annotations

from typing import Literal

from dictate.mentions.tense.chains import like_a_noun
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OBJECTS, OURS, Status, flat
from dictate.vocabulary.load import word_set


def is_unreal(talk: Talk, start: int, i: int) -> bool:
    """Tell whether a modal verb governs the words before word i, and no past form stands between."""
    for j in range(i - 1, start - 1, -1):
        word = talk.words[j]
        if word in (",", ";", "but", "so", "and"):
            return False
        if word in word_set("unreal_modals"):
            # "I'd the isolator off" is "I had"
            return word not in ("i'd", "we'd") or talk.words[j + 1] not in OBJECTS
        if talk.kind(j) == "past" and word not in BE:
            return False
    return False


def named_as_subject(talk: Talk, i: int, end: int) -> Status | Literal["no"] | None:
    """Judge an -ing form that opens its sentence as a subject ("brazing is not allowed in here").

    "no" says that it is no subject of a rule: its own form decides.
    """
    for k in range(i + 1, min(end, i + 10)):
        word = talk.words[k]
        if word in (",", ";", "and"):
            return "no"
        if word in ("isn't", "wasn't"):
            return "not_done" if talk.words[k + 1] in word_set("rules_of_work") else None
        if word in ("is", "was", "'s"):
            behind = talk.words[k + 1 : k + 3]
            if behind[:1] == ("not",):
                return "not_done" if behind[1:] and behind[1] in word_set("rules_of_work") else None
            if word == "was" or (behind and behind[0] in flat("lists", "finished")):
                return "no"
            return None
        if word in word_set("says_in_general"):
            return None  # "evacuating takes an hour on these"
        if talk.kind(k) in ("past", "base", "third") and not like_a_noun(talk, k, i):
            return "no"
    return "no"


def list_governor(talk: Talk, i: int, clause: int) -> Status | Literal["talk"] | None:
    """Return what governs a row of named work that word i stands in ("will need a drier and a test").

    The row goes back over commas and "and" as long as no finite verb and no person stands between.
    """
    first, _ = talk.sentence(i)
    if clause > first and talk.words[clause - 1] == ":":
        headed = talk.words[first:clause]
        if any(w in word_set("talks_of_work") or w in word_set("lists_of_work") for w in headed):
            return "talk"  # "method statement: isolate, strength test, evacuate"
    for j in range(i - 1, clause - 1, -1):
        word = talk.words[j]
        if word in (";", ".") or word in BE or word in ("did", "had"):
            return None
        if talk.ends_with(j, "lists", "planned", start=clause) and talk.kind(j) != "past":
            before = talk.words[j - 1] if j > clause else ""
            denied = before in ("may", "might", "could", "would", "don't", "didn't", "no", "not")
            return None if denied else "planned"
        if word in word_set("talks_of_work"):
            # "takes three pounds, took three": a verb reaches to its comma, "quoted" over the whole row
            return None if talk.kind(j) == "third" and "," in talk.words[j:i] else "talk"
        if word in OURS or (talk.kind(j) in ("past", "third") and not like_a_noun(talk, j, clause)):
            return None
    return None


def described_repair(talk: Talk, i: int, start: int) -> bool:
    """Tell whether the participle at word i tells of a repair found there ("old repair, brazed over")."""
    if any(w in OURS for w in talk.words[start:i]):
        return False
    head = talk.words[start:i]
    if not any(w in word_set("old_marks") for w in head[:4]):
        return False
    return any(w in word_set("old_repairs") for w in head[:6]) and not any(
        talk.kind(k) == "past" for k in range(start, i) if talk.words[k] not in BE
    )


def before_arrival(talk: Talk, first: int, last: int) -> bool:
    """Tell whether "when I came in" or "before we got there" stands in [first, last)."""
    for k in range(first, last - 2):
        if talk.words[k] not in ("when", "before", "until", "till"):
            continue
        if talk.words[k + 1] not in ("i", "we", "i'd", "we'd"):
            continue
        verb = k + 2
        if talk.words[verb] in ("first", "finally"):
            verb += 1
        if verb < last and talk.words[verb] in word_set("arrivals"):
            behind = talk.words[verb + 1] if verb + 1 < len(talk.words) else "."
            if behind in word_set("after_arrival") and (
                talk.words[verb] in ("came", "arrived") or behind not in (".", ",", "and")
            ):
                return True
    return False
