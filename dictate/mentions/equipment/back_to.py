"""Places where the talk goes back to a machine that was named, without its whole name.

    "Fridge first."  "Back to the fridge."     a short name: the last word of the name of one machine only
    "Gym cooler ..." after "first one by the gym"   the place by which one of several was told apart
    "Also a bottle filler, I'll get to that."   the machine before it goes on
    "Glycol mix is thirty percent"             what only one of the machines has

Each is a naming of its own in the list: it says which machine is spoken of from there on.
Only narrations of two machines and more are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, phrases, unknown_words
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.narration import lowers
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import table, word_set

_OPENERS = word_set("openers", "machine_words")
_SHORT_HEADS = word_set("short_heads", "machine_words")
_SIZES = frozenset(("wee", "tiny", "huge", "long", "tall"))
_HEADING = ((".",), (",",), (":",))
_PLACES = word_set("told_by_place", "machine_words")
_BEFORE_PLACES = ("by", "in", "at", "near", "on", "for", "beside")
_MOST_OPENERS = 5
_MOST_WORDS_TO_A_PLACE = 6


def back_to_one(namings: list[Naming], words: Words) -> list[Naming]:
    """Return the namings with those added by which the talk goes back to a machine named before."""
    if len({_machine(n) for n in namings}) < 2:
        return namings
    out = sorted([*namings, *_by_place(namings, words), *_by_number(namings, words)], key=lambda n: n.start)
    out = sorted([*out, *_by_last_word(out, words)], key=lambda n: n.start)
    out = sorted([*out, *_after_put_off(out, words)], key=lambda n: n.start)
    out = sorted([*out, *_by_what_tells_it(out, words)], key=lambda n: n.start)
    out = sorted([*out, *_by_what_it_holds(out, words)], key=lambda n: n.start)
    return sorted([*out, *_by_topic(out, words)], key=lambda n: n.start)


def _machine(n: Naming) -> tuple[str, str]:
    return n.kind.type, n.name


def _again(n: Naming, start: int, end: int) -> Naming:
    return Naming(start, end, n.kind, n.name, False)


def _heads(n: Naming) -> set[str]:
    """Return the nouns that can stand for a machine: the last word of its name and of its kind."""
    said = {*n.name.split()[-1:], *n.kind.type.replace("-", " ").split()[-1:]}
    if said & {"fridge", "refrigerator"}:
        said |= {"fridge", "refrigerator"}
    return said & _SHORT_HEADS


def _by_last_word(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield "Fridge first." and "back to the fridge": where only one machine named so far can be meant."""
    row = words.words
    taken = {t for n in namings for t in range(n.start, n.end)}
    heads = [(n, _heads(n)) for n in namings if not n.plural]
    wanted = {h for _, said in heads for h in said}
    for k, w in enumerate(row):
        if w not in wanted or k in taken:
            continue
        meant = {_machine(n): n for n, said in heads if w in said and n.start < k}
        if len(meant) != 1 or not _goes_there(row, words.sentences[words.sentence_of[k]][0], k):
            continue
        yield _again(next(iter(meant.values())), k, k + 1)


def _goes_there(row: tuple[str, ...], start: int, k: int) -> bool:
    """Tell whether the words before word k open a sentence, or go to it: "back on the", "at the"."""
    lead = row[start:k]
    if len(lead) <= _MOST_OPENERS and all(w in _OPENERS or w in DETERMINERS for w in lead):
        return True
    looks = unknown_words("no_part") | _SIZES
    if len(lead) == 2 and lead[0] in DETERMINERS and lead[1] in looks and row[k + 1 : k + 2] in _HEADING:
        return True  # "The wee fridge."
    i = k
    while i > start and row[i - 1] in DETERMINERS:
        i -= 1
    if 0 < i - start <= _MOST_OPENERS and row[i - 1] in _TURNS_TO and set(row[start : i - 1]) <= _I_WILL:
        return row[k + 1 : k + 2] in (*_HEADING, ("'s",), ("first",), ("now",), ("next",))
    return (
        i > start and i < k and (row[i - 1] in ("on", "at") or row[max(start, i - 2) : i] == ("back", "to"))
    )


