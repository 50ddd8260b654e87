"""Parts that were left as they are, and those that wait for another trip.

"What I didn't get to is the water filter."  "The lid hinge I did not do."  "Left door gasket torn, not done."
"I've not got that relay on the truck, I'll be back Thursday."  "Wrote up a new one for next trip."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS, part_words
from dictate.mentions.tense import Status
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 30
"""Words behind a part that is not at hand in which the next trip is told."""


def left_undone(talk: Talk) -> list[Handled]:
    """Return the parts not replaced or not cleaned, and those planned for another trip."""
    out: list[Handled] = []
    covered = {(t.name, h.status) for h in talk.out for t in h.things}
    for i, word in enumerate(talk.words):
        made: Handled | None = None
        if word == "what" and talk.words[i + 1 : i + 2] in (("i",), ("we",)):
            made = _what_i_left(talk, i)
        elif word in ("i", "we") and i:
            made = _named_in_front(talk, i)
        elif word == "to" and talk.words[i - 1] in ("get", "got", "gotten"):
            made = _did_not_get_to(talk, i)
        elif word == "not" and i > 1 and talk.words[i - 1] in (",", ";", "and"):
            made = _told_and_not_done(talk, i)
        elif word == "new" and talk.words[i - 1] == "no":
            made = _no_new_one(talk, i)
        elif word in word_set("not_at_hand"):
            made = _not_at_hand(talk, i)
        elif word == "one" and talk.words[i - 1] == "new" and talk.words[i + 1 : i + 2] == ("to",):
            made = _new_one_to_fit(talk, i)
        elif word in ("wrote", "written", "writing") and talk.words[i + 1 : i + 2] in (("up",), ("down",)):
            made = _written_up(talk, i)
        if made is not None and not any((t.name, made.status) in covered for t in made.things):
            out.append(made)
            covered |= {(t.name, made.status) for t in made.things}
    return out


def _action(thing: Thing) -> str:
    """Return what is not done to a part that was only left: coils and drains are cleaned, others replaced."""
    washed = thing.name in word_set("washed_parts")
    return "cleaned" if washed else "replaced"


def _made(talk: Talk, thing: Thing | None, status: Status, start: int, end: int) -> Handled | None:
    if thing is None or thing.modifier or not handled_parts([thing]):
        return None
    if status == "not_done" and _action(thing) == "replaced" and thing.name not in word_set("wear_parts"):
        return None  # "door heaters I didn't get to": not measured
    if not talk.scopes.ours(start) or talk.scopes.conditional(start):
        return None
    return Handled(_action(thing), status, [thing], start, end, None, True)


def _no_new_one(talk: Talk, i: int) -> Handled | None:
    """Read "no new seals today", "it slides fine, so no new valve": word i is "new"."""
    start, end = talk.scopes.sentence(i)
    if i - 1 > start and talk.words[i - 2] not in (",", ";", "so", "and", "but"):
        return None
    thing = talk.thing_from(i + 1)
    if (
        thing is None
        or thing.modifier
        or not handled_parts([thing])
        or thing.name in part_words("bits_of_a_repair")
    ):
        return None
    if thing.end < end and talk.words[thing.end] not in word_set("behind_no_new_part"):
        return None
    if not talk.scopes.ours(i) or talk.scopes.conditional(i):
        return None
    return Handled("replaced", "not_done", [thing], i - 1, thing.end, None, True)


def _leaves(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "did not do", "never got to", "couldn't get to" at word k."""
    if talk.words[k : k + 2] in (("did", "not"), ("could", "not"), ("have", "not"), ("haven't", "yet")):
        k += 2
    elif talk.words[k : k + 1] and talk.words[k] in ("didn't", "never", "couldn't", "haven't", "won't"):
        k += 1
    else:
        return None
    if talk.words[k : k + 2] in (("get", "to"), ("got", "to"), ("gotten", "to"), ("get", "done")):
        return k + 2
    return k + 1 if k < end and talk.words[k] in ("do", "done", "did") else None


def _what_i_left(talk: Talk, i: int) -> Handled | None:
    """Read "what I didn't get to is the water filter"."""
    _, end = talk.scopes.sentence(i)
    k = _leaves(talk, i + 2, end)
    if k is None or talk.words[k : k + 1] not in (("is",), ("was",), ("'s",), ("are",), ("were",)):
        return None
    k += 1
    while k < end and (talk.words[k] in DETERMINERS or talk.words[k] in word_set("which_of_two")):
        k += 1
    thing = talk.thing_from(k)
    return _made(talk, thing, "not_done", i, thing.end) if thing is not None else None


def _wanted_but_not_done(talk: Talk, i: int) -> Handled | None:
    """Read "she's stuck, and that means a compressor. That I did not do today": word i is "I"."""
    start, end = talk.scopes.sentence(i)
    number = talk.w.sentence_of[i]
    k = _leaves(talk, i + 1, end)
    if (
        i - start != 1
        or not number
        or k is None
        or (k < end and talk.words[k] not in (".", ",", "today", "this", "yet"))
    ):
        return None
    first, last = talk.w.sentences[number - 1]
    named = [t for t in talk.things if first < t.start < last and not t.modifier]
    if not named or last - named[-1].end > 1:
        return None
    wants = talk.words[max(first, named[-1].start - 3) : named[-1].start]
    if word_set("wants_a_part").isdisjoint(wants) or not handled_parts(named[-1:]):
        return None
    return Handled("replaced", "not_done", named[-1:], start, k, None, True, pronoun=True)


