"""The words by which a speaker takes an amount back."""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass, how_far_apart
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.vocabulary.load import word_set

_BETTER = 0.25
"""An amount said better behind "well" is no further from the first than this part of it."""


def takes_first_back(talk: Talk, first: int, last: int) -> bool:
    """Tell whether the words between two amounts begin by taking the first back and tell why.

    "Five ounces, no, let me look at the scale again, five point two."
    """
    row = talk.words[first:last]
    head = row[1:] if row[:1] in ((",",), (".",)) else row
    opens = any(head[: len(p)] == p for p in phrases("takes_back"))
    moves = any(
        h.label in ("recovered", "charged")
        and h.verb is not None
        and talk.words[h.start] not in ("put", "weighed", "got", "took")
        for h in talk.hits_in(first, last)
    )
    return (
        opens
        and not moves
        and row[-1:] in ((",",), (".",), ("'s",), ("at",), ("is",), ("was",), ("it",), ("says",))
    )


def opens_with_correction(talk: Talk, start: int) -> bool:
    """Tell whether the sentence of the amount, or the short one before it, begins with a correction."""
    number = talk.w.sentence_of[start]
    for n in (number, number - 1):
        if n < 0:
            continue
        s0, _ = talk.w.sentences[n]
        head = [w for w in talk.words[s0 : s0 + 7] if w != ","]
        if head[:1] == ["no"] and len(head) > 1:
            head = head[1:]
        if any(w in word_set("one_portion_more") for w in talk.words[s0:start]):
            continue
        for size in (4, 3, 2):
            if tuple(head[:size]) in phrases("corrections"):
                return True
        alone = n == number or ("gross" in head and len(head) < 7)  # "Sorry, that's the gross. It's ..."
        if alone and tuple(head[:1]) in phrases("corrections_alone"):
            return True
    return False


def retraction_between(between: tuple[str, ...]) -> str | None:
    """Tell whether the words between two amounts retract the first."""
    if any(w in ("plus", "another", "more") for w in between):
        return None
    for i in range(len(between)):
        for n in (4, 3, 2, 1):
            phrase = between[i : i + n]
            if phrase == ("weight",) and between[max(0, i - 1) : i] not in ((",",), ("no",), ()):
                continue  # "recovery weight 400 grams, charge weight 420"
            if len(phrase) == n and phrase in phrases("corrections"):
                if (
                    phrase == ("no",)
                    and i + 1 < len(between)
                    and between[i + 1] in ("leaks", "leak", "more", "problem", "issues")
                ):
                    continue
                if (
                    phrase
                    in (
                        ("that", "was"),
                        ("weight",),
                        ("actually",),
                        ("i", "said"),
                        ("make", "it"),
                    )
                    and len(between) > 6
                ):
                    continue
                if phrase == ("not",):
                    continue
                if phrase == ("that", "was") and "no" not in between:
                    continue
                return "retracts"
    return None


def read_again(talk: Talk, previous: Mass, a: Mass) -> bool:
    """Tell whether the second amount is the first one read again ("but the scale says two pounds one")."""
    between = talk.words[previous.end : a.start]
    if "but" not in between or how_far_apart(previous, a) > 0.5:
        return False
    if a.kind not in ("unsaid", "weight", previous.kind) or previous.end <= a.trigger < a.start - 4:
        return False
    if any(w in word_set("plate_words") - {"says"} for w in between):
        return False
    total = {*between[-3:], *talk.words[a.end : a.end + 2]} & {"total", "altogether", "all"}
    return bool(total or set(between) & word_set("weighing_words"))


def said_better(talk: Talk, previous: Mass, a: Mass) -> bool:
    """Tell whether "well" leads to the amount said better: "five pounds, well, five pounds two"."""
    between = talk.words[previous.end : a.start]
    if (
        "well" not in between[:4]
        or how_far_apart(previous, a) > _BETTER
        or a.kind not in ("unsaid", previous.kind)
    ):
        return False
    k = between.index("well")
    return between[k - 1 : k] in ((",",), (".",), ("-",)) and not any(
        h.verb is not None for h in talk.hits_in(previous.end, a.start)
    )


def is_negated(talk: Talk, start: int) -> bool:
    """Tell whether "not" stands right before the amount."""
    return start > 0 and talk.words[start - 1] == "not"
