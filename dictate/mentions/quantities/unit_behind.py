"""Which unit stands behind a number, and which word only looks like one."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration, Token
from dictate.mentions.phrases import Phrase
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import word_set

FILLERS = word_list("quantities_fillers")
"""Sounds and words that may stand between a number and its unit without meaning anything."""


_TURNS_A_MINUTE = 200
"""From so many on "turns" are those of an engine or a fan in a minute."""


def after_fillers(narration: Narration, i: int) -> int:
    """Return the first token at or after i that is no filler and no joining hyphen."""
    tokens = narration.tokens
    while i < len(tokens) and (
        tokens[i].lower in FILLERS or (tokens[i].lower == "-" and not _spaced(narration, i))
    ):
        i += 1
    return i


def _spaced(narration: Narration, i: int) -> bool:
    return narration.tokens[i].space_before


_LETTERS = word_list("quantities_letters")


def unit_behind(narration: Narration, i: int, number: Number | None = None) -> Phrase | None:
    """Return the unit phrase right after a number that ends at token i."""
    j = after_fillers(narration, i)
    phrase = unit_phrases(narration).get(j)
    tokens = narration.tokens
    if phrase is not None and narration.lowers[j] == "turns":
        turning = number is not None and number.value >= _TURNS_A_MINUTE
        if turning and phrase.end == j + 1:
            return Phrase(j, j + 1, "rpm")  # "diesel on 2150 turns"; a stem is opened by a few
    if phrase is None:
        return _of_one(narration, j, number)
    word = tokens[phrase.start]
    if narration.parted(i - 1, phrase.start):
        return None  # "... RLA 19.8" at the end of a line, "Circuit 2 ..." on the next
    if phrase.end - phrase.start == 1:
        low = word.lower
        # "a" is an article far more often than amps; a letter is a unit when glued to digits or a capital.
        if low in _LETTERS:
            glued = not word.space_before
            capital = word.text.isupper() and number is not None
            if low in {"a", "c"} and not glued and _row_of_letters(tokens, phrase.start):
                return None
            if low == "a" and not (glued or (capital and number is not None and number.written)):
                return None
            if low in word_list("quantities_unit_at") and not (glued or capital):
                nxt = tokens[phrase.end].lower if phrase.end < len(tokens) else "."
                weighed = (
                    low == "g"
                    and number is not None
                    and number.written
                    and (nxt.isalpha() and len(nxt) > 1)
                    and nxt not in word_set("number_words")
                )  # "Recovered 108 g into the bottle"
                if weighed:
                    return phrase
                if low in {"s", "h", "m", "w"} or nxt not in {".", ",", "and", "on", "at", "?", "!"}:
                    return None
        if low == "in" and word.text != "in.":
            return None
        if low == "cycle" and number is not None and number.value not in {50, 60}:
            return None  # "one cycle", but "sixty cycle" on a plate
        if low == "phase" and number is not None and number.value not in {1, 2, 3}:
            return None  # "475 phase to phase"
        if (
            low in {"circuit", "section", "stage", "row", "door", "zone"}
            and number is not None
            and number.value > 24
        ):
            return None  # "121 circuit B"
        if low == "second" and number is not None:
            nxt = tokens[phrase.end].lower if phrase.end < len(tokens) else "."
            if number.form == "ordinal" or nxt in word_list("quantities_second_of"):
                return None  # "nine hundred first pull, four fifty second pull"
        if low == "flat" and not _turned(tokens, number, i):
            return None  # "fourteen flat": exactly fourteen
        if low in {"time", "times", "point", "head", "speed", "way", "foot"} and number is not None:
            # "head two ten" and "210 head" belong to what was measured: only a hyphen makes it a size
            joined = tokens[phrase.start - 1].text.endswith("-") and not word.space_before
            if low == "head" and not joined:
                return None
            if low == "foot" and tokens[i - 1].lower == "on":
                return None
    return phrase


def _of_one(narration: Narration, i: int, number: Number | None) -> Phrase | None:
    """Return the unit of a part of one: "point six | of a torr", "0.3 of a bar"."""
    if number is None or number.form not in {"decimal", "fraction"} or not 0 < abs(number.value) < 1:
        return None
    if narration.lowers[i : i + 1] != ["of"]:
        return None
    if narration.lowers[i + 1 : i + 2] not in (["a"], ["an"]):
        part = unit_phrases(narration).get(i + 1)  # "two tenths of amp"
        return part if part is not None and part.key in {"amp", "volt", "ohm", "bar"} else None
    if number.form != "decimal":
        return None
    return unit_phrases(narration).get(i + 2)


def inches_unsaid(narration: Narration, number: Number) -> Phrase | None:
    """Return the inch of "bridge was an eighth": such parts are of no other unit."""
    if number.form != "fraction" or not 0 < number.value < 1 or number.value * 32 % 1 or number.written:
        return None
    words = narration.lowers
    behind = words[number.end : number.end + 1]
    if behind and behind[0] not in {".", ",", ";", "now", "and", "thick", "all", "again"}:
        return None
    lead = list(words[max(0, number.start - 4) : number.start])
    while lead and lead[-1] in {"a", "an", "about", "at", "of", "only", "just", "around"}:
        lead.pop()
    if lead[-1:] and lead[-1] in {"is", "was", "'s", "are", "came", "be"}:
        lead = lead[:-1]
    named = lead[-1:] and lead[-1] in word_list("length_of")
    return Phrase(number.end, number.end, "inch") if named else None


def _turned(tokens: Sequence[Token], number: Number | None, i: int) -> bool:
    """Tell whether a flat is one of a nut or a spindle: "opened it one flat", "half a flat out"."""
    if number is not None and (number.value > 3 or number.form == "decimal"):
        return False
    near = {t.lower for t in tokens[max(0, i - 12) : i + 5]}
    return bool(near & word_list("quantities_turning"))


def _row_of_letters(tokens: Sequence[Token], at: int) -> bool:
    """Tell whether a capital behind a number goes on a row of names: "850 phase A, 870 B, 840 C"."""
    before = [t.text for t in tokens[max(0, at - 9) : at]]
    others = {"A", "B", "C"} - {tokens[at].text}
    named = any(
        w in others and before[i - 1].lower() in {"phase", "circuit", "leg"}
        for i, w in enumerate(before)
        if i
    )
    follows = [t.text for t in tokens[at + 1 : at + 5]]
    counted = any(w == "B" and before[i - 1][:1].isdigit() for i, w in enumerate(before) if i)
    return named or counted or (tokens[at].text == "A" and follows[:1] == [","] and "B" in follows)
