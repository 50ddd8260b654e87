"""Numbers that name a thing: model, serial, part and other numbers, and codes of letters and digits."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.narration import Narration, Token
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

_IDENTITY = tuple(tuple(p.split()) for p in table("reading_words")["not_values_identity"])
_IDENTITY_BY_FIRST = {word: [c for c in _IDENTITY if c[0] == word] for word in {c[0] for c in _IDENTITY}}
_IDENTITY_GLUE = word_list("not_values_identity_glue")
_LETTER_WORDS = word_list("not_values_letter_words")
_ENDINGS = frozenset({"ends", "ending", "starts", "begins", "finishes"})
_WIRING = frozenset("abclnrstuvwg")
"""Letters that name terminals and legs, two of which name the pair between them."""


def identity_spans(narration: Narration) -> list[tuple[int, int]]:
    """Return the token spans of model, serial, part and other numbers that name a thing."""
    done: list[tuple[int, int]] | None = narration.found.get("identity")
    if done is not None:
        return done
    tokens = narration.tokens
    words = narration.lowers
    numbers = {
        t
        for n in find_numbers(narration)
        if n.form not in {"ordinal", "clock", "counted"}
        for t in range(n.start, n.end)
    }
    out: list[tuple[int, int]] = []
    i = 0
    while i < len(tokens):
        begun = _IDENTITY_BY_FIRST.get(words[i])
        if begun is None:
            i += 1
            continue
        cue = next((c for c in begun if tuple(words[i : i + len(c)]) == c), None)
        if cue is None or (cue == ("part",) and words[i - 1 : i] == ["new"]):
            i += 1
            continue
        j = i + len(cue)
        glue = 0
        while j < len(tokens) and words[j] in _IDENTITY_GLUE and glue < 4 and words[j] not in {"-", "dash"}:
            if words[j] in word_list("not_values_identity_joints") and words[j - 1] not in _ENDINGS:
                break
            j += 1
            glue += 1
        begin = j
        while j < len(tokens) and _names_something(tokens, j, numbers, begin):
            j += 1
        if j > begin:
            out.append((begin, j))
            i = j
        else:
            i += 1
    # Single digits in a row are a telephone or another number that is read out.
    digits = [t.index for t in tokens if len(t.lower) == 1 and t.lower.isdigit()]
    for k in range(len(digits)):
        j = k
        while j + 1 < len(digits) and digits[j + 1] == digits[j] + 1:
            j += 1
        if j - k >= 3:
            out.append((digits[k], digits[j] + 1))
    # A code of letters and digits is a name wherever it stands ("DH-1204", "WCU-30").
    for token in tokens:
        text = token.text
        if len(text) <= 2 or text.isalpha() or text.isdigit():
            continue
        if any(c.isdigit() for c in text) and any(c.isalpha() for c in text):
            out.append((token.index, token.index + 1))
    out += _spelled_codes(narration)
    narration.found["identity"] = out
    return out


def _spelled_codes(narration: Narration) -> list[tuple[int, int]]:
    """Return letters and the number said behind them: "CU forty-two", "W F three oh", "S P six zero, N".

    At least two letters, spelled one by one or written as one word in capitals, and no word of the trade
    ("TD 10", "DC 24", "C R 2.1"): nothing that is measured has such a name. Behind "is a" or "a" it is one
    in any case.
    """
    tokens = narration.tokens
    starts = numbers_by_start(narration)
    units = unit_phrases(narration)
    known: set[int] | None = None
    out: list[tuple[int, int]] = []
    for number in starts.values():
        end = number.start - 1 if tokens[number.start - 1].lower in {"dash", "hyphen", "-"} else number.start
        i = end
        while i > 0 and len(tokens[i - 1].lower) == 1 and tokens[i - 1].lower.isalpha():
            i -= 1
        while i < end and tokens[i].text in {"a", "i", "I", "o"}:
            i += 1  # "on a C U forty-two"
        whole = tokens[i - 1].text if i == end and i > 0 else ""
        if whole.isupper() and whole.isalpha() and 2 <= len(whole) <= 4:
            i -= 1
        letters = "".join(tokens[k].lower for k in range(i, end))
        if (
            len(letters) < 2
            or number.negative
            or number.form in {"clock", "ordinal", "counted", "decimal", "fraction"}
        ):
            continue
        if number.places and number.form != "two_digits":
            continue
        if number.end in units:
            continue
        shouted = i > 0 and tokens[i - 1].text.isupper() and len(tokens[i - 1].text) > 1
        named = i > 0 and tokens[i - 1].lower in word_list("not_values_code_leads")
        named = named or _plate_goes_on(narration, number.end)
        dashed = narration.lowers[number.end : number.end + 1] in (["dash"], ["hyphen"])
        named = named or dashed or _model_of(narration.lowers, i)
        wired = len(letters) == 2 and set(letters) <= _WIRING
        if shouted or (not named and (wired or letters in word_list("not_values_no_codes"))):
            continue
        if known is None:
            known = {t for x in find_labels(narration) for t in range(x.start, x.end)}
            known |= {t for c in find_components(narration) for t in range(c.start, c.end)}
            known |= {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
        pointed = not named and any(p.start < number.end and p.end > i for p in find_points(narration))
        if (known.isdisjoint(range(i, number.end)) and not pointed) or dashed:
            out.append((i, _code_end(tokens, starts, number.end)))
    return out


def _model_of(words: list[str], i: int) -> bool:
    """Tell whether a model is told of just before: "model on the condensing unit | C U three eight"."""
    lead = words[max(0, i - 8) : i]
    at = next((k for k in range(len(lead) - 1, -1, -1) if lead[k] in {"model", "serial"}), None)
    if at is None or {",", ".", ";", "and", "but"} & set(lead[at:]):
        return False
    return lead[at + 1 : at + 2] in (["on"], ["of"], ["number"], ["for"], ["is"], ["'s"])


def _plate_goes_on(narration: Narration, end: int) -> bool:
    """Tell whether a serial number or the refrigerant follows: "P T forty-eight, R two ninety"."""
    tokens = narration.tokens
    if end + 1 >= len(tokens) or tokens[end].lower != ",":
        return False
    return tokens[end + 1].lower in {"serial", "model"} or any(
        n.start == end + 1 for n in find_refrigerants(narration)
    )


def _code_end(tokens: Sequence[Token], starts: dict[int, Number], end: int) -> int:
    """Return where a code ends that goes on behind its first number: "TX dash four four eight dash one"."""
    while end + 1 < len(tokens) and tokens[end].lower in {"dash", "hyphen", "slash"}:
        if end + 1 in starts:
            end = starts[end + 1].end
        elif len(tokens[end + 1].lower) == 1:
            end += 2
        else:
            break
    return end


def _names_something(tokens: Sequence[Token], j: int, numbers: set[int], begin: int) -> bool:
    token = tokens[j]
    low = token.lower
    if token.lower in {"-", "dash", "slash", "/"}:
        return j + 1 < len(tokens) and j > begin
    if any(c.isdigit() for c in token.text):
        return True
    if j in numbers:
        return low not in {"and", "a", "an"} or (low == "a" and token.text == "A")
    if len(low) == 1 and low.isalpha():
        # A spelled letter; "a" and "i" in lower case go on being words
        return low not in {"a", "i"} or token.text.isupper()
    if low in _LETTER_WORDS or low in {"oh", "zero"}:
        return True
    return token.text.isupper() and len(token.text) <= 6 and low.isalpha()
