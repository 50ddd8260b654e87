"""A value that was first taken for another number or of another thing, and told again as what it is.

    "after an hour 28, no, I'm sorry, 28 was the cherry, blue is 29"       only its thing was wrong
    "compressor four point four. I took it for four point six at first"    the first look
    "19 split. I wrote down 17 first, no wait, 19"                          the same, and the right one again
    "I did think the suction was low at 920, sorry, that was last year's"   what it was is told behind

The first number is no reading of now; what is told again keeps its own.
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import alike, clear_loose, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_words
from dictate.mentions.corrections.cues import Cue
from dictate.mentions.corrections.named_again import within
from dictate.mentions.corrections.replaced import Replaces
from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.plausible import fits
from dictate.mentions.whose.taken import Taken

_COPULAS = frozenset({"was", "is", "'s", "were"})
_BEFORE = frozenset({"last", "yesterday", "yesterday's", "before", "log", "old"})
_FAR = 16
"""Words from a cue to the number that is said again, with the story of the slip between them."""
_BACK = 60
"""Words back to the first time that a number was said."""
_RATIO = 3.0
"""A first look and the right value are rarely further apart than this."""


class TakenFor(Replaces):
    """Takes back first looks, and values that were said of the wrong thing."""

    def _owned_anew(self) -> None:
        """Handle "28, no, I'm sorry, 28 was the cherry, blue is 29"."""
        for cue in self.cues:
            k = next((k for k in range(len(self.taken)) if self.taken[k].start >= cue.end), None)
            if k is None or k == 0:
                continue
            old, again = self.taken[k - 1], self.taken[k]
            if cue.start - old.end > 3 or again.start - cue.end > _FAR or not same_number(old, again):
                continue
            if self._on_another_place(k, cue):
                continue
            if self.words[again.end : again.end + 1] == [] or self.words[again.end] not in _COPULAS:
                continue
            thing = self.words[again.end + 1 : again.end + 5]
            stop = next((i for i, w in enumerate(thing) if w in STOPS or w == ","), len(thing))
            thing = thing[:stop]
            if not thing or self._a_moment(thing, again.end + 1):
                continue
            nxt = self.taken[k + 1] if k + 1 < len(self.taken) else None
            if again.reading.role in {"target", "rated"} or {"target", "setpoint", "limit"} & set(thing):
                continue
            like = old.reading.quantity == again.reading.quantity or not again.said_unit
            if old.reading.role != "measured" or old.movement or not like:
                continue
            old.reading.role = "retracted"
            elsewhere = correction_words("taken_for", "others") & set(thing)
            if elsewhere:  # "210 is the other unit", "eight was last month's"
                again.reading.role = "earlier" if elsewhere & _BEFORE else "retracted"
            else:
                again.reading.role = "measured"
            again.reading.stage = again.reading.stage or old.reading.stage
            self._settled(old, again)
            right = nxt is not None and nxt.start - again.end <= 12 and nxt.sentence == again.sentence
            if nxt is not None and right and nxt.reading.quantity == old.reading.quantity:
                self._settled(old, nxt)
            self.back.done.append((cue.start, again.end + 1 + stop))

    def _on_another_place(self, k: int, cue: Cue) -> bool:
        """Handle "herm side 4.8. Correction, fan terminals. Fan side 4.8, herm side 19"."""
        old, again = self.taken[k - 1], self.taken[k]
        right = self.taken[k + 1] if k + 1 < len(self.taken) else None
        if right is None or right.start - again.end > 8 or same_number(right, old):
            return False
        a, x, r = old.reading, again.reading, right.reading
        if not (a.role == x.role == r.role == "measured" and a.quantity == x.quantity == r.quantity):
            return False
        place, other = (a.component, a.point, a.which), (x.component, x.point, x.which)
        if place == other or place != (r.component, r.point, r.which):
            return False
        a.role = "retracted"
        self._settled(old, right)
        for o in self.taken[max(0, k - 3) : k - 1]:
            r = o.reading
            if r.role == "measured" and (r.component, r.point, r.which) == other and r.quantity == x.quantity:
                r.role = "retracted"  # "static 40, flowing 55, I have them swapped, static 55, flowing 40"
        x.retracts = a.heard
        self.back.done.append((cue.start, right.start))
        return True

    def _meant_behind(self) -> None:
        """Handle "0.6 ohms across it. Nought point four, I mean, and the leads are 0.2 of that"."""
        for k, t in enumerate(self.taken[1:], 1):
            at = t.end + (self.words[t.end : t.end + 1] == [","])
            stop = self.behind.get(at)
            if stop is None or (at == t.end and self.words[at : at + 1] == ["was"]):
                continue
            opens = t.start == 0 or self.words[t.start - 1] in STOPS
            ends = self.words[stop : stop + 1]
            if not opens or (ends and ends[0] not in STOPS | {",", "and"}):
                continue
            old = self.taken[k - 1]
            near = t.sentence - old.sentence == 1 and old.reading.role == "measured"
            like = old.reading.quantity == t.reading.quantity or not t.said_unit
            if not near or not like or old.value.state != "value" or not old.value.value or old.movement:
                continue
            if same_number(old, t) or not 0.1 <= t.value.value / old.value.value <= 10:
                continue
            self._replace(old, t, Cue(at, stop, True))
            self.back.done.append((t.start, stop))

    def _of_the_tool(self) -> None:
        """Handle "fourteen was the leads on a dirty pin": a number that was said is the tool's own."""
        tools = correction_words("taken_for", "tools")
        if tools.isdisjoint(self.words):
            return
        for k, t in enumerate(self.taken):
            if self.words[t.end : t.end + 1] not in (["was"], ["were"]) or t.reading.role != "measured":
                continue
            a = t.start
            while a > 0 and self.words[a - 1] in correction_words("taken_for", "opens"):
                a -= 1
            if a > 0 and self.words[a - 1] not in STOPS:
                continue
            said = self.words[t.end + 1 : t.end + 6]
            said = said[: next((i for i, w in enumerate(said) if w in STOPS or w == ","), len(said))]
            first = next((o for o in reversed(self.taken[:k]) if same_number(o, t)), None)
            if not tools & set(said) or first is None or t.start - first.end > _BACK:
                continue
            first.reading.role = t.reading.role = "retracted"
            t.reading.review = []
            nxt = self.taken[k + 1] if k + 1 < len(self.taken) else None
            if nxt is not None and nxt.start - t.end <= 14:
                self._settled(first, nxt)
            self.back.done.append((a, t.end + 1 + len(said)))

    def _a_moment(self, thing: list[str], at: int) -> bool:
        """Tell whether a number was of the same thing at another moment: "210 was before I washed it"."""
        if {"before", "when", "while", "after"} & set(thing):
            return True
        if thing[0] in {"at", "on", "in", "across"}:
            end = at + len(thing)
            parts, labels = within(find_components(self.n), at, end), within(find_labels(self.n), at, end)
            return not (parts or labels or within(find_points(self.n), at, end))
        return thing[0] in correction_words("taken_for", "moments")

    def _taken_for(self) -> None:
        """Handle "I took it for 4.6 at first", "first read it as 8.2", "I had thought it was 18, sorry"."""
        if correction_words("taken_for", "verbs").isdisjoint(self.words):
            return
        verbs, ways = correction_words("taken_for", "verbs"), correction_words("taken_for", "first")
        for k, t in enumerate(self.taken):
            if t.movement or t.reading.role not in {"measured", "retracted", "earlier"}:
                continue
            a = t.start
            while a > 0 and self.words[a - 1] not in STOPS | {",", "but"} and t.start - a < 12:
                a -= 1
            lead = self.words[a : t.start]
            at = next((i for i, w in enumerate(lead) if w in verbs), None)
            if at is None or not self._by_me(lead[:at]):
                continue
            b = t.end
            while b < len(self.words) and self.words[b] not in STOPS | {","} and b - t.end < 7:
                b += 1
            behind = self.words[t.end : b]
            first = bool(ways & set(lead[: at + 1])) or (behind[-1:] != [] and behind[-1] in ways)
            looks = correction_words("taken_for", "looks")
            first = first or any(w in ways and behind[i + 1] in looks for i, w in enumerate(behind[:-1]))
            other = self._was_other(b)
            right = self._right_one(k, t)
            mend = self._to_be_mended(lead[at], b) if right is not None and alike(right, t) else None
            if not first and other is None and mend is None:
                self._told_anew(k, t, lead[at], b)
                continue
            other = other or mend
            seen = lead[at] in correction_words("taken_for", "seen")
            if seen and other is None and (right is None or not alike(right, t) or same_number(right, t)):
                continue  # "first I read 208 on L1 to L2, then 209"
            if self._then_moved(t.end):
                continue
            self._take_back(k, t, b, right)
            self.back.done.append((a, b))
            if other is not None:
                self.back.done.append((b, other))

    def _to_be_mended(self, verb: str, b: int) -> int | None:
        """Return where an order ends that a number be put right: "I typed 21.1 in, fix that"."""
        if verb not in {"typed", "entered", "logged", "wrote", "put", "noted"}:
            return None
        orders = ("fix", "correct", "change", "scratch", "strike", "ignore", "disregard", "delete")
        if self.words[b : b + 1] != [","] or self.words[b + 1 : b + 2] not in [[w] for w in orders]:
            return None
        return b + 3 if self.words[b + 2 : b + 3] in (["that"], ["it"]) else None

    def _told_anew(self, k: int, t: Taken, verb: str, b: int) -> None:
        """Handle "I told dispatch 6.2, no, 5.2", "I called the head 218, look again, it's 228"."""
        if verb not in correction_words("taken_for", "telling") or k + 1 >= len(self.taken):
            return
        nxt = self.taken[k + 1]
        gap = self.words[b : nxt.start]
        again = correction_words("taken_for", "again")
        if nxt.start - b > 7 or gap[:1] != [","] or not again & set(gap) or STOPS & set(gap):
            return
        if not (set(gap) <= again | correction_words("taken_for", "leads")) or same_number(t, nxt):
            return
        if nxt.reading.quantity != t.reading.quantity and nxt.said_unit:
            return
        for o in self.taken[:k]:
            if o.reading.role == "measured" and same_number(o, t) and alike(o, t):
                o.reading.role = "retracted"
        self._replace(t, nxt, Cue(b, nxt.start, True))
        t.reading.review = []
        self.back.done.append((b, nxt.start))

    def _then_moved(self, at: int) -> bool:
        """Tell whether it is told behind a value what became of it: "118 at first, then nothing"."""
        behind = self.words[at : at + 10]
        stop = next((i for i, w in enumerate(behind) if w in STOPS), len(behind))
        return bool(correction_words("taken_for", "moved") & set(behind[:stop]))

    def _by_me(self, lead: list[str]) -> bool:
        """Tell whether a verb of taking has the speaker as its subject, or none at all."""
        small = correction_words("taken_for", "small")
        return set(lead) <= small and (not lead or not {"he", "she", "they"} & set(lead))

    def _was_other(self, at: int) -> int | None:
        """Return where "sorry, that was last summer's sheet" ends behind a pause, None without one."""
        k = at
        while k < len(self.words) and (
            self.words[k] in correction_words("taken_for", "sorry") or self.words[k] in {",", "."}
        ):
            k += 1
        if k == at or {"sorry", "no", "wait"}.isdisjoint(self.words[at:k]):
            return None
        if self.words[k : k + 1] not in (["that"], ["that's"], ["it"]):
            return None
        end = next(
            (i for i in range(k, min(len(self.words), k + 12)) if self.words[i] in STOPS | {","}), None
        )
        if end is None or any(k <= t.start < end for t in self.taken):
            return None
        return end if correction_words("taken_for", "others") & set(self.words[k:end]) else None

    def _take_back(self, k: int, t: Taken, b: int, right: Taken | None) -> None:
        """Mark a first look, and give it the quantity of the value that it was taken for."""
        t.reading.role = "retracted"
        t.reading.review = []
        t.reading.confidence = max(t.reading.confidence, 0.9)
        if right is None:
            return
        a, r = right.reading, t.reading
        if not t.said_unit and (a.quantity, a.unit) != (r.quantity, r.unit) and t.value.value:
            factor = self._factor(right)
            if fits(a.quantity, a.point, t.value.value * factor, a.unit):
                r.quantity, r.unit, r.ucum, r.reference = a.quantity, a.unit, a.ucum, a.reference
                r.value, r.component, r.point, r.which = t.value.value * factor, a.component, a.point, a.which
                r.derived = a.derived
        nxt = self.taken[k + 1] if k + 1 < len(self.taken) else None
        if nxt is not None and nxt.start - b <= 4 and same_number(nxt, right):
            x = nxt.reading
            x.role, x.review, x.confidence = "measured", [], max(x.confidence, 0.9)
            if not nxt.said_unit:
                x.quantity, x.unit, x.ucum, x.value = a.quantity, a.unit, a.ucum, a.value
                x.component, x.point, x.which, x.derived = a.component, a.point, a.which, a.derived
            self._settled(t, nxt)
            self.back.done.append((t.end, nxt.start))
        else:
            self._settled(t, right)

    def _right_one(self, k: int, t: Taken) -> Taken | None:
        """Return the value said before that a first look was of: the last of its size, or of its kind."""
        near = [
            o
            for o in reversed(self.taken[max(0, k - 4) : k])
            if o.reading.role == "measured" and t.sentence - o.sentence <= 1 and o.value.state == "value"
        ]
        size = [
            o for o in near if o.value.value and 1 / _RATIO <= t.value.value / o.value.value <= _RATIO
        ]  # fmt: skip
        kind = [o for o in size if o.reading.quantity == t.reading.quantity]
        found = kind if t.said_unit or t.label_here else size
        return found[0] if found else None

    def _settled(self, old: Taken, right: Taken) -> None:
        """Let the words of correction have done their work on the right value."""
        self._link(old, right)
        clear_loose(right)


__all__ = ["TakenFor"]
