"""Exchanges told by the old one, or by where the new one came from.

"Drier, three eighths, the old one black inside."  "The door heater's the only thing replaced."
"Old one was a sixth horse. Got one off the truck."  "Third one's getting a motor. I had one."
"The capacitor I binned, and it was a four microfarad that took its place."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.new_ones import put_off
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.put_in import opening_part, put_in
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.tense.plans import comes_another_day
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 4
"""Sentences back in which the part that "one off the truck" takes the place of was told of."""


def only_thing(talk: Talk, i: int) -> Handled | None:
    """Read "the door heater's the only thing replaced": word i is "only"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 1] != "the" or talk.words[i - 2] not in ("'s", "is", "was", "were", "are"):
        return None
    told = talk.words[i + 2 : min(end, i + 6)]
    if not any(w in word_set("exchanged_words") for w in told) or "not" in told:
        return None
    thing = talk.thing_over(i - 3) if i - 3 >= start else None
    return put_in(talk, [thing], thing.start, i + 3) if thing is not None else None


def off_the_truck(talk: Talk, i: int) -> Handled | None:
    """Read "the old one was a sixteen watt, I got one off the truck": word i is "one"."""
    start, end = talk.scopes.sentence(i)
    form = next(
        (k for k in range(i - 1, max(start, i - 4) - 1, -1) if talk.words[k] in word_set("has_one_with_him")),
        None,
    )
    if form is None or talk.words[form - 1] not in ("i", "we", ",", "so", "and", "just"):
        return None
    if not any(w in word_set("own_stock") for w in talk.words[i + 1 : min(end, i + 5)]):
        return None
    number = talk.w.sentence_of[i]
    first = talk.w.sentences[max(0, number - REACH)][0]
    before = talk.words[first:i]
    if not any(before[k : k + 2] in (("old", "one"), ("old", "ones")) for k in range(len(before) - 1)):
        return None
    if put_off(talk, i, end) or any(w in word_set("does_not_fit") for w in talk.words[i:end]):
        return None
    thing = _failed_last(talk, i, first) or part_meant(talk, i, "replaced")
    return put_in(talk, [thing], form, i + 2, pronoun=True) if thing is not None else None


def _failed_last(talk: Talk, i: int, first: int) -> Thing | None:
    """Return the part told of last, from word `first` to word i, as one that had failed."""
    failed = word_set("failed") | word_set("worn_out")
    for thing in reversed([t for t in talk.things if first <= t.start < i]):
        told = talk.words[thing.end : thing.end + 8]
        if not thing.modifier and handled_parts([thing]) and any(w in failed for w in told):
            return thing
    return None


def getting_one(talk: Talk, i: int) -> Handled | None:
    """Read "third one's getting a motor. I had one.": told while it is done, the new one at hand."""
    _, end = talk.scopes.sentence(i)
    things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    number = talk.w.sentence_of[i]
    stop = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    told = talk.words[last:stop]
    at_hand = any(
        told[k : k + 2] in (("had", "one"), ("got", "one"), ("one", "on"), ("one", "in"), ("have", "one"))
        and not any(w in ("not", "didn't", "don't", "no") for w in told[max(0, k - 2) : k])
        for k in range(len(told))
    )
    return put_in(talk, things, i, last) if things and at_hand else None


def did_the_part(talk: Talk, i: int) -> Handled | None:
    """Read "Dale did the drier": of a part that is only ever exchanged, with a reason to look."""
    _, end = talk.scopes.sentence(i)
    if talk.words[end - 1 : end] == ("?",) or talk.words[i + 1 : i + 2] not in (
        ("the",),
        ("both",),
        ("all",),
    ):
        return None
    things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    if not things or any(t.part not in part_words("only_exchanged") for t in things):
        return None
    if talk.scopes.kind(last) in ("base", "past") or talk.words[last : last + 1] in (("have",), ("get",)):
        return None  # "did the drier get hot": no doing
    made = put_in(talk, things, i, last)
    if made is not None:
        made.why = "'did' was said of it: taken as exchanged"
    return made


def gets_another_day(talk: Talk, i: int) -> Handled | None:
    """Read "room six gets a new outdoor unit tomorrow": what is fitted on another day is planned."""
    _, end = talk.scopes.sentence(i)
    things, new, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    things = handled_parts(things)
    if not things or not new or not comes_another_day(talk.scopes, i):
        return None
    return Handled("replaced", "planned", things, i, last, None, True)