def _named_in_front(talk: Talk, i: int) -> Handled | None:
    """Read "the lid hinge I did not do": the part stands before "I"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 1] in ("that", "which", "it"):
        return _wanted_but_not_done(talk, i)
    thing = talk.thing_over(i - 1)
    k = _leaves(talk, i + 1, end)
    if thing is None or thing.end != i or k is None:
        return None
    if k < end and talk.words[k] not in (
        ".",
        ",",
        ";",
        "today",
        "but",
        "and",
        "this",
        "because",
        "yet",
        "either",
    ):
        return None
    j = thing.start
    while j > start and (
        talk.words[j - 1] in DETERMINERS
        or talk.words[j - 1] in word_set("before_part_in_place")
        or talk.words[j - 1] in ("lid", "door", "drawer")
    ):
        j -= 1
    if j > start and talk.words[j - 1] not in (",", "and", "but", ";"):
        return None
    return _made(talk, thing, "not_done", thing.start, k)


def _told_and_not_done(talk: Talk, i: int) -> Handled | None:
    """Read "left door gasket torn, not done", "two bulbs out in the sign, not replaced"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i + 1 : i + 2] == () or talk.words[i + 1] not in word_set("exchanged_words") | {"done"}:
        return None
    if i + 2 < end and talk.words[i + 2] not in (",", ".", ";", "today", "yet", "this", "no", "and", "but"):
        return None
    named = [t for t in talk.things if start <= t.start < i and not t.modifier]
    if named and talk.words[i - 2] in word_set("kept_and_treated") and talk.words[i + 1] != "done":
        # "float valve I took apart and flushed, so cleaned, not swapped": of what the sentence opens with
        if not talk.scopes.ours(i) or not handled_parts(named[:1]):
            return None
        return Handled("replaced", "not_done", named[:1], i, i + 2, None, True)
    worn = word_set("failed") | word_set("worn_out") | {"out", "broke", "broken", "missing"}
    thing = next(
        (t for t in named if any(w in worn for w in talk.words[t.end : min(i, t.end + 6)])),
        None,
    )
    if (
        thing is None
        and named
        and named[-1].end >= i - 5
        and talk.words[i + 1] in word_set("exchanged_words")
    ):
        thing = named[-1]  # "the door gasket on the end, not replaced"
    return _made(talk, thing, "not_done", thing.start, i + 2) if thing is not None else None


def _not_at_hand(talk: Talk, i: int) -> Handled | None:
    """Read "I've not got that relay on the truck ... I'll be back Thursday"."""
    start, end = talk.scopes.sentence(i)
    none = talk.words[i] in ("haven't", "don't", "didn't") or "not" in talk.words[max(start, i - 2) : i + 1]
    k = next((j for j in range(i, min(end, i + 4)) if talk.words[j] in ("got", "have")), None)
    if not none or k is None:
        return None
    k += 1
    while k < end and (talk.words[k] in DETERMINERS or talk.words[k] in ("one", "of", "another", "spare")):
        k += 1
    thing = talk.thing_from(k)
    if thing is None or thing.name in part_words("no_part"):
        return None
    if not any(
        w in word_set("own_stock") or w == "me" for w in talk.words[thing.end : min(end, thing.end + 4)]
    ):
        return None
    told = talk.words[thing.end : thing.end + REACH]
    returns = any(w in word_set("comes_back_later") for w in told)
    later = any(w in word_set("times_to_come") or w in word_set("comes_back_days") for w in told)
    return _made(talk, thing, "planned", i, thing.end) if returns and later else None


def _written_up(talk: Talk, i: int) -> Handled | None:
    """Read "left the old one in and wrote up a new one for next trip"."""
    _, end = talk.scopes.sentence(i)
    told = talk.words[i + 2 : min(end, i + 12)]
    if told[:2] not in (("a", "new"), ("one", "for")) or "next" not in told:
        return None
    thing = talk.thing_from(i + 4) or part_meant(talk, i, "replaced")
    if thing is None or not handled_parts([thing]):
        return None
    return Handled("replaced", "planned", [thing], i, i + 4, None, True, pronoun=True)


def _new_one_to_fit(talk: Talk, i: int) -> Handled | None:
    """Read "drain pan heater, no continuity, so I've a new one to fit on the next visit"."""
    _, end = talk.scopes.sentence(i)
    told = talk.words[i + 2 : min(end, i + 12)]
    if not told or told[0] not in ("fit", "put", "go", "install", "hang"):
        return None
    if not any(w in word_set("times_to_come") or w in word_set("comes_back_days") for w in told):
        return None
    thing = part_meant(talk, i, "replaced")
    if thing is None or not handled_parts([thing]):
        return None
    return Handled("replaced", "planned", [thing], i - 1, i + 2, None, True, pronoun=True)


def _did_not_get_to(talk: Talk, i: int) -> Handled | None:
    """Read "did not get to the condenser": word i is "to"."""
    start, end = talk.scopes.sentence(i)
    before = talk.words[max(start, i - 4) : i - 1]
    if not any(w in ("not", "didn't", "never", "couldn't", "haven't") for w in before):
        return None
    if any(w in ("he", "she", "they", "it", "you") for w in before):
        return None
    k = i + 1
    while k < end and (talk.words[k] in DETERMINERS or talk.words[k] in word_set("which_of_two")):
        k += 1
    thing = talk.thing_from(k)
    if thing is None or talk.words[thing.end : thing.end + 1] not in (
        (".",),
        (",",),
        ("today",),
        ("and",),
        (";",),
    ):
        return None
    return _made(talk, thing, "not_done", i - 1, thing.end)
