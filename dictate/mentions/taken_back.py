"""What is taken back at a distance, and the clauses that say how a value came to be misread.

    "I said 33 on that cap before, it was 31"        a value of before, named by its number
    "the head I gave you was wrong, it's 230"        ... by its name
    "looking at my photo it was twelve, not eleven"  ... by what it was not
    "I had those two the wrong way round"            two values that stand for each other
    "scrap those, wrong setting"                     several values at once

Where it is certain which value is meant, that one is `retracted` and the right one `measured`. Where it is
not, every value that may be meant gets a reason to look.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from dictate.mentions.labels import find_components, find_labels
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.taken import DIFFERENCES, LOOSE, Taken
from dictate.mentions.values import find_values
from dictate.vocabulary.load import table

_CUTS = frozenset({".", "?", "!", ",", ";", ":"})
_STOPS = frozenset({".", "?", "!"})


@cache
def _words(group: str, name: str) -> frozenset[str]:
    return frozenset(table("corrections")[group][name])


@cache
def _phrases(group: str, name: str) -> Phrases:
    return Phrases({name: table("corrections")[group][name]})


@dataclass(frozen=True, slots=True)
class Mistake:
    """Words at the tokens [start, end) that tell of a misreading; `clear` when they alone say it."""

    start: int
    end: int
    clear: bool
    cue: bool = True
    """False for an aside that says where a value is from, and takes it back only beside another cue."""


def find_mistakes(narration: Narration) -> list[Mistake]:
    """Return the clauses that say that a value was misread, in the order of the words.

    >>> n = Narration.from_text("260, I had the wrong hose. 62, my thumb was over the gauge, 42.")
    >>> [m.clear for m in find_mistakes(n)]
    [True, False]
    """
    done: list[Mistake] | None = narration.found.get("mistakes")
    if done is not None:
        return done
    words = narration.lowers
    out = [Mistake(p.start, p.end, True) for p in _phrases("mistake", "phrases").find(narration)]
    other, touch = _words("mistake", "other"), _words("mistake", "touch")
    i_am, reads = _words("mistake", "i_am"), _words("mistake", "reads")
    for i, word in enumerate(words):
        if word in i_am and words[i + 1 : i + 2] and words[i + 1] in reads:
            # "that's the liquid line I'm hooked to"
            a, b = _bounds(words, i)
            if words[a : a + 2] in (["that's", "the"], ["that", "the"], ["this", "is"]) or (
                words[a : a + 3] in (["that", "was", "the"], ["that", "'s", "the"])
            ):
                out.append(Mistake(a, b, True))
        if word in {"meter", "switch", "display", "gauge", "clamp", "selector", "dial"}:
            a, b = _bounds(words, i)
            if words[i + 1 : i + 3] in (
                ["was", "on"],
                ["is", "on"],
                ["'s", "on"],
                ["was", "in"],
                ["was", "set"],
            ):
                out.append(Mistake(a, b, False))
        if word == "wrong" and words[i + 1 : i + 2] and words[i + 1] in _CUTS:
            a, b = _bounds(words, i)
            if {"i", "i'd", "i've"} & set(words[a:i]) and _words("mistake", "reads") & set(words[a:i]):
                out.append(Mistake(a, b, True))
                continue
        if word == "wrong":
            j = _wrong_thing(words, i)
            if j and words[i - 1 : i] not in (["nothing"], ["what's"]):
                out.append(Mistake(i, j, True))
        elif word in {"that's", "that"} and "other" in words[i + 1 : i + 4]:
            j = words.index("other", i + 1)
            if words[i + 1 : j] in (["the"], ["was", "the"], ["is", "the"], ["'s", "the"]) and (
                words[j + 1 : j + 2] and words[j + 1] in other and not _named_before(words, i)
            ):
                out.append(Mistake(i, j + 2, True))
        elif word == "that" and words[i + 1 : i + 2] in (["was"], ["'s"], ["is"]) and (
            words[i + 2 : i + 3] and words[i + 2] in _words("mistake", "asides")
        ):  # fmt: skip
            out.append(Mistake(i, _bounds(words, i)[1], False, False))
        elif word in touch:
            clause = _clause(words, i)
            if clause is not None:
                out.append(Mistake(*clause, False))
    known: set[int] = set()
    kept: list[Mistake] = []
    for m in sorted(out, key=lambda m: (not m.clear, m.start - m.end)):
        if known.isdisjoint(range(m.start, m.end)):
            known.update(range(m.start, m.end))
            kept.append(m)
    numbers = {t for n in find_numbers(narration) if not n.pronoun for t in range(n.start, n.end)}
    kept = [m for m in kept if m.clear or numbers.isdisjoint(range(m.start, m.end))]
    kept.sort(key=lambda m: m.start)
    narration.found["mistakes"] = kept
    return kept


def _named_before(words: list[str], at: int) -> bool:
    """Tell whether an aside only says which thing was named: "circuit two, that's the other one, 65"."""
    return bool(words[at - 1 : at] == [","] and words[at - 3 : at - 2]) and (
        words[at - 3] in _words("mistake", "other") and words[at - 2] in _words("mistake", "which")
    )  # fmt: skip


def _wrong_thing(words: list[str], at: int) -> int | None:
    """Return where "the wrong ring" ends, None when "wrong" is said of a thing: "the wrong fan blade"."""
    wrong, things = _words("mistake", "wrong"), _words("mistake", "wrong_things")
    known = wrong | things
    for j in (at + 1, at + 2):
        if not words[j : j + 1] or words[j] not in known:
            continue
        behind = words[j + 1 : j + 2]
        if behind and behind[0] in known:
            continue
        ends = not behind or behind[0] in _CUTS | _words("mistake", "ends")
        told = _words("mistake", "told") & set(words[_bounds(words, at)[0] : at])
        if words[j] in wrong or (ends and told):
            return j + 1
    return None


def _bounds(words: list[str], at: int) -> tuple[int, int]:
    """Return the tokens of the clause around one, without the fillers at its head."""
    a = b = at
    while a > 0 and words[a - 1] not in _CUTS and at - a < 12:
        a -= 1
    while b < len(words) and words[b] not in _CUTS and b - at < 12:
        b += 1
    while a < at and words[a] in _words("mistake", "fillers"):
        a += 1
    return a, b


def _clause(words: list[str], at: int) -> tuple[int, int] | None:
    """Return the clause around a word when it can tell of a misreading: "my thumb was over the gauge"."""
    a, b = _bounds(words, at)
    said = words[a:b]
    if (
        len(said) < 3
        or len(said) > 12
        or said[0] not in _words("mistake", "opens")
        or _words("mistake", "does") & set(said)
    ):
        return None
    return a, b


def alike(a: Taken, b: Taken) -> bool:
    """Tell whether two values can be of one thing: same quantity, and no place that speaks against it."""
    x, y = a.reading, b.reading
    return (
        x.quantity == y.quantity
        and (x.point == y.point or not x.point or not y.point)
        and (x.component == y.component or not x.component or not y.component)
        and (x.which == y.which or not x.which or not y.which)
    )


def same_number(a: Taken, b: Taken) -> bool:
    """Tell whether two values were said with the same number."""
    return a.value.state == b.value.state and abs(a.value.value - b.value.value) < 1e-9


def reason_once(t: Taken, why: str) -> None:
    """Add a reason to look at a value."""
    if why not in t.reading.review:
        t.reading.review.append(why)
        t.reading.confidence = min(t.reading.confidence, 0.5)


def clear_loose(t: Taken) -> None:
    """Take away the reason that what it is a value of was not said: the correction says it."""
    t.reading.review = [r for r in t.reading.review if LOOSE not in r]


def words_of_correction(narration: Narration, start: int, end: int) -> frozenset[str]:
    """Return the words around a repair at the tokens [start, end) that tell of the correction alone."""
    words = narration.lowers
    near = [m for m in find_mistakes(narration) if start - 16 <= m.start and m.end <= end + 10]
    found = {w for m in near for w in words[m.start : m.end]}
    return frozenset(found) | _words("recall", "verbs") | _words("behind", "words")


class Recalls:
    """Words in which an earlier value is spoken of again: "I had told you 54 on the return"."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def __iter__(self) -> Iterator[tuple[int, int]]:
        """Yield the tokens [start, end) of each, the verb last."""
        who, aux = _words("recall", "who"), _words("recall", "aux")
        verbs, down, behind = (
            _words("recall", "verbs"),
            _words("recall", "down"),
            _words("recall", "down_words"),
        )
        words = self.words
        for i, word in enumerate(words):
            if word not in who or words[i - 1 : i] in (["like"], ["as"]):
                continue
            j = i + 1
            while j < len(words) and words[j] in aux and j - i < 5:
                j += 1
            # "had" may itself be the verb: "I had it down as 54"
            if j < len(words) and words[j] in verbs and self._of_saying(j):
                yield i, j + 1
                continue
            for k in range(i + 1, min(j + 1, len(words))):
                if words[k] in down or (word == "i've" and k == i + 1):
                    at = next((m for m in range(k + 1, min(k + 6, len(words))) if words[m] in behind), None)
                    if at is not None and not _STOPS & set(words[k:at]):
                        yield i, at + 1
                        break

    def _of_saying(self, j: int) -> bool:
        following = self.words[j + 1 : j + 2]
        if self.words[j] == "told":
            return following in (["you"], ["ya"]) or self.words[j + 1 : j + 3] in (
                ["the", "office"],
                ["the", "desk"],
            )
        if self.words[j] in {"gave", "given"}:
            return following in (["you"], ["ya"], ["as"]) or "as" in self.words[j + 1 : j + 5]
        if self.words[j] == "called":
            return following in (["out"], ["it"], ["that"], ["off"])
        return following != ["to"]


