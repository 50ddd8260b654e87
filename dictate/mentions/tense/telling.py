"""Somebody was told, with what was told left out."""

from __future__ import annotations

from dictate.mentions.tense.talk import Talk
from dictate.vocabulary.load import word_set


def customer_told(talk: Talk, i: int) -> bool:
    """Tell whether somebody else was told ("customer was told to keep the doors shut")."""
    start, _ = talk.sentence(i)
    g = talk.skip_back(i - 1, start)
    form = talk.forms.get(talk.words[i])
    if (
        g >= start
        and form is not None
        and form.verb in ("inform", "advise", "notify", "brief", "update", "tell")
        and form.kind == "past"
    ):
        # "Customer notified.", "chef told to load it"; but "chef told to me that ..."
        after = talk.words[i + 1] if i + 1 < len(talk.words) else "."
        if after == "to" and talk.words[i + 2 : i + 3] in (("me",), ("us",)):
            return False
        if talk.begins_with(g, "lists", "others") and after in (
            (".", ",", "to") if form.verb == "tell" else (".", ",", "of", "about", "to", "and", "that")
        ):
            return True
    if g <= start or talk.words[g] not in ("was", "were", "been", "is", "are", "'s"):
        return False  # "was told to ...": the speaker was
    before = talk.words[start:g]
    return not any(w in ("i", "i've", "we", "we've", "i'm", "not", "to", "be") for w in before[-3:])


def speaker_was_told(talk: Talk, i: int) -> bool:
    """Tell whether the speaker himself was told ("I'd been told the stat was replaced")."""
    start, _ = talk.sentence(i)
    g = talk.skip_back(i - 1, start)
    if g <= start or talk.words[g] not in ("was", "were", "been", "got"):
        return False
    return any(w in word_set("speaker_had") for w in talk.words[max(start, g - 2) : g])


def told_by_the_way(talk: Talk, i: int) -> bool:
    """Tell whether a bare "told" closes a sentence about something else ("..., told the kid")."""
    start, _ = talk.sentence(i)
    return i > start and talk.words[i - 1] == "," and talk.kind(i) == "past"


def nobody_told(talk: Talk, i: int) -> bool:
    """Tell whether nobody was told ("the owner was gone, so nobody has been told")."""
    start, _ = talk.sentence(i)
    return any(
        w in word_set("naught") or w in ("nobody", "noone", "haven't", "hasn't", "not", "never")
        for w in talk.words[max(start, i - 4) : i]
    )
