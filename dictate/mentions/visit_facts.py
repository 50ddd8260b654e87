"""Facts of the visit said in words: `find_visit_facts(narration) -> list[VisitMention]`.

Site, customer, technician and certificate come out as said after the words that announce them; a date
comes out as YYYY-MM-DD only when day, month and year were said. Nothing is guessed from a machine's or a
place's mention.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from dictate.mentions.narration import Narration, lowers
from dictate.mentions.parts.designations import read_designation
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.mentions import VisitMention
from dictate.vocabulary.load import table, word_set

_STOP = word_set("name_ends")


@cache
def _phrases(name: str) -> tuple[tuple[str, ...], ...]:
    data: dict[str, Any] = table("visit_facts")
    return tuple(sorted((tuple(p.split()) for p in data[name]), key=len, reverse=True))


@cache
def _by_first(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Sort phrases by their first word: most words of a narration begin none."""
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in _phrases(name):
        found[phrase[0]] = (*found.get(phrase[0], ()), phrase)
    return found


def _at(row: tuple[str, ...], i: int, name: str) -> int:
    begun = _by_first(name).get(row[i], ()) if i < len(row) else ()
    return next((len(p) for p in begun if row[i : i + len(p)] == p), 0)


def find_visit_facts(narration: Narration) -> list[VisitMention]:
    """Return the facts of the visit that were said, each at most once."""
    words = words_of(narration)
    row = words.words
    out: dict[str, VisitMention] = {}

    def add(field: str, value: str, first: int, last: int) -> None:
        s, e = words.span(first, last)
        out.setdefault(field, VisitMention(field, value, narration.at(s, e), narration.heard(s, e)))

    lists = ("certificate", "technician", "introduces", "customer")
    for i in words.starting({first for name in lists for first in _by_first(name)}):
        n = _at(row, i, "certificate")
        if n:
            k = i + n
            while k < len(row) and row[k] in ("is", "number", ":", "'s", "no", "#"):
                k += 1
            made = read_designation(narration, words.tokens[k]) if k < len(row) else None
            if made is not None and any(c.isdigit() for c in made.text):
                add("certificate", made.text, i, words.word_of_token(made.end))
        n = _at(row, i, "technician")
        if n and "technician" not in out:
            name = _name(narration, words, i + n)
            if name is not None:
                add("technician", name[0], i, name[1])
        n = _at(row, i, "introduces")
        if (
            n
            and i + n + 1 < len(row)
            and "technician" not in out
            and row[i + n + 1] in ("at", "from", "here", "with", "again", ",")
        ):
            token = narration.tokens[words.tokens[i + n]]
            start, _ = words.sentences[words.sentence_of[i]]
            if (
                token.text[:1].isupper()
                and token.text[1:].islower()
                and i - start <= 4
                and words.sentence_of[i] <= 2
                and not _is_machine(row, i + n)
            ):
                add("technician", token.text, i, i + n + 1)
        n = _at(row, i, "customer")
        if n:
            name = _name(narration, words, i + n)
            if name is not None:
                add("customer", name[0], i, name[1])
    site = _site(narration, words)
    if site is not None:
        add("site", site[0], site[1], site[2])
    date = _date(narration, words)
    if date is not None:
        add("date", date[0], date[1], date[2])
    law = _jurisdiction(narration, words)
    if law is not None:
        add("jurisdiction", law[0], law[1], law[2])
    return list(out.values())


@cache
def _places() -> dict[tuple[str, ...], str]:
    """Return country by the name of a place, names in words."""
    data: dict[str, Any] = table("places")
    out = {tuple(lowers(name)): code for code, names in data["countries"].items() for name in names}
    return out | {tuple(lowers(name)): "US" for name in data["states"]}


@cache
def _place_words(name: str) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(lowers(p)) for p in table("places")[name])


@cache
def _place_firsts() -> frozenset[str]:
    """Return the words that a place or a law begins with."""
    return frozenset(p[0] for p in (*_places(), *_place_words("us_law")))


def _jurisdiction(narration: Narration, words: Words) -> tuple[str, int, int] | None:
    """Return the country whose law holds, from a place or a law that was named; never from units.

    None when nothing was named, or when two countries were.
    """
    row = words.words
    found: list[tuple[str, int, int]] = []
    laws: list[tuple[str, int, int]] = []
    written = any(t.text[:1].isupper() for t in narration.tokens)
    for i in words.starting(_place_firsts()):
        for n in (4, 3, 2, 1):
            phrase = row[i : i + n]
            if phrase in _place_words("us_law") and not any(
                w in ("no", "not", "isn't") for w in row[max(0, i - 3) : i]
            ):
                laws.append(("US", i, i + n))
                break
            code = _places().get(phrase)
            if code is None:
                continue
            text = narration.tokens[words.tokens[i]].text
            if written and not text[:1].isupper() and phrase[0] != "the":
                break
            behind = any(row[i - k : i] in _place_words("before") for k in (1, 2) if i >= k)
            behind = behind or (
                i >= 2 and row[i - 1] == "," and narration.tokens[words.tokens[i - 2]].text[:1].isupper()
            )
            if behind or row[i + n : i + n + 1] in _place_words("after"):
                found.append((code, i, i + n))
            break
    if len({f[0] for f in found}) > 1:
        return None
    return next(iter(found or laws), None)


