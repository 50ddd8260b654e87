"""Several values taken back at once: "scrap those, wrong setting", "let me do that again"."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.mentions.corrections.alike import reason_once
from dictate.mentions.corrections.correction_words import CUTS, correction_phrases, correction_words
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.narration import Narration
from dictate.mentions.taken import Taken


class Sets:
    """Words that take several values back at once, or say that they are taken again."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def __iter__(self) -> Iterator[tuple[int, int, str]]:
        """Yield the tokens [start, end) of each, and how: "away", "bad" (said of them) or "again"."""
        words = self.words
        verbs, those, bad = (
            correction_words("set", "verbs"),
            correction_words("set", "those"),
            correction_words("set", "bad"),
        )
        for i, word in enumerate(words):
            if word in verbs and words[i - 1 : i] not in (["to"], ["i"], ["we"]):
                j = i + 1
                while j < len(words) and words[j] in {"all", "the", "out", "of", "last"} and j - i < 4:
                    j += 1
                k = j + 1
                while words[k : k + 1] and words[k] in correction_words("set", "named") and k - j < 4:
                    k += 1
                ends = not words[k : k + 1] or words[k] in CUTS | {"i", "they", "and", "because", "please"}
                if words[j : j + 1] and words[j] in those and ends:
                    yield i, k, "away" if word in correction_words("set", "told") else "bad"
            elif (
                word in those and words[i + 1 : i + 2] and words[i + 1] in {"are", "were", "'re", "is", "was"}
            ):
                k = i + 2
                while k < len(words) and words[k] in {"all", "no", "both", "the", "just"} and k - i < 5:
                    k += 1
                from_other = words[k : k + 1] in (["from"], ["off"], ["on"], ["for"]) and (
                    {"other", "wrong", "next"} & set(words[k + 1 : k + 3])
                )
                if words[k : k + 1] and (
                    from_other or words[k] in bad or (words[k] == "good" and words[k - 1] == "no")
                ):
                    yield i, k + 1, "bad"
        for p in correction_phrases("set", "again").find(self.n):
            yield p.start, p.end, "again"


class ValuesInSets(TakesOver):
    """Takes back several values at once."""

    def sets(self) -> None:
        """Handle "scrap those, wrong setting" and "let me do that again"."""
        for start, end, how in Sets(self.n):
            bad = how != "again"
            here = self.sentence_at[start]
            before = [t for t in self.taken if t.end <= start and t.reading.role != "retracted"]
            if not before:
                continue
            last = before[-1].sentence
            if here - last > 1:
                continue
            before = [t for t in before if t.sentence >= last - 2][-10:]
            after = [t for t in self.taken if t.start >= end and t.sentence <= here + 3][:12]
            single = not bad and not {"those", "them", "these"} & set(self.words[start:end])
            if single:
                # "let me do that again": the last value, and only when it is said again.
                before = before[-1:] if not self._listed(before) else self._listed(before)
            out: list[Taken] = []
            rest = list(after)
            for t in reversed(before):
                again = next((n for n in reversed(rest) if self._again(t, n)), None)
                if again is not None and (not out or t.sentence >= out[-1].sentence - 1):
                    out.append(t)
                    rest.remove(again)
                    again.reading.retracts = t.reading.heard or None
            first = min((t.start for t in out), default=None)
            for t in before:
                if bad and not out:
                    # Nothing was said again: "scrap those, wrong machine".
                    if t.sentence == last and (how == "away" or here == last):
                        reason_once(t, "it was said to be not right, and nothing says what is right")
                        if how == "away":
                            t.reading.role = "retracted"
                elif t in out:
                    t.reading.role = "retracted"
                elif (
                    t.reading.role == "measured"
                    and t.sentence == last
                    and first is not None
                    and t.start > first
                ):
                    if bad:
                        t.reading.role = "retracted"
                    else:
                        reason_once(t, "values beside it were taken again, and this one was not said again")

    def _listed(self, before: list[Taken]) -> list[Taken]:
        """Return the run of values of one quantity that ends with the last one, in its sentence."""
        run: list[Taken] = []
        for t in reversed(before):
            if t.sentence != before[-1].sentence or t.reading.quantity != before[-1].reading.quantity:
                break
            run.insert(0, t)
        return run

    def _again(self, old: Taken, new: Taken) -> bool:
        a, b = old.reading, new.reading
        return (
            a.quantity == b.quantity
            and a.point == b.point
            and (a.component == b.component or not a.component or not b.component)
            and (a.which == b.which or not a.which or not b.which)
            and b.role == "measured"
        )
