"""What the trade's grammar says about a text that a recogniser considers: `TradeGrammar`.

The speech stage decodes every piece of sound several times and asks two things about the wordings: how much
of each is accepted (`score`), and what else its numbers could be (`rivals`). It then listens again for those.
This module answers from the number grammar alone; it never hears anything and decides nothing.

>>> grammar = TradeGrammar()
>>> grammar.score("recovered two pounds six ounces") > grammar.score("recovered 2.6 ohms")
True
>>> sorted(r.text for r in grammar.rivals("suction to 65 psi"))[:2]
['15', '165']
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from functools import cache
from importlib import resources
from typing import NamedTuple

from dictate.mentions.narration import Narration, Token
from dictate.mentions.phrases import Phrases
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.vocabulary.load import table

MOST_PER_NUMBER = 5
MOST_PER_TEXT = 14
"""How many other wordings are worth listening for: each costs one forced scoring, some 5 to 45 ms."""
_STATE = 1  # raised when the logic here changes; the vocabulary counts by itself
_WORDS = ("numbers", "units", "refrigerants", "confidence")
_MONEY = re.compile(r"[$£€¥]")


class Wording(NamedTuple):
    """Another wording of the characters [start, end) of a text: what the speech stage calls a rival."""

    start: int
    end: int
    text: str


@cache
def _version() -> str:
    crc = zlib.crc32(str((_STATE, MOST_PER_NUMBER, MOST_PER_TEXT)).encode())
    for name in _WORDS:
        crc = zlib.crc32((resources.files("dictate.vocabulary") / f"{name}.toml").read_bytes(), crc)
    return f"trade-{crc:08x}"


@cache
def _announcements() -> tuple[Phrases, dict[str, tuple[frozenset[str], int]]]:
    """Return the words that announce a value, and for each entry the units it can have and its reach."""
    data = table("confidence")
    said: dict[str, list[str]] = {"movement": data["movement"]["said"]}
    rules = {"movement": (frozenset(data["movement"]["units"]), int(data["movement"]["reach"]))}
    for n, entry in enumerate(data["fits"]):
        said[str(n)] = entry["said"]
        rules[str(n)] = (frozenset(entry["units"]), int(entry["reach"]))
    return Phrases(said), rules


def misfits(narration: Narration) -> dict[int, str]:
    """Return {token where a quantity starts: the words that announce something with another unit}.

    Only the first quantity after the announcing words counts, and only within the entry's reach.
    """
    done: dict[int, str] | None = narration.found.get("misfits")
    if done is not None:
        return done
    phrases, rules = _announcements()
    quantities = [q for q in find_quantities(narration) if q.kind == "reading"]
    numbers = find_numbers(narration)
    done = {}
    for phrase in phrases.find(narration):
        units, reach = rules[phrase.key]
        number = next((n for n in numbers if n.start >= phrase.end), None)
        q = next((q for q in quantities if q.start >= phrase.end), None)
        if q is None or number is None or number.start not in range(q.start, q.end):
            continue
        between = narration.tokens[phrase.end : q.start]
        if len(between) > reach or any(t.lower in {".", ";", "and", "?", "!"} for t in between):
            continue
        if q.word not in units:
            done[q.start] = narration.heard(phrase.start, phrase.end)
    narration.found["misfits"] = done
    return done


def announced_movement(narration: Narration, q: Quantity) -> bool:
    """Tell whether the words right before the quantity announce an amount of refrigerant."""
    said = frozenset(table("confidence")["movement"]["said"])
    reach = int(table("confidence")["movement"]["reach"])
    return any(t.lower in said for t in narration.tokens[max(0, q.start - reach) : q.start])


class TradeGrammar:
    """The grammar of the trade's numbers, for a recogniser. Without state; safe for several threads."""

    @property
    def version(self) -> str:
        """Return a name that changes with the vocabulary and with this module's logic."""
        return _version()

    def score(self, text: str) -> float:
        """Return how much of the text is accepted: 1 for each well-formed value, less for doubtful ones."""
        narration = Narration.from_text(" ".join(text.split()))
        total = 0.0
        odd = misfits(narration)
        for q in find_quantities(narration):
            if q.kind != "reading":
                total += 0.5 if q.kind in {"size", "calendar"} else -1.0
                continue
            total += 1.5 if len(q.parts) > 1 else 1.0
            if q.reasons:
                total -= 0.5
            if q.start in odd:
                total -= 2.0
            elif _decimal_ounces(q) and announced_movement(narration, q):
                # This is how a recogniser writes pounds and ounces; said in this way it is rare.
                total -= 0.75
        total += sum(0.5 if r.reasons else 1.0 for r in find_refrigerants(narration))
        total -= len(_MONEY.findall(text))
        return round(total, 3)

    def values(self, text: str) -> list[Wording]:
        """Return every value of the text with its characters; `text` is then the value as a plain key.

        Two wordings of the same value have the same key ("two oh seven volts" and "207 volts": "207 V").
        """
        narration = Narration.from_text(text)
        places = _places(text, narration)
        found: list[tuple[int, int, str]] = []
        for q in find_quantities(narration):
            found.append((q.start, q.end, f"{q.amount:.6g} {q.unit or q.kind}"))
        for name in find_refrigerants(narration):
            found.append((name.start, name.end, name.name))
        taken = {t for start, end, _ in found for t in range(start, end)}
        for number in find_numbers(narration):
            if number.start not in taken and not number.pronoun:
                found.append((number.start, number.end, f"{number.value:.6g}"))
        return [Wording(places[a][0], places[b - 1][1], key) for a, b, key in sorted(found)]

    def rivals(self, text: str) -> list[Wording]:
        """Return wordings that sound like the numbers of the text and mean another value.

        Numbers with a unit come first, and every number gets its likeliest rivals before any gets more.
        """
        flat = text
        narration = Narration.from_text(flat)
        places = _places(flat, narration)
        names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
        quantities = [q for q in find_quantities(narration) if q.kind == "reading"]
        unit_of = {id(n): q for q in quantities for n in q.numbers}
        numbers = [
            n
            for n in find_numbers(narration)
            if names.isdisjoint(range(n.start, n.end))
            and not n.pronoun
            and n.form not in {"clock", "ordinal", "fraction"}
        ]
        numbers.sort(key=lambda n: (id(n) not in unit_of, n.start))
        rows: list[list[Wording]] = []
        for q in quantities:
            row = [w for w in _whole(narration, q) if w.text]
            if row:
                rows.append([Wording(places[w.start][0], places[w.end - 1][1], w.text) for w in row])
        for number in numbers:
            row = []
            for w in _others(narration, number):
                start, end = places[w.start][0], places[w.end - 1][1]
                wording = Wording(start, end, _cased(flat[start:end], w.text))
                if wording.text != flat[start:end] and wording not in row:
                    row.append(wording)
            rows.append(row[:MOST_PER_NUMBER])
        out: list[Wording] = []
        for rank in range(MOST_PER_NUMBER):
            out += [row[rank] for row in rows if rank < len(row)]
        return sorted(dict.fromkeys(out[:MOST_PER_TEXT]))


