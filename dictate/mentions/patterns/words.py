"""The words of a narration as patterns read them: no fillers, no stutters, one string with its places."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from functools import cache, cached_property

from dictate.mentions.narration import Narration
from dictate.mentions.patterns.verbs import forms_of_word, verb_forms
from dictate.vocabulary.load import table, word_set

FILLERS = frozenset({"uh", "um", "er", "erm", "ah", "hmm", "mm", "uhm", "umm", "eh"})
_ORDINALS = {"1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth", "5th": "fifth"}
PUNCTUATION = frozenset(",.;:?!-()\"'")
SENTENCE_END = frozenset(".?!")
NUMBER_WORDS = word_set("number_words")
STOPS = frozenset(".?!;")  # no gap of a pattern runs over these
_SMALL = word_set("sentence_openers")

_STATES = word_set("form_states")
_AFTER_STATE = word_set("after_form_state")
_BEFORE_A_WEIGHT = frozenset({"about", "exactly", "a", "the", "another", "just", "right", "at", "roughly"})


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


@cache
def _slips() -> tuple[dict[str, dict[str, str]], dict[str, frozenset[str]], frozenset[str]]:
    """Return the misheard verbs of moving refrigerant: pairs, those before a weight, and units of weight."""
    data = table("movements")["misheard"]
    pairs: dict[str, dict[str, str]] = {}
    for said, meant in data["pairs"].items():
        first, second = said.split()
        pairs.setdefault(second, {})[first] = meant
    led = {second: frozenset(firsts) for second, firsts in data["weighed_before"].items()}
    return pairs, led, frozenset(data["units"])


_WEIGHT = 8  # tokens behind "waited in" among which a number and a unit of weight stand


def _weight_follows(narration: Narration, at: int, units: frozenset[str]) -> bool:
    """Tell whether a number and a unit of weight stand right behind token `at`."""
    row = narration.lowers[at : at + _WEIGHT]
    lead = next((w for w in row if w not in _BEFORE_A_WEIGHT), "")
    stop = next((i for i, w in enumerate(row) if w in STOPS), len(row))
    return (lead in NUMBER_WORDS or lead[:1].isdigit()) and bool(units & set(row[:stop]))


class Words:
    """The words of a narration without fillers and stutters, with the way back to the tokens."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        slips, before_weight, units = _slips()
        words: list[str] = []
        tokens: list[int] = []
        self.sentences: list[tuple[int, int]] = []
        for start, end in narration.sentences:
            first = len(words)
            for token in narration.tokens[start:end]:
                low = _ORDINALS.get(token.lower, token.lower)  # "the 2nd one"
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
                if low in slips and previous in slips[low]:
                    words[-1] = slips[low][previous]  # "wreck covered"
                    continue
                if (
                    low in before_weight
                    and previous in before_weight[low]
                    and _weight_follows(narration, token.index + 1, units)
                ):
                    words[-1], low = "weighed", "in"  # "waited in 14 ounces", "weighed and 14 ounces"
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
        return " ".join(("", *self.words, ""))

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
        found: list[int] = []
        for word, token in enumerate((*self.tokens, len(self.narration.tokens))):
            found += [word] * (token + 1 - len(found))
        return found

    @cached_property
    def places(self) -> dict[str, list[int]]:
        """Where each word stands; under "#" where a number may begin."""
        out: dict[str, list[int]] = {}
        for i, word in enumerate(self.words):
            if word in out:
                out[word].append(i)
            else:
                out[word] = [i]
        out.pop("#", None)
        numbers = [w for w in out if w in NUMBER_WORDS or w[0].isdigit()]
        out["#"] = sorted(i for w in numbers for i in out[w])
        return out

    @cached_property
    def stretch_of(self) -> list[frozenset[str]]:
        """The words between the full stops, question marks and the like around each word."""
        out: list[frozenset[str]] = []
        for i, word in enumerate([*self.words, "."]):
            if word in STOPS:
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
        """Return the token span of the words [start, end), which ends with the last word at the latest."""
        return self.tokens[start], self.tokens[min(end, len(self.tokens)) - 1] + 1


def words_of(narration: Narration) -> Words:
    """Return the narration's words; made once and kept with it."""
    found = narration.found.get("words")
    if not isinstance(found, Words):
        found = narration.found["words"] = Words(narration)
    return found