class Swaps:
    """Words that say that two values stand for each other."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def __iter__(self) -> Iterator[tuple[int, int]]:
        """Yield the tokens [start, end) of each."""
        words = self.words
        out: list[tuple[int, int]] = []
        how, pair, held = _words("swap", "how"), _words("swap", "pair"), _words("swap", "held")
        for p in _phrases("swap", "plain").find(self.n):
            before = self._clause_before(p.start)
            if not set(before) - _words("mistake", "fillers") - {"the", "that's", "it's"} or (
                self._of_values(before) and pair & set(before)
            ):
                out.append((p.start - len(before), p.end))
        for i, word in enumerate(words):
            if word not in how or words[i + 1 : i + 2] in (["off"], ["on"], ["out"]):
                continue
            before = self._clause_before(i)
            names = [k for k, w in enumerate(before) if w in pair]
            if not names or not held & set(before) or not self._of_values(before):
                continue
            loose = {"up", "around", "round", "over"}
            if word in loose and not _words("swap", "moves") & set(before):
                continue
            if len(before) - 1 - names[-1] <= 2:
                out.append((i - len(before), i + 1))
        yield from sorted(out)

    def _clause_before(self, at: int) -> list[str]:
        before = self.words[max(0, at - 8) : at]
        while _CUTS & set(before):
            before = before[1:]
        return before

    def _of_values(self, before: list[str]) -> bool:
        """Tell whether a clause is of values that were said: "I had those", "those two are"."""
        plain = [w for w in before if w not in _words("mistake", "fillers")]
        return bool(_words("swap", "self") & set(before)) or bool(
            plain and plain[0] in _words("swap", "values")
        )


class Sets:
    """Words that take several values back at once, or say that they are taken again."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def __iter__(self) -> Iterator[tuple[int, int, str]]:
        """Yield the tokens [start, end) of each, and how: "away", "bad" (said of them) or "again"."""
        words = self.words
        verbs, those, bad = _words("set", "verbs"), _words("set", "those"), _words("set", "bad")
        for i, word in enumerate(words):
            if word in verbs and words[i - 1 : i] not in (["to"], ["i"], ["we"]):
                j = i + 1
                while j < len(words) and words[j] in {"all", "the", "out", "of", "last"} and j - i < 4:
                    j += 1
                k = j + 1
                while words[k : k + 1] and words[k] in _words("set", "named") and k - j < 4:
                    k += 1
                ends = not words[k : k + 1] or words[k] in _CUTS | {"i", "they", "and", "because", "please"}
                if words[j : j + 1] and words[j] in those and ends:
                    yield i, k, "away" if word in _words("set", "told") else "bad"
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
        for p in _phrases("set", "again").find(self.n):
            yield p.start, p.end, "again"


