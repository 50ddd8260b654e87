"""Phrases of the trade as patterns over words, and the words of a narration as patterns read them.

A pattern is a line of a vocabulary file. Its words are matched one after the other:

    power           this word                      power/breaker/disconnect   one of these words kill!
    any form of the verb "kill"    kill!ed                    only its past and participle forms kill!ing
    only its -ing form             ?old                       a word that may be missing @nitrogen       a
    phrase of the file's list    ?@old                      a phrase that may be missing ~
    up to four words that do not begin a new thought (no "and", no comma, no full stop) ~~              up
    to eight such words         ~,                         up to eight words of the same sentence #
    a number, in digits or words (one word or several) ^               (only in front of the first word)
    nothing of the sentence stands before, small words aside

The first word of a pattern is never optional and never a gap: patterns are looked up by it and by what
may stand behind it, and tried only where a word that they cannot do without is said. That keeps an hour of
speech under a second (spaCy's token matcher took three seconds for 12,000 words and 600 such patterns).
The first verb of a pattern ("!") is its head: its form and what stands before it tell whether the work was
done.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.narration import Narration
from dictate.vocabulary.load import table, word_set

FILLERS = frozenset({"uh", "um", "er", "erm", "ah", "hmm", "mm", "uhm", "umm", "eh"})
PUNCTUATION = frozenset(",.;:?!-()\"'")
SENTENCE_END = frozenset(".?!")
NUMBER_WORDS = word_set("number_words")
_STOPS = frozenset(".?!;")  # no gap of a pattern runs over these
_SMALL = word_set("sentence_openers")
# A gap never runs over these: they begin a new thought.
_BREAKS = (
    r"and|or|but|then|so|because|cause|while|if|when|before|after|until|unless|since|although|i|we|they|he|she|"
    r"once|instead|without|which|who|that's|i'll|we'll|i've|we've|i'm|we're|"
    # Verbs of the work begin a new thought too, where a recogniser left the commas out.
    r"pulled|recovered|brazed|charged|weighed|replaced|checked|valved|evacuated|cleaned|told|plugged|killed|"
    r"unplugged|locked|swapped|changed|installed|washed|added|ran|leak-checked|pressurized"
)
_GAP_WORD = rf"(?: (?!(?:{_BREAKS}|[.,;:?!]) )\S+)"
_LOOSE_WORD = r"(?: (?![.?!;] )\S+)"
_NUMBER_WORD = r"(?: (?:\d[\d.,/:]*|" + "|".join(sorted(NUMBER_WORDS, key=len, reverse=True)) + r")(?= ))"
_NUMBER = _NUMBER_WORD + r"(?:(?: and| a)?" + _NUMBER_WORD + r")*"


@dataclass(frozen=True, slots=True)
class Form:
    """One form of a verb: `base`, `past` (also the participle), `ing` or `third`."""

    verb: str
    kind: str


def _regular(verb: str, doubled: bool) -> tuple[str, str, str]:
    """Return past, -ing and -s form of a regular verb."""
    stem = verb
    if verb.endswith("e") and not verb.endswith(("ee", "oe", "ye")):
        past, ing = verb + "d", verb[:-1] + "ing"
    elif verb.endswith("e"):
        past, ing = verb + "d", verb + "ing"
    elif verb.endswith("y") and verb[-2] not in "aeiou":
        past, ing = verb[:-1] + "ied", verb + "ing"
    else:
        if doubled:
            stem = verb + verb[-1]
        past, ing = stem + "ed", stem + "ing"
    if verb.endswith(("s", "x", "z", "ch", "sh")):
        third = verb + "es"
    elif verb.endswith("y") and verb[-2] not in "aeiou":
        third = verb[:-1] + "ies"
    else:
        third = verb + "s"
    return past, ing, third


@cache
def verb_forms() -> dict[str, dict[str, list[str]]]:
    """Return verb -> kind of form -> its written forms, from verbs.toml."""
    data = table("verbs")
    doubled = set(data["doubled"]["verbs"])
    out: dict[str, dict[str, list[str]]] = {}
    for verb in data["regular"]["verbs"]:
        verb = verb.replace("-", "")
        past, ing, third = _regular(verb, verb in doubled)
        out[verb] = {"base": [verb], "past": [past], "ing": [ing], "third": [third]}
    for verb, (past, participle) in data["irregular"].items():
        _, ing, third = _regular(verb, verb in doubled)
        out[verb] = {
            "base": [verb],
            "past": list(dict.fromkeys([past, participle])),
            "ing": [ing],
            "third": [third],
        }
    for verb, extra in data["heard"].items():
        for kind, words in extra.items():
            out[verb][kind] += [w for w in words if w not in out[verb][kind]]
    return out


@cache
def forms_of_word() -> dict[str, Form]:
    """Return written form -> which form of which verb it is; the past wins where a form is both."""
    out: dict[str, Form] = {}
    for kind in ("third", "ing", "base", "past"):
        for verb, forms in verb_forms().items():
            for word in forms[kind]:
                out[word] = Form(verb, kind)
    return out


AMBIGUOUS = word_set("same_past")
"""Forms that are both base and past; the words around them decide."""


_STATES = word_set("form_states")
_AFTER_STATE = word_set("after_form_state")


def _form_comma(words: list[str], first: int) -> int | None:
    """Return the comma between a thing and its state where a form is read out ("Power, off")."""
    for k in range(first + 1, min(first + 5, len(words) - 1)):
        if words[k] != ",":
            continue
        head = words[first:k]
        if words[k + 1] not in _STATES or any(
            (w in _SMALL and w != "the")
            or (w in forms_of_word() and forms_of_word()[w].kind in ("past", "ing"))
            for w in head
        ):
            return None
        return k if k + 2 >= len(words) or words[k + 2] in _AFTER_STATE else None
    return None


class Words:
    """The words of a narration without fillers and stutters, with the way back to the tokens."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        words: list[str] = []
        tokens: list[int] = []
        self.sentences: list[tuple[int, int]] = []
        for start, end in narration.sentences:
            first = len(words)
            for token in narration.tokens[start:end]:
                low = token.lower
                if low in FILLERS:
                    if words and len(words) > first and words[-1] == ",":
                        words.pop()
                        tokens.pop()
                    continue
                previous = words[-1] if len(words) > first else ""
                if low == "'" and len(previous) > 3 and previous.endswith("in"):
                    words[-1] = previous + "g"  # "pullin'"
                    continue
                if previous == low and low.isalpha() and low not in NUMBER_WORDS:
                    continue  # a stutter: "the the"
                if low.endswith("'d") and low[:-2] in verb_forms():
                    low = verb_forms()[low[:-2]]["past"][0]  # "vac'd"
                if previous == "re" and low in forms_of_word():
                    words[-1] = "re" + low  # re-energized
                    continue
                words.append(low)
                tokens.append(token.index)
            place = _form_comma(words, first)
            if place is not None:
                words.pop(place)
                tokens.pop(place)
            if len(words) > first:
                self.sentences.append((first, len(words)))
        self.words: tuple[str, ...] = tuple(words)
        self.tokens: tuple[int, ...] = tuple(tokens)
        self.sentence_of: list[int] = [0] * len(words)
        for number, (start, end) in enumerate(self.sentences):
            for i in range(start, end):
                self.sentence_of[i] = number

    @cached_property
    def text(self) -> str:
        """The words as one string, each after a blank, with one blank at the end."""
        return "".join(f" {w}" for w in self.words) + " "

    @cached_property
    def starts(self) -> list[int]:
        """Where in `text` the blank before each word stands."""
        out, place = [], 0
        for word in self.words:
            out.append(place)
            place += len(word) + 1
        return out

    @cached_property
    def _index_of(self) -> dict[int, int]:
        return {place: i for i, place in enumerate([*self.starts, len(self.text) - 1])}

    def index(self, place: int) -> int:
        """Return the word whose blank stands at `place` of `text`."""
        return self._index_of[place]

    def word_of_token(self, token: int) -> int:
        """Return the first word at or after a token."""
        return self._word_of[token]

    @cached_property
    def _word_of(self) -> list[int]:
        """The first word at or after each token, and after the last one."""
        found = []
        word = 0
        for token in range(len(self.narration.tokens) + 1):
            while word < len(self.tokens) and self.tokens[word] < token:
                word += 1
            found.append(word)
        return found

    @cached_property
    def places(self) -> dict[str, list[int]]:
        """Where each word stands; under "#" where a number may begin."""
        out: dict[str, list[int]] = {"#": []}
        for i, word in enumerate(self.words):
            if word != "#":
                out.setdefault(word, []).append(i)
            if word in NUMBER_WORDS or word[0].isdigit():
                out["#"].append(i)
        return out

    @cached_property
    def stretch_of(self) -> list[frozenset[str]]:
        """The words between the full stops, question marks and the like around each word."""
        out: list[frozenset[str]] = []
        for i, word in enumerate([*self.words, "."]):
            if word in _STOPS:
                out += [frozenset(self.words[len(out) : i + 1])] * (i + 1 - len(out))
        return out

    def starting(self, firsts: AbstractSet[str]) -> list[int]:
        """Return the places of some words, in order: where phrases that begin with one of them may stand."""
        return sorted(i for w in self.places.keys() & firsts if w != "#" for i in self.places[w])

    def number_end(self, i: int) -> int:
        """Return the word behind the longest stretch of number words that begins at word i."""
        i += 1
        while i < len(self.words) and (
            self.words[i] in NUMBER_WORDS or self.words[i][0].isdigit() or self.words[i] in ("and", "a")
        ):
            i += 1
        return i

    def opens(self, i: int) -> bool:
        """Tell whether word i opens its sentence, small words aside."""
        start, _ = self.sentences[self.sentence_of[i]]
        return all(w in _SMALL for w in self.words[start:i])

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return the token span of the words [start, end)."""
        return self.tokens[start], self.tokens[end - 1] + 1


def words_of(narration: Narration) -> Words:
    """Return the narration's words; made once and kept with it."""
    found = narration.found.get("words")
    if not isinstance(found, Words):
        found = narration.found["words"] = Words(narration)
    return found


