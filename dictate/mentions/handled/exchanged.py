"""Parts exchanged in other words than a verb of handling: in pairs, or by where they are now.

"One main control board out, one in."  "Contactor, thirty amp two pole. That's on."
"The relay, the overload and the cap went in together."  "Both went in new, the motor and the cap."

    old_one   told by the old one, or by where the new one came from
    put_in    what they share
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.named_work import failed_before
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.old_one import (
    binned,
    did_the_part,
    gets_another_day,
    getting_one,
    off_the_truck,
    old_one_told,
    only_thing,
    where_the_old_was,
    with_a_new_one,
)
from dictate.mentions.handled.put_in import opening_part, put_in
from dictate.mentions.handled.referents import other_one, part_meant, rated_part
from dictate.mentions.handled.subjects import subjects_before
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 4
"""Sentences back in which the parts that "so both" means were told of."""
_LEADS = frozenset(
    (
        "in",
        "on",
        "went",
        "gone",
        "only",
        "one",
        "ones",
        "get",
        "gets",
        "getting",
        "what",
        "both",
        "old",
        "auld",
        "did",
    )
)


def exchanged(talk: Talk) -> list[Handled]:
    """Return the exchanges of parts that these frames tell."""
    out: list[Handled] = []
    covered = {t.start for h in talk.out if h.action in ("replaced", "installed") for t in h.things}
    for i in talk.w.starting(_LEADS | word_set("threw_out_words")):
        word, made = talk.words[i], None
        if word in ("in", "on") and i and talk.words[i - 1] in ("one", "ones"):
            made = _one_out_one_in(talk, i)
        elif word == "went" and talk.words[i + 1 : i + 2] in (("in",), ("on",)):
            made = _what_went_on(talk, i) if talk.words[i - 1] == "what" else _went_in(talk, i)
        elif word == "gone" and talk.words[i - 1] in ("had", "has") and talk.words[i + 1 : i + 2] == ("in",):
            made = _had_gone_in(talk, i)
        elif word == "only" and talk.words[i + 1 : i + 2] in (("thing",), ("part",), ("one",)):
            made = only_thing(talk, i)
        elif word == "one" and talk.words[i + 1 : i + 2] and talk.words[i + 1] in word_set("off_the_truck"):
            made = off_the_truck(talk, i) or with_a_new_one(talk, i)
        elif word in ("one", "ones") and i > 2 and "new" in talk.words[i - 4 : i]:
            made = with_a_new_one(talk, i)
        elif word == "getting" and talk.words[i + 1 : i + 2] in (("a",), ("an",), ("new",)):
            made = getting_one(talk, i)
        elif word in ("get", "gets"):
            made = gets_another_day(talk, i)
        elif word == "did":
            made = did_the_part(talk, i)
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
            made = binned(talk, i)
        elif word == "both" and i and talk.words[i + 1 : i + 2] in ((",",), (".",)):
            made = _so_both(talk, i)
        elif word in ("old", "auld") and i > 2:
            made = old_one_told(talk, i)
        if made is None and word in ("old", "auld") and i > 2 and "where" in talk.words[max(0, i - 4) : i]:
            made = where_the_old_was(talk, i)
        if made is not None and not any(t.start in covered for t in made.things if t.start >= made.start):
            out.append(made)
            covered |= {t.start for t in made.things}
    return out


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
    return put_in(talk, [thing], thing.start, i + 1)


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
        return put_in(talk, things, first, i + 2)
    k = i - 1
    while k > start and (
        talk.words[k] in word_set("rates_a_part")
        or talk.words[k] in NUMBER_WORDS
        or talk.words[k][0].isdigit()
    ):
        k -= 1
    if k < i - 2 and talk.words[k] == "a" and talk.words[i - 1] in word_set("rates_a_part"):
        meant = opening_part(talk, start, k) or part_meant(talk, i, "replaced")
        return put_in(talk, [meant], k, i + 2, pronoun=True) if meant is not None else None
    if not new or talk.words[i - 1] not in ("both", "all", "they", "three", "two", "those"):
        return None
    comma = next((k for k in range(i + 2, min(end, i + 6)) if talk.words[k] in (",", ":")), None)
    if comma is not None:
        things, _, last, _, _ = objects_behind(talk, comma + 1, end, "replaced")
        if things:
            return put_in(talk, things, i, last)
    meant = part_meant(talk, i, "replaced")
    if meant is None:
        return None
    return put_in(talk, [*other_one(talk, meant), meant], i, i + 2, pronoun=True)


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
        return put_in(talk, things, i, last)
    stop = next((j for j in range(k + 1, end) if talk.words[j] in (",", ".")), end)
    if not any(w in ("one", "ones") for w in talk.words[k + 1 : stop]):
        return None
    meant = rated_part(talk, i, k + 1, stop) or part_meant(talk, i, "replaced")
    return put_in(talk, [meant], i, stop, pronoun=True) if meant is not None else None


def _that_is_on(talk: Talk, i: int) -> Handled | None:
    """Read "Contactor, thirty amp two pole. That's on.": the part of the sentence before."""
    start, end = talk.scopes.sentence(i)
    number = talk.w.sentence_of[i]
    if end - start > 5 or talk.words[start] not in ("that", "it", "that's") or not number:
        return None
    first, last = talk.w.sentences[number - 1]
    thing = opening_part(talk, first, last)
    if thing is None or talk.words[thing.end : thing.end + 1] not in ((",",), (":",)):
        return None
    return put_in(talk, [thing], thing.start, i + 1)


def _in_as_well(talk: Talk, i: int) -> Handled | None:
    """Read "the dual cap, fifty plus six, in as well"."""
    start, end = talk.scopes.sentence(i)
    thing = opening_part(talk, start, end)
    if thing is None or thing.start >= i or talk.words[i - 1] not in (",", "went", "goes"):
        return None
    if any(talk.scopes.kind(j) in ("past", "third", "base") for j in range(thing.end, i - 1)):
        return None
    return put_in(talk, [thing], thing.start, i + 1)


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
    return put_in(talk, [thing], thing.start, i + 1) if out else None


def _so_both(talk: Talk, i: int) -> Handled | None:
    """Read "so cap and relay both, kit in the truck", "hard to say which killed which, so both."."""
    start, end = talk.scopes.sentence(i)
    things, first, _ = subjects_before(talk, i, start)
    things = handled_parts(things)
    if len(things) == 2 and "so" in talk.words[max(start, first - 2) : first + 1]:
        told = talk.words[i:end]
        if any(w in word_set("went_in_as_new") or w in word_set("own_stock") for w in told):
            return put_in(talk, things, first, i + 1)
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
    return put_in(talk, pair, i - 1, i + 1, pronoun=True) if len(pair) == 2 else None


def _what_went_on(talk: Talk, i: int) -> Handled | None:
    """Read "what went on was a new sight glass": word i is "went"."""
    _, end = talk.scopes.sentence(i)
    if talk.words[i + 2 : i + 3] not in (("was",), ("is",), ("were",), ("are",)):
        return None
    things, _, last, _, _ = objects_behind(talk, i + 3, end, "replaced")
    return put_in(talk, things, i - 1, last)


def _had_gone_in(talk: Talk, i: int) -> Handled | None:
    """Read "the inlet valve had gone in before any of that", told backwards."""
    start, _ = talk.scopes.sentence(i)
    things, first, _ = subjects_before(talk, i - 1, start)
    if not things or talk.words[i + 2 : i + 3] in (("back",), ("the",), ("my",), ("to",)):
        return None
    if any(t.name in part_words("no_part") or t.name in word_set("washed_parts") for t in things):
        return None
    return put_in(talk, things, first, i + 2)