class Back:
    """Takes back what later words take back; `taken` are the values of the visit in order."""

    def __init__(self, narration: Narration, taken: list[Taken]) -> None:
        self.n = narration
        self.words = narration.lowers
        self.taken = taken
        self.repaired: list[tuple[Taken, Taken]] = []
        self.done: list[tuple[int, int]] = []
        """The tokens whose words of correction have done their work."""
        self.sentence_at = [0] * (len(self.words) + 1)
        for i, (a, b) in enumerate(narration.sentences):
            self.sentence_at[a:b] = [i] * (b - a)

    # -- what was said before, by its number

    def recalls(self) -> None:
        """Handle "I said nine ounces before, it was eight"."""
        for start, end in Recalls(self.n):
            if self.handled(start, end):
                continue
            if self._named(start, end):
                continue
            first, repair = self._pair(start, end)
            if first is None:
                continue
            if repair is None:
                self._unclear(first, start)
                continue
            old = self._said_before(first, min(start, first.start))
            if (
                old is None
                and first.reading.role == "earlier"
                and "now" in self.words[first.end : repair.end + 2]
            ):
                continue
            role = old.reading.role if old is not None else first.reading.role
            first.reading.role = "retracted"
            if old is not None:
                old.reading.role = "retracted"
            else:
                self._other_number(first, repair, start)
            self.take_over(old or first, first, repair)
            repair.reading.role = role if role in {"rated", "target"} else "measured"
            self.repaired.append((old or first, repair))
            self.done.append((start, repair.start))

    def handled(self, start: int, end: int) -> bool:
        """Tell whether what stands at these tokens has done its work already."""
        return any(a < end and start < b for a, b in self.done)

    def _pair(self, start: int, end: int) -> tuple[Taken | None, Taken | None]:
        """Return the value that is spoken of again, and the right one."""
        after = [t for t in self.taken if end <= t.start <= end + 12 and not self._stops(end, t.start)]
        for first in after[:1]:
            for t in self.taken:
                if t.start > first.start and t.start - first.end <= 18 and self._repairs(first, t):
                    return first, t
            if not self.taken_before(start) or first.end >= len(self.words):
                return first, None
        before = next((t for t in reversed(self.taken) if t.end <= start), None)
        if (
            before is not None
            and start - before.end <= 2
            and not _STOPS & set(self.words[before.end : start])
        ):
            for t in after[:1]:
                if self._repairs(before, t):
                    return before, t
        return (after[0] if after else None), None

    def _stops(self, start: int, end: int) -> bool:
        return bool(_STOPS & set(self.words[start:end]))

    def taken_before(self, at: int) -> list[Taken]:
        """Return the values said before a token."""
        return [t for t in self.taken if t.end <= at]

    def _repairs(self, first: Taken, t: Taken) -> bool:
        gap = self.words[first.end : t.start]
        meant = {"should", "should've", "shoulda"} & set(gap)
        if (t.reading.role in {"target", "expected"} and not meant) or same_number(first, t):
            return False
        put_right = self.words[t.end : t.end + 2] in (["is", "what"], ["was", "what"], ["is", "right"])
        put_right = put_right or self.words[t.end : t.end + 1] == ["actually"]
        if not (put_right or _words("recall", "presents") & set(gap)) or sum(w in _STOPS for w in gap) > 1:
            return False
        if {"sags", "sagged", "dips", "dipped", "drops", "dropped", "climbs", "climbed", "fell"} & set(gap):
            return False  # "I said 119, that was before. While it starts it sags to 111": another moment
        if t.label_here and not alike(first, t) and t.reading.quantity != first.reading.quantity:
            return False
        if t.reading.role == "rated" and first.reading.role != "rated":
            return False
        return t.reading.quantity == first.reading.quantity or not t.said_unit or not first.said_unit

    def _said_before(self, first: Taken, before: int) -> Taken | None:
        found = [
            t
            for t in self.taken
            if t.end <= before
            and t.reading.role != "retracted"
            and same_number(t, first)
            and (t.reading.quantity == first.reading.quantity or not first.said_unit)
        ]
        near = [t for t in found if alike(t, first)]
        named = [t for t in near if t.reading.point == first.reading.point]
        return (named or near or found or [None])[-1]  # type: ignore[list-item]

    def _other_number(self, first: Taken, repair: Taken, before: int) -> None:
        """Doubt the value of before when the number that is spoken of is not the one that was said."""
        for t in reversed(self.taken):
            if t.end <= before and t.reading.role == "measured" and alike(t, first) and first.place_said:
                if t.reading.value != repair.reading.value and t.reading.point == first.reading.point:
                    reason_once(t, "a value of the same thing was put right later, and with another number")
                return

    def _unclear(self, first: Taken, start: int) -> None:
        """Doubt a value that is said to be not right, with no right one said."""
        b = self.n.sentences[self.sentence_at[start]][1]
        if not _words("recall", "at_odds") & set(self.words[first.end : b]):
            return
        why = "it was said to be not right, and nothing says what is right"
        old = self._said_before(first, start)
        for t in (first, old):
            if t is not None:
                reason_once(t, why)

    def _named(self, start: int, end: int) -> bool:
        """Handle "the head pressure I gave you was wrong, it's 230"; tell whether it is of this shape."""
        at = next(
            (
                k
                for k in range(end, end + 8)
                if self.words[k : k + 1] and self.words[k] in _words("recall", "at_odds")
            ),
            None,
        )
        if at is None or any(end <= t.start < at for t in self.taken):
            return False
        label = next(
            (x for x in reversed(find_labels(self.n)) if x.end <= start and start - x.end <= 4), None
        )
        if label is None or self._stops(label.end, start):
            return False
        new = next((t for t in self.taken if end <= t.start <= end + 16), None)
        old = None
        for t in reversed(self.taken):
            if t.end > label.start or t.reading.role == "retracted":
                continue
            fits = label.label.fits(t.reading.quantity) and (
                label.label.point is None or t.reading.point == label.label.point
            )
            if fits and (label.label.quantity or label.label.point):
                old = t
                break
        if old is None:
            return False
        if new is None or (
            new.reading.quantity != old.reading.quantity and (new.said_unit or new.label_here)
        ):
            reason_once(old, "it was said to be not right, and nothing says what is right")
            return True
        role = old.reading.role
        old.reading.role = "retracted"
        self.take_over(old, old, new)
        new.reading.role = role
        self.repaired.append((old, new))
        self.done.append((start - 4, new.start))
        return True

    def take_over(self, old: Taken, first: Taken, repair: Taken) -> None:
        """Give a repair the quantity, unit and place of what it repairs, where it brings none."""
        a, b = old.reading, repair.reading
        low = self.n.sentences[self.sentence_at[repair.start]][0]
        if repair.place_said and not any(low <= c.start < repair.end for c in find_components(self.n)):
            b.component = a.component or b.component  # it was carried along, not said
        if not repair.said_unit and (b.quantity, b.unit) != (a.quantity, a.unit):
            b.quantity, b.unit, b.ucum = a.quantity, a.unit, a.ucum
            q = old.value.quantity
            factor = next((f for u, f in q.means if u == a.unit), 1.0) if q is not None else 1.0
            b.value = round(repair.value.value * factor, 9)
            b.unit_assumed = a.unit_assumed
        if first is not old and not first.said_unit:
            first.reading.quantity, first.reading.unit, first.reading.ucum = a.quantity, a.unit, a.ucum
        for t in (first, repair):
            if t is old:
                continue
            t.movement = t.movement or old.movement
            t.reading.component = t.reading.component if t.place_said and t.reading.component else a.component
            if t.reading.quantity == a.quantity:
                named = first.reading.point if t is repair and first is not old and first.place_said else None
                t.reading.point = named or a.point or t.reading.point
                t.reading.reference = a.reference
                t.reading.which = t.reading.which or a.which
        if not repair.said_unit and old.said_unit:
            b.unit_assumed = False
        clear_loose(repair)
        repair.reading.retracts = a.heard or None

    def by_number(self) -> None:
        """Handle "forget the 11.2, that was startup, it runs at 8.4" and "that 260 was wrong, it's 206"."""
        verbs, odd = _words("set", "verbs"), _words("recall", "at_odds")
        for v in find_values(self.n):
            if v.state != "value" or self.words[v.start - 1 : v.start] not in (["the"], ["that"], ["my"]):
                continue
            if self.handled(v.start, v.end):
                continue
            before = self.words[max(0, v.start - 4) : v.start - 1]
            taken_off = bool({*verbs, "change", "take", "correct", "fix", "amend"} & set(before))
            nxt = [t for t in self.taken if t.start >= v.end][:1]
            behind = self.words[v.end : min(v.end + 10, nxt[0].start if nxt else len(self.words))]
            for k, w in enumerate(behind):
                if w in _STOPS:
                    behind = behind[:k]
                    break
            if not taken_off and not (odd & set(behind) and {"was", "is", "'s", "were"} & set(behind)):
                continue
            if taken_off and {"change", "take"} & set(before) and not {"to", "off", "out"} & set(behind):
                continue
            old = next(
                (
                    t
                    for t in reversed(self.taken)
                    if t.end <= v.start
                    and t.reading.role != "retracted"
                    and abs(t.value.value - v.value) < 1e-9
                    and t.value.state == "value"
                ),
                None,
            )
            if old is None:
                continue
            here = next((t for t in self.taken if t.start <= v.start < t.end), None)
            new = next(
                (
                    t
                    for t in nxt
                    if t.start - v.end <= 16
                    and (t.reading.quantity == old.reading.quantity or not t.said_unit)
                    and (alike(t, old) or not (t.label_here or t.said_unit))
                    and not same_number(t, old)
                ),
                None,
            )
            role = old.reading.role
            if new is None and not taken_off:
                for t in (old, here):
                    if t is not None:
                        reason_once(t, "it was said to be not right, and nothing says what is right")
                continue
            if here is not None:
                here.reading.role = "retracted"
            if new is None:
                old.reading.role = "retracted"
                reason_once(old, "it was said to be not right, and nothing says what is right")
                continue
            old.reading.role = "retracted"
            self.take_over(old, here or old, new)
            new.reading.role = role
            self.repaired.append((old, new))
            self.done.append((v.start - 4, new.start))

    # -- by what it was not

    def denials(self) -> None:
        """Handle "looking at my photo the head was twelve, not eleven": eleven was said before."""
        for i, t in enumerate(self.taken):
            before = self.words[max(0, t.start - 3) : t.start]
            if not before or before[-1] not in _words("not", "words") or t.reading.role not in {
                "measured", "retracted"
            }:  # fmt: skip
                continue
            near = [
                o
                for o in self.taken[max(0, i - 1) : i] + self.taken[i + 1 : i + 2]
                if o.sentence == t.sentence
                and (o.reading.quantity == t.reading.quantity or not t.said_unit)
                and min(abs(o.start - t.end), abs(t.start - o.end)) <= 9
                and not same_number(o, t)
            ]
            if not near:
                continue
            right = near[0]
            t.reading.role = "retracted"
            old = next(
                (
                    o
                    for o in reversed(self.taken[: max(0, i - 1) if self.taken[i - 1] is right else i])
                    if o is not right
                    and same_number(o, t)
                    and alike(o, right)
                    and o.reading.role == "measured"
                    and o.reading.quantity == right.reading.quantity
                ),
                None,
            )
            if old is not None:
                old.reading.role = "retracted"
                self.take_over(old, old, right)
                self.repaired.append((old, right))

    # -- two that stand for each other

    def swaps(self) -> list[Taken]:
        """Handle "I had those two the wrong way round"; return the values that are new."""
        new: list[Taken] = []
        for start, end in Swaps(self.n):
            if self.handled(start - 6, end):
                continue
            before = [t for t in self.taken if t.end <= start and t.reading.role == "measured"]
            after = [t for t in self.taken if t.start >= end and t.start - end <= 30][:4]
            before = [t for t in before if t.sentence >= self.sentence_at[start] - 2][-4:]
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
            sure = len(pairs) == 1 and x.sentence == y.sentence
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

    # -- several at once

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

    # -- what rests on it

    def differences(self) -> None:
        """Take back, or doubt, a difference that was reckoned with a value that was taken back."""
        for old, new in self.repaired:
            if old.reading.value is None or new.reading.value is None or new.start - old.end < 12:
                continue
            place = self.taken.index(old) if old in self.taken else -1
            if place < 0:
                continue
            for t in self.taken[place + 1 : place + 6]:
                d = t.reading
                if t.start >= new.start or d.role != "measured" or d.value is None:
                    continue
                others = [
                    o.reading.value
                    for o in self.taken[max(0, place - 3) : place + 4]
                    if o is not old
                    and o is not t
                    and o.reading.quantity == old.reading.quantity
                    and o.reading.value is not None
                ]
                level = d.quantity == old.reading.quantity == "temperature" and t.sentence == old.sentence
                if level:  # "54 in, 44 out, ten degrees": the difference follows the two
                    others = [o for o in others if o != d.value]
                    level = place + 2 <= self.taken.index(t) <= place + 3 and d.value < 40
                if d.quantity not in DIFFERENCES and not d.derived and not level:
                    continue
                if not any(abs(abs(old.reading.value - o) - abs(d.value)) < 0.06 for o in others):
                    continue
                anew = any(
                    n.start > new.start
                    and n.start - new.end < 20
                    and n.reading.value is not None
                    and any(abs(abs(new.reading.value - o) - abs(n.reading.value)) < 0.06 for o in others)
                    for n in self.taken
                )
                if anew:
                    d.role = "retracted"
                else:
                    reason_once(t, "it was reckoned with a value that was taken back")


__all__ = ["Back", "Mistake", "alike", "clear_loose", "find_mistakes", "reason_once", "same_number"]
