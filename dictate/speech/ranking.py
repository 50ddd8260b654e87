"""Choose between the ways to write one piece down, and say how sure each of its values is.

Every decode gives a short list of hypotheses. The texts in a list differ mostly in marks, so the best score
alone repairs nothing; what counts is which *values* the decodes agree on. Each source (the ordinary decode,
the one without digits, both of the witness) spreads its vote over its hypotheses; a value's `support` is its
share of the votes. The hypothesis is taken whose values are supported most, an unsupported value counting
against it (minimum Bayes risk over values), with its own score and the trade's grammar beside.

Measured on 19 spoken narrations (8 voices; 428 values, each also with machine noise at 10 dB), values right
and values that nobody said:
plain decode 378 and 47 clean, 312 and 136 at 10 dB; this choice 390 and 29, 325 and 86.
"""

from __future__ import annotations

import math
import re
import zlib
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from dictate.record.transcript import Alternative, Doubt, Word
from dictate.speech import hearing
from dictate.speech.engine import Grammar

PER_SECOND = 12.0
"""More tokens than this per second of speech is faster than anybody speaks: the model is making words up."""

STATE = 3
"""Raised when the logic here changes, so that answers kept from before are not used again."""

_COMPRESSED_TOO_WELL = 2.4  # as in Whisper's own guard against loops
_SHARPNESS = 0.5  # of the log probability of a whole hypothesis, when a source spreads its vote
_OWN_SCORE = 2.0
_GRAMMAR = 0.3
_VOTES = {"decode": 1.0, "words": 1.7, "witness": 0.7, "witness words": 0.7}
"""The decode without digits weighs more: written digits run together ("134 11 ounces" becomes 13411)."""
_HOMOPHONE = 0.0  # what another wording costs, per token: a penalty of 0.05 and more lost values
_ROMAN = re.compile(r"\b[IVX]{2,5}\b")
_ROMAN_LOSS = 1.0
_DESIGNATION = re.compile(r"\b(?:model|serial|part (?:number|no)|catalogue number)\b", re.IGNORECASE)
_DESIGNATION_LOSS = 0.5
_MANY = 4  # rivals of one span that are kept


@dataclass
class Hypothesis:
    """One way to write a piece down: `score` is the mean log probability of a token."""

    text: str
    tokens: list[int]
    score: float
    source: str


def looped(hypothesis: Hypothesis, speech_s: float) -> bool:
    """Tell whether the model went round in circles or wrote more than anybody can say in that time."""
    text = hypothesis.text.encode()
    if len(text) > 60 and len(text) / len(zlib.compress(text)) > _COMPRESSED_TOO_WELL:
        return True
    if len(hypothesis.tokens) > 12 + PER_SECOND * max(speech_s, 0.5):
        return True
    words = re.findall(r"[a-z0-9']+", hypothesis.text.lower())
    return any(len(words) >= 4 * n and words[-n:] * 4 == words[-4 * n :] for n in (1, 2, 3, 4, 5, 6))


def said_length(text: str) -> int:
    """Return about how many letters are said: a digit is said with four, a point with five."""
    return sum(
        4 if c.isdigit() else 5 if c == "." else 1 for c in re.findall(r"[a-zA-Z0-9]|(?<=\d)\.(?=\d)", text)
    )


