"""Names of refrigerants whose digits and letters came apart: "R4 04A", "R, 4, 10, A", "4 5 2 A", "R-134-A".

People spell them, and recognisers write what was spelled in many ways. Pieces that together make a name of
ASHRAE 34 exactly are that name, where they begin with an R or end in its letter.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.unit_words import unit_phrases

_DIGITS = {
    "oh": "0", "o": "0", "zero": "0", "nought": "0", "naught": "0", "one": "1", "two": "2", "three": "3",
    "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10",
}  # fmt: skip
SPELLED = {
    "a": ("alpha", "alfa"),
    "b": ("bravo",),
    "c": ("charlie",),
    "d": ("delta",),
    "e": ("echo",),
    "f": ("foxtrot",),
}
_CURRENTS = frozenset(
    (
        "draws",
        "draw",
        "drew",
        "drawing",
        "pulls",
        "pull",
        "pulling",
        "compressor",
        "fan",
        "motor",
        "heater",
        "amps",
    )
)
_LETTERS = {word: letter for letter, words in SPELLED.items() for word in words}
_MOST_PIECES = 9
_OPENING = 4  # sentences in which machines are introduced
_R_DIGITS = re.compile(r"r-?\d{1,4}")
_R_WHOLE = re.compile(r"r-?\d{1,4}(-\d{1,3})?-?[a-z]{0,3}")
_NUMBERED = re.compile(r"\d{1,4}[a-z]{0,2}")
_LETTER_O = re.compile(r"(?<=\d)o(?=\d|[a-z]?$)|(?<=r)o(?=\d)")
_MARKS = frozenset(("-", ".", ","))
_AT_FIRST = frozenset((*_DIGITS, "r", "romeo"))


_ONES = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def in_hundreds(number: str) -> list[str]:
    """Return the ways to say the digits of a name as a whole number ("134": "a hundred and thirty four")."""
    if len(number) != 3 or number[0] == "0":
        return []
    rest = int(number[1:])
    tail = _ONES[rest] if rest < 20 else f"{_TENS[rest // 10]} {_ONES[rest % 10]}".strip()
    hundreds = [_ONES[int(number[0])] + " hundred", *(["a hundred"] if number[0] == "1" else [])]
    return [f"{h} {link}{tail}".strip() for h in hundreds for link in (("", "and ") if tail else ("",))]


def in_pieces(
    narration: Narration, always: Mapping[str, Sequence[str]]
) -> Iterator[tuple[int, int, str, tuple[str, ...]]]:
    """Yield (first token, end, name, other names) of each name said in pieces; `always`: form -> names."""
    for i, first in enumerate(narration.tokens):
        low = first.lower
        if low[0].isdigit() or low in _AT_FIRST or (low[0] == "r" and _R_WHOLE.fullmatch(low)):
            found = _with_r(narration, always, i) if low[0] == "r" else _spelled(narration, always, i)
            if found is not None:
                yield found


def _with_r(
    narration: Narration, always: Mapping[str, Sequence[str]], i: int
) -> tuple[int, int, str, tuple[str, ...]] | None:
    tokens = narration.tokens
    first = tokens[i].lower
    joined, pieces, best = "", 0, None
    for j in range(i, min(len(tokens), i + _MOST_PIECES)):
        low = tokens[j].lower
        if low in _MARKS:
            if j == i:
                break
            continue
        joined += "r" if low == "romeo" else _piece(low, joined)
        joined = _LETTER_O.sub("0", joined)  # "R4 O4A"
        pieces += 1 + (pieces == 0 and "-" in low[2:])
        if not re.fullmatch(r"r\d{0,4}[a-z]{0,3}", joined):
            break
        names = always.get(joined)
        bare = joined[-1].isdigit() and pieces == 2 and _R_DIGITS.fullmatch(first) is not None
        if bare and (j + 1 in unit_phrases(narration) or tokens[j - 1].lower in _MARKS):
            continue  # "R2 90 ohms"
        digits = joined[-1].isdigit() and pieces == len(joined) and _ended(narration, j + 1)
        if (
            names
            and pieces > 1
            and (joined[-1].isalpha() or bare or digits)
            and len(joined) > 2 + (not digits)
        ):
            best = (i, j + 1, names[0], tuple(names[1:]))
    return best


def _spelled(
    narration: Narration, always: Mapping[str, Sequence[str]], i: int
) -> tuple[int, int, str, tuple[str, ...]] | None:
    """Read a name spelled without its R: three or four digits in a row and the letter, no mark between."""
    tokens = narration.tokens
    before = tokens[i - 1].lower if i else ""
    if before == "point" or before in _CURRENTS or before in _DIGITS or before[:1].isdigit():
        return None
    joined, pieces, least = "", 0, 3
    for j in range(i, min(len(tokens), i + 6)):
        low = tokens[j].lower
        if low == "," and len(joined) == 1 and _written_apart(narration, i):
            least = 2
            continue
        piece = _piece(low, joined)
        if not piece.isalnum() or (piece.isalpha() and len(joined) < 3):
            return None
        joined = _LETTER_O.sub("0", joined + piece)
        pieces += 1
        if len(joined) > 6 or not _NUMBERED.fullmatch(joined):
            return None
        names = always.get(f"r{joined}")
        if names and joined[-1].isalpha() and pieces >= least and len(joined) >= 4:
            behind = tokens[j + 1].lower if j + 1 < len(tokens) else "."
            if len(behind) == 1 and behind.isalpha() and always.get(f"r{joined}{behind}"):
                continue
            return i, j + 1, names[0], tuple(names[1:])
    return None


def _written_apart(narration: Narration, i: int) -> bool:
    """Tell whether "4, 10 A" stands where machines are introduced: a recogniser heard a pause in the name."""
    tokens = narration.tokens
    last = narration.sentences[:_OPENING][-1][1]
    row = [t.lower for t in tokens[i : i + 4]]
    whole = len(row) > 2 and _DIGITS_LETTER.fullmatch(row[2]) is not None  # "the rack runs 4, 48A"
    apart = len(row) > 3 and len(row[2]) == 2 and row[2].isdigit() and row[3].isalpha()
    end = i + (3 if whole else 4)
    before = tokens[i - 1].lower if i else ""
    return (
        (whole or apart)
        and end <= last
        and row[0].isdigit()
        and (before in _MARKS or before in ("", "runs", "on", "uses"))
        and (end >= len(tokens) or not tokens[end].lower[:1].isalnum())
    )


_DIGITS_LETTER = re.compile(r"[0-9]{2}[a-f]")


def _piece(low: str, joined: str) -> str:
    """Return what a token adds to the name: a digit for a word, a letter for its name in the alphabet."""
    if joined[-1:].isdigit() and low in _LETTERS:
        return _LETTERS[low]
    return _DIGITS.get(low, low.replace("-", ""))


def _ended(narration: Narration, j: int) -> bool:
    """Tell whether what stands at token j goes on with no number and is no unit."""
    if j >= len(narration.tokens):
        return True
    low = narration.tokens[j].lower
    return low not in _DIGITS and not low[:1].isdigit() and j not in unit_phrases(narration)


_LEGS = (["b"], ["y"], ["w"], ["blue"], ["yellow"], ["white"])
"""The other legs of a supply where the legs are called by their colours."""


def end_of_a_winding(narration: Narration, start: int) -> bool:
    """Tell whether "r" is the run pin of a motor or the red leg: "C to R 11.6", "B to R 410"."""
    words = narration.lowers
    return (
        words[start] == "r"
        and words[max(0, start - 1) : start] in (["to"], ["and"])
        and words[max(0, start - 2) : start - 1] in (["c"], ["s"], ["common"], ["start"], *_LEGS)
    )