def _decimal_ounces(q: Quantity) -> bool:
    return q.word in {"ounce", "sterling"} and any(
        n.written and n.places == 1 and n.value >= 1 for n in q.numbers
    )


def _places(text: str, narration: Narration) -> list[tuple[int, int]]:
    """Return the characters [start, end) of each token in the text."""
    out, at = [], 0
    for token in narration.tokens:
        start = text.find(token.text, at)
        start = at if start < 0 else start
        out.append((start, start + len(token.text)))
        at = start + len(token.text)
    return out


def _cased(before: str, after: str) -> str:
    return after[:1].upper() + after[1:] if before[:1].isupper() else after


def _whole(narration: Narration, q: Quantity) -> Iterator[Wording]:
    """Yield other wordings of a number together with its unit: pounds and ounces against decimals."""
    tokens = narration.tokens
    number = q.numbers[0]
    if number.written and number.places == 1 and 1 <= number.value < 100 and len(q.numbers) == 1:
        pounds, ounces = f"{number.value:.1f}".split(".")
        movement = announced_movement(narration, q)
        if ounces != "0" and (q.word in {"ounce", "sterling"} or (movement and q.word in {"ohm", "pound"})):
            yield Wording(q.start, q.end, f"{pounds} pound{'s' * (pounds != '1')} {ounces} ounces")
    if len(q.parts) == 2 and q.word == "pound" and number.written and q.parts[1] < 10:
        yield Wording(q.start, q.end, f"{q.parts[0]:g}.{q.parts[1]:g} ounces")
    before = tokens[q.start - 1].lower if q.start else ""
    if before in {"to", "too", "two"} and number.written and 10 <= number.value <= 99 and not number.places:
        yield Wording(q.start - 1, number.end, f"2{number.value:g}")
    if before in {"for", "fore"} and number.written and 10 <= number.value <= 99 and not number.places:
        yield Wording(q.start - 1, number.end, f"4{number.value:g}")


