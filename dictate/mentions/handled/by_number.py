"""New parts told by their part numbers alone: nobody reads the number of a part that stays where it is.

"In: relay, number R4417."  "And the liquid line solenoid, number LSV 6, with a 120 coil."
"Cap's part number SC161, relay's PR40."  "Start cap SC-88, relay PR-40, one of each."
"""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.named_work import failed_before
from dictate.mentions.handled.rows import only_a_size
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.parts.designations import read_designation
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_COUNTED = (
    ("one", "of", "each"),
    ("just", "the", "one"),
    ("one", "off"),
    ("a", "pair", "of"),
    ("one", "each"),
)


_COUNTING = frozenset(w for c in _COUNTED for w in c if w in ("each", "just", "off", "pair"))


def by_number(talk: Talk) -> list[Handled]:
    """Return the replacements that a part number right behind a part tells of, where nothing else does."""
    out: list[Handled] = []
    no_new = word_set("number_of_no_new_part")
    told = {t.name for h in talk.out for t in h.things if h.action in ("replaced", "installed")}
    for n, (start, end) in enumerate(talk.w.sentences):
        first, last = bisect_left(talk.starts, start), bisect_left(talk.starts, end)
        if first == last:
            continue
        row = talk.words[start:end]
        if row[-1] == "?" or not no_new.isdisjoint(row):
            continue
        counted = not _COUNTING.isdisjoint(row) and any(
            row[k : k + len(c)] == c for c in _COUNTED for k in range(len(row))
        )
        things = [t for t in talk.things[first:last] if not t.modifier]
        marked = [t for t in things if _marked(talk, t, end)]
        for thing in things:
            if "old" in talk.words[max(start, thing.start - 3) : thing.start]:
                continue
            if thing.name in told or not handled_parts([thing]) or thing.name in part_words("no_part"):
                continue
            if thing.name == "orifice" or only_a_size(talk, thing):
                continue  # "new valve, orifice number four"; "a contactor, one twenty coil, part C340"
            if thing.name in word_set("big_parts") and not failed_before(talk, thing.name, start):
                continue  # "compressor number 40982": what stands on its plate
            if thing in marked:
                behind = talk.words[thing.end : min(end, thing.end + 16)]
                sure = counted or len(marked) > 1 or failed_before(talk, thing.name, start)
                sure = sure or any(w in word_set("fitted_words") for w in behind)
            else:
                sure = _numbered(talk, thing, end)
            if not sure or _governed(talk, thing, start) or talk.scopes.framed(thing.start):
                continue
            if talk.scopes.noun(thing.start, thing.end) != "done" or _still_to_come(talk, n):
                continue
            row_of_it = [thing, *_plus(talk, thing, end)]
            out.append(Handled("replaced", "done", row_of_it, thing.start, thing.end, None, True))
            told |= {t.name for t in row_of_it}
    return out


def _numbered(talk: Talk, thing: Thing, end: int) -> bool:
    """Tell whether "number R4417", "part SC161" stands behind a part, in apposition or behind "'s"."""
    k = thing.end
    while k < min(end, thing.end + 9) and talk.words[k] not in ("number", "part"):
        word = talk.words[k]
        apposed = word in (",", "'s", "is", "that", "it") or word in word_set("apposed_to_part")
        if not (apposed or talk.w.number_end(k) > k or word in word_set("rates_a_part") or _rating(word)):
            return False
        k += 1
    if k >= min(end, thing.end + 9):
        return False
    while k < end and talk.words[k] in ("number", "part", "is", "'s"):
        k += 1
    made = read_designation(talk.w.narration, talk.w.tokens[k]) if k < end else None
    if made is None:
        return False
    digits = sum(c.isdigit() for c in made.text)
    return digits > 0 and (any(c.isalpha() for c in made.text) or digits >= 4)


def _plus(talk: Talk, thing: Thing, end: int) -> list[Thing]:
    """Return the parts that "plus the 7.5 microfarad capacitor" adds in the same sentence."""
    out = []
    for t in talk.things:
        if not thing.end <= t.start < end or t.modifier or not handled_parts([t]):
            continue
        k = t.start - 1
        while k > thing.end and (
            talk.words[k] in ("the", "a", "an", "new", "its")
            or _rating(talk.words[k])
            or talk.words[k] in NUMBER_WORDS
            or talk.words[k][:1].isdigit()
        ):
            if talk.words[k] == "plus":
                break
            k -= 1
        if talk.words[k] == "plus":
            out.append(t)
    return out


def _rating(word: str) -> bool:
    return word in word_set("rating_words")


def _marked(talk: Talk, thing: Thing, end: int) -> bool:
    """Tell whether a mark of letters and digits stands right behind a part ("start cap SC-88")."""
    k = thing.end + (talk.words[thing.end : thing.end + 1] in ((",",), ("'s",)))
    if talk.words[k : k + 2] in (("that", "'s"), ("it", "'s")):
        k += 2
    made = read_designation(talk.w.narration, talk.w.tokens[k]) if k < end else None
    if made is None or not made.text[:1].isalpha() or not any(c.isdigit() for c in made.text):
        return False
    first = talk.words[k]
    if first in ("a", "i", "r", "l", "t", "phase") or len(made.text) < 3:
        return False
    behind = talk.w.word_of_token(made.end) if made.end < len(talk.w.narration.tokens) else end
    return behind >= end or talk.words[behind] in (",", ".", "and", ";", "with", "is", "'s")


def _governed(talk: Talk, thing: Thing, start: int) -> bool:
    """Tell whether a verb of another sense stands before the part in its clause ("read the cap")."""
    k = thing.start - 1
    while k >= start and talk.words[k] not in (",", ";", ":", "and", "plus"):
        if talk.scopes.kind(k) in ("past", "third", "base", "ing") and talk.thing_over(k) is None:
            return True
        k -= 1
    return False


def _still_to_come(talk: Talk, number: int) -> bool:
    """Tell whether the sentence behind says that the part is still to come ("It's on order.")."""
    if number + 1 >= len(talk.w.sentences):
        return False
    start, end = talk.w.sentences[number + 1]
    return any(w in ("order", "ordered", "coming", "arrives", "quoted") for w in talk.words[start:end])