@dataclass(frozen=True, slots=True)
class Pattern:
    """A compiled line: what it means (`label`), its first words, and the expression.

    `first` holds each first word with the words one of which stands behind it, None where any word may.
    One of the words of `need`, where there are any, is said in the same stretch between full stops.
    """

    label: str
    line: str
    first: dict[str, frozenset[str] | None]
    need: frozenset[str]
    expression: re.Pattern[str]
    verbless: bool
    opens: bool = False


@dataclass(frozen=True, slots=True)
class Hit:
    """A match: the words [start, end), and the head verb's place and form where there is one."""

    label: str
    start: int
    end: int
    verb: int | None
    form: str | None
    line: str


def _phrases(lists: dict[str, Any], name: str, line: str) -> list[str]:
    if name not in lists:
        raise RecordError(
            f"pattern {line!r} names the list @{name}, which the file does not have.", "Add it."
        )
    return [str(p) for p in lists[name]]


def _alternation(options: Iterable[str]) -> str:
    made = sorted({" ".join(o.lower().split()) for o in options}, key=len, reverse=True)
    return "(?:" + "|".join(" " + re.escape(o).replace("\\ ", " ") for o in made) + ")"


@cache
def _forms(verb: str, only: str) -> tuple[str, ...]:
    forms = verb_forms().get(verb)
    if forms is None:
        raise RecordError(
            f"the verb {verb!r} is used in a pattern and is not in verbs.toml.", "Add it there."
        )
    kinds = {"": ("base", "past", "ing", "third"), "ed": ("past",), "ing": ("ing",)}[only]
    return tuple(dict.fromkeys(w for kind in kinds for w in forms[kind]))


