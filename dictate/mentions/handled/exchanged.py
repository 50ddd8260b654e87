"""Parts exchanged in other words than a verb of handling: in pairs, by the old one, or by where it is now.

"One main control board out, one in."  "Drier, three eighths, the old one black inside."
"The relay, the overload and the cap went in together."  "Both went in new, the motor and the cap."
"The door heater's the only thing replaced."  "Got one off the truck."
"Third one's getting a motor. I had one."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.named_work import failed_before
from dictate.mentions.handled.new_ones import put_off
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import other_one, part_meant, rated_part
from dictate.mentions.handled.subjects import subjects_before
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 4
"""Sentences back in which the part that "one off the truck" takes the place of was told of."""


def exchanged(talk: Talk) -> list[Handled]:
    """Return the exchanges of parts that these frames tell."""
    out: list[Handled] = []
    covered = {t.start for h in talk.out if h.action in ("replaced", "installed") for t in h.things}
    for i, word in enumerate(talk.words):
        made = None
        if word in ("in", "on") and i and talk.words[i - 1] in ("one", "ones"):
            made = _one_out_one_in(talk, i)
        elif word == "went" and talk.words[i + 1 : i + 2] in (("in",), ("on",)):
            made = _what_went_on(talk, i) if talk.words[i - 1] == "what" else _went_in(talk, i)
        elif word == "gone" and talk.words[i - 1] in ("had", "has") and talk.words[i + 1 : i + 2] == ("in",):
            made = _had_gone_in(talk, i)
        elif word == "only" and talk.words[i + 1 : i + 2] in (("thing",), ("part",), ("one",)):
            made = _only_thing(talk, i)
        elif word == "one" and talk.words[i + 1 : i + 2] and talk.words[i + 1] in word_set("off_the_truck"):
            made = _off_the_truck(talk, i) or _with_a_new_one(talk, i)
        elif word in ("one", "ones") and i > 2 and "new" in talk.words[i - 4 : i]:
            made = _with_a_new_one(talk, i)
        elif word == "getting" and talk.words[i + 1 : i + 2] in (("a",), ("an",), ("new",)):
            made = _getting_one(talk, i)
        elif word == "what" and talk.words[i + 1 : i + 2] and talk.words[i + 1] in word_set("puts_in_who"):
            made = _what_goes_in(talk, i)
        elif word in ("on", "in") and i and talk.words[i - 1] in ("'s", "is") and talk.w.opens(max(0, i - 2)):
            made = _that_is_on(talk, i)
        elif word in ("in", "on") and talk.words[i + 1 : i + 3] in (
            ("as", "well"),
            ("too", "."),
            ("also", "."),
        ):
            made = _in_as_well(talk, i)
        elif word in ("in", "on") and i and talk.thing_over(i - 1) is not None:
            made = _same_name_in(talk, i)
        elif word in word_set("threw_out_words"):
            made = _binned(talk, i)
        elif word == "both" and i and talk.words[i + 1 : i + 2] in ((",",), (".",)):
            made = _so_both(talk, i)
        elif word in ("old", "auld") and i > 2:
            made = _old_one_told(talk, i)
        if made is None and word in ("old", "auld") and i > 2 and "where" in talk.words[max(0, i - 4) : i]:
            made = _where_the_old_was(talk, i)
        if made is not None and not any(t.start in covered for t in made.things if t.start >= made.start):
            out.append(made)
            covered |= {t.start for t in made.things}
    return out


def _done(talk: Talk, things: list[Thing], start: int, end: int, *, pronoun: bool = False) -> Handled | None:
    """Return the replacement, unless the words around make it a plan, a condition or somebody else's."""
    things = handled_parts(things)
    if not things or not talk.scopes.ours(start) or talk.scopes.conditional(start):
        return None
    if talk.scopes.framed(start) or talk.scopes.advised(start):
        return None
    added = all(t.part in part_words("added") for t in things)
    return Handled(
        "installed" if added else "replaced", "done", things, start, end, None, True, pronoun=pronoun
    )


def _one_out_one_in(talk: Talk, i: int) -> Handled | None:
    """Read "one main control board out, one in", "old gaskets off, new ones on"."""
    start, end = talk.scopes.sentence(i)
    if i + 1 < end and talk.words[i + 1] not in (",", ".", "and", ";", "with"):
        return None
    k = i - 2
    while k > start and talk.words[k] in ("new", "a", "the", "another", "fresh", "good", "matching"):
        k -= 1
    if talk.words[k] not in (",", "and", ";", "then"):
        return None
    out = next((j for j in range(k - 1, max(start, k - 4), -1) if talk.words[j] in ("out", "off")), None)
    thing = talk.thing_over(out - 1) if out is not None and out > start else None
    if thing is None or thing.end != out or talk.scopes.noun(i, i + 1) != "done":
        return None
    return _done(talk, [thing], thing.start, i + 1)


