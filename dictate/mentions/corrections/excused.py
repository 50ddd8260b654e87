"""A value spoken of again in order to tell how it came to be wrong, often several values later.

    "Red 14.2, white 7.3, blue 7. Red was me clamping two cables, it's 7.1"      ... by its name
    "Fans 9.1, 9.3, 8.2. Eight two was loose jaws, 9.2 with them shut"            ... by its number
    "Legs 460, 452, 461. The middle one I fluffed, 462"                          ... by its place in a row
    "Superheat's out because I had the probe on the wrong line, it's eight"
    "Board 12.6 volts. Silly, I had it across the coil, 24.8"                    ... the last one said
    "61, 63 and sixteen. Sixty that last one"
    "My thermometer was lying in the sun, so supply is 55"                       ... what the right one is of

The sentence opens with what it speaks of, goes on with the slip, and ends with the right value, or the next
sentence begins with it. Where no right one follows, the value of before gets a reason to look.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from operator import attrgetter

from dictate.mentions.corrections.alike import alike, clear_loose, reason_once, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_phrases, correction_words
from dictate.mentions.corrections.cues import Cue
from dictate.mentions.corrections.made_values import MakesValues
from dictate.mentions.corrections.named_again import again_phrases
from dictate.mentions.corrections.replaced import Replaces
from dictate.mentions.spoken_numbers import numbers_by_start
from dictate.mentions.whose.taken import Taken
from dictate.vocabulary.load import table

_BACK, _VALUES_BACK = 90, 14
"""Words and values back to what is named again."""
_BEHIND = 14
"""Words from the slip to the right value."""
_NAME = 5
"""No name has more words."""
_TIMES = 30.0
"""A slip of the point or of the range is no more than this; of the clamp far less."""
_WHY = "it was said how it came to be misread, and nothing says what is right"


@dataclass(slots=True)
class _Head:
    """What a sentence opens with: a value of before, and where the words behind it begin."""

    old: Taken
    end: int
    pointed: bool
    here: Taken | None = None
    """The number said again, where it was taken for a value of its own."""
    regret: bool = False
    just_said: bool = False
    """True for the value right before the sentence, which is not named."""


def _word(name: str) -> frozenset[str]:
    return correction_words("excused", name)


class Excused(MakesValues, Replaces):
    """Takes back what is named again with the story of its slip."""

    def _excused(self) -> None:
        for number, (a, b) in enumerate(self.n.sentences):
            if _word("hints").isdisjoint(self.words[a:b]):
                continue
            if self._that_last(a, b):
                continue
            for at in self._openings(a, b):
                head = self._head(at, b)
                if head is None or self.back.handled(at, head.end + 1):
                    continue
                slip = self._slip(head, b)
                if slip is not None and self._settle(head, at, slip, number):
                    break
            else:
                self._of_the_right_one(a, b)

    def _openings(self, a: int, b: int) -> list[int]:
        """Return where what is spoken of may be named: at the head of the sentence, and behind an aside."""
        first = next((t.start for t in self.taken if t.end > a), b)
        return [a, *[k + 1 for k in range(a, min(b, first, a + 8)) if self.words[k] == ","]]

    def _of_the_right_one(self, a: int, b: int) -> None:
        """Handle "my thermometer was lying in the sun, so supply is 55": the right value has the name."""
        m = next((m for m in self.mistakes if a <= m.start and m.end <= b and m.clear and m.read), None)
        if m is None or self.back.handled(m.start, m.end):
            return
        new = next((t for t in self.taken if t.end > m.start), None)
        if new is None or not m.end <= new.start < min(b, m.end + 8):
            return
        if any(a <= t.start < m.start for t in self.taken):
            return  # "draws 2.2, no wait, two wires in the clamp, 2.7": that is of its neighbour
        r = new.reading
        called = {
            w for w in self.words[m.end : new.start] if w not in _word("leads") | _word("small") | STOPS
        }
        if not (called or new.label_here) or not _word("moments").isdisjoint(self.words[a : new.end + 3]):
            return
        low = bisect_left(self.taken, a, key=attrgetter("start"))
        if "and" in self.words[m.end : new.start]:
            return  # it goes on with another thing
        if low > 1 and any(self.taken[low - 2].end <= c.start < self.taken[low - 1].start for c in self.cues):
            return  # "2.7 ohms, no, 27. I had the wrong scale": it tells of the last correction
        if low == 0 or (a - self.taken[low - 1].end <= 2 and alike(self.taken[low - 1], new)):
            return  # what stands right before it is put right by its neighbour
        for old in reversed(self.taken[max(0, low - _VALUES_BACK) : low]):
            was = old.reading
            if a - old.end > _BACK:
                return
            if was.quantity != r.quantity or was.role != "measured":
                continue
            named = called and called <= set(self.words[max(0, old.start - 4) : old.end])
            place, own = (was.point, was.which, was.component), (r.point, r.which, r.component)
            if not named and not (new.label_here and (r.point or r.component) and place == own):
                continue
            if self._right_for(old, new):
                self._replace(old, new, Cue(m.start, m.end, True))
                self._of_its_place(old, new)
                self.back.repaired.append((old, new))
                self.back.done.append((m.start, new.start))
            return

    def _that_last(self, a: int, b: int) -> bool:
        """Handle "61, 63 and sixteen. Sixty that last one, I misspoke"."""
        k = bisect_left(self.taken, a, key=attrgetter("start"))
        if not 0 < k < len(self.taken) or self.taken[k].start >= b:
            return False
        old, new = self.taken[k - 1], self.taken[k]
        opened = set(self.words[a : new.start]) <= _word("opens") | _word("leads")
        behind = self.words[new.end : new.end + 4]
        if behind[:1] in (["on"], ["for"], ["is"], [","]):
            behind = behind[1:]
        last = behind[:2] == ["that", "last"] or behind[:2] == ["the", "last"]
        if not (opened and last and behind[2:3] and behind[2] in _word("ones") | {","}):
            return False
        if old.reading.role != "measured" or a - old.end > 2 or not self._right_for(old, new):
            return False
        self._replace(old, new, Cue(a, new.start, True))
        self.back.repaired.append((old, new))
        self.back.done.append((a, new.end + 4))
        return True

    def _head(self, a: int, b: int) -> _Head | None:
        """Return what a sentence that begins at the token a speaks of again."""
        i, pointed = a, False
        while i < b and self.words[i] in _word("opens"):
            pointed = pointed or self.words[i] in {"the", "that", "my"}
            i += 1
        verb = i + (self.words[i : i + 1] == ["i"])
        if verb < b and self.words[verb] in _word("verbs"):
            # "recorded the start cap wrong, 172", "I put 155 on the ticket, wrong, 165"
            i = verb + 1
            while i < b and self.words[i] in {"the", "that", "my", "it", "at", "as", "down"}:
                i += 1
            pointed = True
        spoken = [
            t
            for t in self.taken[: bisect_left(self.taken, a, key=attrgetter("start"))][-_VALUES_BACK:]
            if t.reading.role == "measured" and t.value.state == "value" and a - t.end <= _BACK
        ]
        if not spoken or i >= b:
            return None
        return (
            self._just_said(a, b, spoken)
            or self._numbered(i, b, spoken, pointed)
            or self._in_row(i, b, spoken)
            or self._named(i, b, spoken, pointed)
        )

    def _just_said(self, a: int, b: int, spoken: list[Taken]) -> _Head | None:
        """Return the last value where the next sentence opens with "I": "silly, I had it across the coil"."""
        old = spoken[-1]
        if a - old.end > 2:
            return None
        i = a
        while i < b and self.words[i] in _word("opens") | _word("regretted") - {"the", "that", "my"}:
            i += 1
        between = any(old.end <= t.start < a for t in self.taken)
        mine = self.words[i : i + 1] in (["i"], ["i'd"], ["i've"])
        that = self.words[max(a, i - 1) : i + 1] in (["that", "was"], ["that", "'s"], ["that's"])
        that = that or self.words[i : i + 1] == ["that's"]
        if between or not (mine or that):
            return None
        regret = not _word("regretted").isdisjoint(self.words[a:i])
        return _Head(old, i, False, regret=regret and mine, just_said=True)

    def _numbered(self, i: int, b: int, spoken: list[Taken], pointed: bool) -> _Head | None:
        """Return the value whose number opens the sentence, or follows the copula behind its name."""
        numbers = numbers_by_start(self.n)
        for k in range(i, min(b, i + _NAME)):
            x = numbers.get(k)
            if x is None or x.pronoun:
                continue
            old = next((t for t in reversed(spoken) if abs(t.value.value - x.value) < 1e-9), None)
            if old is None:
                continue
            here = next((t for t in self.taken if t.start <= k < t.end), None)
            if here is not None and here.said_unit and here.reading.quantity != old.reading.quantity:
                continue
            named = k > i and self.words[k - 1] in _word("copulas")
            whole = x.value >= 10 or x.places or pointed or (here is not None and here.said_unit)
            if k > i and not named:
                continue
            if not whole and not named:
                continue  # "two was ..." names a compressor
            end = max(x.end, here.end if here is not None else 0)
            return _Head(old, end, pointed, here)
        return None

    def _in_row(self, i: int, b: int, spoken: list[Taken]) -> _Head | None:
        """Return the value that is called by its place: "the middle one", "third leg"."""
        order: dict[str, int] = {**table("corrections")["in_row"]["order"], "middle": 1, "end": -1}
        row = [spoken[-1]]
        for t in reversed(spoken[:-1]):
            gap = self.words[t.end : row[0].start]
            if t.reading.quantity != row[0].reading.quantity or not set(gap) <= {",", "and", "then"}:
                break
            row.insert(0, t)
        word = self.words[i]
        if word not in order or len(row) < 2 or order[word] >= len(row):
            return None
        if word == "middle" and len(row) != 3:
            return None
        end = i + 1
        while end < b and self.words[end] in _word("ones"):
            end += 1
        return _Head(row[order[word]], end, True) if end > i + 1 else None

    def _named(self, i: int, b: int, spoken: list[Taken], pointed: bool) -> _Head | None:
        """Return the value of which the words that open the sentence are the name."""
        j = i
        while j < b and j - i <= _NAME and self.words[j] not in _word("copulas") | _word("links") | STOPS:
            j += 1
        name = [w.removesuffix("'s") for w in self.words[i:j] if w not in _word("small")]
        if not name or j - i > _NAME or j >= b:
            return None
        for k in range(len(spoken) - 1, -1, -1):
            t = spoken[k]
            low = max(self.n.sentences[t.sentence][0], t.start - 6, spoken[k - 1].end if k else 0)
            near = {w.removesuffix("'s") for w in self.words[low : t.end]}
            if set(name) <= near:
                return _Head(t, j, pointed)
        return None

    def _slip(self, head: _Head, b: int) -> int | None:
        """Return where the words end that tell of a slip behind what is named, None without such words."""
        a = head.end
        new = next((t for t in self.taken if t.start >= a and t is not head.here), None)
        stop = min(b, new.start) if new is not None else b
        said = self.words[a:stop]
        moments = {w for k, w in enumerate(said) if w != "good" or said[k - 1 : k] not in (["no"], ["not"])}
        if not said or moments & _word("moments") or {"what", "get"} & set(said[:3]):
            return None
        if head.just_said and (new is None or new.start >= b):
            return None
        told = [m.end for m in self.mistakes if a <= m.start and m.end <= b and m.clear and m.end <= stop]
        told += [p.end for p in again_phrases("erred").find(self.n) if a <= p.start and p.end <= stop]
        told += [
            p.end
            for p in correction_phrases("excused", "phrases").find(self.n)
            if a <= p.start and p.end <= stop
        ]
        if said[0] in {"wrong", "upside", "backwards"} or [",", "wrong", ","] in (
            said[k : k + 3] for k in range(len(said))
        ):
            told.append(a + 1)
        if told:
            return max(told)
        words = set(said)
        mine, tools = words & _word("persons"), words & _word("tools")
        slips = words & _word("slips") or said[-4:-1] == ["for", "that", ","]
        if mine and tools and slips and not words & _word("work"):
            return stop
        if head.regret and said[1:2] and said[1] in _word("slip_verbs") and said[-1] in _word("leads"):
            return stop
        # "that entering water, that was the condenser side, the evaporator is 52"
        if head.pointed and new is not None and new.start < b:
            rest = [w for w in said if w != ","]
            if rest[:1] == ["that"] or rest[:1] == ["that's"]:
                at = 1 if rest[0] == "that's" else 2
                if rest[at : at + 1] and rest[at] in {"the", "off", "from", "on"} and "," in said[2:]:
                    return stop
        return None

    def _settle(self, head: _Head, a: int, slip: int, number: int) -> bool:
        """Put the right value in the place of the one that is spoken of, or ask; tell whether it was done."""
        old = head.old
        new = next(
            (
                t
                for t in self.taken
                if t.start >= slip
                and t is not head.here
                and self.back.sentence_at[t.start] <= number + 1
                and t.start - slip <= _BEHIND
            ),
            None,
        )
        made = self._unread(old, slip, new, number)
        if made is not None:
            new = made
        elif new is not None and not self._right_for(old, new, number):
            new = None
        if head.just_said and new is None:
            return False
        if head.here is not None and head.here is not old:
            self._said_twice(old, head.here)
        if new is None:
            reason_once(old, _WHY)
            return True
        self._replace(old, new, Cue(slip, new.start, True))
        if not new.label_here:
            self._of_its_place(old, new)
        clear_loose(new)
        self.back.repaired.append((old, new))
        self.back.done.append((a, new.start))
        return True

    def _of_its_place(self, old: Taken, new: Taken) -> None:
        """Give the right value the place of the wrong one: the slip names other things."""
        r, was = new.reading, old.reading
        if r.quantity == was.quantity:
            r.component, r.point, r.which = was.component, was.point, was.which
            self.n.found.setdefault("repaired in place", []).append((r, was))

    def _unread(self, old: Taken, slip: int, new: Taken | None, number: int) -> Taken | None:
        """Make a value of a bare number that nothing took for one: "gave it a tap, sixteen"."""
        end = min(slip + _BEHIND, self.n.sentences[number][1])
        end = min(end, new.start) if new is not None else end
        for v in self._loose():
            if not slip <= v.start < end:
                continue
            if not self._stands_alone(v) or self.words[v.start - 1] not in _word("leads"):
                return None
            made = self._made(old, v)
            if made is None or not self._right_for(old, made):
                return None
            self.taken.append(made)
            self.taken.sort(key=attrgetter("start"))
            return made
        return None

    def _right_for(self, old: Taken, new: Taken, number: int | None = None) -> bool:
        """Tell whether a value can be what another should have been; `number`: the sentence of the slip."""
        later = number is not None and self.back.sentence_at[new.start] > number
        if later and (new.label_here or (new.place_said and not alike(old, new))):
            return False
        if new.reading.role not in {"measured", "target"} or new.movement != old.movement:
            return False
        if new.value.state != "value" or same_number(old, new) or not old.value.value:
            return False
        if not 1 / _TIMES <= abs(new.value.value / old.value.value) <= _TIMES:
            return False
        if new.said_unit or new.label_here:
            return new.reading.quantity == old.reading.quantity and (not new.place_said or alike(old, new))
        return True

    def _said_twice(self, old: Taken, here: Taken) -> None:
        """Keep a number that is only spoken of again from being a value of its own."""
        a, h = old.reading, here.reading
        if (h.quantity, h.unit) != (a.quantity, a.unit):
            h.quantity, h.unit, h.ucum, h.value = a.quantity, a.unit, a.ucum, a.value
        h.component, h.point, h.which, h.review = a.component, a.point, a.which, []
        h.role = "retracted"


__all__ = ["Excused"]