def _others(narration: Narration, number: Number) -> Iterator[Wording]:
    """Yield other wordings of one number, the likeliest confusions first."""
    tokens = narration.tokens[number.start : number.end]
    if len(tokens) == 1 and tokens[0].text.replace(".", "", 1).isdigit():
        for text in _written(tokens[0].text):
            yield Wording(number.start, number.end, text)
    elif len(tokens) == 2 and number.negative and tokens[1].text.replace(".", "", 1).isdigit():
        for text in _written(tokens[1].text):
            yield Wording(number.start + 1, number.end, text)
    else:
        yield from _spoken(number.start, tokens)


def _written(digits: str) -> Iterator[str]:
    """Yield what else a number in digits may be: teen or ty, a lost hundred, a lost point, one digit off."""
    data = table("confidence")["sounds_like"]
    whole, _, rest = digits.partition(".")
    tail = f".{rest}" if rest else ""
    head, last = whole[:-2], whole[-2:]
    if len(last) == 2 and last[0] == "1" and last[1] in "3456789":
        yield f"{head}{last[1]}0{tail}"
    elif len(last) == 2 and last[1] == "0" and last[0] in "3456789":
        yield f"{head}1{last[0]}{tail}"
    if rest and len(rest) == 1:
        yield f"{whole}{rest}" if whole != "0" else rest
    if not rest and len(whole) == 3 and whole[1] != "0":
        yield whole[1:]
    if not rest and len(whole) == 2 and whole[0] != "0":
        yield f"1{whole}"
        yield f"2{whole}"
    spots = [("digit", len(digits) - 1)]
    if len(last) == 2 and not rest and last[0] not in "01":
        spots.append(("ten", len(whole) - 2))
    if len(whole) >= 3 or rest:
        spots.append(("digit", 0))
    seconds = []
    for kind, at in spots:
        others = data[kind].get(digits[at], [])
        if others:
            yield digits[:at] + others[0] + digits[at + 1 :]
        seconds += [digits[:at] + other + digits[at + 1 :] for other in others[1:]]
    yield from seconds


def _spoken(start: int, tokens: tuple[Token, ...]) -> Iterator[Wording]:
    """Yield what else a number in words may be, one word at a time from the last to the first."""
    data: dict[str, list[str]] = table("confidence")["sounds_like"]["word"]
    seconds = []
    for n in range(len(tokens) - 1, -1, -1):
        others = data.get(tokens[n].lower, [])
        if others:
            yield Wording(start + n, start + n + 1, others[0])
        seconds += [Wording(start + n, start + n + 1, other) for other in others[1:]]
    yield from seconds