def _went_in(talk: Talk, i: int) -> Handled | None:
    """Read "the relay, the overload and the cap went in together", "both went in new, the motor ..."."""
    start, end = talk.scopes.sentence(i)
    behind = talk.words[i + 2 : min(end, i + 9)]
    if behind[:1] in (("back",), ("the",), ("my",), ("to",), ("for",), ("at",)):
        return None
    new = any(w in word_set("went_in_as_new") for w in behind)
    things, first, called_new = subjects_before(talk, i, start)
    if things:
        failed = any(failed_before(talk, t.name, i) for t in handled_parts(things))
        if not (new or called_new or (failed and talk.words[i + 1] == "in")):
            return None
        return _done(talk, things, first, i + 2)
    k = i - 1
    while k > start and (
        talk.words[k] in word_set("rates_a_part")
        or talk.words[k] in NUMBER_WORDS
        or talk.words[k][0].isdigit()
    ):
        k -= 1
    if k < i - 2 and talk.words[k] == "a" and talk.words[i - 1] in word_set("rates_a_part"):
        meant = _opening_part(talk, start, k) or part_meant(talk, i, "replaced")
        return _done(talk, [meant], k, i + 2, pronoun=True) if meant is not None else None
    if not new or talk.words[i - 1] not in ("both", "all", "they", "three", "two", "those"):
        return None
    comma = next((k for k in range(i + 2, min(end, i + 6)) if talk.words[k] in (",", ":")), None)
    if comma is not None:
        things, _, last, _, _ = objects_behind(talk, comma + 1, end, "replaced")
        if things:
            return _done(talk, things, i, last)
    meant = part_meant(talk, i, "replaced")
    if meant is None:
        return None
    return _done(talk, [*other_one(talk, meant), meant], i, i + 2, pronoun=True)