_SHORT = {
    "minutes": ("minutes", "minute", "min", "mins"),
    "hours": ("hours", "hour", "hrs", "hr", "h"),
    "microns": ("microns", "micron", "micrometers"),
}
_VERB = re.compile(r"([a-z-]+)!(ed|ing)?")


def compile_pattern(label: str, line: str, lists: dict[str, Any] | None = None) -> Pattern:
    """Compile one line; RecordError names what is wrong with it."""
    lists = lists or {}
    expression = ""
    begins: list[tuple[list[str] | None, bool]] = []
    headed = False
    nodes = line.split()
    opens = nodes[0] == "^"
    for number, node in enumerate(nodes[1:] if opens else nodes):
        optional = node.startswith("?")
        node = node[1:] if optional else node
        options: list[str] | None = None
        if node == "~":
            piece = _GAP_WORD + "{0,4}?"
        elif node == "~~":
            piece = _GAP_WORD + "{0,8}?"
        elif node == "~,":
            piece = _LOOSE_WORD + "{0,8}?"
        elif node == "#":
            piece = _NUMBER
        elif "!" in node:
            options = []
            for alternative in node.split("/"):
                match = _VERB.fullmatch(alternative)
                options += _forms(match.group(1), match.group(2) or "") if match else [alternative]
            piece = _alternation(options)
            if not headed:
                piece = f"(?P<verb>{piece})"
                headed = True
        elif node.startswith("@"):
            options = _phrases(lists, node[1:], line)
            piece = _alternation(options)
        else:
            options = [w for o in node.split("/") for w in _SHORT.get(o, (o,))]
            piece = _alternation(options)
        if number == 0:
            if node == "#":
                options = ["#"]
            if options is None or optional:
                raise RecordError(
                    f"pattern {line!r} begins with a gap or an optional word.", "Begin with a word."
                )
        begins.append((options, optional))
        expression += f"(?:{piece})?" if optional else piece
    return Pattern(
        label,
        line,
        _first_words(begins),
        _needed(begins),
        re.compile(expression + r"(?= )"),
        not headed,
        opens,
    )