@dataclass
class Ballot:
    """The hypotheses of one piece, and their votes for the values.

    `candidates` may be written down; `listeners` only vote (the witness).
    """

    candidates: list[Hypothesis]
    listeners: list[Hypothesis]
    grammar: Grammar
    least: float = 0.0
    """Hypotheses with fewer said letters stopped too early: they are not chosen and do not vote."""
    _values: dict[str, list[tuple[int, int, str]]] = field(default_factory=dict)

    def values(self, text: str) -> list[tuple[int, int, str]]:
        """Return the values of a text as (start, end, key)."""
        if text not in self._values:
            self._values[text] = [(a, b, key) for a, b, key in self.grammar.values(text)]
        return self._values[text]

    def with_homophones(self, encode: Callable[[str], list[int]]) -> None:
        """Add each candidate's other wordings where a word in it may be a number, or a comma may be none.

        "voltage now to twenty-nine" may be "voltage now two twenty-nine", and "one, twenty-two volts" one
        number. The sound cannot tell, so all of them share the vote; the grammar and the other decodes
        decide, and the value keeps less than full support.
        """
        known = {h.text for h in self.candidates}
        for hypothesis in list(self.candidates):
            for text in hearing.other_wordings(hypothesis.text):
                if text not in known:
                    known.add(text)
                    score = hypothesis.score - _HOMOPHONE
                    self.candidates.append(Hypothesis(text, encode(" " + text), score, hypothesis.source))

    def _numbered(self, text: str) -> list[tuple[str, int]]:
        """Return the values' keys, each with how often it came before: the second "208 V" is another one."""
        seen: Counter[str] = Counter()
        out = []
        for _, _, key in self.values(text):
            out.append((key, seen[key]))
            seen[key] += 1
        return out

    def support(self) -> dict[tuple[str, int], float]:
        """Return the share of all votes that each value has."""
        total = 0.0
        out: defaultdict[tuple[str, int], float] = defaultdict(float)
        for source, votes in _VOTES.items():
            row = [
                h
                for h in [*self.candidates, *self.listeners]
                if h.source == source and h.text and said_length(h.text) >= self.least
            ]
            if not row:
                continue
            total += votes
            logs = [_SHARPNESS * h.score * (len(h.tokens) + 1) for h in row]
            weights = [math.exp(x - max(logs)) for x in logs]
            for hypothesis, weight in zip(row, weights, strict=True):
                for value in self._numbered(hypothesis.text):
                    out[value] += votes * weight / sum(weights)
        return {value: share / total for value, share in out.items()} if total else {}

    def best(self) -> Hypothesis | None:
        """Return the candidate whose values are supported most; None when there is none."""
        support = self.support()
        chosen, value = None, -math.inf
        for hypothesis in self.candidates:
            if not hypothesis.text or said_length(hypothesis.text) < self.least:
                continue
            rank = _OWN_SCORE * hypothesis.score + _GRAMMAR * self.grammar.score(hypothesis.text)
            rank += sum(2 * support.get(v, 0.0) - 1 for v in self._numbered(hypothesis.text))
            rank -= _misfit(hypothesis)
            if rank > value + 1e-9:
                chosen, value = hypothesis, rank
        return chosen

    def best_longer(self, than: Hypothesis) -> Hypothesis | None:
        """Return the best candidate that says clearly more than this one, which stopped too early.

        Those that stopped as early have no vote from then on; without a longer candidate nothing changes.
        """
        before, self.least = self.least, 1.2 * said_length(than.text)
        longer = self.best()
        if longer is None:
            self.least = before
        return longer

    def doubts(self, chosen: Hypothesis, words: Sequence[Word]) -> list[Doubt]:
        """Return the evidence about each value of the chosen text, with what the other decodes have there."""
        support = self.support()
        numbered = self._numbered(chosen.text)
        places = word_places(chosen.text, words)
        out = []
        for (start, end, _), value in zip(self.values(chosen.text), numbered, strict=True):
            span = words_of(places, start, end)
            if span is None:
                continue
            share = min(1.0, support.get(value, 0.0))
            rivals = self._instead(chosen, value, support) if share < 0.999 else []
            out.append(
                Doubt(
                    first_word=span[0],
                    last_word=span[1],
                    rivals=rivals,
                    support=round(share, 3),
                    why="" if not rivals else "the decodes differ",
                )
            )
        return out

    def _instead(
        self, chosen: Hypothesis, value: tuple[str, int], support: Mapping[tuple[str, int], float]
    ) -> list[Alternative]:
        """Return what other hypotheses have where the chosen one has this value."""
        mine = self._numbered(chosen.text)
        found: dict[str, Alternative] = {}
        for hypothesis in [*self.candidates, *self.listeners]:
            theirs = self._numbered(hypothesis.text)
            if value in theirs or not theirs:
                continue
            at = _opposite(mine, theirs, mine.index(value))
            if at is None or theirs[at] in mine:
                continue
            start, end, _ = self.values(hypothesis.text)[at]
            text = hypothesis.text[start:end]
            share = round(support.get(theirs[at], 0.0), 3)
            key = theirs[at][0]
            if key not in found:
                found[key] = Alternative(text=text, score=share, source=_shown(hypothesis))
        return sorted(found.values(), key=lambda a: -(a.score or 0.0))[:_MANY]


def _misfit(hypothesis: Hypothesis) -> float:
    """Return what a text written without digits loses where digits would have been right.

    Without digits the recogniser writes roman numerals ("K F-II-IV") and tears designations apart.
    """
    if hypothesis.source != "words":
        return 0.0
    loss = _ROMAN_LOSS if _ROMAN.search(hypothesis.text) else 0.0
    return loss + (_DESIGNATION_LOSS if _DESIGNATION.search(hypothesis.text) else 0.0)


