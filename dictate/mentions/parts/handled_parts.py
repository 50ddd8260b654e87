"""Parts that were handled: `find_parts(narration) -> list[Part]`.

Only what was done is listed; planned, quoted and refused parts are not. A part that was taken out and one
of the same name that was put in are one replacement. Part numbers are read as spelled ("eighty eight dash
one oh four" is 88-104), ratings stay as said ("45 over 5, 440 volt").
"""

from __future__ import annotations

from functools import cache
from typing import Any, cast

from dictate.mentions.handled import Handled, handled_of
from dictate.mentions.handled.came_with import comes_with
from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import read_designation
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.whose.things import Thing, thing_at, things_of
from dictate.record.mentions import Mentions
from dictate.record.visit import Part, PartAction
from dictate.vocabulary.load import table, word_set

_RATING_UNITS = frozenset({"uF", "V", "W", "A", "ohm"})
_NEVER = frozenset({"oil", "caulk", "bolt"})


@cache
def _numbered() -> tuple[tuple[str, ...], ...]:
    data: dict[str, Any] = table("parts")
    return tuple(sorted((tuple(p.split()) for p in data["words"]["numbered"]), key=len, reverse=True))


def listed_as(name: str, action: str) -> bool:
    """Tell whether a part handled so belongs into a list of parts: what was only fastened does not."""
    if action == "cleaned":
        return name not in ("wire", "wiring", "coil")
    if action == "removed" and name in ("wire", "wiring"):
        return False
    return action != "adjusted" or name not in word_set("only_fastened")


def find_parts(narration: Narration) -> list[Part]:
    """Return the parts handled, in the order in which they were said, each once for each action."""
    words = words_of(narration)
    doings = [h for h in handled_of(narration) if h.status == "done"]
    out: list[tuple[int, Part]] = []
    listed: dict[str, Part] = {}
    for h in doings:
        things = list(h.things)
        if h.unknown is not None:
            things = [Thing(h.start, h.end, h.unknown, h.unknown)]
        for thing in things:
            if h.action == "cleaned" and thing.generic and thing.part == "coil":
                continue  # which of the coils cannot be told
            if thing.part in _NEVER or not listed_as(thing.part, h.action):
                continue
            if (
                thing.part == "flare nut"
                and h.verb is None
                and "nut" not in words.words[thing.start : thing.end]
            ):
                continue  # "new expansion valve, flares": how it was joined
            if h.verb is None and comes_with(narration, thing.start, thing.part):
                continue  # "caps on with new o-rings"
            if h.verb is None and thing.part.removesuffix(" coil") in listed.keys() - {thing.part}:
                continue  # "new contactor in ... new coil reads 11 ohms": it came with it
            if h.action == "removed" and (_handled_else(thing, h, doings) or thing.generic):
                continue
            part = _part(narration, words, h, thing)
            before = listed.get(thing.part)
            if before is not None and _same(before, part):
                _merge(before, part)
                continue
            listed[thing.part] = part
            out.append((thing.start if h.start <= thing.start else h.start, part))
    _numbers(narration, words, [p for _, p in sorted(out, key=lambda x: x[0])], sorted(i for i, _ in out))
    _bare_numbers(narration, words, out)
    return [p for _, p in sorted(out, key=lambda x: x[0])]


def _handled_else(thing: Thing, h: Handled, doings: list[Handled]) -> bool:
    """Tell whether the same part was also put in, cleaned or otherwise handled."""
    return any(
        o is not h and o.action != "removed" and any(t.name == thing.name for t in o.things) for o in doings
    )


def _add_handled(mentions: Mentions) -> None:
    """Add what a step says was cleaned or adjusted where the list of parts does not have it."""
    for step in mentions.steps:
        if step.step not in ("cleaned", "adjusted") or step.status != "done" or not step.component:
            continue
        if step.component in _NEVER or not listed_as(step.component, step.step):
            continue
        if any(
            p.name.startswith(step.component) or step.component.startswith(p.name) for p in mentions.parts
        ):
            continue
        mentions.parts.append(
            Part(
                name=step.component,
                action=cast(PartAction, step.step),
                quantity=1.0,
                at=step.at.model_copy(),
                heard=step.heard,
                review=list(step.review),
            )
        )


