"""Model, serial and part numbers as people spell them: "K X four fifty" is KX450, "A dash seven seven" A-77.

Reads letters, the spelling alphabet, digits in words or figures, "dash", "slash", "double seven", and
words that are written in one piece already ("KX-450"). Stops at the first word that is none of these.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from dictate.mentions.narration import Narration, Token
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.vocabulary.load import word_set

_NATO = {
    "alpha": "A", "alfa": "A", "bravo": "B", "charlie": "C", "delta": "D", "echo": "E", "foxtrot": "F",
    "golf": "G", "hotel": "H", "india": "I",
    "juliet": "J", "juliett": "J", "kilo": "K", "lima": "L", "mike": "M", "november": "N", "oscar": "O",
    "papa": "P", "quebec": "Q", "romeo": "R",
    "sierra": "S", "tango": "T", "uniform": "U", "victor": "V", "whiskey": "W", "whisky": "W", "xray": "X",
    "yankee": "Y", "zulu": "Z",
    "adam": "A", "baker": "B", "david": "D", "edward": "E", "frank": "F", "george": "G", "henry": "H",
    "ida": "I", "john": "J", "king": "K",
    "lincoln": "L", "mary": "M", "nora": "N", "ocean": "O", "paul": "P", "queen": "Q", "robert": "R",
    "sam": "S", "tom": "T",
    "young": "Y", "zebra": "Z",
}  # fmt: skip
_LETTERS = {
    "ay": "A", "bee": "B", "cee": "C", "dee": "D", "ee": "E", "eff": "F", "gee": "G", "aitch": "H",
    "haitch": "H", "jay": "J", "kay": "K",
    "el": "L", "em": "M", "en": "N", "pee": "P", "cue": "Q", "queue": "Q", "ar": "R", "ess": "S",
    "tee": "T", "vee": "V",
    "doubleyou": "W", "ex": "X", "wye": "Y", "zed": "Z", "zee": "Z",
}  # fmt: skip
_DIGITS = {
    "zero": "0", "oh": "0", "o": "0", "nought": "0", "naught": "0", "one": "1", "two": "2", "three": "3",
    "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "niner": "9",
}  # fmt: skip
_TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18,
    "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fourty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
_SIGNS = {
    "dash": "-",
    "hyphen": "-",
    "minus": "-",
    "slash": "/",
    "stroke": "/",
    "dot": ".",
    "point": ".",
    "underscore": "_",
}
_WRITTEN = re.compile(r"[a-z]*\d[a-z0-9]*(?:[-/.][a-z0-9]+)*|[a-z]{1,5}-?\d[\w-]*", re.IGNORECASE)
_FIGURES = re.compile(r"\d+(?:[.,]\d+)*")
_DECIMAL = re.compile(r"\d{1,2}\.\d{1,3}")
_FRACTION = re.compile(r"\d+/\d+")
_GAS = re.compile(r"r-?\d{2,4}[a-z]?|\d{3}[a-f]")
_UNITS_AFTER = word_set("unit_words_after")


@dataclass(frozen=True, slots=True)
class Designation:
    """A designation over the tokens [start, end)."""

    text: str
    start: int
    end: int


def read_designation(narration: Narration, i: int, *, letters_first: bool = True) -> Designation | None:
    """Read a designation that starts at token i; None for what holds no digit and is short."""
    tokens = narration.tokens
    out: list[str] = []
    start = i
    end = i
    segment_clip = narration.segments[tokens[i].segment].clip if i < len(tokens) else ""
    while i < len(tokens):
        token = tokens[i]
        if narration.segments[token.segment].clip != segment_clip:
            break
        low = token.lower
        after = tokens[i + 1].lower if i + 1 < len(tokens) else ""
        piece: str | None = None
        step = 1
        if low == "," and out and any(r.start == i + 1 for r in find_refrigerants(narration)):
            break  # "serial eight oh one one two, four oh seven C"
        if (
            low == ","
            and out
            and len(out[-1]) == 1
            and i + 2 < len(tokens)
            and (_one_character(tokens[i + 1].lower) or _last_letter(tokens, i + 1))
            and (tokens[i + 2].lower in (",", ".") or tokens[i - 2].lower == ",")
        ):
            i += 1
            continue
        if (
            low == ","
            and len(out) >= 2
            and out[-1].isdigit()
            and _spoken_digits(tokens, i + 1)
            and _spoken_digits(tokens, i - 1)
        ):
            i += 1
            continue
        if (
            low == ","
            and out
            and after in ("dash", "hyphen", "slash", "stroke")
            and _continues(tokens, i + 2)
        ):
            i += 1
            continue
        if low == "," and out and _spelled_on(narration, i, out):
            i += 1
            continue
        if low in ("uh", "um", "er") and out:
            i += 1
            continue
        if (
            out
            and (low in ("r", "r-") or _GAS.fullmatch(low))
            and any(c.isdigit() for c in "".join(out))
            and any(r.start == i for r in find_refrigerants(narration))
        ):
            break  # "serial 33190 R32", "model PT 60 134A"
        if not out and low in ("dash", "hyphen") and _continues(tokens, i + 1):
            i += 1
            continue
        spelled = _as_in(tokens, i)
        if spelled:
            piece, step = low.upper(), spelled
        elif low in ("double", "triple") and len(after) == 1 and after.isalpha() and after not in ("u", "o"):
            piece, step = after.upper() * (2 if low == "double" else 3), 2
        elif low in ("double", "triple") and (after in _DIGITS or (len(after) == 1 and after.isdigit())):
            piece = _DIGITS.get(after, after) * (2 if low == "double" else 3)
            step = 2
        elif low == "double" and after in ("u", "you"):
            piece, step = "W", 2
        elif low == "x" and after == "ray":
            piece, step = "X", 2
        elif low in _TENS:
            value = _TENS[low]
            if after in _DIGITS and after not in ("oh", "o", "zero", "nought", "naught"):
                value += int(_DIGITS[after])
                step = 2
            piece = str(value)
        elif low in _TEENS:
            piece = str(_TEENS[low])
        elif (
            low == "o"
            and token.text == "O"
            and not (out and out[-1][-1:].isdigit())
            and (out or _continues(tokens, i + 1))
            and not after[:1].isdigit()
        ):
            piece = "O"
        elif low in _DIGITS and not (low == "one" and out and after in ("of", "is", "was")):
            piece = _DIGITS[low]
        elif low in ("hundred", "thousand") and out and out[-1].isdigit():
            zeros = "00" if low == "hundred" else "000"
            # "four hundred ten" is 410, "four hundred" is 400.
            piece, step = _after_hundred(tokens, i, zeros)
        elif low in _SIGNS and out and _continues(tokens, i + 1):
            piece = _SIGNS[low]
        elif low in _SIGNS_SAID and out and after == "," and _spelled_on(narration, i + 1, [*out, "-"]):
            piece, step = _SIGNS[low], 2
        elif token.text in ("-", "/") and out and _continues(tokens, i + 1):
            piece = token.text
        elif (
            low in _NATO
            and (out or _continues(tokens, i + 1))
            and not (low in word_set("names_as_letters") and not _spelling(tokens, i))
        ):
            piece = _NATO[low]
        elif _FIGURES.fullmatch(low) or _FRACTION.fullmatch(low):
            if out and (after in _UNITS_AFTER or _DECIMAL.fullmatch(low)):
                break  # "serial 60418 0.95 kilos"
            piece = low.replace(",", "")
        elif _WRITTEN.fullmatch(token.text) and any(c.isdigit() for c in low):
            piece = token.text.upper()
        elif low.isalpha() and 1 < len(low) <= 5 and not out and _dashed(tokens, i):
            piece = low.upper()
        elif len(low) == 1 and low.isalpha():
            # "a" is a letter only among letters and digits, "I" likewise.
            if low in ("a", "i") and not _letter_here(tokens, i, bool(out)):
                break
            piece = low.upper()
        elif low in _LETTERS and out and _continues(tokens, i + 1):
            piece = _LETTERS[low]
        elif (
            token.text.rstrip("-").isupper()
            and token.text.rstrip("-").isalpha()
            and len(low) <= 5
            and low not in ("psi", "ok", "ol", "oem", "rla", "lra")
        ):
            piece = low.upper() + ("-" if token.text.endswith("-") else "")
        elif (
            token.text.endswith("-")
            and len(low) <= 5
            and low.isalpha()
            and not out
            and _continues(tokens, i + 1)
        ):
            piece = low.upper() + "-"
        if piece is None:
            break
        if (low in ("a", "i") or low in _DIGITS) and out and after in _UNITS_AFTER:
            break
        out.append(piece)
        if step == 1 and token.text.endswith("-") and len(token.text) > 1 and not piece.endswith("-"):
            out.append("-")
        i += step
        end = i
    text = "".join(out).strip("-/.")
    if not text or (not any(c.isdigit() for c in text) and len(text) < 3):
        return None
    if not letters_first and not text[0].isdigit():
        return None
    return Designation(text, start, end)


def _as_in(tokens: tuple[Token, ...], i: int) -> int:
    """Return how many tokens "S as in Sam" or "B for Bravo" takes at token i; 0 when it is none."""
    low = [t.lower for t in tokens[i : i + 5]]
    if len(low) < 3 or len(low[0]) != 1 or not low[0].isalpha():
        return 0
    said_or_heard = low[1:3] == ["as", "in"] or (low[1:3] == ["is", "in"] and low[3:4] and low[3] in _NATO)
    if said_or_heard and low[3:5] == ["x", "ray"]:
        return 6 if [t.lower for t in tokens[i + 5 : i + 6]] == [","] and _continues(tokens, i + 6) else 5
    if said_or_heard and len(low) > 3 and low[3].startswith(low[0]):
        return 5 if len(low) > 4 and low[4] == "," and _continues(tokens, i + 5) else 4
    if low[1] in ("for", "like") and low[2].startswith(low[0]) and len(low[2]) > 2:
        return 4 if len(low) > 3 and low[3] == "," and _continues(tokens, i + 4) else 3
    return 0


def _after_hundred(tokens: tuple[Token, ...], i: int, zeros: str) -> tuple[str, int]:
    """Return what "hundred" at i adds with the small number after it, and how many tokens that takes."""
    j = i + 1
    if j < len(tokens) and tokens[j].lower == "and":
        j += 1
    low = tokens[j].lower if j < len(tokens) else ""
    after = tokens[j + 1].lower if j + 1 < len(tokens) else ""
    if low in _TENS:
        value, n = _TENS[low], 1
        if after in _DIGITS and after not in ("oh", "o", "zero"):
            value, n = value + int(_DIGITS[after]), 2
        return str(value).zfill(len(zeros)), j + n - i
    if low in _TEENS:
        return str(_TEENS[low]).zfill(len(zeros)), j + 1 - i
    if low in _DIGITS and low not in ("oh", "o", "zero") and (j == i + 2 or len(zeros) == 3):
        return _DIGITS[low].zfill(len(zeros)), j + 1 - i
    return zeros, 1


def _continues(tokens: tuple[Token, ...], i: int) -> bool:
    """Tell whether a designation can go on at token i."""
    if i >= len(tokens):
        return False
    low = tokens[i].lower
    return (
        any(low in table for table in (_DIGITS, _TEENS, _TENS, _NATO, _SIGNS, _LETTERS))
        or (len(low) == 1 and low.isalnum())
        or low[:1].isdigit()
        or (tokens[i].text.isupper() and len(low) <= 5)
        or low in ("double", "triple")
    )


_SIGNS_SAID = frozenset(("dash", "hyphen", "slash", "stroke"))
_ENDS = frozenset((",", ".", ";", ":", "?", "!", "and", "serial", "model", "that", "s", "it"))


def _spelled_on(narration: Narration, i: int, out: list[str]) -> bool:
    """Tell whether the designation goes on behind the comma at token i: "HP, zero three six".

    What stands up to the next comma must be spelled throughout, and either the part before has no digit yet,
    or a sign joins the two, or single letters follow. A refrigerant's name and a number with a unit are
    things of their own.
    """
    tokens = narration.tokens
    k = i + 1
    while k < len(tokens) and _continues(tokens, k):
        k += 1
    if k == i + 1:
        return False
    first = tokens[i + 1]
    after = tokens[k].lower if k < len(tokens) else "."
    if after not in _ENDS or (after == "s" and tokens[k - 1].lower == "it"):
        return False
    if any(n.start < k and n.end > i + 1 for n in find_refrigerants(narration)):
        return False
    if out[-1] in ("-", "/") or first.lower in _SIGNS_SAID:
        return True
    if not any(c.isdigit() for c in "".join(out)):
        return any(c.isdigit() for t in tokens[i + 1 : k] for c in _value(t.lower)) or (
            first.lower in _NATO or len(first.lower) == 1
        )
    return k == i + 2 and len(first.text) == 1 and first.text.isupper() and first.text != "I"


def _value(low: str) -> str:
    """Return the digits that a word stands for, or nothing."""
    if low in _TENS or low in _TEENS or low in ("double", "triple"):
        return "0"
    return _DIGITS.get(low, low)


def _dashed(tokens: tuple[Token, ...], i: int) -> bool:
    """Tell whether a word at token i is the letters before a said dash: "ice dash four fifty"."""
    return i + 1 < len(tokens) and tokens[i + 1].lower in ("dash", "hyphen") and _continues(tokens, i + 2)


def _one_character(low: str) -> bool:
    """Tell whether a token is one spelled character."""
    return low in _DIGITS or (len(low) == 1 and low.isalnum() and low != "a")


def _last_letter(tokens: tuple[Token, ...], i: int) -> bool:
    """Tell whether token i is the letter A at the end of a spelled row ("7, 7, 3, 1, A.")."""
    return tokens[i].text == "A" and (i + 1 >= len(tokens) or tokens[i + 1].lower in (".", ","))


def _spoken_digits(tokens: tuple[Token, ...], i: int) -> bool:
    """Tell whether at least two digits are spelled out one by one around token i."""
    row = [t.lower for t in tokens[max(0, i) : i + 4]]
    run = 0
    for low in row:
        if low not in _DIGITS:
            break
        run += 1
    if 0 < i < len(tokens) and tokens[i].lower in _DIGITS and run <= 1:
        run = 1 + (tokens[i - 1].lower in _DIGITS)
    after = row[run] if run < len(row) else "."
    return run >= 2 and after not in _UNITS_AFTER and after != "a"


def _spelling(tokens: tuple[Token, ...], i: int) -> bool:
    """Tell whether a name at token i is a letter: among letters and digits, or first behind "serial"."""
    before = tokens[i - 1].lower if i else ""
    return _continues(tokens, i + 1) and (i == 0 or _continues(tokens, i - 1) or before in _ANNOUNCES)


_ANNOUNCES = frozenset(("serial", "serial's", "model", "model's", "number", "no", "#", "number's"))


def _letter_here(tokens: tuple[Token, ...], i: int, inside: bool) -> bool:
    """Tell whether "a" or "I" at token i is spelled, and no article or pronoun."""
    after = tokens[i + 1] if i + 1 < len(tokens) else None
    if after is None or not after.lower.isalnum() or after.text in (",", "."):
        return inside or (after is not None and _continues(tokens, i + 1))
    if inside:
        return _continues(tokens, i + 1) or (tokens[i].text.isupper() and after.text[:1].isupper())
    return _continues(tokens, i + 1)
