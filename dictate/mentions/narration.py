"""The words of a visit as one row of tokens that remember where they were said.

Every finder of this stage reads a `Narration` and points at tokens; `at()` and `heard()` turn a token span
into the record's place and words. A token is the smallest piece that the grammars read: "240V," gives
"240", "V", ","; "R-404A" stays whole, and so does "4.25". A hyphen between words belongs to the word on
its left ("run-start" gives "run-" and "start" as text, "run" and "start" in lower case), and a possessive or
short "is" comes apart ("suction's" gives "suction", "'s"), so that every way of writing a phrase gives the
same lower-case tokens: `lowers()` tokenises a phrase of a vocabulary file in the same way.

>>> n = Narration.from_text("Suction is at 22.5 psi. Box 38.")
>>> [t.text for t in n.tokens]
['Suction', 'is', 'at', '22.5', 'psi', '.', 'Box', '38', '.']
>>> n.heard(3, 5)
'22.5 psi'
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from functools import cache, cached_property, lru_cache
from typing import Any

from dictate.mentions.unsaid_stops import unsaid_stops
from dictate.mentions.word_lists import word_list
from dictate.record.base import At
from dictate.record.transcript import Segment, Word
from dictate.vocabulary.load import table, word_set

# A refrigerant, model or serial designation with letters and digits stays whole ("R-404A", "404a",
# "X12-B"); a number keeps its thousands commas and its point; a fraction like 3/8 is one token.
_PIECE = re.compile(
    r"""
      \d+/\d+(?=(?:ths?|nds?|rds?)?(?![\w/]))        # 3/8, and 3/8ths without its ending
    | \d{1,2}:\d{2}(?!\d)                            # 9:15
    | \b[AaPp]\.[Mm]\b                             # 8 a.m.: the last full stop may end the sentence
    | \b[Oo]\.\ ?[Ll]\b\.?                           # O.L., what a meter shows over range
    | \b(?:[A-Za-z]\.)+[A-Za-z](?![A-Za-z])\.?        # R.L.A., p.s.i.: an abbreviation with full stops
    | \d{1,3}(?:,\d{3})+(?:\.\d+)?(?!\d)             # 1,150.5
    | [A-Za-z]+(?=['’][sS]\b)                        # suction's: the ending is a token of its own
    | ['’][sS]\b
    | [A-Za-z]+(?:['’][A-Za-z]+)+                    # don't
    | [A-Za-z]+[lwdntpbkee]in['’](?![A-Za-z])          # pullin'
    | \b(?:[Aa]n|[A-Za-z]+(?:san|nner|ndre))['’](?![\w'’])   # an', thousan', hunner'
    | [LlTt][123]-(?=[LlTt][123]\b)                  # L1-L2 comes apart like run-start
    | \d+(?:\.\d+)?-(?=[A-Za-z]{3})                  # 24-volt, 15-minute
    | \d+(?:\.\d+)?(?=ish\b)                        # 80ish
    | [A-Za-z]*\d+[A-Za-z]+[\w]*(?:-\w+)*            # 404A, 240V, 10k
    | [A-Za-z]+-?\d[\w]*(?:[-.]\w+)*(?<![.])         # R-404A, R404A, X12-B
    | \.{2,} | …                                     # a pause, or the end of what was said
    | (?<![\d,.])\d{1,3},\d{1,2}(?![\d,]|\.\d)         # 2,4: a decimal comma
    | \.\d+ | \d+(?:\.\d+)?                          # .8, 22, 22.5
    | [A-Za-z]+-(?=[A-Za-z])                         # run-start: "run-", "start"
    | [A-Za-z]+
    | [½¼¾⅛⅜⅝⅞]
    | [^\w\s] | \w+
    """,
    re.VERBOSE,
)
# A number glued to its unit comes apart; a designation does not.
_GLUED = re.compile(
    r"(\d+(?:\.\d+)?)(v|vac|vdc|volts?|a|amps?|ma|mv|w|kw|hz|psi|psig|psia|kpa|bar|barg|mbar|pa|f|c|k|m|uf|mfd|µf|oz|"
    r"lbs?|g|kg|mm|cm|in|ft|rpm|hp|ohms?|kohms?|mohms?|ppm|cfh|gpm|microns?|degrees?|deg|degf|degc|percent|"
    r"mins?|min|hrs?|hours?|s|sec|secs|h|am|pm)",
    re.IGNORECASE,
)
# Digits that are a refrigerant's when a letter follows: 404A is a name, 12A are amps.
_REFRIGERANT_DIGITS = re.compile(r"1(?:23|24|34|41|42|43|52)|2(?:27|36|45)|[45]\d\d|60[01]|12[37][0-9]|1336")
# Drawled forms of the words that lead to a value: "pullin fifteen two".
_DROPPED_G = frozenset(
    f"{stem}in{end}"
    for stem in ("pull", "draw", "read", "runn", "gett", "show", "sitt", "hold", "dropp", "climb", "hitt",
                 "mak",
                 "see", "look")
    for end in ("", "'")
)  # fmt: skip
_DOTTED = re.compile(r"(?:[a-z]\.)+[a-z]\.?")
_ORDINAL = re.compile(r"\d+(?:st|nd|rd|th|ths)", re.IGNORECASE)
DOTS = frozenset(("..", "...", "....", ".....", "…"))
"""A speaker who stops for a moment: a comma when the words go on in small letters, else a full stop."""
_MAY_GO_ON = DOTS | {"?"}
SENTENCE_END = frozenset(".?!")
_ENDS = SENTENCE_END | DOTS
_WIDEST_LINE = 160
"""Characters: a longer line is a paragraph of its own, and was not wrapped by an editor."""


@dataclass(slots=True, eq=False)
class Token:
    """One token: its text, lower-case form, place, and the probability of the word it belongs to.

    Nothing changes one. It is not frozen because a narration has very many, and those take long to make.
    """

    text: str
    lower: str
    index: int
    segment: int
    word: int
    space_before: bool
    probability: float | None = None


def pieces(text: str) -> list[str]:
    """Split one written word (or a whole text) into tokens."""
    return list(_pieces(text))


@lru_cache(maxsize=20_000)
def _pieces(text: str) -> tuple[str, ...]:
    """Split as `pieces` does; kept, because a narration says the same words over and over."""
    out: list[str] = []
    for match in _PIECE.finditer(text):
        piece = match.group()
        glued = _GLUED.fullmatch(piece)
        # "404A", "407C" and the like are names of refrigerants, so they stay whole.
        name = (
            glued is not None
            and glued.group(2).lower() in {"a", "c", "f", "b"}
            and _REFRIGERANT_DIGITS.fullmatch(glued.group(1)) is not None
        )
        if glued and not name:
            out += [glued.group(1), glued.group(2)]
        else:
            out.append(piece)
    return tuple(out)


@lru_cache(maxsize=20_000)
def _split(text: str) -> tuple[tuple[str, str], ...]:
    """Return the pieces of a written word, each with its lower-case form."""
    pieces = _pieces(text)
    if len(pieces) == 2 and pieces[0] in ("ol", "Ol") and pieces[1] in ("'", "’"):
        return ((pieces[0], "old"), (pieces[1], "'"))  # "the ol' compressor": no meter that says OL
    return tuple((piece, _lower(piece)) for piece in pieces)


@lru_cache(maxsize=20_000)
def _lower(piece: str) -> str:
    """Return the form that vocabulary is compared with: lower case, plain apostrophe, no joining hyphen."""
    low = piece.lower().replace("’", "'")
    if low.startswith("o.") and low.strip("o. l") == "":
        return "ol"
    if _DOTTED.fullmatch(low) and low not in {"a.m", "p.m"}:
        return low.replace(".", "")
    if low in _DROPPED_G:
        return low.rstrip("'") + "g"
    low = low[:-1] if len(low) > 1 and low.endswith("-") else low
    return _spelled().get(low, low)


@cache
def _spelled() -> dict[str, str]:
    """Return the words of a dialect with the number words that they stand for."""
    return {said: word for word, forms in table("numbers")["spelled"].items() for said in forms}


def lowers(phrase: str) -> tuple[str, ...]:
    """Return the lower-case tokens of a vocabulary phrase, as `Token.lower` has them.

    >>> lowers("run-start winding's")
    ('run', 'start', 'winding', "'s")
    """
    return tuple(_lower(p) for p in pieces(phrase))


_SHORT_QUESTION = 9
"""Words that a question which only names what is answered has at most."""


def _answered(tokens: Sequence[Token], i: int) -> bool:
    """Tell whether the question mark at i parts what was measured from its value: "Return? Fifty-one."."""
    words = word_set("number_words")
    for k in range(i + 1, min(i + 3, len(tokens))):
        low = tokens[k].lower
        if low[:1].isdigit() or (low in words and low != "a"):
            break
        if low in word_list("narration_answers"):
            break
        if low not in word_list("narration_answer_leads"):
            return False
    else:
        return False
    for n, k in enumerate(range(i - 1, -1, -1)):
        if tokens[k].lower in SENTENCE_END or tokens[k].segment != tokens[i].segment:
            return 0 < n <= _SHORT_QUESTION
        if tokens[k].lower in word_list("narration_asks_no_value") or tokens[k].lower[:1].isdigit():
            return False
    return 0 < i <= _SHORT_QUESTION


_SHORT_UNITS = frozenset(("lb.", "lbs.", "oz.", "ozs.", "hr.", "hrs.", "min.", "mins."))


def _abbreviated(segment: Segment, w: int) -> bool:
    """Tell whether a word is a unit cut short by a full stop, and goes on: "1 lb. 3 oz. of R-134a"."""
    if segment.words[w].text.lower() not in _SHORT_UNITS or w + 1 >= len(segment.words):
        return False
    behind = segment.words[w + 1].text[:1]
    return behind.islower() or behind.isdigit()


class Narration:
    """The tokens of all segments of a visit, in order."""

    def __init__(self, segments: Sequence[Segment]) -> None:
        self.segments = list(segments)
        tokens: list[Token] = []
        unsaid = unsaid_stops(self.segments)
        self._firsts: list[list[int]] = []
        """The first token of each word of each segment, and the one behind the last."""
        for s, segment in enumerate(self.segments):
            firsts: list[int] = []
            self._firsts.append(firsts)
            for w, word in enumerate(segment.words):
                firsts.append(len(tokens))
                opens, probability = True, word.probability
                short = _abbreviated(segment, w)
                for piece, low in _split(word.text):
                    if short and low == ".":
                        continue
                    tokens.append(Token(piece, low, len(tokens), s, w, opens, probability))
                    opens = False
                if unsaid and (mark := unsaid.get((s, w))) is not None:
                    # Nobody wrote it: it counts as a mark, and is not among the words as heard.
                    tokens.append(Token("", mark, len(tokens), s, w, False, probability))
            firsts.append(len(tokens))
        if tokens and tokens[-1].lower not in _ENDS:
            # Talk that breaks off ends there: readers may look one word on from the last.
            last = tokens[-1]
            tokens.append(Token("", ".", len(tokens), last.segment, last.word, False, last.probability))
            self._firsts[last.segment][-1] = len(tokens)
        for i, token in enumerate(tokens):
            if token.lower not in _MAY_GO_ON:
                continue
            if token.lower in DOTS:
                nxt = tokens[i + 1] if i + 1 < len(tokens) else None
                goes_on = nxt is not None and nxt.segment == token.segment and not nxt.text[:1].isupper()
                tokens[i] = replace(token, lower="," if goes_on else ".")
            elif token.lower == "?" and _answered(tokens, i):
                tokens[i] = replace(token, lower=":")  # "Discharge air? Thirty-nine." tells a value
        self.tokens: tuple[Token, ...] = tuple(tokens)
        self.found: dict[str, Any] = {}
        """What finders have found, by the finder's name, so that several of them share one pass."""

    @classmethod
    def from_text(cls, text: str, clip: str = "c1") -> Narration:
        """Make a narration of a plain text, one segment a line."""
        return cls(list(segments_of(text.splitlines(), clip)))

    @cached_property
    def lowers(self) -> list[str]:
        """Return the lower-case form of every token."""
        return [t.lower for t in self.tokens]

    @cached_property
    def places(self) -> dict[str, list[int]]:
        """Return the tokens at which each word stands, in lower case."""
        found: dict[str, list[int]] = {}
        for i, word in enumerate(self.lowers):
            if word in found:
                found[word].append(i)
            else:
                found[word] = [i]
        return found

    def starting(self, firsts: AbstractSet[str]) -> list[int]:
        """Return the tokens that are one of some words, in order: where their phrases may stand."""
        return sorted(i for word in self.places.keys() & firsts for i in self.places[word])

    def tokens_of(self, segment: int, word: int) -> range | None:
        """Return the tokens of a written word, None where it has none."""
        firsts = self._firsts[segment] if segment < len(self._firsts) else []
        if word + 1 >= len(firsts):
            return None
        return range(firsts[word], firsts[word + 1]) or None

    @cached_property
    def recognised(self) -> bool:
        """Tell whether a recogniser wrote the words (they carry probabilities), or a person typed them."""
        return any(t.probability is not None for t in self.tokens)

    @cached_property
    def sentences(self) -> list[tuple[int, int]]:
        """Token spans (start, end) of the sentences; a segment's end does not end a sentence by itself.

        A recogniser cuts its segments where it likes, so a sentence ends at a full stop, at a question or
        exclamation mark, at a change of clip, and at a segment's end only when the segment has no
        punctuation of its own or the next one starts with a capital letter. A typed line always ends one.
        """
        out: list[tuple[int, int]] = []
        start = 0
        for i, (token, nxt) in enumerate(zip(self.tokens, (*self.tokens[1:], None), strict=False)):
            ends = token.lower in SENTENCE_END
            if nxt is not None and not ends and nxt.segment != token.segment:
                here, there = self.segments[token.segment], self.segments[nxt.segment]
                typed = here.start_s is None and here.words[0].start_s is None and not self._wrapped(i)
                ends = here.clip != there.clip or typed or (nxt.text[:1].isupper() and token.lower != ",")
            if nxt is not None and token.text[-1:] == "." and len(token.text) > 1 and nxt.text[:1].isupper():
                ends = True  # the last full stop of "O.L." or "R.L.A." is that of the sentence
            if nxt is not None and ends and nxt.lower in SENTENCE_END:
                ends = False  # "..." is one end
            if ends and nxt is not None and i and self.tokens[i - 1].lower in ("a.m", "p.m"):
                ends = not nxt.text[:1].islower()  # "from 8 a.m. to noon"
            if ends or nxt is None:
                out.append((start, i + 1))
                start = i + 1
        return out

    def _wrapped(self, i: int) -> bool:
        """Tell whether the line that ends with token i was only wrapped: it is long and goes on."""
        here, nxt = self.tokens[i], self.tokens[i + 1]
        return (
            60 <= len(self.segments[here.segment].text) <= _WIDEST_LINE
            and (here.text.isalnum() or here.text == ",")
            and (nxt.text[:1].islower() or nxt.text[:1].isdigit())
        )

    def parted(self, a: int, b: int) -> bool:
        """Tell whether a segment's end parts two tokens: a capital opens the next one."""
        first, second = self.tokens[a], self.tokens[b]
        if first.segment == second.segment:
            return False
        return second.text[:1].isupper()

    def at(self, start: int, end: int) -> At:
        """Return where the tokens [start, end) were said."""
        first, last = self.tokens[start], self.tokens[max(start, end - 1)]
        a, b = self.segments[first.segment], self.segments[last.segment]
        begin = a.words[first.word].start_s if a.words[first.word].start_s is not None else a.start_s
        finish = b.words[last.word].end_s if b.words[last.word].end_s is not None else b.end_s
        return At(
            clip=a.clip,
            start_s=begin,
            end_s=finish if a.clip == b.clip else a.end_s,
            segment=first.segment,
            first_word=first.word,
            last_word=last.word if first.segment == last.segment else len(a.words) - 1,
        )

    def heard(self, start: int, end: int) -> str:
        """Return the words of the tokens [start, end) as transcribed."""
        out = ""
        for token in self.tokens[start:end]:
            out += (" " if out and token.space_before else "") + token.text
        return out

    def probability(self, start: int, end: int) -> float | None:
        """Return the lowest word probability in the span, or null for a typed text."""
        known = [t.probability for t in self.tokens[start:end] if t.probability is not None]
        return min(known) if known else None


def segments_of(lines: Iterable[str], clip: str) -> Iterable[Segment]:
    """Turn lines of typed text into segments without times."""
    for line in lines:
        words = [Word(text=w) for w in line.split()]
        if words:
            yield Segment(clip=clip, text=" ".join(line.split()), words=words)
