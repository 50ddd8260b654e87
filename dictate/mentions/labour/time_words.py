"""What the words around a time say: the start of work, its end, or a time of the machine."""

from __future__ import annotations

from functools import cache

from dictate.mentions.labour.clock_times import (
    Clock,
    clock_at,
    labour_phrases,
    may_begin,
    phrases_by_first,
)
from dictate.mentions.labour.no_times import left_standing, no_cue
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS, Words, words_of
from dictate.mentions.quantities import find_quantities
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import table, word_set


@cache
def _by_last_word(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Return a list's phrases by their last word, so that a word looks at a few of them only."""
    out: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in labour_phrases(name):
        out[phrase[-1]] = (*out.get(phrase[-1], ()), phrase)
    return out


@cache
def _words_of(name: str) -> frozenset[str]:
    """Return every word of a list's phrases."""
    return frozenset(w for p in labour_phrases(name) for w in p)


_NEAR = 9
_BEFORE_A_TIME = ("at", "about", "around", ",", "by", "just")
_TO_A_PLACE = 18
_SHORTEST_VISIT_MIN = 15
_ARRIVES = frozenset(
    (verb, place)
    for verb in ("got", "was", "here", "there", "on", "came")
    for place in ("there", "here", "to", "site", "at", "by", "in")
)
_LONG_REACH = 6  # words before "since": "the alarm 's been going since"
_LONGEST_TIME = 5  # words: "a quarter past nine"
_TAKEN_BACK = word_set("time_taken_back")
_SIGNING = {
    p: kind for kind, name in (("start", "signing_in"), ("end", "signing_out")) for p in labour_phrases(name)
}
_PLACES = frozenset(
    ("store", "shop", "restaurant", "kitchen", "school", "plant", "case", "cooler", "freezer")
)
_SITES = frozenset(
    ("site", "job", "building", "customer", "place", "deli", "bar", "hotel", "hospital", "church")
)
_LEFT_THE = (("left", "the"), ("left", "that"), ("left", "their"))
_OF_ITSELF = word_set("of_itself", "labour")
_WORKING = word_set("who_works", "labour")


def phrase_of_a_side(phrase: tuple[str, ...]) -> bool:
    """Tell whether a cue is nothing but "in at", "out", "back at": words for a control as well."""
    return phrase[0] in ("in", "out", "on", "off", "back") and len(phrase) <= 2


_WAYS = ("in", "out", "on", "off")
_FOR_IN_AT = frozenset((way, "at") for way in ("in", "out", "on", "off"))


class TimeWords:
    """Reads the words around the times of one narration; `read` are the working times so far."""

    read: list[Clock]

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.w: Words = words_of(narration)
        self.row = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.read = []
        self.by_itself: set[int] = set()  # sentences in which something started or ended by itself
        self.units = {
            self.w.word_of_token(t)
            for q in find_quantities(narration)
            if q.kind in ("reading", "size", "price")
            for t in range(q.start, q.end)
        }

    def ends(self, i: int, name: str, start: int) -> int:
        """Return how many words of the longest phrase of a list end just before word i."""
        longest = 0
        for phrase in _by_last_word(name).get(self.row[i - 1], ()) if i > start else ():
            size = len(phrase)
            if size > longest and i - size >= start and self.row[i - size : i] == phrase:
                longest = size
        return longest

    def cue(self, i: int, start: int, clock: Clock | None = None) -> str | None:
        """Return "start" or "end" when the words before word i say so."""
        k = i
        steps = 0
        while k > start and steps <= 6:
            n_start, n_end = self.ends(k, "start", start), self.ends(k, "end", start)
            if n_start or n_end:
                kind = "start" if n_start >= n_end and n_start else "end"
                n = max(n_start, n_end)
                who = self.row[k - n - 1] in ("i", "we")
                if self.read and self.read[-1].end == k - n - who and k < i:
                    return None  # "7:30 start, 10:00", "7:30 I started, 10:00": the name of the time before
                reach = _LONG_REACH if self.row[k - n : k] == ("since",) else 3
                if self.of_itself(max(start, k - n - reach), k - n, n):
                    self.by_itself.add(start)
                    return None
                if phrase_of_a_side(self.row[k - n : k]) and self.cuts(start, k - n):
                    self.by_itself.add(start)
                    return None  # "cut in at thirty, out at ten"
                if start in self.by_itself and self.row[k - n - 1] in (",", "and"):
                    return None  # "harvest started at 2:31, done at 2:34"
                if self.allowed(k, n, i, start, clock):
                    return kind
            if self.row[k - 1] in _words_of("about"):
                k -= 1
                steps += 1
                continue
            return None
        return None

    def cuts(self, start: int, stop: int) -> bool:
        """Tell whether a control is said to cut in or out before word `stop`, and nobody who works comes."""
        for k in range(max(start, stop - _NEAR), stop):
            if self.row[k] in word_set("of_a_control", "labour") and self.row[k + 1] in _WAYS:
                return not {"i", "we", "i'm", "we're"} & set(self.row[k + 1 : stop])
            if self.row[k] == "set" and _FOR_IN_AT & {self.row[k + 1 : k + 3], self.row[k + 2 : k + 4]}:
                return True  # "I set it for in at thirty, out at ten"
        return False

    def of_itself(self, first: int, last: int, n: int = 0) -> bool:
        """Tell whether what starts, ends or comes is a machine, an alarm or a delivery, and nobody who works.

        The words are those right before the verb, of its own clause; `n` is how many words the verb has.
        """
        near = self.row[first:last]
        cut = max((k for k, w in enumerate(near) if w in (",", ";", ".", "i", "we")), default=-1)
        near = near[cut + 1 :]
        if n and any(w in _WORKING for w in near):
            return False
        if n and self.row[last] == "came" and not all(w in word_set("told", "labour") for w in near):
            return True  # "low side came in at six"
        return any(w in _OF_ITSELF for w in near)

    def allowed(self, k: int, n: int, i: int, start: int, clock: Clock | None = None) -> bool:
        """Tell whether a short cue ("in", "left", "done", "from") is one here."""
        phrase = self.row[k - n : k]
        if no_cue(self, k, n, i, start):
            return False
        if (
            phrase[-1] in ("left", "ended", "ended", "started")
            and any(w in ("it", "them", "him", "her", "everything") for w in self.row[k:i])
            and not (self.row[k:i] == ("it", "was") and self.row[k - n - 1 : k - n] in (("i",), ("we",)))
        ):
            return False
        if phrase == ("off", "at"):
            return self.started_in(start)
        if phrase == ("start",) and k - 2 >= start and self.row[k - 2] in NUMBER_WORDS:
            return False  # "seven six start, ten even ...": the name of what was said before
        if phrase == ("start",) and self.row[k - 2 : k - 1] in (("the",), ("a",), ("hard",), ("soft",)):
            return False  # "one eighteen at the plug, on the start, one oh four"
        if phrase[0] in ("in", "out") and (len(phrase) == 1 or phrase[1] in ("at", "by")):
            head = k - n == start or self.row[k - n - 1] in (",", "and", "time")
            head = head or (
                len(phrase) == 2 and self.row[k - n - 2 : k - n] in (("i", "was"), ("we", "were"))
            )
            if not head and not (phrase[0] == "out" and self.started_in(start)):
                return False
        if phrase in labour_phrases("short_cues"):
            clock = clock or clock_at(self.row, i)
            if phrase[0] in ("left", "finished", "done", "wrapped", "ended", "out") and self.started_in(
                start
            ):
                return True
            if clock is not None and clock.bare and phrase in labour_phrases("short_cues_bare"):
                if "," in self.row[k:i] and "at" not in self.row[k:i]:
                    return False  # "at 12 when I started, 9 now"
                # "from eight to six" may be a superheat; a bare hour needs "at" or a person.
                between = self.row[k:i]
                if "at" in between or "around" in between or "about" in between:
                    return True
                who = self.row[max(start, k - n - 3) : k - n]
                if phrase in (("from",), ("since",)):
                    return (
                        any(w in ("there", "here", "site", "worked", "job", "onsite", "was") for w in who)
                        or k - n == start
                    )
                return any(w in ("i", "we", "job") for w in who) or (
                    k - n == start and phrase in (("left",), ("finished",), ("started",), ("done",))
                )
        return True

    def started_in(self, start: int) -> bool:
        """Tell whether a start was already read in the sentence that begins at `start`."""
        return any(c.kind == "start" and c.start >= start for c in self.read)

    def said_of_us(self, i: int) -> bool:
        """Tell whether the words before word i tell of the visit, whoever speaks: "when I got there at"."""
        start, _ = self.scopes.sentence(i)
        near = self.row[max(start, i - 5) : i]
        if "signed" in near[-3:] or any(w in ("i", "we", "i'd", "we'd") for w in near):
            return True
        if self.ends(i, "let_in", start):
            return True  # "the closing manager let me in at ten"
        return not word_set("sheets", "labour").isdisjoint(self.row[start:i])

    def near_start(self, first: int, start: int) -> bool:
        """Tell whether word `first` stands in the sentence that begins at `start` or in the one before."""
        return 0 <= self.w.sentence_of[start] - self.w.sentence_of[first] <= 1

    def plainly_said(self, i: int, start: int) -> bool:
        """Tell whether "left at" or its like stands right before the time.

        What was said before does not matter.
        """
        phrases = {
            p
            for name in ("start", "end")
            for p in labour_phrases(name)
            if (p[-1] == "at" and p[0] not in ("stop", "end", "ended", "stopped"))
            or p in labour_phrases("plain_comings")
        }
        if start in self.by_itself and not any(w in ("i", "we") for w in self.row[max(start, i - 5) : i]):
            return False
        near = [len(p) for p in phrases if i - len(p) >= start and self.row[i - len(p) : i] == p]
        if near and self.of_itself(max(start, i - max(near) - 3), i - max(near), max(near)):
            return False
        return bool(near) and not any(
            w in self.row[max(start, i - 16) : i]
            for w in ("nitrogen", "vacuum", "gauge", "defrost", "cycle", "timer")
        )

    def named_behind(self, i: int) -> str | None:
        """Return "start" or "end" when it names the time before word i ("7:30 start, 10:00 finish")."""
        first = self.row[i] if i < len(self.row) else ""
        for kind in ("end", "start"):
            for p in phrases_by_first(f"named_{kind}").get(first, ()):
                after = self.row[i + len(p) : i + len(p) + 1]
                if p in (("in",), ("out",)) and not self.in_and_out(i):
                    continue  # "transformer, two thirty three in"
                if self.row[i : i + len(p)] == p and after in ((",",), (".",), (";",), ("and",), ()):
                    return kind
        return None

    def in_and_out(self, i: int) -> bool:
        """Tell whether the time named by "in" or "out" at word i is one of two, or surely a time of day."""
        if ":" in self.row[i - 1] or self.row[i - 1] in word_set("half_of_day", "labour"):
            return True
        start, end = self.scopes.sentence(i)
        if any(start <= t.start < end for t in things_of(self.w)):
            return False  # "transformer, two thirty in, twenty four out"
        other = "out" if self.row[i] == "in" else "in"
        here = self.ended_by(i, start)
        for k in range(start + 1, end):
            there = self.ended_by(k, start) if self.row[k] == other else None
            # "one nineteen in, one eighteen out" are the two sides of a switch: a visit takes its time.
            if here and there and abs(here.minutes - there.minutes) % 720 >= _SHORTEST_VISIT_MIN:
                return True
        return False

    def ended_by(self, i: int, start: int) -> Clock | None:
        """Return the clock time that ends right before word i."""
        for k in range(max(start, i - _LONGEST_TIME), i):
            clock = clock_at(self.row, k) if may_begin(self.row[k]) else None
            if clock is not None and clock.end == i:
                return clock
        return None

    def reached(self, i: int, start: int) -> str | None:
        """Read "got to the deli case about ten after eight".

        A coming with a place between it and the time.
        """
        for k in range(max(start, i - _NEAR), i - 2):
            kind = _SIGNING.get(self.row[k : k + 2])
            between = self.row[k + 2 : i]
            if (
                kind is not None
                and between[0] in ("at", "with", "by")
                and not any(w in (".", ",") or w in NUMBER_WORDS or w[:1].isdigit() for w in between)
            ):
                return kind  # "signed in at security eleven oh five"
        for k in range(max(start, i - _LONGEST_TIME), i - 3):
            who = self.row[k - 1] in word_set("tells_of_himself", "labour") if k > start else True
            if who and self.row[k : k + 2] in _LEFT_THE and self.row[i - 1] in _BEFORE_A_TIME:
                return "end" if self.row[k + 2] in _PLACES | _SITES else None
        for k in range(max(start, i - _TO_A_PLACE), i - 2):
            if self.row[k : k + 2] not in labour_phrases("comings"):
                continue
            head = self.row[k - 1] if k > start else ""
            if i - k > _NEAR and head not in word_set("tells_of_himself", "labour"):
                continue
            between = self.row[k + 2 : i]
            if self.row[k - 1] in word_set("of_no_person", "labour"):
                return None  # "it came to six ten"
            if any(self.scopes.kind(j) == "past" for j in range(k + 2, i)) or any(
                w in (".", "it", "i") or w in NUMBER_WORDS or w[:1].isdigit() for w in between
            ):
                return None
            place = next((j for j in range(k + 2, i) if self.row[j] in _PLACES), i)
            if self.of_itself(max(start, k - 3), k, 2) or (
                i - k <= _NEAR and (self.of_itself(k + 2, place) or self.of_itself(place + 1, i))
            ):
                return None
            hour = clock_at(self.row, i)
            led = ("at", "about", "around", "by") if hour is None or hour.bare else _BEFORE_A_TIME
            return "start" if between[-1] in led else None
        return None

    def cue_behind(self, i: int, end: int) -> str | None:
        """Return "start" or "end" when the words behind a clock time say so ("ten to three I pulled out")."""
        if i + 1 < end and self.row[i] == "," and self.row[i + 1] in ("i", "we", "i'm", "we're"):
            i += 1
        if i >= end or self.row[i] not in ("i", "we", "when", "is", "was", "i'm", "we're"):
            return None
        if self.row[i] == "when" and self.row[i + 1 : i + 2] not in (("i",), ("we",), ("i'm",)):
            return None  # "one thirteen at the compressor when it started"
        last = next((k for k in range(i, min(end, i + 5)) if self.row[k] in (",", ";")), min(end, i + 5))
        if any(clock_at(self.row, k) is not None for k in range(i + 1, last)):
            return None  # "five past four, I started at one": the words behind have a time of their own
        rest = " ".join(self.row[i:last])
        for kind in ("end", "start"):
            if any(said in rest for said in table("labour")[f"{kind}_behind"]):
                return kind
        return None

    def sets_off(self, clock: Clock, start: int, end: int) -> bool:
        """Tell whether a going is the drive to the job: "left the shop at 1:40, got there ..."."""
        lead = self.row[max(start, clock.start - 7) : clock.start]
        cut = max((k for k, w in enumerate(lead) if w in (",", ";", "and")), default=-1)
        lead = lead[cut + 1 :]
        going = next((k for k, w in enumerate(lead) if w in word_set("going_off", "labour")), None)
        if going is None or word_set("sets_off_from", "labour").isdisjoint(lead[going:]):
            return False
        behind = self.row[clock.end : end]
        return any(
            behind[k : k + 2] in _ARRIVES or behind[k] in ("arrived", "arrive", "onsite")
            for k in range(len(behind))
        )

    def retracts(self, first: int, last: int) -> bool:
        """Tell whether the words between two clock times take the first back."""
        between = [w for w in self.row[first:last] if w not in (",", ".")]
        if between[-1:] == ["that"] and self.row[last : last + 1] == ("one",):
            return False  # "till half twelve, that one"
        return bool(between) and all(w in _TAKEN_BACK for w in between)

    def machine_near(self, i: int, start: int) -> bool:
        """Tell whether the words before make it a machine's time ("test from nine ten to ...")."""
        near = self.row[max(start, i - 8) : i]
        if any(
            w in self.row[max(start, i - 16) : i]
            for w in ("nitrogen", "vacuum", "pressurized", "pressurised", "evacuated")
        ) and any(
            w in near for w in ("sat", "stood", "held", "there", "left", "watched", "from", "hold", "stayed")
        ):
            return True
        if near[-1:] == ("from",) and near[-2:-1] in (("ran",), ("runs",), ("running",)):
            return near[-3:-2] not in (
                ("i",),
                ("we",),
                ("job",),
                ("visit",),
                ("call",),
                ("work",),
            )  # "ran from two ten till two forty"
        if any(w in near for w in ("degrees", "psi", "microns", "bar", "inches")) or left_standing(near):
            return True
        return any(
            p[0] in near
            for p in labour_phrases("machine")
            if len(p) == 1
            and p[0] not in ("ran", "run", "after", "later", "first", "in", "every", "once", "per")
        ) or any(w in near for w in word_set("other_appointments"))
