"""Somebody else's account: what is told as his words."""

from __future__ import annotations

from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, SENTENCE_END, beginning, flat
from dictate.vocabulary.load import word_set

MEASURES = word_set("closes_plate_figure")


def is_reported(talk: Talk, start: int, i: int) -> bool:
    """Tell whether somebody else's account runs up to word i, or stands behind it."""
    begun, verbs = beginning("lists", "reported"), flat("lists", "account_verbs")
    for j in range(start, i):
        word = talk.words[j]
        n = talk.begins_with(j, "lists", "reported", end=i + 1) if word in begun else 0
        if not n and word in verbs:
            n = opens_account(talk, j, start, i)
        if n and talk.words[j - 1] not in word_set("meters_that_say") and not account_ends(talk, j + n, i):
            return True
    return told_behind(talk, i) or on_a_note(talk, start, i)


def on_a_note(talk: Talk, start: int, i: int) -> bool:
    """Tell whether what somebody left in writing is read out: "there's a note from their man, added ..."."""
    for k in range(start, i - 2):
        if talk.words[k] not in word_set("notes_left"):
            continue
        left = talk.words[k - 2 : k] in (("left", "a"), ("left", "his"), ("left", "their"), ("left", "the"))
        left = left and talk.words[k + 1] not in ("with", "for") and OURS.isdisjoint(talk.words[start:k])
        if left or talk.words[k + 1] in ("from", "by"):
            return not any(w in OURS or w in (";", "so", "but") for w in talk.words[k:i])
    return False


def opens_account(talk: Talk, j: int, start: int, i: int) -> int:
    """Return 1 where a verb of telling at word j opens an account ("the boss thinks ...")."""
    for k in range(j - 1, max(start, j - 7) - 1, -1):
        word = talk.words[k]
        if word in (",", ";", "and", "but") or word in OURS:
            return 0
        if word in flat("lists", "sources"):
            return 1
        if k >= j - 2 and others_end(talk, k, start) and talk.words[j - 1] not in BE:
            return 0 if word in ("you", "who") or j + 1 >= i else 1
    return 0


def account_ends(talk: Talk, first: int, i: int) -> bool:
    """Tell whether the speaker takes the word again between an account's first word and word i."""
    told = False
    for k in range(first, i):
        word = talk.words[k]
        if word == "so" and talk.words[k - 1] == ",":
            return True  # "the book says fifteen a metre, so ninety went in"
        if word in (";", "but") or (word in ("so", ",", "and") and talk.words[k + 1] in OURS):
            return True
        if word in OURS and k - first >= 2:
            return True  # "plate says two pounds I unplugged it first": told without a pause
        if word == "," and not told:
            # "tag says four pounds, charged four": a verb without a subject is the speaker's.
            after = skip_small_words(talk, k + 1, i)
            if talk.kind(after) == "past" and talk.words[after] not in BE:
                return True
        told = told or (talk.kind(k) == "past" and word not in BE and word != "had")
    # "plate says two pounds recovered one pound fifteen": told without a pause
    return any(
        talk.words[k - 1] in MEASURES and talk.kind(k) == "past" and talk.words[k] not in BE
        for k in range(first + 1, i + 1)
    )


def skip_small_words(talk: Talk, k: int, last: int) -> int:
    """Return the first word at or behind k that is no adverb and no "and" or "then", at most `last`."""
    while k < last and (talk.words[k] in flat("adverbs") or talk.words[k] in ("and", "then")):
        k += 1
    return k


def told_behind(talk: Talk, i: int) -> bool:
    """Tell whether the account's source closes the sentence ("it ran fine, the manager says")."""
    _, end = talk.sentence(i)
    last = end - 1 if talk.words[end - 1] in SENTENCE_END else end
    for k in range(i + 1, last):
        word = talk.words[k]
        if word in (";", "but", "so"):
            return False
        if word in ("says", "said") and talk.words[k - 2 : k] == (",", "it"):
            # "He left a tag. Added a pound, it says, May.", but what a scale says is the speaker's
            first = talk.w.sentences[max(0, talk.w.sentence_of[i] - 1)][0]
            noted = not word_set("notes_left").isdisjoint(talk.words[first:k])
            return noted and talk.words[k + 1] in (",", *SENTENCE_END)
        if word in ("according", "per", "says", "said") and k + 2 < end:
            tail = talk.words[k + 1 : min(last, k + 5)]
            if word in ("according", "per") and any(
                w in flat("lists", "sources") and w not in word_set("written_sources") for w in tail
            ):
                return True
            if word in ("says", "said") and talk.words[k - 1] in (",", "or", "so"):
                return k + 4 >= last
        if (
            word in flat("lists", "account_verbs")
            and talk.words[k - 1] in flat("lists", "sources")
            and "what" in talk.words[max(i, k - 4) : k]
            and "which" not in talk.words[max(i, k - 6) : k]
        ):
            return True  # "brazed shut is what the book says"
        if word in flat("lists", "account_verbs") and k >= last - 2:
            if k == last - 2 and talk.words[k + 1] not in ("me", "us", "so"):
                continue
            j = k - 1
            n = others_end(talk, j, i)
            while n and j - n >= i and talk.words[j - n] in ("the", "their", "his", "a", "my"):
                n += 1
            if n and j - n >= i and talk.words[j - n] in (",", "so", "or"):
                return True
    return False


def others_end(talk: Talk, j: int, start: int) -> int:
    """Return how many words that name somebody else end at word j, or 0."""
    n = talk.ends_with(j, "lists", "others", start=start)
    if n:
        return n
    if j > start and talk.words[j] in flat("lists", "person_nouns"):
        if talk.words[j - 1] in flat("lists", "other_marks"):
            return 2
        if j - 1 > start and talk.words[j - 2] in flat("lists", "other_marks"):
            return 3
    return 0
