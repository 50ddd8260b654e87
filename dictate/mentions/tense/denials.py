"""Work that was denied, taken back, neglected or done to nothing."""

from __future__ import annotations

from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import OURS, Status, flat
from dictate.vocabulary.load import word_set


def was_neglected(talk: Talk, i: int) -> bool:
    """Tell whether what was not done was not done before this visit ("hasn't been cleaned in years")."""
    start, _ = talk.sentence(i)
    if any(w in OURS for w in talk.words[max(start, i - 4) : i]):
        return False
    after = talk.words[i + 1 : talk.clause_end(i)][:8]
    return (
        any(
            w in ("since", "ever", "properly", "right")
            or (w in ("years", "ages", "months", "weeks", "decade", "forever", "while", "year", "season"))
            for w in after
        )
        or "ever" in talk.words[max(start, i - 3) : i]
    )


def of_mine(talk: Talk, i: int) -> bool:
    """Tell whether the object is the speaker's own belongings ("tightened my belt")."""
    for k in range(i + 1, min(len(talk.words) - 1, i + 4)):
        if talk.words[k] in ("my", "his", "our", "their"):
            return talk.words[k + 1] in flat("lists", "belongings")
        if talk.words[k] not in ("up", "off", "out", "down", "in", "on", "of", "away", "all"):
            return False
    return False


def denied_do(talk: Talk, i: int) -> Status | None:
    """Judge "did not" at word i as the head of a phrase ("did not get time to pressure test").

    What was only not got to was not done; another verb behind it has its own word for it.
    """
    start, end = talk.sentence(i)
    g = talk.skip_back(i - 1, start)
    if g >= start and talk.words[g] in ("you", "they", "it", "he", "she", "which"):
        return None
    k = i + 2
    while k < end and talk.words[k] in flat("adverbs"):
        k += 1
    follows = talk.words[k] if k < end else "."
    if follows in ("get", "have", "do", "perform", "carry", "bother", "need", "want", "make"):
        return "not_done"
    return None if talk.kind(k) == "base" else "not_done"


def by_nobody(talk: Talk, i: int) -> bool:
    """Tell whether nobody did it to anything: "nobody brazed anything", "no one added any gas"."""
    if (
        talk.kind(i) != "past"
        or talk.words[i + 1 : i + 2] == ()
        or talk.words[i + 1] not in word_set("whatever_it_is")
    ):
        return False
    return talk.words[i - 1] in ("nobody", "naebody") or talk.words[i - 2 : i] == ("no", "one")


def done_to_nothing(talk: Talk, i: int) -> bool:
    """Tell whether the work at word i was done to nothing ("recovered nothing, it was flat")."""
    form = talk.forms.get(talk.words[i])
    return (
        form is not None
        and form.kind == "past"
        and form.verb in word_set("undone_by_nothing")
        and (
            talk.words[i + 1 : i + 2] in (("nothing",), ("none",))
            or (
                talk.words[i + 1 : i + 2] == ("no",)
                and talk.words[i + 2 : i + 3] != ()
                and talk.words[i + 2] in flat("lists", "undone_nouns")
            )
        )
    )


def taken_back(talk: Talk, i: int) -> bool:
    """Tell whether the speaker corrects himself right behind the verb ("cap brazed, no.

    I used a flare"), or with the same word behind its sentence ("Soldered the stub. No, not soldered, ...").
    """
    _, end = talk.sentence(i)
    anew = [w for w in talk.words[end : end + 5] if w != ","]
    if anew[:3] in (["no", "not", talk.words[i]], ["nope", "not", talk.words[i]]):
        return True
    after = talk.words[i + 1 : min(end, i + 5)]
    for k, word in enumerate(after):
        if word == "no" and k and after[k - 1] == ",":
            rest = after[k + 1 : k + 3]
            return bool(rest) and (
                rest[0] in ("i", "we", "it", "that")
                or rest[:2] in ((",", "i"), (",", "we"))
                or rest[-1] == talk.words[i - 1]  # "cap brazed, no, cap screwed on"
            )
        if word not in (",", "it", "that", "in", "the", "one"):
            return False
    return False


def turned_down(talk: Talk, i: int) -> bool:
    """Tell whether somebody would not have the work at word i: "they turned down brushing the tubes"."""
    start = talk.clause_start(i)
    k = i - 1
    while k > start and (
        talk.words[k] in word_set("determiners") or talk.words[k] in word_set("between_refused_and_work")
    ):
        k -= 1
    n = talk.ends_with(k, "lists", "turns_down", start=start)
    if not n or k - n < start:
        return False
    return talk.words[k - n] not in ("i", "we", "not", "n't", "never", "didn't", "i've", "we've")


def denied_behind(talk: Talk, end: int) -> bool:
    """Tell whether the words behind a noun deny it ("pressure test was not carried out")."""
    if end >= len(talk.words):
        return False
    _, last = talk.sentence(end - 1)
    k = end
    while k < last and talk.words[k] in ("was", "were", "is", "has", "have", "had", "been", "are"):
        k += 1
    if k < last and talk.words[k] in flat("lists", "put_off"):
        return talk.words[k + 1] in (",", ".", ";", "and", "because", "this", "today", "as", "for", "so")
    if k >= last or talk.words[k] not in flat("lists", "negation"):
        return False
    k += 1
    while k < last and (talk.words[k] in flat("adverbs") or talk.words[k] in ("been", "be", "get")):
        k += 1
    return k < last and talk.words[k] in flat("lists", "carried_out")


