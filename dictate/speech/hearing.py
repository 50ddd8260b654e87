"""Put the trade's words right where the evidence is good, and keep what was heard beside them.

The words and the evidence each needs are data (`vocabulary/hearing.toml`). Numbers are never touched here:
what a number may be instead is decided by the grammar and by forced scoring, or it is flagged.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.record.transcript import Doubt, Segment, Word
from dictate.vocabulary.load import table

_NUMBER_WORD = re.compile(
    r"zero|oh|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|hundred|thousand|point|half"
    r"|(?:thir|four|fif|six|seven|eigh|nine)teen|(?:twen|thir|for|fif|six|seven|eigh|nine)ty|quarter|minus"
)


@dataclass(frozen=True)
class _Term:
    right: tuple[str, ...]
    heard: tuple[tuple[tuple[str, ...], bool], ...]  # (words, needs a witness nearby)
    near: tuple[str, ...]
    unless: tuple[str, ...]
    reach: int
    next: tuple[str, ...]


@cache
def _terms() -> tuple[_Term, ...]:
    out = []
    for entry in table("hearing").get("term", []):
        heard = [(tuple(_bare(h).split()), False) for h in entry.get("always", [])]
        heard += [(tuple(_bare(h).split()), True) for h in entry.get("heard", [])]
        heard.sort(key=lambda pair: -len(pair[0]))
        out.append(
            _Term(
                tuple(entry["right"].split()),
                tuple(heard),
                tuple(entry.get("near", [])),
                tuple(entry.get("unless", [])),
                int(entry.get("reach", 6)),
                tuple(entry.get("next", [])),
            )
        )
    return tuple(out)


@cache
def version() -> str:
    """Return a short name that changes with the vocabulary of this module."""
    return f"{zlib.crc32(repr(table('hearing')).encode()):08x}"


def hint() -> str:
    """Return the neutral trade words that the recogniser is shown."""
    return ", ".join(table("hearing")["hint"]) + "."


def other_wordings(text: str) -> list[str]:
    """Return what else the sound of a text may be, as far as its numbers go; the text itself is left out."""
    numbers = homophones_as_numbers(text)
    return [t for t in dict.fromkeys((numbers, _joined(text), _joined(numbers))) if t != text]


def _joined(text: str) -> str:
    """Return the text without commas between number words: "two, oh eight" is one number or two.

    >>> _joined("Three phase, two, oh eight, and one, twenty-two volts, 5, 6.")
    'Three phase, two oh eight, and one twenty-two volts, 5, 6.'
    """
    words = text.split(" ")
    for n in range(len(words) - 1):
        here, there = _bare(words[n]), _bare(words[n + 1])
        spoken = words[n].endswith(",") and not here[:1].isdigit() and not there[:1].isdigit()
        if spoken and _is_number(here) and _is_number(there):
            words[n] = words[n][:-1]
    return " ".join(words)


def homophones_as_numbers(text: str) -> str:
    """Return the text with each word that may be a number in disguise written as that number.

    The words and the places in which they are ordinary words are data (`[[homophone]]`).

    >>> homophones_as_numbers("Voltage now to twenty-nine, then down to forty.")
    'Voltage now two twenty-nine, then down to forty.'
    >>> homophones_as_numbers("Charged two pounds for ounces, held for ten minutes, load side to 06.")
    'Charged two pounds four ounces, held for ten minutes, load side 206.'
    """
    words = text.split(" ")
    out: list[str] = []
    for n, word in enumerate(words):
        number = _as_number(words, n)
        if out and out[-1].startswith("\0"):
            joined = out.pop()[1:]
            out.append(joined + word)
        elif number is None:
            out.append(word)
        elif re.match(r"\d\d(?!\d)", words[n + 1]) and not word.endswith(","):
            out.append("\0" + number[1])  # "to 06" is written 206
        else:
            tail = word[len(word.rstrip(".,")) :]
            out.append((number[0].capitalize() if word[:1].isupper() else number[0]) + tail)
    return " ".join(out)


def _as_number(words: Sequence[str], n: int) -> tuple[str, str] | None:
    """Return (word, digit) of the number that the nth word may be, None when it is surely a word."""
    rules = _homophones().get(_bare(words[n]))
    if rules is None or n + 1 >= len(words):
        return None
    before = _bare(words[n - 1]) if n else ""
    after = [_bare(w) for w in words[n + 1 : n + 5]]
    if before in rules["not_after"] or _is_number(before) or (n and words[n - 1][-1:] in ".?!"):
        return None
    if after[0] in rules["units"]:
        return rules["word"], rules["digit"]
    if not _is_number(after[0]):
        return None
    follows = next((w for w in after if not _is_number(w)), "")
    if follows in rules["not_before_units"]:
        return None
    return rules["word"], rules["digit"]


def _is_number(word: str) -> bool:
    return bool(re.match(r"-?\d", word)) or any(_NUMBER_WORD.fullmatch(part) for part in word.split("-"))


@cache
def _homophones() -> dict[str, dict[str, Any]]:
    out = {}
    for entry in table("hearing").get("homophone", []):
        rules = {k: frozenset(v) if isinstance(v, list) else v for k, v in entry.items()}
        for key in ("not_after", "units", "not_before_units"):
            rules.setdefault(key, frozenset())
        for said in entry["said"]:
            out[said] = rules
    return out


def put_right(segment: Segment) -> Segment:
    """Return the segment with misheard trade words put right; `as_heard` keeps the recogniser's own words.

    Where one word becomes two, the first carries all of `as_heard` and the other an empty one.
    """
    words = list(segment.words)
    doubts = list(segment.doubts)
    changed = False
    at = 0
    while at < len(words):
        done = _term_at(words, at) or _near_miss(words, at)
        if done is None:
            at += 1
            continue
        length, right = done
        new = _replaced(words[at : at + length], right)
        doubts = [_moved(d, at, length, len(new)) for d in doubts]
        words[at : at + length] = new
        at += len(new)
        changed = True
    if not changed:
        return segment
    text = " ".join(w.text for w in words)
    return segment.model_copy(update={"words": words, "text": text, "doubts": doubts})


def _term_at(words: Sequence[Word], at: int) -> tuple[int, tuple[str, ...]] | None:
    """Return (how many words, what they become) for a misheard term that begins here."""
    for term in _terms():
        for heard, needs_context in term.heard:
            span = words[at : at + len(heard)]
            if len(span) < len(heard) or tuple(_bare(w.text) for w in span) != heard:
                continue
            if any(w.text[-1:] in ".?!" for w in span[:-1]):
                continue  # the term would reach over the end of a sentence
            before = [_bare(w.text) for w in words[max(0, at - term.reach) : at]]
            after = [_bare(w.text) for w in words[at + len(heard) :][: term.reach]]
            if needs_context and any(_stands(u, [*before, *heard, *after]) for u in term.unless):
                continue
            if needs_context and not any(_stands(n, [*before, *after]) for n in term.near):
                continue
            if needs_context and term.next and not any(_stands(n, after[:1]) for n in term.next):
                continue
            return len(heard), term.right
    return None


def _stands(pattern: str, around: Sequence[str]) -> bool:
    if pattern == "*number*":
        return any(_is_number(w) for w in around)
    if pattern.endswith("*"):
        return any(w.startswith(pattern[:-1]) for w in around)
    return f" {pattern} " in f" {' '.join(around)} "


def _near_miss(words: Sequence[Word], at: int) -> tuple[int, tuple[str, ...]] | None:
    """Return the trade word that a word in doubt sounds and looks like, when it is no word of its own."""
    rules = table("hearing").get("near_miss", {})
    word = words[at]
    bare = _bare(word.text)
    if word.probability is None or word.probability >= rules.get("below", 0.0):
        return None
    if len(bare) < 6 or not bare.isalpha() or bare in rules.get("spare", ()):
        return None
    for target in rules.get("words", ()):
        if bare in (target, target + "s", target + "d", target + "ed", target + "ing"):
            return None
    for target in rules.get("words", ()):
        if skeleton(bare) == skeleton(target) and distance(bare, target) <= 2:
            return 1, (target,)
    return None


def _replaced(old: Sequence[Word], right: Sequence[str]) -> list[Word]:
    """Return the new words: times spread over the old span, marks and capital of the old ones kept."""
    heard = " ".join(w.text for w in old)
    texts = list(right)
    if heard[:1].isupper():
        texts[0] = texts[0][:1].upper() + texts[0][1:]
    tail = re.search(r"[^\w]*$", old[-1].text)
    texts[-1] += tail.group() if tail else ""
    if len(old) == len(texts):
        return [
            w if w.text == t else w.model_copy(update={"text": t, "as_heard": w.text})
            for w, t in zip(old, texts, strict=True)
        ]
    start, end = old[0].start_s, old[-1].end_s
    known = [w.probability for w in old if w.probability is not None]
    out = []
    for n, text in enumerate(texts):
        word = Word(text=text, probability=min(known, default=None), as_heard="" if n else heard)
        if start is not None and end is not None:
            word.start_s = round(start + (end - start) * n / len(texts), 2)
            word.end_s = round(start + (end - start) * (n + 1) / len(texts), 2)
        out.append(word)
    return out


def _moved(doubt: Doubt, at: int, old: int, new: int) -> Doubt:
    """Return the doubt with its word numbers after `old` words at `at` became `new` ones."""

    def where(index: int) -> int:
        if index < at:
            return index
        if index >= at + old:
            return index + new - old
        return min(index, at + new - 1)

    return doubt.model_copy(
        update={"first_word": where(doubt.first_word), "last_word": where(doubt.last_word)}
    )


def _bare(text: str) -> str:
    return re.sub(r"[^\w\s'.-]", "", text.lower()).strip(" .'-")


def skeleton(word: str) -> str:
    """Return the consonants of a word as they sound, roughly: what survives a bad microphone.

    >>> skeleton("capaciter") == skeleton("capacitor")
    True
    """
    out = word.lower()
    for a, b in (
        ("ph", "f"),
        ("ck", "k"),
        ("sch", "sk"),
        ("ce", "s"),
        ("ci", "s"),
        ("cy", "s"),
        ("dge", "j"),
    ):
        out = out.replace(a, b)
    out = out.translate(str.maketrans("cqzbdgv", "kksptkf"))
    out = re.sub(r"[aeiouyhw']", "", out)
    return re.sub(r"(.)\1+", r"\1", out)


def distance(a: str, b: str) -> int:
    """Return how many letters must be changed, added or left out to make one word of the other (Levenshtein).

    >>> distance("kitten", "sitting")
    3
    """
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        before, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (x != y))
    return row[-1]
