"""Two values that stand for each other: "I had those two the wrong way round"."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.mentions.corrections.alike import reason_once, same_number
from dictate.mentions.corrections.correction_words import CUTS, correction_phrases, correction_words
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import Taken


class Swaps:
    """Words that say that two values stand for each other."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def __iter__(self) -> Iterator[tuple[int, int]]:
        """Yield the tokens [start, end) of each."""
        words = self.words
        out: list[tuple[int, int]] = []
        how, pair, held = (
            correction_words("swap", "how"),
            correction_words("swap", "pair"),
            correction_words("swap", "held"),
        )
        for p in correction_phrases("swap", "plain").find(self.n):
            before = self._clause_before(p.start)
            if not set(before) - correction_words("mistake", "fillers") - {"the", "that's", "it's"} or (
                self._of_values(before) and pair & set(before)
            ):
                out.append((p.start - len(before), p.end))
        for i, word in enumerate(words):
            if word not in how or words[i + 1 : i + 2] in (
                ["off"],
                ["on"],
                ["out"],
                ["from"],
                ["than"],
                ["of"],
                ["for"],
            ):
                continue
            before = self._clause_before(i)
            names = [k for k, w in enumerate(before) if w in pair]
            if not names or not held & set(before) or not self._of_values(before):
                continue
            loose = {"up", "around", "round", "over"}
            if word in loose and not correction_words("swap", "moves") & set(before):
                continue
            if len(before) - 1 - names[-1] <= 2:
                out.append((i - len(before), i + 1))
        out += self._ordered()
        yield from sorted(out)

    def _ordered(self) -> list[tuple[int, int]]:
        """Return "flip those", "swap the two around" at the head of a clause."""
        words, out = self.words, []
        verbs, pair = correction_words("swap", "orders"), correction_words("swap", "ordered")
        for i, word in enumerate(words):
            if word not in verbs:
                continue
            before = set(self._clause_before(i))
            if (
                before
                - correction_words("mistake", "fillers")
                - {"please", "let", "me", "just", "need", "to"}
            ):
                continue
            j = i + 1
            while j < len(words) and words[j] in pair and j - i < 5:
                j += 1
            k = j
            while k < len(words) and words[k] in correction_words("swap", "how") and k - j < 2:
                k += 1
            if j > i + 1 and (k == len(words) or words[k] in CUTS or words[k] in {"i", "because", "please"}):
                out.append((i, k))
        return out

    def _clause_before(self, at: int) -> list[str]:
        before = self.words[max(0, at - 8) : at]
        while CUTS & set(before):
            before = before[1:]
        return before

    def _of_values(self, before: list[str]) -> bool:
        """Tell whether a clause is of values that were said: "I had those", "those two are"."""
        plain = [w for w in before if w not in correction_words("mistake", "fillers")]
        return bool(correction_words("swap", "self") & set(before)) or bool(
            plain and plain[0] in correction_words("swap", "values")
        )


class SwappedValues(TakesOver):
    """Gives two values the place of each other."""

    def swaps(self) -> list[Taken]:
        """Handle "I had those two the wrong way round"; return the values that are new."""
        new: list[Taken] = []
        for start, end in Swaps(self.n):
            if self.handled(start - 6, end):
                continue
            before = [t for t in self.taken if t.end <= start and t.reading.role == "measured"]
            after = [t for t in self.taken if t.start >= end and t.start - end <= 30][:4]
            before = [t for t in before if t.sentence >= self.sentence_at[start] - 2][-4:]
            clause = set(self.words[start:end])
            single = "that" in clause and not {"those", "them", "these", "two", "both", "way"} & clause
            both = {t.reading.value for t in after[:2]}
            both = both if len(both) == 2 and both <= {t.reading.value for t in before} else set()
            one = single and not both
            if one and after and after[0].start == end + 1 and self.words[end : end + 1] == [","]:
                continue  # "12, no, I read that backwards, 1.2": one value, and its repair
            pairs = [
                (x, y)
                for i, x in enumerate(before)
                for y in before[i + 1 :]
                if x.reading.quantity == y.reading.quantity
                and x.reading.value is not None
                and y.reading.value is not None
                and x.reading.value != y.reading.value
            ]
            if not pairs:
                continue
            told = [
                (x, y, u, v)
                for x, y in reversed(pairs)
                for i, u in enumerate(after)
                for v in after[i + 1 :]
                if (same_number(x, u) and same_number(y, v)) or (same_number(x, v) and same_number(y, u))
            ]
            self.done.append((start - 10, end))
            if told:
                x, y, u, v = told[0]
                for t in (u, v):
                    source = x if same_number(x, t) else y
                    a, b = source.reading, t.reading
                    if not t.said_unit and (b.quantity, b.unit) != (a.quantity, a.unit):
                        b.quantity, b.unit, b.ucum, b.value = a.quantity, a.unit, a.ucum, a.value
                        b.unit_assumed = a.unit_assumed
                    b.component = b.component if t.place_said and b.component else a.component
                    other = y if source is x else x
                    if not t.place_said:
                        b.point = other.reading.point
                    b.which = b.which or other.reading.which
                    b.role = "measured"
                    b.review = [r for r in b.review if "beside" not in r]
                    b.retracts = other.reading.heard or None
                x.reading.role = y.reading.role = "retracted"
                self.repaired += [(x, u), (y, v)]
                continue
            x, y = pairs[-1]
            moved = {"swapped", "switched", "flipped", "reversed", "crossed"} & set(self.words[start:end])
            held = {"had", "have", "got", "i've", "said", "gave", "read", "wrote", "mixed"}
            if moved and not held & set(self.words[start:end]):
                continue  # "I swapped them over" may be of fans
            same_place = (x.reading.point, x.reading.component, x.reading.which) == (
                y.reading.point,
                y.reading.component,
                y.reading.which,
            )
            if same_place:
                for t in (x, y):
                    reason_once(t, "two values were said to stand for each other")
                continue
            ordered = self.words[start] in correction_words("swap", "orders")
            sure = len(pairs) == 1 and x.sentence == y.sentence and not ordered
            for here, there in ((x, y), (y, x)):
                reading = there.reading.model_copy(
                    deep=True,
                    update={
                        "point": here.reading.point,
                        "component": here.reading.component,
                        "which": here.reading.which,
                        "at": self.n.at(there.start, end),
                        "retracts": here.reading.heard,
                        "role": "measured",
                    },
                )
                t = Taken(
                    reading, there.value, end, end, there.sentence, there.label, there.said_unit, True, True
                )
                t.movement = there.movement
                if not sure:
                    reason_once(
                        t, "two values were said to stand for each other, and which two is not certain"
                    )
                new.append(t)
            x.reading.role = y.reading.role = "retracted"
        return new