def reaches(talk: Talk, j: int, i: int) -> bool:
    """Tell whether a noun negation at j reaches the noun at i: no verb and no new thought between."""
    stops = word_set(
        "ends_a_denial"
    )  # "no torch till the detector said clear", "no ice so that is only a test"
    return all(talk.kind(k) != "past" and talk.words[k] not in stops for k in range(j + 1, i))


def answered_like_a_form(talk: Talk, i: int) -> Status | None:
    """Return what stands behind work that opens a sentence like a line of a form ("Leak check: skipped").

    The line ends with a colon, a dash or a comma, nothing was done in it, and the answer stands alone.
    """
    start, end = talk.sentence(i)
    if i - start > 1 or talk.words[i] in ("bubbles", "leaks"):
        return None
    for k in range(i + 1, min(end - 1, i + 7)):
        word = talk.words[k]
        if word in (":", ",", "-"):
            answer, behind = talk.words[k + 1], talk.words[k + 2] if k + 2 < end else "."
            alone = answer == "none" and k == i + 1 and behind == "." and talk.kind(i) != "past"
            if alone or (word == "," and _plain_no(talk, i, k + 1, end)):
                return "not_done"  # "Brazing, none.", "Recharge, no sir."
            if word == "," and (talk.kind(i) == "past" or answer in ("no", "none", "never", "nope")):
                return None  # "recovered two pounds, no, three"; "bubbled it all, none"
            if answer in word_set("form_answers_no"):
                alone = behind in (
                    ",",
                    ".",
                    ";",
                    "because",
                    "today",
                    "this",
                    "as",
                    "for",
                    "needed",
                    "done",
                    "time",
                )
                return "not_done" if alone else None
            if answer in word_set("form_answers_later"):
                return "planned" if behind in (",", ".", ";", "visit", "week", "time", "trip") else None
            return None
        if talk.kind(k) in ("past", "third") or word in OURS:
            return None
    return None


def _plain_no(talk: Talk, i: int, k: int, end: int) -> bool:
    """Tell whether the word at k denies the work at word i that opens the line: "no.", "nope, not ours".

    "Leak check, no, pressure test" takes the name back, "soap on the joints, no" tells what was seen.
    """
    if talk.kind(i) == "past" or talk.words[i] in word_set("finds_leaks"):
        return False
    if talk.words[k] not in word_set("plain_noes"):
        return False
    k += 1
    if talk.words[k : k + 1] and talk.words[k] in word_set("behind_a_plain_no"):
        k += 1
    if k >= end or talk.words[k] in (".", ";", "!"):
        return True
    return talk.words[k] == "," and talk.words[k + 1] in word_set("goes_on_from_a_no")


def denied_at_the_end(talk: Talk, i: int) -> bool:
    """Tell whether work that opens a sentence is denied behind it, or what it takes was not at hand.

    "Leak test, I heard of it too late, so it's not done."  "And the drier, I had none on the truck."
    """
    start, end = talk.sentence(i)
    if any(talk.words[k] not in word_set("opens_a_topic") for k in range(start, i)):
        return False
    comma = next((k for k in range(i + 1, end) if talk.words[k] == ","), end)
    if comma - i < 4 and talk.has(comma + 1, min(end, comma + 8), "lists", "none_at_hand") is not None:
        return True
    for k in range(comma, end):
        if talk.words[k] in word_set("exchanged_words") or talk.words[k] in ("new", "fitted", "cleaned"):
            return False  # "drier, new one in, the strainer's seized, so it's not done": of another
        if talk.words[k] not in ("so", "and", "but", ","):
            continue
        n = talk.begins_with(k + 1, "lists", "denied_at_the_end", end=end)
        if n and talk.words[k + 1 + n] in (".", ",", ";", "!", "yet", "today", "because"):
            return True
    return False


def answered_behind(talk: Talk, i: int) -> Status | None:
    """Return what the next sentence answers to the short question of word i ("Drier replaced? No, ...")."""
    start, end = talk.sentence(i)
    if end - start > 9 or end + 1 >= len(talk.words):
        return None
    answer, behind = talk.words[end], talk.words[end + 1]
    if answer in ("no", "nope", "not") and (behind in word_set("behind_no") or talk.kind(end + 1) == "past"):
        return "not_done"
    if answer in ("yes", "yep", "yeah", "done") and behind in (",", ".", "i", "we"):
        return "done"
    return None


def fronted_and_denied(talk: Talk, end: int) -> bool:
    """Tell whether work that is named first is denied behind it ("Brazing I have not done")."""
    if talk.words[end : end + 1] == () or talk.words[end] not in OURS:
        return False
    row = talk.words[end + 1 : end + 5]
    denied = next((k for k, w in enumerate(row) if w in flat("lists", "negation")), None)
    return denied is not None and any(w in word_set("denied_in_front") for w in row[denied:])
