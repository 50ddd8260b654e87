"""Statements that several values were not what they were said to be: "those were all off the other unit".

Such a statement has a subject that points back at values ("those", "all of that", "the last two", "everything
I just read"), and says of it that it is of something else ("came off the rack, not the case", "were
compressor two"), of another time ("are yesterday's") or no good ("don't count"); or it tells what is to be
done with them ("leave those out"). A way of measuring ("those were with the fans running") disowns nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dictate.mentions.corrections.correction_words import CUTS, correction_words
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers, numbers_by_start
from dictate.vocabulary.load import table

NEAR = 12
"""Tokens between a value and "that was off the other unit": what is farther away is something else."""


@dataclass(frozen=True, slots=True)
class Disowned:
    """A statement at the tokens [start, end); `how` is one of "other", "bad", "struck", "misled", "moved"."""

    start: int
    end: int
    how: str
    count: int | None = None
    """How many values it speaks of, where that was said."""
    whole: bool = False
    """True when it speaks of all that was said just now, and not only of the last sentence with values."""
    single: bool = False
    """True for "that was off the other unit": of the value right before it, if of any."""
    inner: bool = False
    """True when other words stand in front of it in its sentence: "the caps, they're in my other truck"."""
    component: str | None = None
    which: str | None = None


@dataclass(frozen=True, slots=True)
class _Subject:
    end: int
    count: int | None
    whole: bool
    none: bool


def find_disowned(narration: Narration) -> list[Disowned]:
    """Return the statements in the order of the words.

    >>> n = Narration.from_text("Suction 68, head 210. Those were off the other unit. Those were steady.")
    >>> [(d.how, narration_text) for d in find_disowned(n) for narration_text in [n.heard(d.start, d.end)]]
    [('other', 'Those were off the other')]
    """
    done: list[Disowned] | None = narration.found.get("disowned")
    if done is None:
        done = list(_Finder(narration).run())
        narration.found["disowned"] = done
    return done


def pick(sentences: Sequence[int], here: int, said: Disowned) -> list[int]:
    """Return which of the values in these sentences (in order, all said before) a statement speaks of."""
    if not sentences or here - sentences[-1] > (0 if said.inner else 2):
        return []
    if said.count is not None:
        return list(range(max(0, len(sentences) - said.count), len(sentences)))
    out = [len(sentences) - 1]
    for k in range(len(sentences) - 2, -1, -1):
        near = sentences[k] == sentences[out[0]]
        joined = sentences[out[0]] - sentences[k] <= 1
        if not (near or (joined and (len(out) < 2 or (said.whole and sentences[k] >= sentences[-1] - 3)))):
            break
        out.insert(0, k)
    return out


def _word(name: str) -> frozenset[str]:
    return correction_words("disowned", name)


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers
        self.leads = correction_words("mistake", "fillers") | _word("leads")
        self.counts: dict[str, int] = table("corrections")["disowned"]["counts"]

    def run(self) -> list[Disowned]:
        out: list[Disowned] = []
        said = set(self.words)
        if not said & _word("hints"):
            return out
        for a, b in self.n.sentences:
            at = a
            for k in range(a, b + 1):
                if k == b or self.words[k] in CUTS:
                    found = self._clause(at, k, b) if k > at else None
                    if found is not None:
                        small = self.leads | CUTS
                        named = _word("nouns") & set(self.words[found.start : found.end])
                        inner = not named and not set(self.words[a : found.start]) <= small
                        out.append(replace(found, inner=inner))
                    at = k + 1
        return out

    def _clause(self, a: int, b: int, last: int) -> Disowned | None:
        """Return what the clause [a, b) of a sentence that ends at `last` says."""
        i = a
        while i < b:
            if self.words[i] == "i" and self.words[i + 1 : i + 2] and self.words[i + 1] in _word("thinks"):
                i += 2
            elif self.words[i] in self.leads:
                i += 1
            else:
                break
        if i >= b:
            return None
        return self._struck(i, b) or self._said_of(i, b, last) or self._misled(i, b)

    def _subject(self, i: int, b: int) -> _Subject | None:
        """Return what points back at values at a token: "all three of those", "the last two readings"."""
        j, count = i, None
        pointed = many = determined = whole = none = False
        while j < b and j - i < 9:
            w = self.words[j]
            if w in _word("whole"):
                many = True
                none = none or w in {"none", "neither"}
                pointed = pointed or w not in {"each"}
                whole = whole or w in {"everything", "lot", "all"}
                count = 2 if w == "both" else count
            elif w in _word("those") or (
                w in {"that", "it", "this"} and j > i and self.words[j - 1] in {"of", "all"}
            ):
                many = pointed = True
            elif w in self.counts and (pointed or many or determined):
                count, many, pointed = self.counts[w], True, True
                whole = False
            elif w in _word("nouns") and (pointed or determined):
                many = pointed = True
            elif w in _word("determiners"):
                determined = True
            elif w in _word("who") and pointed:
                k = j + 1
                while k < b and k - j < 4 and self.words[k] in _word("said_with"):
                    k += 1
                if k == j + 1 or self.words[k - 1] not in _word("said"):
                    break
                j = k
                continue
            elif w not in _word("links") or j == i:
                break
            j += 1
        while j > i and self.words[j - 1] in _word("links"):
            j -= 1
        return _Subject(j, count, whole and count is None, none) if pointed and many else None

    def _struck(self, i: int, b: int) -> Disowned | None:
        """Return "never mind all three", "leave those out", "don't count the last two"."""
        word, j, sure = self.words[i], i + 1, False
        if word == "never" and self.words[i + 1 : i + 2] == ["mind"]:
            j, sure = i + 2, True
        elif word in {"don't", "dont"} or self.words[i : i + 2] == ["do", "not"]:
            j = i + (1 if word != "do" else 2)
            if j >= b or self.words[j] not in _word("keeps"):
                return None
            j, sure = j + 1, True
        elif word in correction_words("set", "verbs") | _word("verbs"):
            sure = word in correction_words("set", "told")
            if self.words[j : j + 1] in (["out"], ["off"], ["away"]):
                j += 1
        else:
            return None
        s = self._subject(j, b)
        if s is None or (s.end < b and self.words[s.end] not in _word("ends")):
            return None
        valued = bool(_word("nouns") & set(self.words[j : s.end])) or s.count is not None
        return Disowned(i, s.end, "struck" if sure or valued else "bad", s.count, s.whole)

    def _said_of(self, i: int, b: int, last: int) -> Disowned | None:
        """Return "those were all off the other unit", "none of that counts", "they belong to circuit two"."""
        s = self._subject(i, b)
        single = s is None and self.words[i] == "that"
        if single:
            s = _Subject(i + 1, 1, False, False)
        if s is None:
            return None
        if s.end == b - 1 and self.words[s.end] in _word("bad_alone") and not single:
            return Disowned(i, b, "bad", s.count, s.whole)  # "all wrong, I'm afraid"
        if s.end >= b:
            return None
        if single and self.words[s.end + 1 : s.end + 2] in (["all"], ["both"]):
            single, s = False, _Subject(i + 1, None, False, False)
        j = s.end
        word = self.words[j]
        joined = self.words[j - 1] in _word("joined")
        if word in _word("fails") and self.words[j + 1 : j + 2] and self.words[j + 1] in _word("counts_for"):
            return None if single else Disowned(i, j + 2, "struck", s.count, s.whole)
        if s.none and word in _word("counts_for"):
            return Disowned(i, j + 1, "struck", s.count, s.whole)
        if word not in _word("copulas") and not joined:
            return None
        past = word in _word("past")
        k, denied = j + (0 if joined else 1), s.none or word in _word("denied")
        stop = min(b, k + 8)
        while k < stop:
            w = self.words[k]
            if w in _word("ways") or (w == "with" and word not in _word("went")):
                return None
            if w in {"not", "never"}:
                denied = True
            elif w in _word("bad") or (w in _word("good") and denied):
                if (denied and w in _word("bad")) or (
                    self.words[k + 1 : k + 2] and self.words[k + 1] in _word("about")
                ):
                    return None  # "they were wrong about the charge"
                return None if single else Disowned(i, k + 1, "bad", s.count, s.whole)
            elif w in _word("other"):
                led = self.words[k - 1] in _word("led")
                # "those were old shaded pole motors" tells what they were
                led = led and not (w in _word("describes") and self.words[k - 1] in _word("copulas"))
                prepared = bool(_word("from") & set(self.words[j:k]))
                behind = self.words[k + 1 : k + 2] and k + 1 < b
                if w in _word("bad_alone") and not behind:
                    return None if single or denied else Disowned(i, k + 1, "bad", s.count, s.whole)
                later = behind and self.words[k + 1] in _word("later")
                if led and behind and not later and not denied and (prepared or not single):
                    return Disowned(i, k + 1, "other", s.count, s.whole, single)
            elif w in _word("times") and not denied and not single:
                sure = self.words[k - 1] == "last" or self.words[k + 1 : k + 2] == ["'s"]
                return Disowned(i, k + 1, "time" if sure else "bad", s.count, s.whole)
            k += 1
        if single or denied:
            return None
        if self.words[b : b + 2] == [",", "not"] and b < last and _word("from") & set(self.words[j:b]):
            return Disowned(i, b, "other", s.count, s.whole)
        return self._moved(i, j, b, s, past)

    def _moved(self, i: int, j: int, b: int, s: _Subject, past: bool) -> Disowned | None:
        """Return "those were compressor two", "they belong to circuit B"."""
        if not past:
            return None
        for c in find_components(self.n):
            if j < c.start <= j + 3 and c.end <= b and c.which is not None:
                return Disowned(i, c.end, "moved", s.count, s.whole, False, False, c.name, c.which)
        for k in range(j + 1, min(b - 1, j + 5)):
            named, behind = self.words[k], self.words[k + 1]
            if named in _word("numbered") and (behind in self.counts or behind.isdigit() or len(behind) == 1):
                which = str(self.counts.get(behind, behind))
                return Disowned(i, k + 2, "moved", s.count, s.whole, which=which)
            if named in _word("sides") and behind in _word("one"):
                return Disowned(i, k + 2, "moved", s.count, s.whole, which=named)
        return None

    def _named_twice(self, i: int, many: str) -> bool:
        """Tell whether a plural was named twice: "fan one 1.4, fan two 1.9. I had the fans crossed."""
        return many.endswith("s") and self.words[max(0, i - 25) : i].count(many[:-1]) > 1

    def _misled(self, i: int, b: int) -> Disowned | None:
        """Return "I was reading the unit next to this one", "the hoses were crossed"."""
        said = self.words[i:b]
        words = set(said)
        if not 2 <= len(said) <= 14 or words & correction_words("mistake", "does") & _word("work"):
            return None
        things = correction_words("mistake", "wrong") | correction_words("mistake", "wrong_things")
        goes_on = self.words[b : b + 1] == [","] and b + 1 in numbers_by_start(self.n)
        led = i > 0 and self.words[i - 1] in {"now", "then", "next"}
        if (goes_on or led) and words <= things | {"the", "other"}:
            return None  # "this leg nine four. Other one, nine five.", "Now the other pump."
        if words <= things | {"wrong", "the", "other"} and words & things and words & {"wrong", "other"}:
            return Disowned(i, b, "misled") if said[-1] in things and b - i <= 3 else None
        first = said[0] in _word("i_am")
        if first and words & _word("reading"):
            text = " ".join(said)
            if any(f" {p} " in f" {text} " for p in table("corrections")["disowned"]["beside"]):
                return Disowned(i, b, "misled", 1 if words & {"that", "it"} else None)
        tools = words & _word("tools")
        owned = _word("faults") & set(self.words[max(0, i - 4) : i])
        if tools and owned and words & {"was", "were"} and words & {"on", "in"} and not words & _word("ways"):
            return Disowned(i, b, "misled")  # "my fault, that hose was on the liquid line"
        if said[0] in _word("crossed") and words & _word("those"):
            return Disowned(i, b, "misled")
        state = tools and said[0] in {"the", "my", *tools} and words & _word("states")
        # "the probe's reading 17 low" tells how far off a part of the machine is
        upset = state and said[-1] in _word("upset") and not words & _word("ways")
        far = (
            upset
            and said[-1] in {"low", "off", "over"}
            and any(i < x.start < b for x in find_numbers(self.n) if not x.pronoun)
        )
        if upset and not far:
            return Disowned(i, b, "misled")
        if first and words & {"had", "have", "got", "i'd", "i've"} and said[-1] in _word("crossed"):
            letters = {w for w in said if (len(w) == 1 and w not in {"i"}) or w in self.counts}
            pair = len(letters) > 1 and "and" in words
            if tools or words & _word("those") or pair or self._named_twice(i, said[-2]):
                return Disowned(i, b, "misled")
        return None


__all__ = ["NEAR", "Disowned", "find_disowned", "pick"]