_TURNS_TO = word_set("turns_to", "machine_words")
_I_WILL = word_set("i_will", "machine_words") | _OPENERS


def _by_what_tells_it(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield "The glycol one, ...": the word of its name that only one of the machines has, and "one"."""
    row = words.words
    taken = {t for n in namings for t in range(n.start, n.end)}
    for i in words.starting({"one"}):
        if (
            i < 2
            or i in taken
            or i - 1 in taken
            or row[i - 2] not in DETERMINERS
            or row[i + 1 : i + 2] == ("of",)
        ):
            continue
        named = {_machine(n): n for n in namings if n.start < i and row[i - 1] in n.name.split()[:-1]}
        if len(named) == 1 and _goes_there(row, words.sentences[words.sentence_of[i]][0], i - 1):
            yield _again(next(iter(named.values())), i - 1, i + 1)


def _by_what_it_holds(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield "Dairy discharge ..." and "Meat never noticed": what one machine only is called by.

    Where what is behind is of a machine; "Meat's 34" may as well be the goods.
    """
    row = words.words
    taken = {t for n in namings for t in range(n.start, n.end)}
    holds: dict[str, dict[tuple[str, str], Naming]] = {}
    for n in namings:
        for w in n.name.split()[:-1]:
            if (w,) in phrases("products"):
                holds.setdefault(w, {})[_machine(n)] = n
    for k in words.starting(holds.keys()):
        meant = [n for n in holds[row[k]].values() if n.start < k]
        if len(meant) != 1 or k in taken or row[k + 1 : k + 2] == ():
            continue
        start, _ = words.sentences[words.sentence_of[k]]
        handled = row[k - 1] == "the" and not _HANDLED.isdisjoint(row[max(start, k - 3) : k - 1])
        if handled and row[k + 1] in _BEHIND_ONE:
            yield _again(meant[0], k, k + 1)  # "Pumped just the dairy down"
        if row[k + 1] not in _OF_A_CASE:
            continue
        if all(w in _OPENERS or w in DETERMINERS for w in row[start:k]) and k - start <= _MOST_OPENERS:
            yield _again(meant[0], k, k + 1)


_HANDLED = word_set("looked_at", "machine_words") | word_set("shut_off", "machine_words")
_BEHIND_ONE = frozenset((".", ",", "down", "off", "out", "and", "again", "first", "up", "only", ";"))
_OF_A_CASE = word_set("of_a_case", "machine_words")


def _by_place(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield "Gym cooler ..." and "The upstairs one.", told before: "first one by the gym"."""
    row = words.words
    told: dict[str, Naming] = {}
    for n in namings:
        if n.short or n.plural or row[n.end - 1] != "one":
            continue
        k = n.end
        stop = min(words.sentences[words.sentence_of[n.start]][1], n.end + _MOST_WORDS_TO_A_PLACE)
        while k < stop and (row[k] in _BEFORE_PLACES or row[k] in DETERMINERS):
            k += 1
        if (
            k < stop
            and ((k > n.end and row[k].isalpha()) or row[k] in _PLACES)
            and row[k] not in NUMBER_WORDS
        ):
            told[row[k]] = n
    if len(told) < 2:
        return
    for n in namings:
        one = told.get(row[n.start])
        if one is not None and one.end < n.start and n.end - n.start == 2 and row[n.end - 1] == "one":
            n.name = one.name
    taken = {t for n in namings for t in range(n.start, n.end)}
    for start, end in words.sentences:
        k = start
        while k < end and k - start < _MOST_OPENERS and (row[k] in _OPENERS or row[k] in DETERMINERS):
            if row[k] in told:
                break
            k += 1
        if k < end and row[k] in told and k not in taken and told[row[k]].end < k:
            yield _again(told[row[k]], k, k + 1)


def _by_number(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield "Back on 1, ..." where the machines were told apart by their numbers."""
    row = words.words
    for i in words.starting({"back"}):
        if row[i + 1 : i + 2] not in (("on",), ("to",), ("at",)):
            continue
        k = i + 2 + (row[i + 2 : i + 3] in (("number",), ("unit",), ("#",)))
        number = NUMBERS.get(row[k], row[k]) if k < len(row) else ""
        if not number.isdigit() or row[k + 1 : k + 2] not in ((",",), (".",), (":",), ("again",)):
            continue
        before = [n for n in namings if n.start < i]
        meant = {_machine(n): n for n in before if number in [NUMBERS.get(w, w) for w in n.name.split()]}
        if len(meant) == 1:
            yield _again(next(iter(meant.values())), k, k + 1)


def _after_put_off(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield the machine that goes on after one that was only announced: "..., I'll get to that"."""
    row = words.words
    begins = {n.start for n in namings}
    for before, n in pairwise(namings):
        number = words.sentence_of[n.start]
        _, end = words.sentences[number]
        if _machine(before) == _machine(n) or number + 1 >= len(words.sentences) or end in begins:
            continue
        behind = row[n.end : end]
        put_off = any(behind[j : j + len(p)] == p for p in _put_off() for j in range(len(behind)))
        if put_off and not any(n.start < b < end for b in begins):
            yield _again(before, end, end + 1)


@cache
def _put_off() -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(lowers(p)) for p in table("machine_words")["put_off"])


@cache
def _topics() -> dict[str, list[tuple[tuple[str, ...], frozenset[str], frozenset[str], bool]]]:
    """Return first word -> (phrase, kinds that have it, kinds from which it leads there, only_there)."""
    out: dict[str, list[tuple[tuple[str, ...], frozenset[str], frozenset[str], bool]]] = {}
    for entry in table("machine_words")["topic"]:
        of, away = frozenset(entry["of"]), frozenset(entry.get("away_from", ()))
        for said in entry["said"]:
            phrase = tuple(said.split())
            out.setdefault(phrase[0], []).append((phrase, of, away, bool(entry.get("only_there"))))
    return out


def _by_topic(namings: list[Naming], words: Words) -> Iterator[Naming]:
    """Yield the machine that alone has what is told of, where another one was named last."""
    row = words.words
    topics = _topics()
    turns = list(namings)
    for k, w in enumerate(row):
        if w not in topics:
            continue
        of = next((t for t in topics[w] if _said_at(row, k, t[0])), None)
        before = [n for n in turns if n.start <= k]
        if of is None or not before or any(n.start <= k <= n.end for n in namings):
            continue  # "dairy discharge ..."
        if w == "discharge" and not _RETURN.isdisjoint(row[k : words.sentences[words.sentence_of[k]][1]]):
            continue  # "Discharge forty-four, return forty-nine": the air of a case
        now = max(before, key=lambda n: n.start)
        if now.kind.type in of[1] or (of[2] and now.kind.type not in of[2]):
            continue
        meant = {_machine(n): n for n in before if n.kind.type in of[1]}
        if len(meant) != 1:
            continue
        start, _ = words.sentences[words.sentence_of[k]]
        at = start if now.start < start else max(now.end, _clause(row, k))
        one = _again(next(iter(meant.values())), at, at + 1)
        turns.append(one)
        yield one
        _, end = words.sentences[words.sentence_of[k]]
        if of[3] and end < len(row) and not any(n.start == end for n in turns):
            turns.append(_again(now, end, end + 1))
            yield turns[-1]


_RETURN = frozenset(("return", "returns", "returning", "product"))


def _said_at(row: tuple[str, ...], k: int, phrase: tuple[str, ...]) -> bool:
    """Tell whether a phrase is said at word k; "#" in it stands for a number."""
    here = row[k : k + len(phrase)]
    return len(here) == len(phrase) and all(
        w == p or (p == "#" and (w in NUMBER_WORDS or w[:1].isdigit()))
        for w, p in zip(here, phrase, strict=True)
    )


def _clause(row: tuple[str, ...], k: int) -> int:
    """Return the word behind the last comma before word k."""
    while k and row[k - 1] not in (",", ";", ":", "."):
        k -= 1
    return k