def _only_thing(talk: Talk, i: int) -> Handled | None:
    """Read "the door heater's the only thing replaced": word i is "only"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 1] != "the" or talk.words[i - 2] not in ("'s", "is", "was", "were", "are"):
        return None
    told = talk.words[i + 2 : min(end, i + 6)]
    if not any(w in word_set("exchanged_words") for w in told) or "not" in told:
        return None
    thing = talk.thing_over(i - 3) if i - 3 >= start else None
    return _done(talk, [thing], thing.start, i + 3) if thing is not None else None


def _off_the_truck(talk: Talk, i: int) -> Handled | None:
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
    return _done(talk, [thing], form, i + 2, pronoun=True) if thing is not None else None


def _failed_last(talk: Talk, i: int, first: int) -> Thing | None:
    """Return the part told of last, from word `first` to word i, as one that had failed."""
    failed = word_set("failed") | word_set("worn_out")
    for thing in reversed([t for t in talk.things if first <= t.start < i]):
        told = talk.words[thing.end : thing.end + 8]
        if not thing.modifier and handled_parts([thing]) and any(w in failed for w in told):
            return thing
    return None


def _getting_one(talk: Talk, i: int) -> Handled | None:
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
    return _done(talk, things, i, last) if things and at_hand else None


def _old_one_told(talk: Talk, i: int) -> Handled | None:
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
    return _done(talk, [thing], thing.start, thing.end)


def _what_goes_in(talk: Talk, i: int) -> Handled | None:
    """Read "what I'm putting in is two of the nine watt ones": told while it is done, or behind it."""
    _, end = talk.scopes.sentence(i)
    k = i + 2
    form = talk.scopes.forms.get(talk.words[k]) if k < end else None
    if form is None or form.kind == "base" or form.verb not in word_set("puts_new_one_in"):
        return None
    k += 1
    if talk.words[k : k + 1] in (("in",), ("on",)):
        k += 1
    if talk.words[k : k + 1] not in (("is",), ("was",), ("are",), ("were",), ("'s",)):
        return None
    things, _, last, _, _ = objects_behind(talk, k + 1, end, "replaced")
    if things:
        return _done(talk, things, i, last)
    stop = next((j for j in range(k + 1, end) if talk.words[j] in (",", ".")), end)
    if not any(w in ("one", "ones") for w in talk.words[k + 1 : stop]):
        return None
    meant = rated_part(talk, i, k + 1, stop) or part_meant(talk, i, "replaced")
    return _done(talk, [meant], i, stop, pronoun=True) if meant is not None else None


def _opening_part(talk: Talk, start: int, end: int) -> Thing | None:
    """Return the part that a sentence opens with, small words and ratings aside."""
    k = start
    while k < end and talk.words[k] in word_set("ellipsis_openers") | word_set("before_part_in_place"):
        k += 1
    thing = next((t for t in talk.things if k <= t.start < min(end, k + 6)), None)
    if thing is None or thing.modifier:
        return None
    verbs = any(talk.scopes.kind(j) in ("past", "third", "base") for j in range(k, thing.start))
    return None if verbs else thing


def _that_is_on(talk: Talk, i: int) -> Handled | None:
    """Read "Contactor, thirty amp two pole. That's on.": the part of the sentence before."""
    start, end = talk.scopes.sentence(i)
    number = talk.w.sentence_of[i]
    if end - start > 5 or talk.words[start] not in ("that", "it", "that's") or not number:
        return None
    first, last = talk.w.sentences[number - 1]
    thing = _opening_part(talk, first, last)
    if thing is None or talk.words[thing.end : thing.end + 1] not in ((",",), (":",)):
        return None
    return _done(talk, [thing], thing.start, i + 1)


def _in_as_well(talk: Talk, i: int) -> Handled | None:
    """Read "the dual cap, fifty plus six, in as well"."""
    start, end = talk.scopes.sentence(i)
    thing = _opening_part(talk, start, end)
    if thing is None or thing.start >= i or talk.words[i - 1] not in (",", "went", "goes"):
        return None
    if any(talk.scopes.kind(j) in ("past", "third", "base") for j in range(thing.end, i - 1)):
        return None
    return _done(talk, [thing], thing.start, i + 1)


def _same_name_in(talk: Talk, i: int) -> Handled | None:
    """Read "door switch out, door switch in": a part of the same name out and in."""
    start, _ = talk.scopes.sentence(i)
    thing = talk.thing_over(i - 1)
    if thing is None or thing.end != i or talk.words[thing.start - 1] not in (",", "and", "the", "new", "a"):
        return None
    out = any(
        t.name == thing.name and talk.words[t.end : t.end + 1] in (("out",), ("off",))
        for t in talk.things
        if start <= t.start < thing.start
    )
    return _done(talk, [thing], thing.start, i + 1) if out else None


def _binned(talk: Talk, i: int) -> Handled | None:
    """Read "the capacitor I binned, and it was a four microfarad that took its place"."""
    start, end = talk.scopes.sentence(i)
    before = talk.words[i - 1] if i > start else ""
    if before not in ("", "i", "we", "and", ",", "i've", "then", "got") or not talk.scopes.ours(i):
        return None
    things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    thing = things[0] if things else _opening_part(talk, start, i)
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
    return _done(talk, [thing], min(thing.start, i), max(last, i + 1))


def _so_both(talk: Talk, i: int) -> Handled | None:
    """Read "so cap and relay both, kit in the truck", "hard to say which killed which, so both."."""
    start, end = talk.scopes.sentence(i)
    things, first, _ = subjects_before(talk, i, start)
    things = handled_parts(things)
    if len(things) == 2 and "so" in talk.words[max(start, first - 2) : first + 1]:
        told = talk.words[i:end]
        if any(w in word_set("went_in_as_new") or w in word_set("own_stock") for w in told):
            return _done(talk, things, first, i + 1)
        return None
    if talk.words[i - 1] != "so" or talk.words[i + 1] != ".":
        return None
    number = talk.w.sentence_of[i]
    since = talk.w.sentences[max(0, number - REACH)][0]
    failed = word_set("failed") | word_set("worn_out")
    bad: dict[str, Thing] = {}
    for t in talk.things:
        if (
            since <= t.start < i
            and handled_parts([t])
            and any(w in failed for w in talk.words[t.end : t.end + 9])
        ):
            bad[t.name] = t
    meant = part_meant(talk, i, "replaced")
    if meant is None:
        return None
    pair = list(bad.values())[-2:] if len(bad) >= 2 else [*other_one(talk, meant), meant]
    if any(t.name in ("power cord", "compressor") for t in pair):
        return None
    return _done(talk, pair, i - 1, i + 1, pronoun=True) if len(pair) == 2 else None


def _what_went_on(talk: Talk, i: int) -> Handled | None:
    """Read "what went on was a new sight glass": word i is "went"."""
    _, end = talk.scopes.sentence(i)
    if talk.words[i + 2 : i + 3] not in (("was",), ("is",), ("were",), ("are",)):
        return None
    things, _, last, _, _ = objects_behind(talk, i + 3, end, "replaced")
    return _done(talk, things, i - 1, last)


def _where_the_old_was(talk: Talk, i: int) -> Handled | None:
    """Read "a room stat, electronic, that's on the wall now where the old dial one used to be"."""
    start, end = talk.scopes.sentence(i)
    behind = talk.words[i + 1 : min(end, i + 8)]
    if not any(w in ("was", "were", "used", "sat", "hung") for w in behind):
        return None
    thing = _opening_part(talk, start, i)
    if thing is None or talk.words[thing.end : thing.end + 1] != (",",) or not handled_parts([thing]):
        return None
    if talk.scopes.conditional(thing.start) or "will" in talk.words[start:i]:
        return None
    return Handled("replaced", "done", [thing], thing.start, i, None, True)  # "used to be" is of the old one


def _with_a_new_one(talk: Talk, i: int) -> Handled | None:
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
    thing = _opening_part(talk, start, k)
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
        good = not verbs
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
    return _done(talk, [thing], thing.start, i + 1) if good else None


def _had_gone_in(talk: Talk, i: int) -> Handled | None:
    """Read "the inlet valve had gone in before any of that", told backwards."""
    start, _ = talk.scopes.sentence(i)
    things, first, _ = subjects_before(talk, i - 1, start)
    if not things or talk.words[i + 2 : i + 3] in (("back",), ("the",), ("my",), ("to",)):
        return None
    if any(t.name in part_words("no_part") or t.name in word_set("washed_parts") for t in things):
        return None
    return _done(talk, things, first, i + 2)