def _is_machine(row: tuple[str, ...], i: int) -> bool:
    """Tell whether the word at i names a machine or a part ("this is Rack B")."""
    names = {
        w
        for entry in table("machines")["machine"]
        for said in (entry["type"], *entry["said"])
        for w in said.lower().split()
    }
    return row[i] in names or row[i] in ("unit", "store", "job", "site", "circuit", "the", "a", "number")


def _name(narration: Narration, words: Words, i: int) -> tuple[str, int] | None:
    """Return the name that starts at word i, up to four words; only words written with a capital count."""
    row = words.words
    k = i
    while k < len(row) and k - i < 4 and row[k] not in _STOP:
        text = narration.tokens[words.tokens[k]].text
        if not text[:1].isupper():
            break
        k += 1
    if k == i:
        return None
    s, e = words.span(i, k)
    return narration.heard(s, e), k


def _site(narration: Narration, words: Words) -> tuple[str, int, int] | None:
    """Return the place ("the school kitchen") named in the first sentences."""
    row = words.words
    limit = words.sentences[min(3, len(words.sentences) - 1)][1] if words.sentences else 0
    for i in range(limit):
        n = _at(row, i, "site_nouns")
        if not n:
            continue
        start, _ = words.sentences[words.sentence_of[i]]
        k = i - 1
        while k >= start and i - k <= 4 and row[k] not in ("the", "a", "an", "this", "at", ",", "."):
            k -= 1
        if (
            k >= start
            and row[k] in ("the", "a", "this")
            and k - 1 >= start
            and row[k - 1] in ("at", "from", "in")
        ):
            if row[k - 1] == "in" and not any(w in ("this", "is", "i'm", "i") for w in row[start : k - 1]):
                pass
            last = i + n
            while last < len(row) and _at(row, last, "site_nouns") and row[last] != ".":
                last += _at(row, last, "site_nouns")
            s, e = words.span(k + 1, last)
            return narration.heard(s, e), k - 1, last
    return None


def _date(narration: Narration, words: Words) -> tuple[str, int, int] | None:
    """Return a full date that is announced as today's."""
    row = words.words
    numbers = {words.word_of_token(n.start): n for n in find_numbers(narration)}
    years = {w for w in words.places if w[:2] == "20"}
    for i in words.starting(years | {p[0] for p in _phrases("months")}):
        word = row[i]
        if (
            re.fullmatch(r"20\d\d", word)
            and i + 4 < len(row)
            and row[i + 1] == "-"
            and row[i + 3] == "-"
            and row[i + 2].isdigit()
            and row[i + 4].isdigit()
        ):
            return f"{word}-{int(row[i + 2]):02d}-{int(row[i + 4]):02d}", i, i + 5
        if (word,) not in _phrases("months") or not _announced(row, words, i):
            continue
        month = [p[0] for p in table_months()].index(word) + 1
        k = i + 1
        if k < len(row) and row[k] == "the":
            k += 1
        day = numbers.get(k)
        if day is None or not 1 <= day.value <= 31:
            continue
        k = words.word_of_token(day.end)
        while k < len(row) and row[k] in (",", "of"):
            k += 1
        year = _year(row, k, numbers, words)
        if year is None:
            continue
        return f"{year[0]:04d}-{month:02d}-{int(day.value):02d}", i, year[1]
    return None


@cache
def table_months() -> tuple[tuple[str, ...], ...]:
    """Return the month names in their order."""
    return tuple((m,) for m in table("visit_facts")["months"])


def _announced(row: tuple[str, ...], words: Words, i: int) -> bool:
    start, _ = words.sentences[words.sentence_of[i]]
    for k in range(max(start, i - 5), i):
        if _at(row, k, "date_opens"):
            return True
    return i == start


def _year(row: tuple[str, ...], k: int, numbers: dict[int, Any], words: Words) -> tuple[int, int] | None:
    if k >= len(row):
        return None
    if re.fullmatch(r"20\d\d", row[k]):
        return int(row[k]), k + 1
    number = numbers.get(k)
    if number is not None and 2000 <= number.value <= 2099:
        return int(number.value), words.word_of_token(number.end)
    return None