def _opposite(mine: Sequence[object], theirs: Sequence[object], at: int) -> int | None:
    """Return the place in `theirs` that stands where mine[at] stands, between the same neighbours."""
    before = next((mine[i] for i in range(at - 1, -1, -1) if mine[i] in theirs), None)
    after = next((mine[i] for i in range(at + 1, len(mine)) if mine[i] in theirs), None)
    low = theirs.index(before) + 1 if before is not None else 0
    high = theirs.index(after) if after is not None else len(theirs)
    gap = at - (next((i for i in range(at - 1, -1, -1) if mine[i] in theirs), -1) + 1)
    return low + gap if low + gap < high else None


def plain(text: str) -> str:
    """Return the words alone, to see whether two texts differ in more than marks."""
    return " ".join(w.strip(".") for w in re.findall(r"[\w.']+", text.lower()))


def others(ballot: Ballot, chosen: Hypothesis) -> list[Alternative]:
    """Return the other ways to write the piece, best first, without those that differ in marks only."""
    seen = {plain(chosen.text)}
    out = []
    for hypothesis in sorted(ballot.candidates, key=lambda h: -h.score):
        if hypothesis.text and plain(hypothesis.text) not in seen:
            seen.add(plain(hypothesis.text))
            out.append(_alternative(hypothesis))
    # The witness is kept even when it agrees: agreement is evidence too.
    return out + [_alternative(h) for h in ballot.listeners if h.text][:1]


def _alternative(hypothesis: Hypothesis) -> Alternative:
    source = _shown(hypothesis)
    return Alternative(text=hypothesis.text, score=round(hypothesis.score, 4), source=source)


def _shown(hypothesis: Hypothesis) -> str:
    """Return the source as the transcript names it: both decodes of the witness are the witness."""
    return hypothesis.source.split(" ")[0]


def with_margins(
    doubts: Sequence[Doubt],
    text: str,
    words: Sequence[Word],
    rivals: Sequence[tuple[int, int, str]],
    leads: Sequence[float],
) -> list[Doubt]:
    """Return the doubts with what forced scoring said.

    `leads` are the log scores of the rivals less that of the text itself, in nats.
    """
    places = word_places(text, words)
    out = list(doubts)
    found: dict[tuple[int, int], list[tuple[str, float]]] = {}
    for (start, end, wording), lead in zip(rivals, leads, strict=True):
        span = words_of(places, start, end)
        if span is not None:
            found.setdefault(span, []).append((wording, lead))
    for span, scored in sorted(found.items()):
        scored.sort(key=lambda pair: -pair[1])
        heard = [Alternative(text=t, score=round(s, 3), source="align") for t, s in scored[:_MANY]]
        margin = round(-scored[0][1], 3)
        at = next((n for n, d in enumerate(out) if d.first_word <= span[1] and d.last_word >= span[0]), None)
        why = "another wording fits the sound better" if margin < 0 else ""
        if at is None:
            out.append(Doubt(first_word=span[0], last_word=span[1], rivals=heard, margin=margin, why=why))
            continue
        old = out[at]
        out[at] = old.model_copy(
            update={
                "first_word": min(old.first_word, span[0]),
                "last_word": max(old.last_word, span[1]),
                "rivals": [*old.rivals, *heard],
                "margin": margin if old.margin is None else min(old.margin, margin),
                "why": old.why or why,
            }
        )
    return sorted(out, key=lambda d: (d.first_word, d.last_word))


def comparable(text: str, rivals: Sequence[tuple[int, int, str]]) -> list[tuple[int, int, str]]:
    """Return the rivals that are written in the same style as what they would replace.

    The recogniser likes its own style (digits or words) by ten nats and more, so a rival in the other style
    says nothing about the sound.
    """

    def digits(part: str) -> bool:
        return any(c.isdigit() for c in part)

    return [(a, b, wording) for a, b, wording in rivals if digits(text[a:b]) == digits(wording)]


def word_places(text: str, words: Sequence[Word]) -> list[tuple[int, int]]:
    """Return the character span of each word in the text."""
    out, at = [], 0
    for word in words:
        start = text.find(word.text, at)
        start = at if start < 0 else start
        out.append((start, start + len(word.text)))
        at = start + len(word.text)
    return out


def words_of(places: Sequence[tuple[int, int]], start: int, end: int) -> tuple[int, int] | None:
    """Return the first and the last word that the characters [start, end) touch."""
    touched = [n for n, (a, b) in enumerate(places) if a < end and b > start]
    return (touched[0], touched[-1]) if touched else None
