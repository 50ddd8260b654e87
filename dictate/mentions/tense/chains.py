"""Verbs in a row, and forms that are no verb where they stand."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS, NUMBER_WORDS
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, flat
from dictate.vocabulary.load import word_set


def base_context(talk: Talk, g: int, start: int) -> bool:
    """Tell whether a form that is both base and past ("put", "cut") is a base here."""
    if g < start:
        return False
    word = talk.words[g]
    if word in ("to", "let", "lets") or word in flat("modal", "planned") or word in flat("modal", "maybe"):
        return word != "i'd" and word != "we'd"
    if word in flat("modal", "negative") or word in flat("modal", "emphatic"):
        return True
    if talk.ends_with(g, "modal", "planned", start=start):
        return True
    if word in ("and", "or", ",", "then", "&"):
        previous = previous_verb(talk, g, start)
        if previous is None:
            return False
        if talk.kind(previous) == "base" and talk.words[previous] not in AMBIGUOUS:
            return talk.verb(previous) != "done" or "to" in talk.words[start:previous]
        if talk.words[previous] in AMBIGUOUS:
            before = talk.skip_back(previous - 1, start)
            return base_context(talk, before, start)
    return False


def previous_verb(talk: Talk, g: int, start: int) -> int | None:
    """Return the last verb of the work before word g in the sentence, helping verbs left out."""
    for j in range(g - 1, max(start, g - 14) - 1, -1):
        word = talk.words[j]
        if word in (";", "but"):
            return None
        kind = talk.kind(j)
        if kind is None or word in BE or word in word_set("helping_verbs"):
            continue
        if kind in ("ing", "third"):
            continue
        if (
            kind == "past"
            and j > start
            and talk.words[j - 1] in ("the", "a", "an", "that", "this", "any", "its")
        ):
            continue  # an adjective: "the burnt contact"
        if word == "left" and j > start and talk.words[j - 1] in BE:
            continue  # "recover what's left and recharge with three pounds"
        if kind == "base" and (like_a_noun(talk, j, start) or not is_governed(talk, j, start)):
            continue
        if kind == "base" and (
            in_row_of_nouns(talk, j) or talk.words[j + 1] in BE or talk.words[j + 1] == "has"
        ):
            continue  # a noun: "the leak's at the flare, put a new nut on"
        return j
    return None


def in_row_of_nouns(talk: Talk, j: int) -> bool:
    """Tell whether a plain form stands bare between commas or "and" ("a drier, vacuum and charge")."""
    if talk.words[j] in AMBIGUOUS or j + 1 >= len(talk.words):
        return False
    return talk.words[j - 1] in (",", "and") and talk.words[j + 1] in (",", "and", ".")


def is_governed(talk: Talk, j: int, start: int) -> bool:
    """Tell whether something before a plain form makes it a verb ("to braze", "I pull", "and weigh")."""
    if j == start or talk.words[j] in AMBIGUOUS:
        return True
    g = talk.skip_back(j - 1, start)
    word = talk.words[g] if g >= start else ""
    return word in word_set("governs_plain") or any(
        word in flat("modal", name) for name in ("planned", "negative", "maybe", "emphatic")
    )


def like_a_noun(talk: Talk, j: int, start: int) -> bool:
    """Tell whether a base form is a noun where it stands ("the charge", "a leak check")."""
    if j <= start:
        return False
    before = talk.words[j - 1]
    return (
        before in word_set("before_noun")
        or before.replace(".", "").isdigit()
        or before in NUMBER_WORDS
    )  # fmt: skip


def past_between(talk: Talk, start: int, end: int, but: int | None = None) -> bool:
    """Tell whether a finite past form stands in [start, end)."""
    return any(
        talk.kind(j) == "past"
        and j != but
        and talk.words[j] not in ("scheduled", "left", "quoted", "ordered", "set", "put")
        for j in range(start, end)
    )


def previous_ing(talk: Talk, g: int, start: int) -> int | None:
    """Return the -ing form before word g that it is joined to, if one stands there."""
    for j in range(g - 1, max(start, g - 12) - 1, -1):
        if talk.words[j] in (";", "but"):
            return None
        if talk.kind(j) == "ing" and talk.words[j] not in word_set("noun_ings"):
            return j
        if talk.kind(j) == "past":
            return None
    return None