def old_one_told(talk: Talk, i: int) -> Handled | None:
    """Read "drier, three eighths, the old one black inside": the old one tells that this one is new."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 1] != "the" or talk.words[i - 2] not in (",", ";"):
        return None
    if any(w in word_set("old_one_kept") for w in talk.words[i + 1 : end]):
        return None
    k = start
    while k < i and talk.words[k] in word_set("ellipsis_openers") | word_set("before_part_in_place"):
        k += 1
    thing = next((t for t in talk.things if k <= t.start < i), None)
    if thing is None or thing.modifier or thing.start - k > 5:
        return None
    if any(talk.scopes.kind(j) in ("past", "third", "base") for j in (*range(k, thing.start), thing.end)):
        return None
    # "Compressor, the old one was seized" tells of the fault; in a row of new parts it is the next of them.
    sentence = talk.w.sentence_of[i]
    row = any(
        h.status == "done" and h.new and abs(talk.w.sentence_of[h.start] - sentence) <= 2 for h in talk.out
    )
    counted = (
        talk.words[thing.start - 1] in ("a", "an", "one", "two") or "a" in talk.words[start : thing.start]
    )
    if not (row or counted) or talk.scopes.noun(thing.start, thing.end) != "done":
        return None
    return put_in(talk, [thing], thing.start, thing.end)


def binned(talk: Talk, i: int) -> Handled | None:
    """Read "the capacitor I binned, and it was a four microfarad that took its place"."""
    start, end = talk.scopes.sentence(i)
    before = talk.words[i - 1] if i > start else ""
    if before not in ("", "i", "we", "and", ",", "i've", "then", "got") or not talk.scopes.ours(i):
        return None
    things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    thing = things[0] if things else opening_part(talk, start, i)
    if thing is None:
        return None
    number = talk.w.sentence_of[i]
    stop = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    told = talk.words[i + 1 : min(stop, i + 30)]
    place = any(
        told[k : k + 3] in (("took", "its", "place"), ("in", "its", "place"), ("takes", "its", "place"))
        for k in range(len(told))
    )
    colon = next((k for k in range(i + 1, min(end, i + 4)) if talk.words[k] == ":"), None)
    rated = colon is not None and any(w in word_set("rates_a_part") for w in talk.words[colon:end])
    if not (place or rated):
        return None
    return put_in(talk, [thing], min(thing.start, i), max(last, i + 1))


def where_the_old_was(talk: Talk, i: int) -> Handled | None:
    """Read "a room stat, electronic, that's on the wall now where the old dial one used to be"."""
    start, end = talk.scopes.sentence(i)
    behind = talk.words[i + 1 : min(end, i + 8)]
    if not any(w in ("was", "were", "used", "sat", "hung") for w in behind):
        return None
    thing = opening_part(talk, start, i)
    if thing is None or talk.words[thing.end : thing.end + 1] != (",",) or not handled_parts([thing]):
        return None
    if talk.scopes.conditional(thing.start) or "will" in talk.words[start:i]:
        return None
    return Handled("replaced", "done", [thing], thing.start, i, None, True)  # "used to be" is of the old one


def with_a_new_one(talk: Talk, i: int) -> Handled | None:
    """Read "the drawer gaskets, all three, with new ones", "the blade, cracked, got a new one"."""
    start, end = talk.scopes.sentence(i)
    if i + 1 < end and talk.words[i + 1] not in (
        ".",
        ",",
        ";",
        "and",
        "in",
        "on",
        "now",
        "too",
        "from",
        "off",
    ):
        return None
    new = next((k for k in range(i - 1, max(start, i - 5), -1) if talk.words[k] == "new"), None)
    if new is None:
        return None
    k = new - 1
    while k > start and talk.words[k] in ("a", "brand", "two", "three", "both", "its"):
        k -= 1
    thing = opening_part(talk, start, k)
    if thing is None or thing.start >= k or put_off(talk, i, end):
        return None
    worn = word_set("worn_out") | word_set("failed")
    verbs = [
        j
        for j in range(thing.end, k)
        if talk.scopes.kind(j) in ("past", "third", "base") and talk.words[j] not in worn
    ]
    if talk.words[k] == "with":
        good = not verbs and talk.words[thing.end] == ","
    elif talk.words[k] in ("got", "gets"):
        good = not verbs or _so_it_is(talk, k, thing)
    elif _so_it_is(talk, k, thing):
        good = True  # "float valve I soaked but it still wept, so that's a new one off the truck"
    else:
        good = (
            talk.words[k] in ("'s", "is")
            and k == thing.end
            and talk.words[i + 1 : i + 2]
            in (
                (".",),
                (",",),
                ("now",),
            )
        )  # "pump's a new one now"
    return put_in(talk, [thing], thing.start, i + 1) if good else None


def _so_it_is(talk: Talk, k: int, thing: Thing) -> bool:
    """Tell whether a conclusion on the part that opens the sentence stands at word k: "so that | 's".

    No other part may be named in between: "compressor's fine but the cap was weak, so it got a new one".
    """
    if talk.words[k] not in ("'s", "is", "got", "gets") or talk.words[k - 1] not in (
        "that",
        "it",
        "she",
        "he",
    ):
        return False
    if talk.words[k - 2] not in ("so", ",", "and", "then"):
        return False
    return not any(thing.end <= t.start < k and not t.modifier for t in talk.things)
