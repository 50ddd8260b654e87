"""Questions about one cue: does its own verb, its pause or what follows it take its force away."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.roles.cues import Cue
from dictate.mentions.word_lists import word_list

_PAST = word_list("roles_past")
_UNTIL = frozenset({"until", "till", "once", "when", "before", "soon"})
_COPULAS = word_list("roles_copulas")
_WISHES = frozenset(
    {
        "want",
        "wants",
        "limit",
        "limit's",
        "limits",
        "should",
        "needs",
        "need",
        "supposed",
        "must",
        "max",
        "target",
    }
)


_SPANS = frozenset(
    {"minutes", "minute", "hours", "hour", "seconds", "couple", "few", "time", "day", "night", "once"}
)
"""Words of a stretch of time that something takes, or after which it comes again."""

_METERED = frozenset(
    {"clamped", "metered", "measured", "timed", "ran", "checked", "tested", "ohmed", "forced"}
)

_ACTED = frozenset({"opened", "tripped", "closed", "popped", "kicked", "terminated"})

_LASTED = frozenset({"went", "ran", "took", "lasted", "ended", "stopped", "was", "terminated", "quit"})

_WHOSE = frozenset({"the", "'s", "other", "last", "old", "that", "my", "his", "wrong", "off", "on"})

_WOULD_NOT = frozenset({"wouldn't", "won't", "couldn't"})


_STOPS = (",", ".", ";", "?", "!", "-")


_I_READ = frozenset(
    (
        "get",
        "getting",
        "got",
        "read",
        "reads",
        "see",
        "says",
        "reading",
        "have",
        "'ve",
        "i've",
        "we've",
        "seeing",
    )
)


class RoleWords:
    """The words, values, labels and cues of one sentence, and questions about a cue."""

    narration: Narration
    words: list[str]
    first: int
    last: int
    values: Sequence[tuple[int, int]]
    labels: Sequence[tuple[int, int]]
    cues: list[Cue]
    quantities: dict[int, str]

    def _in_passing(self, cue: Cue) -> bool:
        """Tell whether a wish or a plate tells no value: "if you want it exact", "the plate allows more"."""
        if cue.role == "rated":
            return self._allows_more(cue)
        if cue.role != "target":
            return False
        said, before = self.words[cue.start : cue.end], self.words[max(self.first, cue.start - 3) : cue.start]
        if said[-1:] == ["terminate"] or said[-2:-1] == ["terminate"]:
            return "let" in before
        if said in (["cuts", "out"], ["cuts", "in"]) and before[-1:] in (["it"], ["she"], ["he"]):
            return before[-2:-1] in (["there"], ["then"])  # "21, 22, and there it cuts out, 22 bar"
        if said == ["good", "to"] and before[-1:] and before[-1] in word_list("roles_shown"):
            return bool(word_list("roles_testers") & set(before))  # "the refractometer says good to 12"
        end = cue.end
        if said == ["normal"] and self.words[end : end + 1] == [":"]:
            # "everything is normal: suction 3 bar"
            return bool(word_list("roles_found_to_be") & set(before[-1:])) and "what" not in before[-2:]
        if said == ["if"] and self.words[end : end + 1] == ["you"]:
            said, before, end = self.words[end : end + 2], ["if"], end + 2
        if {"want", "like", "need"}.isdisjoint(said) or "if" not in before[-1 - ("you" not in said) :]:
            return False
        return not any(end <= start <= end + 2 for start, _ in self.values)

    def _allows_more(self, cue: Cue) -> bool:
        """Tell whether a plate is only said to allow more or less: "the plate allows more, twenty bar"."""
        behind = self.words[cue.end : cue.end + 3]
        if behind[:1] and behind[0] in word_list("roles_allows"):
            behind = behind[1:]
        return bool(behind[1:]) and behind[0] in word_list("roles_more") and behind[1] in {",", ";", "."}

    def _converted(self, cue: Cue, n: int) -> bool:
        """Tell whether a pressure that was read is told as a temperature: "19 psi, which would be 21"."""
        if self.quantities.get(n) != "temperature" or n == 0 or self.quantities.get(n - 1) != "pressure":
            return False
        if self.words[cue.end - 1] != "be" and self.words[cue.end - 1] != "that'd":
            return False
        gap = self.words[self.values[n - 1][1] : cue.end]
        if (
            len(gap) > 8
            or {"should", "if", "but", "and"} & set(gap)
            or not {"which", "that", "that'd"} & set(gap)
        ):
            return False
        return not any(c.role in {"target", "expected"} and c.end <= self.values[n - 1][0] for c in self.cues)

    def _would_have(self, cue: Cue) -> bool:
        """Tell whether a sentence that opens with "had" is a condition: "had it drawn 1.4 I would have"."""
        opens = cue.start == self.first or self.words[cue.start - 1] in {",", "and", "but", ";"}
        return opens and bool({"would", "i'd", "i'd've", "we'd"} & set(self.words[cue.end : self.last]))

    def _could_not(self, cue: Cue) -> bool:
        """Tell whether a machine did not get anywhere: "first try it wouldn't go under 900".

        A person who would not go anywhere tells a limit: "I wouldn't go over 400".
        """
        said = self.words[cue.start : cue.end]
        at = next((k for k, w in enumerate(said) if w in _WOULD_NOT), None)
        if at is None or not {"go", "get", "come", "drop", "pull"} & set(said[at + 1 :]):
            return False
        who = self.words[cue.start + at - 1] if cue.start + at > self.first else "i"
        return who not in word_list("roles_people")

    def _did_cut(self, cue: Cue) -> bool:
        """Tell whether a "cut out at" tells what happened: "it cut out at 19 in nine minutes"."""
        said = set(self.words[self.first : self.last])
        behind = next((self.words[e : min(self.last, e + 7)] for s, e in self.values if s >= cue.end), [])
        against = [w for w in behind[:2] if w != ","][:1]
        told = {"set", "setting", "should", "supposed", "dial", "print", "marked"} & set(behind)
        if told and {"when", "but", "though", "where", "instead", "against", "and"} & set(against):
            return True  # "the old one cut out at eighteen when it's set for ten"
        if word_list("roles_settings") & said:
            return False
        return self.words[cue.start - 1] in {"it", "she", "he"} or bool(word_list("roles_went_on") & said)

    def _acted(self, cue: Cue, start: int) -> bool:
        """Tell whether a control did act at a value: "the termination opened at 52, the sheet says 55"."""
        if not _ACTED & set(self.words[max(cue.end, start - 3) : start]):
            return False
        return _WISHES.isdisjoint(self.words[cue.start : cue.end]) and "," not in self.words[cue.end : start]

    def _allowed_range(self, n: int) -> bool:
        """Tell whether a range is what is allowed: "start disc 5.2 cold, 4 to 8 is fine"."""
        start, end = self.values[n]
        ranged = "to" in self.words[start:end] or self.words[start - 1 : start] == ["to"]
        if not ranged and self.words[end : end + 1] == ["to"] and n + 1 < len(self.values):
            ranged, end = self.values[n + 1][0] == end + 1, self.values[n + 1][1]
        if not ranged or self.words[end : end + 1] not in (["is"], ["'s"], ["are"], ["would"]):
            return False
        at = end + 1 + (self.words[end + 1 : end + 2] in (["be"], ["about"], ["all"], ["just"], ["still"]))
        return self.words[at : at + 1] != [] and self.words[at] in word_list("roles_allowed")

    def _copula_then_value(self, i: int) -> bool:
        starts = {s for s, _ in self.values}
        for j in range(i, min(i + 4, self.last)):
            if j in starts:
                return True
            if self.words[j] in {"reads", "read", "shows", "measured"}:
                return False  # "40 rated, reads 39.2"
            if self.words[j] not in _COPULAS or (self.words[j] == "," and j == i):
                return False
        return False

    def _one_time(self, cue: Cue) -> bool:
        """Tell whether "once" counts: "forced it once, took five minutes", "caught it the once, 62"."""
        if self.words[cue.start : cue.end] != ["once"]:
            return False
        if self.words[cue.start - 1] in word_list("roles_counted_once"):
            return True
        return self.words[cue.end] in {",", "and", "."} and cue.start - 1 > self.first

    def _elliptic(self, cue: Cue) -> bool:
        """Tell whether "should" has no value of its own behind it: "like it should, and 117 in the dump"."""
        if not {"like", "as", "when", "where", "than", "how", "way"} & set(
            self.words[cue.start - 3 : cue.start]
        ):
            return False
        k = cue.end
        while k < self.last and self.words[k] in {"be", "do", "of", "have", "been", "it", "to"}:
            k += 1
        if k < self.last and self.words[k] in {",", ";"} and k - cue.end <= 2:
            return True
        # "closed like it should be at that temperature, under half an ohm"
        stop = next((j for j in range(k, min(self.last, k + 7)) if self.words[j] in {",", ";"}), None)
        return (
            stop is not None
            and self.words[k] in {"at", "when", "with", "in", "on", "cold", "warm", "hot", "this", "now"}
            and not any(k <= start < stop for start, _ in self.values)
        )

    def _happened(self, cue: Cue, start: int) -> bool:
        """Tell whether an "until" or "once" speaks of what has been: "ran until it hit 38"."""
        said = self.words[cue.start : cue.end]
        if not _UNTIL & set(said):
            return False
        return bool(_PAST & set(self.words[cue.end - 1 : min(cue.end + 5, start)]))

    def _number_at(self, i: int) -> bool:
        """Tell whether a number begins here that nothing took for a value: "seven where they want two"."""
        starts: frozenset[int] | None = self.narration.found.get("number starts")
        if starts is None:
            from dictate.mentions.spoken_numbers import find_numbers

            starts = frozenset(n.start for n in find_numbers(self.narration) if not n.pronoun)
            self.narration.found["number starts"] = starts
        return i in starts

    def _met(self, cue: Cue) -> bool:
        """Tell whether a value was found where it should be: "closed at 20 where it should be"."""
        said = self.words[cue.start : cue.end]
        if "which" in {said[0], self.words[cue.start - 1]} and {"where", "what"} & set(said):
            return True  # "subcooling is 9, which is where it should be"
        if "where" not in said or said[0] not in {"where", "right", "about"}:
            return False
        return self.words[cue.start - 1] not in {"is", "'s", "was", "be", "that's", "about", "right"}

    def _ends_a_clause(self, cue: Cue) -> bool:
        """Tell whether a clause ends with a cue: "21 it's meant to be", not "5 and it should be colder".

        "Like it should be" and "where it's supposed to be" compare with what is, and say no wish.
        """
        if self.words[cue.start - 1] in {"like", "as", "where", "which", "how", "than"}:
            return False
        return self.words[cue.end : cue.end + 1] in ([], *([w] for w in (*_STOPS, "and", "but", "so")))

    def _to_come(self, cue: Cue) -> bool:
        """Tell whether a sentence speaks of what will be."""
        return bool(word_list("roles_to_come") & set(self.words[self.first : cue.start]))

    def _still_then(self, between: list[str]) -> bool:
        """Tell whether a "but" goes on about that time: "we had 18 K in October but it was 50 out"."""
        behind = between[len(between) - between[::-1].index("but") :]
        return bool({"was", "were", "had"} & set(behind)) and not {"i", "i'm", "it's"} & set(behind)

    def _i_read(self, between: list[str]) -> bool:
        """Tell whether a clause of one's own reading follows: "the last man's tag said 128, I get 118"."""
        at = max((k for k, w in enumerate(between) if w in {",", ";", "and", "but"}), default=None)
        if at is None:
            return False
        said = between[at + 1 :]
        if said[:2] in (["mine", "'s"], ["mine", "is"], ["ours", "is"], ["ours", "'s"]):
            return True
        if said[:1] and said[0] in {"i", "i'm", "mine", "we", "we're", "i've", "we've"}:
            return not _I_READ.isdisjoint(said)
        running = said[1:2] in (["'s"], ["is"], ["are"], ["'re"]) and said[2:3] and said[2].endswith("ing")
        return bool(running) and said[0] in {"it", "she", "he", "they", "that"}  # "and it's drawing eleven"

    def _wish(self, n: int) -> Cue | None:
        """Return the words right in front of a value that tell what is wanted."""
        start = self.values[n][0]
        for cue in self.cues:
            near = cue.where == "before" and cue.role == "target" and start - 1 <= cue.end <= start
            if near and _WISHES & set(self.words[cue.start : cue.end]):
                return cue
        return None

    def _plate_in_front(self, n: int) -> Cue | None:
        """Return the words of a plate right in front of a value: "last year 6.6, plate 7.5"."""
        start = self.values[n][0]
        for cue in self.cues:
            if cue.where == "before" and cue.role == "rated" and start - 1 <= cue.end <= start:
                return cue
        return None

    def _was_on_a_sheet(self, n: int) -> bool:
        """Tell whether a value is one of a sheet of before: "subcooling 4, was nine on the sheet"."""
        start, end = self.values[n]
        lead = self.words[max(self.first, start - 2) : start]
        if lead[-1:] not in (["was"], ["were"]) and lead[-2:-1] not in (["was"], ["were"]):
            return False
        if lead[-1:] not in (["was"], ["were"]) and lead[-1] not in {"about", "around", "only"}:
            return False
        behind = self.words[end : end + 4]
        return behind[:1] in (["on"], ["in"]) and any(w in word_list("roles_records") for w in behind[2:])

    def _same_then(self, cue: Cue) -> bool:
        """Tell whether a time of before is that of the value before: "28, I had the same last year, 122"."""
        k = cue.start
        while k > self.first and cue.start - k < 8 and self.words[k - 1] not in {",", ";"}:
            k -= 1
        return "same" in self.words[k : cue.start]

    def _has_been(self, n: int) -> bool:
        """Tell whether a value is told of what has been: "it's been 7 or 8 in the back by dinner time"."""
        start = self.values[n][0]
        lead = self.words[max(self.first, start - 4) : start]
        return bool({"been", "was", "were", "hit", "reached"} & set(lead)) and "," not in lead

    def _at_a_place(self, n: int) -> bool:
        """Tell whether it is said behind a value where it was read."""
        end = self.values[n][1]
        if self.words[end : end + 1] not in (["at"], ["across"]):
            return False
        if self.quantities.get(n) == "voltage" and self.words[end + 1 : end + 3] in (
            ["the", "cord"],
            ["the", "plug"],
        ):
            return True
        return any(end < s <= end + 3 for s, _ in self.labels)

    def _of_a_thing(self, cue: Cue, start: int) -> bool:
        """Tell whether what is wanted is a thing and no number, or a count of time of its own.

        As in "it will want a defrost, I ran one, 3 minutes", "every couple minutes it hums maybe 8 seconds".
        """
        last, behind = self.words[cue.end - 1], self.words[cue.end : start]
        if self.words[cue.start : cue.end] == ["every"]:
            return len(behind) > 2 and bool(_SPANS & set(behind[:2]))
        if last not in {"want", "wants", "need", "needs", "wanted", "needed"} or len(behind) < 3:
            return False
        cut = next((k for k, w in enumerate(behind) if w in {",", ";", "and", "so", "but"}), None)
        if behind[0] not in {"a", "an", "the", "another", "new", "some"} or cut is None or cut > 4:
            return False
        clause = {"i", "we", "it", "she", "he"} & set(behind[cut : cut + 3])
        return bool(clause) and not self._number_at(cue.end)

    def _laid(self, cue: Cue, start: int) -> bool:
        """Tell whether "set" tells where a thing was put: "set the tank on the scale, 31 pounds".

        What a control was set to has "to" or "at" before it, or names the control alone.
        """
        if self.words[cue.start : cue.end] not in (["set"], ["setting"]):
            return False
        behind = self.words[cue.end : start]
        cut = next((k for k, w in enumerate(behind) if w in {",", ";", "and"}), None)
        if cut is None or behind[0] not in word_list("roles_determiners"):
            return False
        thing = behind[1:cut]
        if {"to", "at", "for"} & set(thing):
            return False
        return bool(word_list("roles_laid") & set(thing))

    def _own_doing(self, start: int, end: int) -> bool:
        """Tell whether the speaker tells what he did since a wish: "wants 4, then I clamped it, 2.3"."""
        for k in range(start, end - 1):
            if self.words[k : k + 2] in (["this", "defrost"], ["this", "one"], ["this", "cycle"]) and (
                _LASTED & set(self.words[k + 2 : min(end, k + 5)])
            ):
                return True  # "fail safe is set for 35 and this defrost went 17"
            if self.words[k] in {"i", "we"} and self.words[k + 1] in _METERED:
                return self.words[k - 1] in {",", "and", "so", "then", "it", "down", "but"} or k - start > 3
        return False

    def _done_then(self, cue: Cue, between: list[str]) -> bool:
        """Tell whether a part was put in at a time, and its value follows: "put in years back, coil 11 K"."""
        k = cue.start
        while k > self.first and cue.start - k < 8 and self.words[k - 1] not in {",", ";"}:
            k -= 1
        done = {
            "stuck",
            "put",
            "hung",
            "fitted",
            "installed",
            "slapped",
            "threw",
            "calibrated",
            "dated",
            "built",
        }
        told = {"was", "were", "had", "read", "drew", "ran", "said", "showed"}
        return bool(done & set(self.words[k : cue.start])) and not told & set(between)

    def _took_so_long(self, cue: Cue) -> bool:
        """Tell whether it is told how long something took: "25 minutes to bring the box from 52 to 37"."""
        lead = self.words[max(self.first, cue.start - 3) : cue.start]
        return lead[-1:] == ["to"] and bool(_SPANS & set(lead))

    def _has_come(self, cue: Cue, start: int) -> bool:
        """Tell whether a clause of what was follows: "I'm gonna lie if I say it held, it was | 149"."""
        return self.words[start - 3 : start] in ([",", "it", "was"], [",", "they", "were"]) and (
            start - 3 >= cue.end
        )

    def _looks_back(self, cue: Cue) -> bool:
        """Tell whether a plate or a sticker is where the value before is from, and a comma parts the next.

        As in "16.1, no, that's the other sticker, 11.4", "eight was last month's sticker, it's ten".
        """
        if self.words[cue.end : cue.end + 1] != [","] or cue.end - cue.start > 1:
            return False
        lead = self.words[max(self.first, cue.start - 5) : cue.start]
        while {",", ";"} & set(lead):
            lead.pop(0)
        at = next((k for k, w in enumerate(lead) if w in {"that's", "'s", "was", "is"}), None)
        if at is None or not set(lead[at + 1 :]) & _WHOSE:
            return False
        return lead[at] == "that's" or at > 0

    def _is_after_cue(self, cue: Cue) -> bool:
        """Tell whether "rated", "RLA" and the like stand behind a value and belong to it."""
        end_of_value = any(e == cue.start for _, e in self.values)
        if not end_of_value:
            return False
        return not self._copula_then_value(cue.end)
