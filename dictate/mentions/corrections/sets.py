"""Several values taken back at once: "scrap those, wrong setting", "let me do that again"."""

from __future__ import annotations

from dictate.mentions.corrections.alike import reason_once, tries_again
from dictate.mentions.corrections.correction_words import correction_phrases
from dictate.mentions.corrections.disowned import NEAR, Disowned, find_disowned, pick
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import ELECTRICAL, Taken


def find_sets(narration: Narration) -> list[Disowned]:
    """Return the words that take several values back at once, or say that they are taken again."""
    again = [Disowned(p.start, p.end, "again") for p in correction_phrases("set", "again").find(narration)]
    return sorted([*find_disowned(narration), *again], key=lambda d: d.start)


class ValuesInSets(TakesOver):
    """Takes back several values at once."""

    def moves(self) -> None:
        """Put values to the thing that is named afterwards: "those were compressor two"."""
        for said in find_disowned(self.n):
            if said.how != "moved":
                continue
            spoken = [t for t in self.taken if t.end <= said.start and t.reading.role == "measured"]
            for k in pick([t.sentence for t in spoken], self.sentence_at[said.start], said):
                a = spoken[k].reading
                if a.which == said.which and (said.component is None or a.component == said.component):
                    continue
                if said.component is not None and a.quantity in ELECTRICAL:
                    a.component = said.component
                else:
                    reason_once(spoken[k], "it was said afterwards to be of another one")
                a.which = said.which
                self.done.append((said.start, self.n.sentences[self.sentence_at[said.start]][1]))

    def _changed(self, again: Taken) -> bool:
        """Tell whether a value is told as what another one has come to, by work in between."""
        lead = self.words[max(self.n.sentences[again.sentence][0], again.start - 8) : again.start]
        return bool({"came", "went", "dropped", "rose", "climbed", "settled", "fell", "crept"} & set(lead))

    def sets(self) -> None:
        """Handle "scrap those, wrong setting" and "let me do that again"."""
        for said in find_sets(self.n):
            start, end, how = said.start, said.end, said.how
            if how == "moved":
                continue
            bad = how != "again"
            here = self.sentence_at[start]
            before = [t for t in self.taken if t.end <= start and t.reading.role != "retracted"]
            if not before:
                continue
            spoken = [t for t in before if t.reading.role == "measured"]
            if said.single and (not spoken or start - spoken[-1].end > NEAR):
                continue
            meant = [spoken[k] for k in pick([t.sentence for t in spoken], here, said)]
            if how == "misled" and any(t.reading.retracts is not None for t in meant):
                continue  # it tells why that one was put right
            last = before[-1].sentence
            if here - last > (1 if how == "again" else 2):
                continue
            before = [t for t in before if t.sentence >= last - 2][-10:]
            if bad:
                before = meant
            if how == "time":
                for t in meant:
                    t.reading.role = "earlier"
                continue
            after = [t for t in self.taken if t.start >= end and t.sentence <= here + 3][:12]
            single = not bad and not {"those", "them", "these"} & set(self.words[start:end])
            if single:
                # "let me do that again": the last value, and only when it is said again.
                before = before[-1:] if not self._listed(before) else self._listed(before)
            out: list[Taken] = []
            rest = list(after)
            found: list[tuple[Taken, Taken]] = []
            for t in reversed(before):
                again = next((n for n in reversed(rest) if self._again(t, n)), None)
                if again is not None and how == "misled" and tries_again(self.words, t, again):
                    continue
                if again is not None and (not out or t.sentence >= out[-1].sentence - 1):
                    out.append(t)
                    rest.remove(again)
                    found.append((t, again))
            if how == "misled" and found and all(self._changed(n) for _, n in found):
                # "the probe was hanging loose, I strapped it back on, superheat came down to eight"
                for t in out:
                    reason_once(t, "it was said again behind words of a misreading")
                continue
            if how == "misled" and len(out) < len(before):
                for t in out:
                    reason_once(t, "it was said again behind words of a misreading")
                continue
            for t, again in found:
                again.reading.retracts = t.reading.heard or None
            first = min((t.start for t in out), default=None)
            for t in before:
                if bad and not out:
                    # Nothing was said again: "scrap those, wrong machine".
                    if t in meant and (how in {"struck", "other"} or here == last):
                        reason_once(t, "it was said to be not right, and nothing says what is right")
                        if how in {"struck", "other"}:
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