def add_driers(mentions: Mentions) -> None:
    """Add the filter drier to the parts where only the step tells of it ("and drier Lokring")."""
    _add_handled(mentions)
    if any("drier" in p.name and p.action in ("replaced", "installed") for p in mentions.parts):
        return
    for step in mentions.steps:
        if step.step == "filter_drier_replaced" and step.status == "done":
            mentions.parts.append(
                Part(
                    name="filter drier",
                    action="replaced",
                    quantity=1.0,
                    at=step.at.model_copy(),
                    heard=step.heard,
                    review=list(step.review),
                )
            )
            return


def _same(a: Part, b: Part) -> bool:
    """Tell whether a later doing is the earlier one said again ("replaced" and "installed" are one)."""
    put_in = ("replaced", "installed")
    return a.action == b.action or (a.action in put_in and b.action in put_in)


def _merge(a: Part, b: Part) -> None:
    a.part_number = a.part_number or b.part_number
    a.rating = a.rating or b.rating
    a.quantity = a.quantity if a.quantity is not None else b.quantity
    if b.action == "replaced":
        a.action = "replaced"


def _part(narration: Narration, words: Words, h: Handled, thing: Thing) -> Part:
    action = h.action
    first = min(h.start, thing.start) if abs(thing.start - h.start) < 25 else h.start
    last = max(h.end, thing.end) if abs(thing.end - h.end) < 25 else h.end
    start, end = words.span(first, last)
    return Part(
        name=thing.part,
        action=cast(PartAction, action),
        quantity=1.0 if _one_of_them(words, h) else _quantity(narration, words, thing),
        rating=_rating(narration, words, h, thing),
        at=narration.at(start, end),
        heard=narration.heard(start, end),
        review=[h.why] if h.why else [],
    )


def _one_of_them(words: Words, h: Handled) -> bool:
    """Tell whether one of several was handled: "found two contactors, changed the burnt one"."""
    return words.words[h.end - 1] == "one" and not {"each", "both", "every"} & set(
        words.words[h.start : h.end]
    )


def _numbers_by_end(narration: Narration, words: Words) -> dict[int, Number]:
    """Return the numbers by the word behind them; made once."""
    found = narration.found.get("numbers by end")
    if found is None:
        found = {words.word_of_token(n.end): n for n in find_numbers(narration)}
        narration.found["numbers by end"] = found
    by_end: dict[int, Number] = found
    return by_end


def _ratings(narration: Narration, words: Words) -> list[tuple[int, int, Quantity]]:
    """Return the quantities that can be ratings, each with its words [start, end); made once."""
    found = narration.found.get("ratings")
    if found is None:
        found = [
            (words.word_of_token(q.start), words.word_of_token(q.end), q)
            for q in find_quantities(narration)
            if q.unit in _RATING_UNITS or q.kind == "size"
        ]
        narration.found["ratings"] = found
    ratings: list[tuple[int, int, Quantity]] = found
    return ratings