def _needed(nodes: list[tuple[list[str] | None, bool]]) -> frozenset[str]:
    """Return the fewest words one of which begins a node behind the first; none where marks are matched."""
    sets = [
        frozenset(o.lower().split()[0] for o in node) for node, optional in nodes[1:] if node and not optional
    ]
    marked = any(_STOPS & set(o.split()) for node, _ in nodes for o in node or ())
    return min(sets, key=len) if sets and not marked else frozenset()


def _first_words(nodes: list[tuple[list[str] | None, bool]]) -> dict[str, frozenset[str] | None]:
    """Return the first words of a pattern with those that may follow each, None where any word may.

    `nodes` are the options of each node, None for a gap or a number, and whether it may be missing.
    """
    starts: set[str] = set()
    behind: set[str] | None = None  # where the pattern may end with its first node
    for options, optional in nodes[1:]:
        if options is None:
            break
        starts.update(o.lower().split()[0] for o in options)
        if not optional:
            behind = starts
            break
    first: dict[str, frozenset[str] | None] = {}
    for option in nodes[0][0] or ():
        word, *rest = option.lower().split()
        follows = {rest[0]} if rest else behind
        known = first.get(word, frozenset())
        first[word] = None if follows is None or known is None else known | follows
    return first


@dataclass(slots=True)
class _Begun:
    """The patterns that a word begins, in their order: by the word behind it, and those that take any."""

    all: list[Pattern]
    any: list[Pattern]
    by_next: dict[str, list[Pattern]]

    def before(self, words: Sequence[str]) -> Sequence[Pattern]:
        """Return the patterns that may go on with one of the words."""
        if len(words) == 1:
            return self.by_next.get(words[0], self.any)
        known = [w for w in words if w in self.by_next]
        if len(known) < 2:
            return self.by_next[known[0]] if known else self.any
        several = {id(p) for w in known for p in self.by_next[w]}
        return [p for p in self.all if id(p) in several]

    @classmethod
    def by(cls, word: str, patterns: list[Pattern]) -> _Begun:
        follows = [(p, p.first[word]) for p in patterns]
        known = {w for _, after in follows if after is not None for w in after}
        return cls(
            patterns,
            [p for p, after in follows if after is None],
            {w: [p for p, after in follows if after is None or w in after] for w in known},
        )


class Matcher:
    """Many patterns, looked up by their first word and the one behind it."""

    def __init__(self, patterns: Iterable[Pattern]) -> None:
        by_word: dict[str, list[Pattern]] = {}
        for pattern in patterns:
            for word in pattern.first:
                by_word.setdefault(word, []).append(pattern)
        self.numeric = _Begun.by("#", by_word.pop("#", []))
        self.by_word = {word: _Begun.by(word, begun) for word, begun in by_word.items()}

    def hits(self, words: Words) -> Iterator[Hit]:
        """Yield every match, by place."""
        text, starts = words.text, words.starts
        forms = forms_of_word()
        places = words.places
        row = words.words
        numbers = set(places["#"]) if self.numeric.all else set()
        begun = numbers.union(*(places[w] for w in places.keys() & self.by_word.keys()))
        for i in sorted(begun):
            led = self.by_word.get(row[i])
            candidates = led.before(row[i + 1 : i + 2]) if led is not None else ()
            if i in numbers:
                candidates = [*candidates, *self.numeric.before(row[i + 1 : words.number_end(i) + 1])]
            here = words.stretch_of[i]
            for pattern in candidates:
                if pattern.need and pattern.need.isdisjoint(here):
                    continue
                match = pattern.expression.match(text, starts[i])
                if match is None or (pattern.opens and not words.opens(i)):
                    continue
                verb = form = None
                if not pattern.verbless and match.start("verb") >= 0:
                    verb = words.index(match.start("verb"))
                    head = forms.get(words.words[verb])
                    verb, form = (verb, head.kind) if head else (None, None)
                yield Hit(pattern.label, i, words.index(match.end()), verb, form, pattern.line)


def longest(hits: Iterable[Hit]) -> list[Hit]:
    """Keep, of hits with the same label that overlap, the longest."""
    kept: list[Hit] = []
    for hit in sorted(hits, key=lambda h: (h.start - h.end, h.start)):
        if not any(k.label == hit.label and hit.start < k.end and k.start < hit.end for k in kept):
            kept.append(hit)
    return sorted(kept, key=lambda h: (h.start, h.end))


def compile_all(label: str, lines: Sequence[str], lists: dict[str, Any] | None = None) -> list[Pattern]:
    """Compile several lines under one label."""
    return [compile_pattern(label, line, lists) for line in lines]
