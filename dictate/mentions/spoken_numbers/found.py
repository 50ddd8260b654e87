"""Every number of a narration, found once; and looked up by where it begins and ends."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from dictate.mentions.narration import Narration, Token
from dictate.mentions.spoken_numbers.atoms import Atom, Part, number_set, number_words, runs_of
from dictate.mentions.spoken_numbers.counted_on import counted_on
from dictate.mentions.spoken_numbers.cuts import pieces_of
from dictate.mentions.spoken_numbers.lettered import lettered_names
from dictate.mentions.spoken_numbers.number import Number, Other
from dictate.mentions.spoken_numbers.segments import best_segments
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")
_ORDINAL = re.compile(r"(\d+)(?:st|nd|rd|th)")


def _number(narration: Narration, atoms: list[Atom], i: int, part: Part, others: tuple[Other, ...]) -> Number:
    tokens = narration.tokens
    start, end = atoms[i].token, atoms[part.j - 1].token + 1
    value = part.value
    sign = tokens[start - 1] if start else None
    negative = sign is not None and (
        sign.lower in number_set("negative", "said")
        or (sign.lower in {"-", "−", "–"} and not tokens[start].space_before and _opens(tokens, start - 1))
    )
    if negative:
        start -= 1
        value = -value
    pronoun = False
    if part.j - i == 1 and atoms[i].word == "one" and not negative:  # "minus one in fifty minutes"
        before = tokens[start - 1].lower if start else ""
        after = tokens[end].lower if end < len(tokens) else ""
        pronoun = before in number_set("pronoun", "before") or after in number_set("pronoun", "after")
    found = tuple(others) + part.others
    if negative and found:
        found = tuple(Other(tuple(-v for v in o.values), o.why) for o in found)
    return Number(
        start,
        end,
        value,
        part.form,
        all(a.kind in {"N", "S"} for a in atoms[i : part.j]),
        part.places,
        part.text,
        found,
        pronoun,
        negative,
    )


def _opens(tokens: Sequence[Token], i: int) -> bool:
    """Tell whether a hyphen begins a number ("-6") and does not join two ("6-7")."""
    return tokens[i].space_before or i == 0 or tokens[i - 1].lower in {"(", ","}


def _measures(lead: Sequence[Token]) -> bool:
    """Tell whether a length is told in front of "an eighth.": "the bridge was"."""
    return lead[-1].lower in {"is", "was", "'s", "about", "at", "of"} and lead[0].lower in word_list(
        "length_of"
    )


def _single(narration: Narration) -> Iterator[Number]:
    """Yield clock times and ordinals, which are never part of a longer number here."""
    ordinals = table("numbers")["ordinal"]
    tokens = narration.tokens
    for token in tokens:
        if token.lower not in ordinals and not token.lower[:1].isdigit():
            continue  # most words are neither
        clock = _CLOCK.fullmatch(token.lower)
        if clock and int(clock[1]) < 25 and int(clock[2]) < 60:
            value = int(clock[1]) + int(clock[2]) / 60
            yield Number(token.index, token.index + 1, value, "clock", True, text=token.lower)
            continue
        ordinal = _ORDINAL.fullmatch(token.lower)
        if ordinal:
            yield Number(token.index, token.index + 1, float(ordinal[1]), "ordinal", True)
        elif token.lower in ordinals:
            value, start = float(ordinals[token.lower]), token.index
            before = tokens[start - 1].lower if start else ""
            part = table("numbers")["fraction"].get(token.lower, 0)
            behind = [t.lower for t in tokens[start + 1 : start + 3]]
            shared = behind[:1] in (["across"], ["inch"]) or behind in (["of", "a"], ["of", "an"])
            measured = (
                behind[:1] in ([], ["."], [","]) and start > 2 and _measures(tokens[start - 3 : start - 1])
            )
            in_turn = start > 1 and [t.lower for t in tokens[start + 1 : start + 4]] == [
                ",",
                before,
                token.lower,
            ]
            in_turn = in_turn or (
                start > 3 and [t.lower for t in tokens[start - 4 : start - 1]] == [before, token.lower, ","]
            )  # "across the poles a tenth, a tenth, a tenth"
            if part >= 8 and before in {"a", "an"} and (shared or measured or in_turn):
                # "a tenth of a volt", "a tenth across B", "an eighth of an inch"
                yield Number(start - 1, start + 1, 1 / part, "fraction", False)
                continue
            joined = start and tokens[start - 1].text.endswith("-")
            if (
                value < 10
                and (joined or token.lower != "second")
                and number_words().get(before, ("", 0))[0] == "Y"
            ):
                value, start = value + number_words()[before][1], start - 1
            yield Number(start, token.index + 1, value, "ordinal", False)


def find_numbers(narration: Narration) -> list[Number]:
    """Return every number of the narration in order, without overlaps; computed once per narration."""
    done: list[Number] | None = narration.found.get("numbers")
    if done is not None:
        return done
    out: list[Number] = []
    runs = list(runs_of(narration))
    named = _numbered(narration, runs)
    named |= counted_on(narration, runs, named)
    narration.found["counted_off"] = named
    lettered = narration.found["lettered"] = lettered_names(narration, runs)
    for run in runs:
        if run[0].kind == "A" and len(run) > 1 and run[1].token in lettered:
            run = run[1:]
        if run[0].token in lettered:
            out.append(Number(run[0].token, run[0].token + 1, run[0].value, "counted", False))
            run = run[1:]
        if run[0].token in named:
            first = run[0]
            out.append(Number(first.token, first.token + 1, first.value, "counted", first.kind == "N"))
            run = run[1:]
            if not run:
                continue
        if all(a.kind in {"A", "&", "P"} for a in run):
            continue
        # A fraction word alone is an ordinal or a noun unless it is a half or a quarter.
        for piece, others in pieces_of(narration, run):
            found = best_segments(piece)
            last = len(found) - 1
            out += [
                _number(narration, piece, i, part, others if n == last else ())
                for n, (i, part) in enumerate(found)
            ]
    taken = {t for n in out for t in range(n.start, n.end)}
    for single in _single(narration):
        span = range(single.start, single.end)
        if single.form == "ordinal" and single.end - single.start == 2:
            # "twenty-first": the tens alone is no number beside it
            alone = [n for n in out if n.start == single.start and n.end == single.start + 1]
            if single.start in taken and not alone:
                continue  # "one twenty | third": the tens belong to the number before it
            out = [n for n in out if n not in alone]
            taken -= {single.start}
        if taken.isdisjoint(span):
            out.append(single)
            taken.update(span)
    out.sort(key=lambda n: n.start)
    out = _joined_digits(narration, out)
    narration.found["numbers"] = out
    return out


def _joined_digits(narration: Narration, found: list[Number]) -> list[Number]:
    """Join three digits that a recogniser wrote one by one: "2-0-8", and "2 0 8" for its nought."""
    out: list[Number] = []
    i = 0
    while i < len(found):
        row = found[i : i + 3]
        after = found[i + 3 : i + 4]
        gaps = [_digits_gap(narration, a, b) for a, b in pairwise([*out[-1:], *row, *after])]
        own = gaps[len(out[-1:]) : len(out[-1:]) + 2]
        alone = not any(gaps[: len(out[-1:])]) and not any(gaps[len(out[-1:]) + 2 :])
        digits = [int(n.value) for n in row]
        joined = alone and own in (["-", "-"], [" ", " "]) and digits[0]
        if joined and (own[0] == "-" or 0 in digits):
            value = float(digits[0] * 100 + digits[1] * 10 + digits[2])
            other = Other(tuple(map(float, digits)), "the digits were written one by one")
            text = "".join(map(str, digits))
            out.append(Number(row[0].start, row[2].end, value, "digits", True, 0, text, (other,)))
            i += 3
            continue
        out.append(found[i])
        i += 1
    return out


def _digits_gap(narration: Narration, a: Number, b: Number) -> str:
    """Return how two written digits are joined, "-" or a blank; "" where they are not, or are no digits."""
    for n in (a, b):
        if not n.written or n.end - n.start != 1 or n.form != "plain" or not 0 <= n.value <= 9 or n.places:
            return ""
    if b.start == a.end:
        return " "
    tokens = narration.tokens
    hyphen = b.start == a.end + 1 and tokens[a.end].lower == "-"
    return "-" if hyphen and not tokens[a.end].space_before and not tokens[b.start].space_before else ""


# Lists that are counted off are read in three places, and no two of them can be one. Of the 120 digits that
# this one and counted_on.py find each for itself in tests/narrations/develop, they share three.
# * Here the list has no gaps and its values are alike, so the digit may stand behind a noun: "fan 1 pulls 2.1
#   amps, fan 2 pulls 2.2".
# * counted_on.py bears whole clauses between a value and the next digit, and values that differ where they
#   are parted from it, so the digit must open a clause. What is found here counts there as known.
# * `_counted_off` in cuts.py needs no value of the items before ("three's nothing, overload tripped. Four |
#   point nine four"), and its digit stays a plain number, while the other two make theirs a counted one.
def _numbered(narration: Narration, runs: list[list[Atom]]) -> set[int]:
    """Return the digits that count things off: "one is thirty-two, two is thirty, three thirty-five".

    Each item has the next digit and a value, right behind it or behind a word such as "is"; the values are
    alike in size. Three items are a row, and two where a word stands between digit and value, or where the
    thing is named before ("compressor one twenty-two, two twenty-one").
    """
    words = narration.lowers
    presents = number_set("counted_off", "presents")
    found: set[int] = set()
    row: list[tuple[int, float, bool, int]] = []  # token of the digit, value, a word between, end

    def settle() -> None:
        named = bool(row) and row[0][0] > 0 and words[row[0][0] - 1] in number_set("counted_off", "nouns")
        spoken = any(between for _, _, between, _ in row)
        if len(row) >= 3 or (len(row) == 2 and (spoken or named)):
            values = [v for _, v, _, _ in row if v] or [0.0]
            if min(values) > 0 and max(values) <= 1.6 * min(values):
                found.update(t for t, _, _, _ in row)
        row.clear()

    k = 0
    while k < len(runs):
        run = runs[k]
        first = run[0]
        item: tuple[int, float, bool, int] | None = None
        digit = first.kind == "D" or (first.kind == "N" and first.word in {"1", "2", "3", "4", "5", "6"})
        step = 1
        if not row and not any(r[0].value == first.value + 1 for r in runs[k + 1 : k + 3]):
            digit = False  # nothing goes on counting behind it
        # "one is point five, | two point five, | three zero": the next digit, and a value like the one before
        goes_on = bool(row) and first.value == _digit_of(runs, row[-1][0]) + 1
        small = goes_on and run[1:2] and run[1].kind == "P" and 0 < row[-1][1] < 1
        none = goes_on and len(row) >= 2 and len(run) == 2 and run[1].kind == "Z"
        if digit and len(run) > 1 and (small or none or run[1].kind not in {"P", "H", "K", "&", "M", "Z"}):
            rest = best_segments(run[1:])
            if len(rest) == 1:
                item = (first.token, rest[0][1].value, False, run[-1].token + 1)
        elif digit and len(run) == 1 and k + 1 < len(runs):
            after = runs[k + 1]
            between = words[first.token + 1 : after[0].token]
            rest = best_segments(after)
            if 1 <= len(between) <= 2 and set(between) <= presents and len(rest) == 1:
                item = (first.token, rest[0][1].value, True, after[-1].token + 1)
                step = 2
        if item is not None and row:
            gap = words[row[-1][3] : item[0]]
            last = _digit_of(runs, row[-1][0])
            if (
                first.value != last + 1
                or len(gap) > 3
                or not set(gap) <= number_set("counted_off", "between")
            ):
                settle()
        elif item is None and row:
            settle()
        if item is not None and (row or first.value <= 2):
            row.append(item)
        k += step
    settle()
    return found


def _digit_of(runs: list[list[Atom]], token: int) -> float:
    """Return the digit that begins the run at a token."""
    return next(r for r in runs if r[0].token == token)[0].value


def names_with_a_digit(narration: Narration, i: int) -> bool:
    """Tell whether the letter at token i has a digit behind it that is part of its name: "A two, 22 amps"."""
    find_numbers(narration)
    lettered: set[int] = narration.found["lettered"]
    return i + 1 in lettered


def numbers_by_start(narration: Narration) -> dict[int, Number]:
    """Return the numbers by their first token; computed once per narration."""
    done: dict[int, Number] | None = narration.found.get("numbers_by_start")
    if done is None:
        done = {n.start: n for n in find_numbers(narration)}
        narration.found["numbers_by_start"] = done
    return done


def numbers_by_end(narration: Narration) -> dict[int, Number]:
    """Return the numbers by the token behind them; computed once per narration."""
    done: dict[int, Number] | None = narration.found.get("numbers_by_end")
    if done is None:
        done = {n.end: n for n in find_numbers(narration)}
        narration.found["numbers_by_end"] = done
    return done


def parse(text: str) -> list[Number]:
    """Return the numbers of a plain text: a convenience for tests and other tools."""
    return find_numbers(Narration.from_text(text))