def _quantity(narration: Narration, words: Words, thing: Thing) -> float | None:
    """Return how many: a count said before the part, both, a pair; one for a single part."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[thing.start]]
    by_end = _numbers_by_end(narration, words)
    k = thing.start
    for _ in range(5):
        if k <= start:
            break
        word = row[k - 1]
        if word == "both":
            return 2.0
        if word == "pair" or (word == "of" and k - 2 >= start and row[k - 2] == "pair"):
            return 2.0
        number = by_end.get(k)
        if (
            number is not None
            and thing.plural
            and number.value == int(number.value)
            and 1 <= number.value <= 24
            and not number.pronoun
        ):
            return float(number.value)
        if word in (",", ".", "and", "with"):
            break
        k -= 1
    return None if thing.plural else 1.0


def _rating(narration: Narration, words: Words, h: Handled, thing: Thing) -> str | None:
    """Return the rating said with the part: quantities between the verb and the part, or right behind it."""
    if h.pronoun:
        return None
    start, end = words.sentences[words.sentence_of[thing.start]]
    before = [
        q
        for first, last, q in _ratings(narration, words)
        if max(start, thing.start - 8, h.start) <= first
        and last <= thing.start
        and "," not in words.words[last : thing.start]
    ]
    if before:
        return narration.heard(before[0].start, before[-1].end)
    after = []
    place = thing.end
    for i, _, q in _ratings(narration, words):
        if i < place or i >= end:
            continue
        between = words.words[place:i]
        if (
            all(
                w in (",", "rated", "a", "at", "it's", "plus", "over", "and", "/", "rated at")
                for w in between
            )
            and len(between) <= 3
        ):
            after.append(q)
            place = words.word_of_token(q.end)
        else:
            break
    if after:
        behind = words.words[place : place + 2]
        if behind[:1] in (("measured",), ("now",), ("reads",)):
            return None
        return narration.heard(after[0].start, after[-1].end)
    return None


def _numbers(narration: Narration, words: Words, parts: list[Part], places: list[int]) -> None:
    """Give each announced part number to the part named last before it, or right behind it."""
    row = words.words
    things = things_of(words)
    firsts = {p[0] for p in _numbered()}
    i = 0
    while i < len(row):
        n = next((len(p) for p in _numbered() if row[i : i + len(p)] == p), 0) if row[i] in firsts else 0
        if not n:
            i += 1
            continue
        k = i + n
        while k < len(row) and row[k] in word_set("before_part_number"):
            k += 1
        if (
            row[k : k + 1] == ("a",)
            and row[k - 1] in ("'s", "is")
            and len(row[k + 1 : k + 2])
            and len(row[k + 1]) == 1
        ):
            k += 1  # "part's a C sixty dash one twenty": an article
        made = read_designation(narration, words.tokens[k]) if k < len(row) else None
        if made is None or not any(c.isdigit() for c in made.text):
            i += n
            continue
        here = words.sentence_of[i]
        last = None
        for thing in things:
            if thing.start >= i:
                break
            if thing.name == "orifice" and not any(p.name == "orifice" for p in parts):
                continue  # "new valve, orifice number four, part number ..."
            if here - words.sentence_of[thing.start] <= 1 and not (last and _comes_along(row, last, thing)):
                last = thing
        owner = None
        if last is not None:
            named = [p for p in parts if p.name == last.part or p.name == last.name or last.part in p.name]
            put_in = [p for p in named if p.action in ("replaced", "installed")]
            owner = (put_in or named)[-1] if named else None
            if owner is None and words.sentence_of[last.start] == here and i - last.end <= 4:
                # "ordered a board, part number ...": the number of a part that was not put in
                i = max(i + n, words.word_of_token(made.end))
                continue
        if owner is None:
            before = [
                p
                for place, p in zip(places, parts, strict=True)
                if place < i and here - words.sentence_of[place] <= 2
            ]
            after = [
                p
                for place, p in zip(places, parts, strict=True)
                if place >= i and words.sentence_of[place] - here <= 1
            ]
            owner = before[-1] if before else (after[0] if after else None)
        if owner is not None and owner.part_number is None:
            owner.part_number = made.text
        i = max(i + n, words.word_of_token(made.end))


def _comes_along(row: tuple[str, ...], head: Thing, thing: Thing) -> bool:
    """Tell whether a thing only comes with the one before it ("relay and overload", "hose with o-rings")."""
    between = row[head.end : thing.start]
    if len(between) > 3 or not between or between[0] not in ("with", "and", "plus", ","):
        return False
    return between[0] == "with" or thing.name in word_set("comes_along")


def _bare_numbers(narration: Narration, words: Words, out: list[tuple[int, Part]]) -> None:
    """Give a part the designation said right behind it, without "part number" ("new belt, a B 54")."""
    for first, part in out:
        if part.part_number is not None or part.action not in ("replaced", "installed"):
            continue
        named = [
            t for t in things_of(words) if first <= t.start < first + 14 and part.name in (t.part, t.name)
        ]
        k = named[0].end if named else first + 1
        number = words.sentence_of[first]
        _, end = words.sentences[min(len(words.sentences) - 1, number + 1)]
        made = number_behind(narration, words, k, min(end, k + 26), others=named)
        if made is not None and not any(p.part_number == made for _, p in out):
            part.part_number = made


def number_behind(narration: Narration, words: Words, k: int, end: int, *, others: list[Thing]) -> str | None:
    """Return a designation behind a part: in apposition, or behind a word that announces a number."""
    row = words.words
    start = k
    at_once = read_designation(narration, words.tokens[k]) if k < end else None
    if at_once is not None and plain_mark(at_once.text):  # "termination switch TS-55"
        good = is_part_number(narration, at_once.text, words, k, at_once.end, sure=False)
        return at_once.text if good else None
    while k < end:
        cue = next((n for n in (5, 4, 3, 2, 1) if k + n <= len(row) and row[k : k + n] in _number_cues()), 0)
        sure = cue > 0 and row[k + cue - 1] not in _WEAK_CUES
        if cue and not sure and k - start > 12:
            k += cue
            continue
        if not cue:
            lead = row[max(start, k - 5) : k]
            sized = "with" not in lead and any(w in ("a", "an", "new") for w in lead)  # "a 3 pole contactor"
            opens = sized or row[k - 1] in _OPENS_ANOTHER
            named = thing_at(things_of(words), k) if opens else None
            if named is not None and named.start == k and named not in others:
                return None
            k += 1
            continue
        made = read_designation(narration, words.tokens[k + cue]) if k + cue < end else None
        if made is not None and is_part_number(narration, made.text, words, k + cue, made.end, sure):
            return made.text
        k += cue
    return None


def plain_mark(text: str) -> bool:
    """Tell whether a designation is a mark by its looks alone: letters first, and at least two digits."""
    return text[:1].isalpha() and sum(c.isdigit() for c in text) >= 2 and len(text) >= 4


_OPENS_ANOTHER = (",", "and", "new", "plus", ".", "a", "an", "the")
_WEAK_CUES = ("with", ",", ".", "a", "an", "'s", "is", "the", "type")


@cache
def _number_cues() -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(p.split()) for p in table("parts")["words"]["bare_numbered"])


def is_part_number(narration: Narration, text: str, words: Words, k: int, end_token: int, sure: bool) -> bool:
    """Tell whether a designation is the mark of a part: letters and digits, and no size, value or gas."""
    letters = sum(c.isalpha() for c in text)
    digits = sum(c.isdigit() for c in text)
    in_groups = sure and "-" in text and digits >= 5  # "number 88-1406"
    in_groups = in_groups or (sure and not letters and digits >= 4 and words.words[k - 1] == "number")
    if not digits or not (letters or in_groups) or (letters + digits < 3 and not sure):
        return False
    first = narration.tokens[words.tokens[k]]
    if first.lower in ("a", "i", "an", "o", "oh") and first.text != first.text.upper():
        return False
    if first.lower in ("l", "t", "phase", "leg", "e", "circuit") and digits == 1:
        return False
    if (
        text[:1] == "R"
        and letters <= 2
        and digits >= 2
        and text[1:3].isdigit()
        and len(text) <= 6
        and text[1:4] in _GASES
    ):
        return False
    behind = narration.tokens[end_token].lower if end_token < len(narration.tokens) else "."
    if behind in _VALUE_UNITS:
        return False
    return (
        (all(c.isalnum() or c in "-/." for c in text) and text[0].isalpha())
        or (sure and letters > 0)
        or in_groups
    )


_GASES = frozenset(
    ("404", "134", "410", "22", "290", "448", "449", "407", "454", "513", "507", "452", "600", "32", "744")
)
_VALUE_UNITS = word_set("value_units")
