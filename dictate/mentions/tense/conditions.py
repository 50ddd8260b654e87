"""Conditions, times to come and advice around a verb."""

from __future__ import annotations

from dictate.mentions.tense.plans import frame_of, is_framed
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, beginning
from dictate.vocabulary.load import word_set


def is_conditional(talk: Talk, i: int) -> bool:
    """Tell whether the clause of word i is a condition, or comes only when something happens."""
    start, _ = talk.sentence(i)
    if is_framed(talk, i):
        start = frame_of(talk, talk.w.sentence_of[i]) or start
    if talk.words[start] == "had" and i > start and unreal_behind(talk, start, i):
        return True  # "had it been brazed right it wouldn't leak"
    begun = beginning("lists", "condition")
    for j in range(i - 1, start - 1, -1):
        word = talk.words[j]
        if word in begun and talk.begins_with(j, "lists", "condition", end=i):
            # The main clause after an if-clause is no condition: its own verb decides.
            opens = ("if", "unless", "in", "as", "provided", "even")
            return not ("," in talk.words[j:i] and talk.words[j] in opens)
        if word in (";", "but"):
            return False
    return False


def unreal_behind(talk: Talk, start: int, i: int) -> bool:
    """Tell whether a sentence that opens with "had" is a condition: a subject follows, and "would" behind."""
    _, end = talk.sentence(i)
    subject = talk.words[start + 1]
    if subject not in word_set("subjects_behind_had") and subject not in word_set("articles"):
        return False
    return any(w in word_set("unreal_modals") or w in ("wouldn't", "couldn't") for w in talk.words[i:end])


def beside_condition(talk: Talk, i: int) -> bool:
    """Tell whether an if-clause stands before word i in its sentence."""
    start, end = talk.sentence(i)
    return any(talk.words[j] in ("if", "unless", "otherwise") for j in [*range(start, i), *range(i, end)])


def whenever_before(talk: Talk, i: int) -> int | None:
    """Return the place of a "once", "when", "before" ... that governs the verb at i, if one does."""
    start, _ = talk.sentence(i)
    for j in range(i - 1, max(start, i - 9) - 1, -1):
        word = talk.words[j]
        if word in (",", ";", "but", "and", "so", "then") or (
            talk.kind(j) == "past" and word not in BE and word != "had"
        ):
            return None
        n = talk.begins_with(j, "lists", "whenever", end=i)
        if n:
            return j
    return None


def is_advice(talk: Talk, i: int) -> bool:
    """Tell whether the words before word i give somebody advice."""
    start, _ = talk.sentence(i)
    place = talk.has(start, i, "lists", "advice")
    if place is None:
        place = told_to(talk, start, i)
    if place is None:
        return False
    return not any(
        w in OURS and talk.words[k - 1] in ("and", ",", "so", "but")
        for k, w in enumerate(talk.words[place + 1 : i], start=place + 1)
    )


def told_to(talk: Talk, start: int, i: int) -> int | None:
    """Return the place of "told the landlord to ..." before word i, if it stands there."""
    for j in range(start, i):
        form = talk.forms.get(talk.words[j])
        if form is None or form.verb not in word_set("told_to_verbs"):
            continue
        tail = talk.words[j + 1 : min(i, j + 7)]
        if talk.words[i] in _TOLD_TO_DO and _a_person(tail):
            return j  # "tell the lady put in a surge protector"
        if "to" in tail and not any(w in OURS for w in tail):
            return j
    return None


_TOLD_TO_DO = frozenset(
    (
        "put",
        "get",
        "fit",
        "install",
        "change",
        "replace",
        "swap",
        "buy",
        "have",
        "move",
        "keep",
        "clean",
        "fix",
        "run",
        "shut",
        "leave",
        "use",
        "check",
        "reset",
        "empty",
    )
)
_JOINS = frozenset(("and", "that", "but", "then", "so", "i", "we", "about", "what", "how", "of"))
_THE = frozenset(("the", "their", "his", "that", "my", "this"))


def _a_person(words: tuple[str, ...]) -> bool:
    """Tell whether words are nothing but whom one speaks to: "them", "the lady", "the shift manager"."""
    if len(words) == 1:
        return words[0] in ("them", "him", "her", "'em", "em")
    return 2 <= len(words) <= 4 and words[0] in _THE and all(w.isalpha() and w not in _JOINS for w in words)
