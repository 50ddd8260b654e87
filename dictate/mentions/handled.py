"""Who did what to which part: verbs of handling with the parts that they take.

Steps (`part_replaced`, `cleaned`, `adjusted`) and the parts list are two views of the same sentences, so the
sentences are read once, here.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS, Hit, Matcher, Words, compile_pattern, words_of
from dictate.mentions.tense import Scopes, Status, scopes_of
from dictate.mentions.things import Thing, things_of
from dictate.vocabulary.load import table, word_set

_BE = word_set("passive_helpers")
_PRONOUNS = word_set("pronouns")
_SETS = frozenset(["set", "sets", "pair", "pairs"])
_SUB = frozenset({"bearing", "terminal", "wire", "fan blade", "bulb", "gasket"})
_RATINGS = word_set("rating_words")
_AUXILIARIES = frozenset(
    ("will", "did", "not", "didn't", "have", "had", "haven't", "also", "won't", "still", "to", "going", "am")
)
_CIRCUITS = frozenset(("of", "circuit", "on", "the", "number"))
_TIMES_TO_COME = frozenset(
    (
        "tomorrow",
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "sunday",
        "next",
        "later",
    )
)
_PUTS_IN = frozenset(("fit", "sweat", "braze", "install", "mount", "put", "wire", "solder", "hang"))
_LIST_HEADS = frozenset(
    (
        "parts",
        "materials",
        "material",
        "used",
        "fitted",
        "installed",
        "list",
        ".",
        ":",
        "today",
        "for",
        "this",
        "job",
    )
)
_STATE_PASTS = frozenset(
    (
        "was",
        "were",
        "blown",
        "burnt",
        "burned",
        "open",
        "shot",
        "stuck",
        "worn",
        "broken",
        "seized",
        "cracked",
        "torn",
        "loose",
        "failed",
        "shorted",
        "pitted",
        "plugged",
        "frozen",
        "found",
        "read",
        "measured",
        "dirty",
        "had",
        "got",
    )
)
_PERHAPS = ("maybe", "might", "may", "could", "perhaps", "probably", "possibly", "would", "guess", "think")
_DETERMINERS = word_set("determiners")
_NO_NOUN = word_set("no_nouns")
_SWITCHGEAR = frozenset({"disconnect", "disconnect switch", "breaker", "fuse"})
_APPOSED = frozenset(
    (
        "of",
        "point",
        "-",
        "oh",
        "eighths",
        "quarter",
        "half",
        "inch",
        "#",
        ":",
        "gauge",
        "sweat",
        "flare",
        "rpm",
        "bucks",
        "dollars",
        "euro",
        "euros",
        "quid",
    )
)
_OPEN_A_THING = frozenset(("a", "an", "new", "the", "two", "one", "three", "four", "another"))
_PARTICLES = frozenset(["out", "in", "up", "down", "off", "on", "back", "over"])


@dataclass(slots=True)
class Handled:
    """One doing: the action, what became of it, the parts, and the words [start, end) that say so."""

    action: str
    status: Status
    things: list[Thing]
    start: int
    end: int
    verb: int | None
    new: bool = False
    unknown: str | None = None
    """The thing's own words where it is in no vocabulary."""
    pronoun: bool = False
    words: set[int] = field(default_factory=set)


@cache
def _data() -> dict[str, Any]:
    return table("parts")


@cache
def _set(*path: str) -> frozenset[str]:
    node: Any = _data()
    for key in path:
        node = node[key]
    return frozenset(node)


@cache
def _matcher() -> Matcher:
    return Matcher(
        compile_pattern(action, line) for action, lines in _data()["actions"].items() for line in lines
    )


@cache
def _flat_adverbs() -> frozenset[str]:
    return frozenset(table("scopes")["adverbs"])


_ADJUSTABLE_WORDS = word_set("adjustable")  # fmt: skip


def handled_of(narration: Narration) -> list[Handled]:
    """Return every doing in the narration, in order; made once and kept with it."""
    found = narration.found.get("handled")
    if isinstance(found, list):
        return found
    finder = _Finder(narration)
    out = finder.all()
    narration.found["handled"] = out
    return out


def covered_here(covered: list[tuple[int, int]], i: int) -> bool:
    """Tell whether word i was read already."""
    return any(a <= i < b for a, b in covered)


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.w: Words = words_of(narration)
        self.words = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.things = things_of(self.w)
        self.starts = [t.start for t in self.things]
        self.out: list[Handled] = []

    def thing_from(self, i: int) -> Thing | None:
        k = bisect_left(self.starts, i)
        return self.things[k] if k < len(self.things) and self.things[k].start == i else None

    def thing_over(self, i: int) -> Thing | None:
        k = bisect_left(self.starts, i + 1) - 1
        return self.things[k] if k >= 0 and self.things[k].end > i else None

    def all(self) -> list[Handled]:
        """Read the verbs, then what is said without one."""
        taken: list[tuple[int, int]] = []
        hits = sorted(_matcher().hits(self.w), key=lambda h: (h.start, h.start - h.end))
        by_verb: dict[int, list[Hit]] = {}
        for hit in hits:
            by_verb.setdefault(hit.start, []).append(hit)
        for start in sorted(by_verb):
            for hit in by_verb[start]:
                if any(a <= hit.start < b for a, b in taken):
                    continue
                made = self.verb(hit)
                if made is not None:
                    self.out.append(made)
                    taken.append((hit.start, hit.end))
                    break
        self.out += self.verbless()
        self.out += self.gets_one()
        self.out += self.listed()
        self.out.sort(key=lambda h: h.start)
        self.ellipses()
        self.out.sort(key=lambda h: h.start)
        return self.out

    # -- with a verb ------------------------------------------------------------------------------------

    def verb(self, hit: Hit) -> Handled | None:
        """Read one verb with its objects."""
        verb = hit.verb if hit.verb is not None else hit.start
        action = hit.label
        name = self.thing_over(verb)
        if name is not None and (self.scopes.kind(verb) != "past" or name.start < verb):
            return None  # the verb's form is part of a name: "set screw", "fan cycle switch"
        if self.scopes.kind(verb) == "base" and self.scopes._noun_like(verb, self.scopes.sentence(verb)[0]):
            return None
        status = self.scopes.verb(verb)
        if status is None:
            return None
        if self.words[verb - 1 : verb] == ("looked",) or (
            verb and self.words[verb - 1] in ("good", "bad", "too", "very")
        ):
            return None
        start, end = self.scopes.sentence(verb)
        things, new, last, pronoun, np = self.objects(verb + 1 if "~" in hit.line else hit.end, end, action)
        passive = False
        if self.scopes.kind(verb) == "past" and (not things or self.is_passive(verb, start)):
            left, left_start, left_new = self.subjects(verb, start)
            if left and (not things or self.is_passive(verb, start)):
                things, passive, new = left, True, left_new
                last = hit.end
                made_start = left_start
        if passive and action == "replaced" and self.words[last : last + 1] == (",",):
            joiner = self.behind_apposition(last, end)
            if joiner is not None:
                more, _, behind, _, _ = self.objects(joiner + 1, end, action)
                if more:
                    things, last = [*things, *more], behind
        if not passive:
            made_start = hit.start
        if (
            not things
            and self.scopes.kind(verb) == "ing"
            and self.words[verb - 1] in ("need", "needs", "needing", "wants")
        ):
            things, made_start, new = self.subjects(verb - 1, start)  # "the condenser needs cleaning"
        if (
            not things
            and not pronoun
            and self.scopes.kind(verb) == "past"
            and self.words[verb - 1] in ("one", "ones")
        ):
            # "get the new one brazed in"
            pronoun, new = True, "new" in self.words[max(start, verb - 3) : verb]
        if hit.line in ("in it went", "on it went", "in they went", "on they went"):
            things, pronoun, new, np, last = [], True, True, None, hit.end
        unknown = None
        if not things and pronoun:
            referent = self.rated(verb) if new else None
            referent = referent or self.referent(verb, action)
            if referent is not None:
                things = [referent]
                if any(w in word_set("plural_pronouns") for w in self.words[hit.start + 1 : last + 1]):
                    row = self.joined(referent)
                    if not row and "both" in self.words[hit.start + 1 : last + 1]:
                        row = self.other_one(referent)
                    things = [*row, referent]
        if (
            not things
            and not pronoun
            and action == "replaced"
            and self.words[hit.end : hit.end + 1] in (("was",), ("were",))
        ):
            things, _, last, _, _ = self.objects(hit.end + 1, end, action)  # "what I changed was the relay"
        if (
            not things
            and not pronoun
            and action == "replaced"
            and self.words[verb - 1] in ("got", "was", "is", "'s", "were")
            and self.words[verb - 2 : verb - 1] in (("that",), ("it",), ("those",), ("both",), ("they",))
        ):
            referent = self.referent(verb - 1, action)
            if referent is not None:
                things, pronoun = [referent], True
        if (
            not things
            and not pronoun
            and action == "replaced"
            and self.words[hit.end : hit.end + 4]
            in (("for", "a", "new", "one"), ("with", "a", "new", "one"), ("for", "a", "new", "spare"))
        ):
            referent = self.referent(verb, action)
            if referent is not None:
                things, last = [referent], hit.end + 4
        if not things and action == "replaced" and np and not pronoun:
            unknown = np
        if not things and not pronoun:
            fronted = self.fronted(verb, start)
            if fronted is not None and self.follows_nothing(hit.end, end):
                things, unknown, made_start, last = [fronted], None, fronted.start, hit.end
        if not things and not pronoun and unknown is None:
            referent = self.dropped_object(verb, hit, action)
            if referent is not None:
                things = [referent]
        if not things and unknown is None:
            return None
        if action == "installed" and not new and not passive and not pronoun:
            new = self.indefinite(hit, things, last, end)
        if action == "installed" and not new and pronoun and things and things[-1].start < verb:
            new = "back" not in self.words[verb : verb + 4] and self.supplied(things[-1], verb)
        if not self.fits(action, hit, things, new, last, passive):
            return None
        if action == "installed" and not new and pronoun:
            # "got another one off the truck and fitted that"
            told = self.words[start:verb]
            new = any(
                told[k : k + 2]
                in (
                    ("another", "one"),
                    ("another", "off"),
                    ("another", "from"),
                    ("new", "one"),
                    ("spare", "one"),
                    ("replacement", "one"),
                    ("fresh", "one"),
                    ("ordered", "one"),
                    ("ordered", "a"),
                )
                for k in range(len(told))
            ) or any(
                told[k : k + 2] == ("another", t)
                for k in range(len(told))
                for x in things
                for t in (self.words[x.start],)
            )
        if action == "installed" and not new and pronoun and things and things[-1].start < verb:
            new = self.supplied(things[-1], verb)
        if action == "installed" and not new and not passive and not pronoun and things:
            new = self.put_where_one_failed(hit, things, last, end)
        if action == "installed" and not new and not passive and things:
            told = self.words[last : last + 20]
            new = any(told[k : k + 2] in (("old", "one"), ("new", "one")) for k in range(len(told) - 1))
        if pronoun and status == "not_done" and hit.line in ("braze!", "sweat!", "solder!"):
            return None  # "no brazing on this"
        if (
            action == "installed"
            and status != "done"
            and not any(t.name in _set("words", "no_part") for t in things)
        ):
            new = True  # "the gasket isn't fitted, I'll hang it Thursday"
        if action == "repaired" and new and pronoun and things and things[0].start < verb:
            action = "replaced"  # "a new start capacitor fixed it"
        if (
            action == "installed"
            and not new
            and any(w in ("order", "ordered") for w in self.words[last : min(end, last + 5)])
        ):
            new = True  # "installed the board that was on order"
        if action == "installed" and new and all(t.part not in _set("words", "added") for t in things):
            action = "replaced"
        return Handled(
            action,
            status,
            things,
            made_start,
            max(last, hit.end),
            verb,
            new,
            unknown,
            pronoun and not passive,
        )

    def fronted(self, verb: int, start: int) -> Thing | None:
        """Return the part that stands before its own clause ("the contactor I will swap in the spring")."""
        k = verb - 1
        while k > start and self.words[k] not in ("i", "we", "i'll", "we'll") and verb - k < 5:
            if not (self.words[k] in _AUXILIARIES or self.words[k] in _flat_adverbs()):
                return None
            k -= 1
        if k <= start or self.words[k] not in ("i", "we", "i'll", "we'll"):
            return None
        j = k - 1
        while j > start and (
            self.words[j] in NUMBER_WORDS or self.words[j].isdigit() or self.words[j] in _CIRCUITS
        ):
            j -= 1
        thing = self.thing_over(j)
        if thing is None or thing.end != j + 1 or thing.name in _set("words", "no_part"):
            return None
        first = thing.start
        while first > start and self.words[first - 1] in _DETERMINERS:
            first -= 1
        return thing if first == start or self.words[first - 1] in (",", "and", "but", ";") else None

    def follows_nothing(self, k: int, end: int) -> bool:
        """Tell whether no object stands at word k: the sentence ends there, or goes on with a small word."""
        return k >= end or self.words[k] in word_set("after_named_work") or self.words[k] in ("with", "today")

    def dropped_object(self, verb: int, hit: Hit, action: str) -> Thing | None:
        """Return the part named before a verb that has no object of its own ("blown fuse, changed")."""
        if action not in ("replaced", "cleaned", "adjusted") or self.scopes.kind(verb) != "past":
            return None
        start, end = self.scopes.sentence(verb)
        k = hit.end
        if k < end and self.words[k] not in (".", ",", ";", "and", "with", "too", "as", "then"):
            return None
        if self.words[k : k + 1] == ("with",) and action != "replaced":
            return None
        g = self.scopes.skip_back(verb - 1, start)
        if g < start or self.words[g] not in (",", "and", "so", "then"):
            return None
        found = self.referent(verb, action)
        if found is None or found.start < start or self.scopes.verb(verb) != "done":
            return None
        # The last thing told of in this sentence, and no other verb of work since.
        if any(
            self.scopes.kind(j) == "past" and self.words[j] not in _STATE_PASTS for j in range(found.end, g)
        ):
            return None
        return found

    def indefinite(self, hit: Hit, things: list[Thing], last: int, end: int) -> bool:
        """Tell whether "a contactor", "three fuses" is put in: a part that was not there is a new one."""
        if not things or hit.line.startswith(("add!", "reinstall!", "hook!", "set!")):
            return False
        first = things[0]
        head = self.words[hit.end - 1 if "~" not in hit.line else hit.start + 1 : first.start]
        if not head or any(
            w in ("the", "my", "its", "that", "this", "both", "all", "back", "old") for w in head
        ):
            return False
        if not any(w in ("a", "an") or w in NUMBER_WORDS or w[0].isdigit() for w in head):
            return False
        if any(
            t.generic or (t.name in _set("words", "no_part") and t.name not in _SWITCHGEAR) for t in things
        ):
            return False
        if self.words[hit.start] not in word_set("needs_new"):
            return True
        if "in" in self.words[hit.start + 1 : hit.end]:
            return True
        after = self.words[last : min(last + 2, end)]
        closes = after[1:] in ((), (".",), (",",), ("and",), ("it",), ("there",), ("place",), ("instead",))
        return after[:1] in (("in",), ("on",)) and closes

    def objects(self, i: int, end: int, action: str) -> tuple[list[Thing], bool, int, bool, str | None]:
        """Return the things named from word i on, whether new, their end, a pronoun, other nouns."""
        things: list[Thing] = []
        new = pronoun = False
        skipped = 0
        last = i
        np: list[str] = []
        k = i
        expecting = True
        while k < end:
            word = self.words[k]
            thing = self.thing_from(k)
            if thing is not None and things and self.only_a_size(thing):
                break  # "a new drier, three eighths flare"; "a contactor, 24 volt coil"
            if thing is not None and not things and self.words[thing.end : thing.end + 1] == ("one",):
                pronoun = new = True  # "brazed in a fifteen gram copper one"
                last = thing.end + 1
                break
            if thing is not None and (expecting or not things):
                if things and thing.modifier:
                    break
                nxt = self.words[thing.end] if thing.end < end else ""
                # "the compressor contactor" is one thing; "compressor side of the contactor" is not the
                # compressor.
                following = self.thing_from(thing.end)
                if following is not None and not following.modifier:
                    k = thing.end
                    continue
                if not (nxt == "setting" and action == "adjusted") and nxt in word_set("part_of_part"):
                    break
                things.append(thing)
                k = last = thing.end
                expecting = False
                continue
            if word == "," and things and not expecting and action in ("replaced", "installed"):
                joiner = self.behind_apposition(k, end)
                if joiner is not None:
                    k = joiner
                    word = self.words[k]
            if word == "," and things and not expecting:
                # "the contactor, 25 amp, and the overload": a rating stands between two things
                k2 = k + 1
                while (
                    k2 < end
                    and k2 - k < 7
                    and (
                        self.words[k2] in NUMBER_WORDS
                        or self.words[k2][0].isdigit()
                        or self.words[k2] in _RATINGS
                    )
                ):
                    k2 += 1
                if (
                    k2 > k + 1
                    and k2 < end
                    and self.words[k2] in (",", "and")
                    and self.more_follows(
                        k2
                        + (
                            1
                            if self.words[k2] == "and"
                            else 2
                            if self.words[k2 + 1 : k2 + 2] == ("and",)
                            else 1
                        ),
                        end,
                    )
                ):
                    k = k2 + (1 if self.words[k2 + 1 : k2 + 2] == ("and",) and self.words[k2] == "," else 0)
                    word = self.words[k]
            if word == "," and things and self.tells_why(k + 1, end):
                break  # "replaced the timer, the clock motor had quit"
            if word in (",", "and", "plus", "&", "+"):
                if not things and not pronoun and not np:
                    if word == ",":
                        break
                    break
                if not self.more_follows(k + 1, end):
                    break
                expecting = True
                skipped = 0
                k += 1
                continue
            if word in (".", ";", ":", "?", "!", "(", ")"):
                break
            if (
                word in ("that", "this", "those")
                and not things
                and any(self.thing_from(j) is not None for j in range(k + 1, min(end, k + 5)))
                and (k + 1 < end and self.words[k + 1] not in (",", ".", "and", "with", "one", "too"))
            ):
                k += 1
                continue
            if (
                word in ("both", "all")
                and not things
                and k + 1 < end
                and self.words[k + 1] not in (",", ".", "and", "out", "too", "with", "of", "in")
            ):
                k += 1
                continue
            if (
                not things
                and not np
                and expecting
                and action in ("installed", "replaced")
                and (word in NUMBER_WORDS or word[0].isdigit())
                and word not in ("point", "half", "quarter", "one")
                and self.words[i - 1] not in ("set", "added", "add")
                and self.only_numbers(k, end)
            ):
                pronoun = new = True  # "put in a thirty five seven five, four forty"
                last = k + 1
                break
            if (
                word in _SETS
                and not things
                and expecting
                and action in ("installed", "replaced")
                and not any(self.thing_from(j) is not None for j in range(k + 1, min(end, k + 4)))
            ):
                pronoun = True
                last = k + 1
                break
            if (
                word in _PRONOUNS
                and not things
                and not np
                and not (
                    word == "one"
                    and self.words[k + 1 : k + 2]
                    and (
                        self.words[k + 1] in word_set("counted_by_one")
                        or self.words[k + 1] in ("new", "replacement", "spare", "fresh")
                        or self.thing_from(k + 1) is not None
                    )
                )
                and (
                    word != "that"
                    or k + 1 >= end
                    or self.words[k + 1] in (",", ".", "and", "out", "too", "with", "one")
                )
            ):
                pronoun = True
                last = k + 1
                k += 1
                if k < end and self.words[k] in _PARTICLES:
                    k += 1
                break
            if word in _set("words", "plain_new") and expecting and word not in ("one", "right", "correct"):
                new = True
                alone = word == "another" and self.words[k + 1] in (",", ".", "from", "off", "and")
                if k + 1 < end and (alone or self.words[k + 1] in ("one", "ones")):
                    pronoun = True
                    last = k + 2
                    break
            elif (
                things and not expecting and word in word_set("part_tails") and self.more_follows(k + 2, end)
            ):
                k += 1
                continue
            elif things and not expecting:
                break
            elif word in _set("words", "stop") or (
                word in _set("words", "soft_stop") and (things or not (k == i or np or skipped))
            ):
                if word == "it" and not things:
                    pronoun = True
                    last = k + 1
                break
            elif word in ("on", "of", "in") and action in ("replaced", "installed", "removed") and np:
                # "the coil on the harvest valve": what stands before is the thing.
                k2 = k + 1
                while k2 < end and self.words[k2] in _DETERMINERS:
                    k2 += 1
                whose = self.thing_from(k2)
                if whose is not None and np[-1] in ("coil", "coils"):
                    things.append(Thing(k2, whose.end, whose.name, f"{whose.name} coil"))
                    last = whose.end
                break
            elif (
                self.scopes.kind(k) in ("past", "third")
                and word not in word_set("participle_adjectives")
                and word not in _DETERMINERS
            ):
                break
            if word not in _DETERMINERS and word not in _PARTICLES:
                if word not in _set("words", "plain_new") and word not in word_set("part_adjectives"):
                    np.append(word)
                skipped += 1
            if skipped > 7:
                break
            k += 1
        name = None
        np = [w for w in np if w not in _flat_adverbs()]
        if np and not things and all(w.isalpha() for w in np) and 1 <= len(np) <= 3 and action == "replaced":
            noun = " ".join(np)
            if (
                np[-1] not in _NO_NOUN
                and np[0] not in _NO_NOUN
                and np[-1] not in _set("words", "no_part")
                and np[-1] not in NUMBER_WORDS
                and np[0] not in ("to", "my", "your")
                and not any(self.scopes.forms.get(w) for w in np[:-1])
            ):
                name = noun
        return things, new, last, pronoun, name

    def behind_apposition(self, k: int, end: int) -> int | None:
        """Return the comma or "and" behind a size or number told in commas, when another thing follows it.

        "New capillary, 9 feet of 042, and a drier"; "new valve, part number HV-0621, and a drier".
        """
        j = k
        while j < end and self.words[j] == ",":
            first = j + 1
            j = first
            numbered = False
            while j < end and self.words[j] not in (",", ".", "and", ";") and j - first < 9:
                word = self.words[j]
                if word == "part" or (word in ("number", "serial", "pn", "model") and j == first):
                    numbered = True
                plain = word in NUMBER_WORDS or word[0].isdigit() or word in _RATINGS or word in _APPOSED
                if not (plain or numbered):
                    return None
                j += 1
            if j == first or j >= end or self.words[j] not in (",", "and"):
                return None
            behind = j + 1
            if self.words[j] == "," and self.words[behind : behind + 1] == ("and",):
                j, behind = behind, behind + 1
            if self.words[behind : behind + 1] and self.words[behind] in _OPEN_A_THING:
                return j if self.more_follows(behind, end) else None
        return None

    def tells_why(self, k: int, end: int) -> bool:
        """Tell whether a clause about another part begins at word k: a part and a finite verb."""
        while k < end and self.words[k] in _DETERMINERS:
            k += 1
        thing = self.thing_from(k) if k < end else None
        while thing is not None and thing.end < end and self.thing_from(thing.end) is not None:
            thing = self.thing_from(thing.end)
        if thing is None or thing.end >= end:
            return False
        return self.words[thing.end] in (
            "had",
            "was",
            "were",
            "is",
            "'s",
            "has",
            "kept",
            "wouldn't",
            "won't",
            "quit",
            "looked",
            "kept",
            "didn't",
            "isn't",
            "wasn't",
        )

    def only_a_size(self, thing: Thing) -> bool:
        """Tell whether a thing only describes the one before it.

        A flare or a coil behind its size or volts.
        """
        before = self.words[thing.start - 1]
        if thing.name == "flare nut":
            return (
                before in NUMBER_WORDS
                or before[:1].isdigit()
                or before in ("eighths", "half", "quarter", "inch")
            )
        return self.words[thing.start] == "coil" and before in ("volt", "volts", "v")

    def only_numbers(self, k: int, end: int) -> bool:
        """Tell whether nothing but a rating stands from word k to the next comma or full stop."""
        while k < end and self.words[k] not in (",", ".", "and", "in", "on"):
            word = self.words[k]
            if not (word in NUMBER_WORDS or word[0].isdigit() or word in word_set("rating_joins")):
                return False
            k += 1
        return True

    def more_follows(self, k: int, end: int) -> bool:
        """Tell whether another thing follows a comma or "and" before a verb or a stop."""
        steps = 0
        while k < end and steps < 7:
            if self.thing_from(k) is not None:
                nxt = self.thing_from(k)
                assert nxt is not None
                after = self.words[nxt.end] if nxt.end < end else ""
                # "..., and the compressor is grounded" begins a new sentence.
                return (
                    not (self.scopes.kind(nxt.end) in ("past", "third") if nxt.end < end else False)
                    and after not in _BE
                )
            word = self.words[k]
            if word in (".", ";", "?", "but", "i", "we", "it", "then", "they") or word in _set(
                "words", "stop"
            ):
                return False
            if word in (",",) or (word == "and" and steps):
                return False
            if (
                self.scopes.kind(k) is not None
                and word not in word_set("verbs_in_names")
                and (self.scopes.kind(k) != "ing" or word in word_set("doing_ings"))
            ):
                return False
            steps += 1
            k += 1
        return False

    def is_passive(self, verb: int, start: int) -> bool:
        """Tell whether a form of "be" stands before the verb."""
        g = self.scopes.skip_back(verb - 1, start)
        return g >= start and self.words[g] in word_set("passive_be")

    def subjects(self, verb: int, start: int) -> tuple[list[Thing], int, bool]:
        """Return the things before a passive or a bare participle ("contactor and relay replaced")."""
        k = verb - 1
        if k - 1 >= start and self.words[k] in ("have", "had", "'ve") and self.words[k - 1] in ("i", "we"):
            k -= 2  # "the filter I have cleaned"
        while k >= start and (self.words[k] in _BE or self.scopes.words[k] in word_set("before_participle")):
            k -= 1
        if k - 1 > start and self.words[k] in ("both", "all") and self.words[k - 1] == ",":
            k -= 2  # "the compressor and the drier, both swapped"
        things: list[Thing] = []
        first = verb
        new = False
        gap = 0
        while k >= start:
            thing = self.thing_over(k)
            if thing is not None and thing.end == k + 1:
                j = thing.start - 1
                if (
                    j >= start and self.words[j] in ("of", "on", "for", "from", "to", "at", "across", "with")
                ) or (
                    j - 1 >= start
                    and self.words[j] in _DETERMINERS
                    and self.words[j - 1] in ("of", "on", "for", "from", "to", "at", "across", "with", "in")
                ):
                    previous = self.thing_over(j - 1 if self.words[j] not in _DETERMINERS else j - 2)
                    if previous is None:
                        break
                    k = previous.end - 1
                    continue
                things.insert(0, thing)
                first = thing.start
                k = j
                while k >= start and (
                    self.words[k] in _DETERMINERS
                    or self.words[k] in _set("words", "plain_new")
                    or self.words[k] in NUMBER_WORDS
                    or self.words[k].isdigit()
                    or self.words[k] in ("old", "dirty", "bad", "main", "whole", "entire")
                ):
                    if self.words[k] in ("new", "replacement", "spare"):
                        new = True
                    first = k
                    k -= 1
                if (
                    k >= start
                    and self.words[k] in ("and", ",", "plus")
                    and self.thing_over(k - 1) is not None
                ):
                    k -= 1
                    continue
                break
            if things:
                break
            gap += 1
            if (
                gap > 2
                or self.words[k] in (",", ";", ".", "and", "i", "we", "then", "but")
                or self.scopes.kind(k) in ("past", "third")
            ):
                break
            k -= 1
        return things, first, new

    def rated(self, verb: int) -> Thing | None:
        """Return the capacitor that a bare rating stands for ("put in a thirty five seven five")."""
        _, end = self.scopes.sentence(verb)
        k = next(
            (
                j
                for j in range(verb + 1, min(end, verb + 5))
                if self.words[j] in NUMBER_WORDS or self.words[j][0].isdigit()
            ),
            None,
        )
        if k is None or not self.only_numbers(k, end):
            return None
        for thing in reversed(self.things[: bisect_left(self.starts, verb)]):
            if self.w.sentence_of[verb] - self.w.sentence_of[thing.start] > 6:
                return None
            if "capacitor" in thing.name:
                return thing
        return None

    def referent(self, verb: int, action: str) -> Thing | None:
        """Return the part that "it" or "one" stands for.

        The last one named before the verb that can be handled.
        """
        sentence = self.w.sentence_of[verb]
        reach = 4 if action in ("cleaned", "replaced", "installed") else 2
        k = bisect_left(self.starts, verb) - 1
        while k >= 0:
            thing = self.things[k]
            if sentence - self.w.sentence_of[thing.start] > reach:
                return None
            failed = thing.name == "pump" and any(
                w
                in (
                    "seized",
                    "shot",
                    "bad",
                    "dead",
                    "burnt",
                    "burned",
                    "gone",
                    "leaking",
                    "stuck",
                    "failed",
                    "broken",
                    "noisy",
                    "locked",
                )
                for w in self.words[thing.end : thing.end + 4]
            )
            usual = failed or thing.name not in _set("words", "no_part")
            usual = usual or (thing.name == "fuse" and action == "replaced")
            if not thing.modifier and usual and not self.beside(thing):
                if (
                    thing.name in _SUB
                    and k > 0
                    and self.w.sentence_of[self.things[k - 1].start] == self.w.sentence_of[thing.start]
                    and action != "cleaned"
                ):
                    k -= 1
                    continue
                if action == "cleaned" and thing.name not in _set("words", "cleanable"):
                    k -= 1
                    continue
                if action != "cleaned" and thing.name in (
                    "condenser",
                    "evaporator",
                    "suction line",
                    "discharge line",
                    "liquid line",
                    "drain line",
                ):
                    k -= 1
                    continue
                if action == "adjusted" and not any(a in thing.name for a in _ADJUSTABLE_WORDS):
                    k -= 1
                    continue
                return thing
            k -= 1
        return None

    def joined(self, thing: Thing) -> list[Thing]:
        """Return the parts that are named in one row with a thing, before it ("a relay and an overload")."""
        out: list[Thing] = []
        k = bisect_left(self.starts, thing.start)
        start, _ = self.scopes.sentence(thing.start)
        while k > 0 and self.things[k - 1].start >= start:
            previous = self.things[k - 1]
            between = self.words[previous.end : thing.start]
            if not any(w in (",", "and", "plus") for w in between) or not all(
                w in (",", "and", "plus", "both") or w in _DETERMINERS or w in _set("words", "plain_new")
                for w in between
            ):
                break
            out.insert(0, previous)
            thing = previous
            k -= 1
        return out

    def put_where_one_failed(self, hit: Hit, things: list[Thing], last: int, end: int) -> bool:
        """Tell whether "put the relay in" is a new one: one of its name had failed, or it came from a kit."""
        told = self.words[hit.start : min(end, last + 2)]
        if "back" in told or not any(w in ("in", "on") for w in told):
            return False
        names = {t.name for t in things}
        if any(t.generic or t.name in _set("words", "no_part") for t in things):
            return False
        if any(w in word_set("supply_signs") and w not in ("set", "box") for w in self.words[last:end]):
            return True
        return any(
            t.name in names
            and any(w in word_set("failed") for w in self.words[t.end : t.end + 8])
            and hit.start - t.start < 250
            for t in self.things[: bisect_left(self.starts, hit.start)]
        )

    def other_one(self, thing: Thing) -> list[Thing]:
        """Return the part named before a thing, in its sentence or in the one before."""
        number = self.w.sentence_of[thing.start]
        for previous in reversed(self.things[: bisect_left(self.starts, thing.start)]):
            if number - self.w.sentence_of[previous.start] > 1:
                break
            if (
                previous.name != thing.name
                and previous.name not in _set("words", "no_part")
                and not previous.modifier
            ):
                return [previous]
        return []

    def supplied(self, thing: Thing, verb: int) -> bool:
        """Tell whether the part that a pronoun stands for was told of as one from the van or a shop."""
        start, _ = self.scopes.sentence(thing.start)
        told = self.words[start:verb]
        return any(
            w in word_set("supply_signs") and (w != "set" or told[k - 1] == "a") for k, w in enumerate(told)
        )

    def beside(self, thing: Thing) -> bool:
        """Tell whether the thing is only a place ("at the compressor", "through the condenser")."""
        j = thing.start - 1
        if j >= 0 and self.words[j] in _DETERMINERS:
            j -= 1
        return j >= 0 and self.words[j] in ("at", "across", "to", "near", "behind", "under", "by")

    def fits(self, action: str, hit: Hit, things: list[Thing], new: bool, last: int, passive: bool) -> bool:
        """Tell whether this verb with these things is a doing of this kind."""
        verb = self.words[hit.start]
        names = [t.name for t in things]
        end = self.scopes.sentence(hit.start)[1]
        after = self.words[last : min(last + 3, end)]
        if (
            action in ("installed", "replaced")
            and "back" in self.words[hit.start : min(last + 2, end)]
            and not new
        ):
            return False
        # "the sight glass cleared", "coil cleared in 18 minutes": the machine's doing
        own = passive and self.words[hit.start - 1] not in _BE and after[:1] != ("out",)
        if verb in ("cleared", "clear", "clears", "clearing") and ("sight glass" in names or own):
            return False
        if verb.startswith("switch") and any(n in _SWITCHGEAR or "switch" in n for n in names):
            return False
        if passive and verb in ("took", "blew"):
            return False  # "the fan took off", "a bend blew bubbles"
        if verb.startswith("swap") and self.words[hit.end : hit.end + 1] == ("with",):
            other = self.words[hit.end + 1 : hit.end + 4]
            if not any(w in ("a", "an", "new", "one", "another", "spare") for w in other):
                return False  # "swapped with the air sensor": two changed places
        if passive and hit.label == "installed" and verb in word_set("no_passive_install"):
            return False
        if passive and action == "removed" and verb == "cut":
            return False
        if (
            action in ("installed", "removed")
            and names
            and all(n in _set("words", "no_part") for n in names)
            and not new
        ):
            return False
        if hit.line in ("braze!", "sweat!", "solder!") and not all(
            "drier" in n or n == "access valve" or new for n in names
        ):
            return False
        if hit.label == "installed" and verb in word_set("needs_new") and not new:
            particle = any(w in ("in", "on") for w in self.words[hit.start + 1 : hit.end]) or (
                after[:1] in (("in",), ("on",))
            )
            if (
                not particle
                or verb in ("set", "setting", "drop", "dropped")
                or any(t.generic or t.name in ("compressor", "condenser", "evaporator") for t in things)
            ):
                return False
            if (
                after[:1] in (("in",), ("on",))
                and len(after) > 1
                and after[1] in ("the", "a", "my", "defrost", "heat", "it", "harvest", "cool", "fan")
            ):
                return False
        if (
            action == "installed"
            and verb.startswith("add")
            and any(t.name in ("oil", "insulation") for t in things)
            and not new
        ):
            return True
        if action == "adjusted":
            if verb in word_set("setting_verbs"):
                if not any(any(a in n for a in word_set("settable")) for n in names):
                    return False
                if verb.startswith("turn") and after[:1] in (("off",), ("on",)):
                    return False
                if verb in ("set", "setting") and after[:1] in (("aside",), ("on",), ("in",), ("down",)):
                    return False
                if verb == "reset" and not any(
                    any(a in n for a in ("control", "timer", "thermostat", "defrost board", "board"))
                    for n in names
                ):
                    return False
                if (
                    verb in ("raised", "raise", "raising")
                    and not any("set" in w for w in self.words[hit.start : min(last + 4, end)])
                    and not any(
                        "thermostat" in n or "control" in n or "pressure" in n or "float" in n for n in names
                    )
                ):
                    return False
                if verb.startswith("torqu") and any("flare" in n for n in names):
                    return False
                if passive and verb in ("set", "reset"):
                    return False  # "the timer was set for four a day" tells how it was found
            elif not any(any(a in n for a in _ADJUSTABLE_WORDS) for n in names):
                return False
            if verb.startswith("torqu") and any("flare" in n for n in names):
                return False
        if action == "cleaned":
            if verb.startswith(("blow", "blew")) and any(
                "fuse" in n
                or n in ("compressor", "contactor", "capacitor", "transformer", "control board", "breaker")
                for n in names
            ):
                return False
            if verb in ("clear", "cleared", "clearing") and any(
                n in ("control board", "thermostat", "breaker") for n in names
            ):
                return False
            if verb in ("blow", "blew", "blown", "blowing") and not any(
                n in _set("words", "cleanable") or "coil" in n or "drain" in n or "condenser" in n
                for n in names
            ):
                return False
            if verb in ("sand", "sanded", "polished") and any("contactor" in n for n in names):
                return True
            if verb.startswith(("soak", "foam", "steam", "flush", "clean", "jet")) and any(
                n in ("suction line", "liquid line", "discharge line", "line set") for n in names
            ):
                return False
            if verb.startswith("vacuum") and any(
                n in ("suction line", "liquid line", "line set", "compressor") for n in names
            ):
                return False
        return True

    # -- without a verb -----------------------------------------------------------------------------------

    def verbless(self) -> list[Handled]:
        """Read "new timer in", "and a new drier", "new coil off the truck"."""
        out: list[Handled] = []
        covered = [(h.start, h.end) for h in self.out]
        for i, word in enumerate(self.words):
            if word in ("need", "needs", "needing") and i + 2 < len(self.words):
                made = self.needed(i)
                if made is not None and not any(a <= made.things[0].start < b for a, b in covered):
                    out.append(made)
                continue
            if word not in ("new", "replacement"):
                continue
            made = self.new_one(i) or self.got_new(i, covered) or self.called_new(i)
            if made is not None:
                out.append(made)
                covered.append((made.start, made.end))
                continue
            if self.words[i + 1 : i + 3] in (("one", "in"), ("ones", "in")) and self.w.opens(i):
                start, _ = self.scopes.sentence(i)
                removed = self.referent(i, "replaced")
                if removed is not None and self.scopes.noun(i, i + 3) == "done":
                    out.append(Handled("replaced", "done", [removed], i, i + 3, None, True, pronoun=True))
                continue
            if any(a <= i < b for a, b in covered):
                continue
            start, end = self.scopes.sentence(i)
            before = self.words[i - 1] if i > start else ""
            first = i
            if before in ("a", "an", "brand", "one", "two", "three", "both"):
                first = i - 1
                before = self.words[i - 2] if i - 1 > start else ""
                if before == "with" or before == "for":
                    pass
            needed = before in ("need", "needs", "needing", "need's", "wants")
            fitting = self.fitting(first, start)
            the_new = before == "the" and self.w.opens(i)
            went_in = any(self.words[k : k + 2] == ("went", "in") for k in range(i + 1, min(end, i + 8)))
            if (
                not needed
                and not went_in
                and fitting is None
                and not the_new
                and before not in word_set("before_new_part")
                and not before.isdigit()
            ):
                continue
            things, _, last, pronoun, np = self.objects(i, end, "replaced")
            things = [t for t in things if t.name not in _set("words", "no_part") or t.name in _SWITCHGEAR]
            if fitting is not None and not covered_here(covered, fitting):
                made = self.fitted(fitting, things, last, pronoun, np)
                if made is not None:
                    out.append(made)
                    covered.append((made.start, made.end))
                    continue
            if not things and np and first == i and word == "new":
                made = self.unnamed(i, np, end)
                if made is not None:
                    out.append(made)
                    continue
            if not things:
                continue
            told = self.words[last : min(end, last + 6)]
            told = told[: told.index(",")] if "," in told else told
            if not needed and any(w in word_set("not_fitted_yet") for w in told):
                continue
            after = self.words[last] if last < end else ""
            in_place = (
                len(things) > 1
                or (
                    last < end
                    and self.scopes.kind(last) == "past"
                    and after not in ("read", "was", "drew", "pulled", "got", "had", "came")
                )
                or (after in ("is", "'s") and last + 1 < end and self.words[last + 1] == "in")
                or after in word_set("after_new_part")
                or (
                    self.w.opens(i)
                    and self.words[last : last + 3]
                    in (
                        ("out", "of", "the"),
                        ("off", "the", "truck"),
                        ("off", "the", "van"),
                        ("from", "the", "van"),
                        ("from", "the", "truck"),
                        ("off", "my", "truck"),
                        ("out", "of", "stock"),
                        ("from", "the", "kit"),
                    )
                )
            )
            if needed:
                b = first - 1
                status = self.scopes.noun(first, last)
                whose = self.words[self.scopes.skip_back(b - 1, start)] if b > start else ""
                if (
                    status is not None
                    and whose not in ("didn't", "don't", "doesn't", "not", "you", "they", "won't")
                    and not any(w in _PERHAPS for w in self.words[max(start, b - 4) : b])
                    and self.scopes.ours(first)
                ):
                    out.append(Handled("replaced", "planned", things, first, last, None, True))
                continue
            if the_new and not (after in ("is", "'s") and self.words[last + 1 : last + 2] == ("in",)):
                continue
            counted = bool(after) and (after.isdigit() or after in NUMBER_WORDS)
            pieces = (
                counted and last + 1 < end and self.words[last + 1] in ("pieces", "piece", "pcs", "off", "of")
            )
            if (not in_place or counted) and not pieces:
                continue
            status = self.scopes.noun(first, last)
            if status is None:
                continue
            previous = self.governor(first, start)
            if previous == "none":
                continue
            added = all(t.part in _set("words", "added") for t in things)
            out.append(Handled("installed" if added else "replaced", status, things, first, last, None, True))
        return out

    def fitting(self, first: int, start: int) -> int | None:
        """Return the verb that puts the new thing at word `first` in ("slid a new board in")."""
        j = first - 1
        if j > start and self.words[j] in ("in", "on", "up", "down"):
            j -= 1
            if self.words[j] in ("him", "it", "her"):
                j -= 1
        if j < start:
            return None
        form = self.scopes.forms.get(self.words[j])
        if form is None or form.verb not in word_set("fitting_verbs") or self.scopes.verb(j) is None:
            return None
        return j

    def fitted(
        self, verb: int, things: list[Thing], last: int, pronoun: bool, np: str | None
    ) -> Handled | None:
        """Return the doing of a verb that only puts something in with "in" or "on" beside it."""
        _, end = self.scopes.sentence(verb)
        if not any(
            w in ("in", "on", "up", "back")
            for w in (*self.words[verb + 1 : verb + 3], *self.words[last : min(end, last + 2)])
        ):
            return None
        unknown = None
        if not things and pronoun:
            referent = self.referent(verb, "replaced")
            if referent is None:
                return None
            things = [referent]
        elif not things:
            if np is None or np.split()[-1] in word_set("no_new_part"):
                return None
            unknown = np
        status = self.scopes.verb(verb)
        assert status is not None
        return Handled("replaced", status, things, verb, last, verb, True, unknown, pronoun)

    def unnamed(self, i: int, np: str, end: int) -> Handled | None:
        """Read "New cam on the timer.", a part of no vocabulary that a sentence opens with."""
        last = i + 1 + len(np.split())
        opens = self.w.opens(i) or self.words[i - 1] in (",", "and")
        if not opens or np.split()[-1] in word_set("no_new_part") or np.split()[0] in word_set("no_new_part"):
            return None
        if self.words[i + 1 : last] != tuple(np.split()):
            return None
        after = self.words[last] if last < end else "."
        if after not in ("on", "in", "from", ".", ",", "and", "for", "under", "behind", "at"):
            return None
        if after in (".", ",", "and") and not self.w.opens(i):
            return None
        if self.scopes.noun(i, last) != "done" or any(
            self.scopes.kind(k) in ("past", "third") for k in range(i + 1, last)
        ):
            return None
        return Handled("replaced", "done", [], i, last, None, True, np)

    def new_one(self, i: int) -> Handled | None:
        """Read "new one's thirty, reads 30.4", "the new one draws two": it was put in."""
        start, end = self.scopes.sentence(i)
        if self.words[i + 1 : i + 2] not in (("one",), ("ones",)) or i + 2 >= end:
            return None
        before = self.words[i - 1] if i > start else ""
        if before in ("the", "a") and i - 1 > start:
            before = self.words[i - 2]
        elif before == "the":
            before = ""
        if before not in ("", ",", "and", "so", "but", "then"):
            return None
        after = self.words[i + 2 : min(end, i + 5)]
        if after[0] == ",":
            good = any(
                self.scopes.kind(k) == "past" and self.scopes.forms[self.words[k]].verb in _PUTS_IN
                for k in range(i + 3, min(end, i + 14))
            ) or (
                self.words[i + 3 : i + 5] == ("part", "number")
                and not any(
                    w in ("order", "ordered", "coming", "friday", "tomorrow") for w in self.words[i:end]
                )
            )
        elif after[0] in ("'s", "is", "are"):
            good = len(after) > 1 and (
                after[1] in NUMBER_WORDS or after[1][0].isdigit() or after[1] in ("in", "fitted", "a")
            )
            good = good and "dollars" not in self.words[i:end] and "order" not in self.words[i:end]
        else:
            good = after[0] in word_set("tells_of_new_one")
        if not good or self.scopes.framed(i) or not self.scopes.ours(i) or self.scopes.conditional(i):
            return None
        thing = self.referent(i, "replaced")
        if thing is None:
            return None
        return Handled("replaced", "done", [thing], i, i + 2, None, True, pronoun=True)

    def got_new(self, i: int, covered: list[tuple[int, int]]) -> Handled | None:
        """Read "it got a new motor", "gave it a new cap", "got the new valve in"."""
        start, end = self.scopes.sentence(i)
        b = i - 1
        while b > start and self.words[b] in (
            "a",
            "an",
            "the",
            "brand",
            "two",
            "three",
            "both",
            "its",
            "some",
        ):
            b -= 1
        if b < start or (b == i - 1 and self.words[b] != "got"):
            return None
        things, _, last, _, _ = self.objects(i, end, "replaced")
        things = [t for t in things if t.name not in _set("words", "no_part") or t.name in _SWITCHGEAR]
        if not things and self.words[i + 1 : i + 2] == ("one",) and self.words[b] in ("got", "gave"):
            referent = self.referent(b, "replaced")
            things, last = ([referent] if referent is not None else []), i + 2
        if not things or any(a <= things[0].start < z for a, z in covered):
            return None
        after = self.words[last] if last < end else ""
        into = after == "in" and self.words[last + 1 : last + 2] in (
            (),
            (".",),
            (",",),
            ("and",),
            ("it",),
            ("there",),
            ("place",),
            ("now",),
        )
        word, verb = self.words[b], b
        whose = self.words[b - 1] if b > start else ""
        if word == "got" and (
            into or whose in ("it", "she", "which") or (b > start and self.thing_over(b - 1) is not None)
        ):
            pass
        elif word in ("it", "her", "him") and whose in ("gave", "give", "giving"):
            verb = b - 1
        elif word in ("'s", "is") and whose == "there" and into:
            verb = -1
        else:
            return None
        if word == "got" and whose in ("has", "'s", "have"):
            return None
        status = self.scopes.verb(verb) if verb >= 0 else self.scopes.noun(i, last)
        if status is None:
            return None
        added = all(t.part in _set("words", "added") for t in things)
        return Handled(
            "installed" if added else "replaced", status, things, verb if verb >= 0 else i, last, None, True
        )

    def gets_one(self) -> list[Handled]:
        """Read "fan two got a motor", "Tuesday it gets a new board"."""
        out: list[Handled] = []
        covered = [(h.start, h.end) for h in self.out]
        for i, word in enumerate(self.words):
            if word not in ("got", "gets") or any(a <= i < b for a, b in covered):
                continue
            start, end = self.scopes.sentence(i)
            if self.words[i + 1 : i + 2] not in (("a",), ("two",), ("both",), ("new",)) or i + 2 >= end:
                continue
            j = self.scopes.skip_back(i - 1, start)
            while j > start and (self.words[j] in NUMBER_WORDS or self.words[j].isdigit()):
                j -= 1
            named = j >= start and (
                self.thing_over(j) is not None or self.words[j] in ("fan", "heater", "door")
            )
            if j < start or not (named or (self.words[j] in ("it", "she") and word == "gets")):
                continue
            things, _, last, _, _ = self.objects(i + 1, end, "replaced")
            things = [t for t in things if t.name not in _set("words", "no_part")]
            if not things or self.words[last : last + 1] == ("of",) or self.scopes.conditional(i):
                continue
            if word == "got":
                status = self.scopes.verb(i)
            else:
                told = self.words[start:i] + self.words[last:end]
                status = "planned" if any(w in _TIMES_TO_COME for w in told) else None
            if status is not None:
                out.append(Handled("replaced", status, things, i, last, None, True))
        return out

    def called_new(self, i: int) -> Handled | None:
        """Read "Contactor, new." in a list."""
        start, end = self.scopes.sentence(i)
        if i - 2 < start or self.words[i - 1] != "," or (i + 1 < end and self.words[i + 1] not in (".", ",")):
            return None
        thing = self.thing_over(i - 2)
        if (
            thing is None
            or thing.start != start
            or thing.end != i - 1
            or thing.name in _set("words", "no_part")
        ):
            return None
        status = self.scopes.noun(i, i + 1)
        return Handled("replaced", status, [thing], thing.start, i + 1, None, True) if status else None

    def listed(self) -> list[Handled]:
        """Read "Parts used: one contactor, two capacitors"."""
        out: list[Handled] = []
        alone = False
        for start, end in self.w.sentences:
            k = start
            while k < end and self.words[k] in ("so", "and", "the", "for", ",", "my", "i", "we"):
                k += 1
            headed, alone = alone, False
            if (
                k + 2 < end
                and self.words[k] in ("fitted", "replaced", "installed", "changed", "swapped", "renewed")
                and self.words[k + 1] == ":"
            ):
                k += 2
                things, _, last, _, _ = self.objects(k, end, "replaced")
                things = [
                    t for t in things if t.name not in _set("words", "no_part") or t.name in _SWITCHGEAR
                ]
                if things and self.scopes.noun(k, last) == "done":
                    out.append(Handled("replaced", "done", things, k, last, None, True))
                continue
            if k >= end or self.words[k] not in (
                "parts",
                "bits",
                "spares",
                "materials",
                "material",
                "used",
                "part",
            ):
                if headed and k < end and self.scopes.kind(k) != "past":
                    k += self.words[k] == "one"
                    things, _, last, _, _ = self.objects(k, end, "replaced")
                    things = [
                        t for t in things if t.name not in _set("words", "no_part") or t.name in _SWITCHGEAR
                    ]
                    if things and not self.scopes.framed(k) and self.scopes.noun(k, last) == "done":
                        out.append(Handled("replaced", "done", things, k, last, None, True))
                continue
            counted = (
                self.words[k] == "used"
                and k + 1 < end
                and (
                    self.words[k + 1] in ("a", "an")
                    or self.words[k + 1] in NUMBER_WORDS
                    or self.words[k + 1][0].isdigit()
                )
            )
            alone = self.words[k] != "used" and all(w in _LIST_HEADS for w in self.words[k:end])
            k += 1
            opened = counted
            while k < end and self.words[k] in word_set("parts_list_words"):
                opened = opened or self.words[k] in (":", ",", "used", "were", "are", "was", "is")
                k += 1
            if not opened and self.words[k - 1] != "used":
                continue
            things, _, last, _, _ = self.objects(k, end, "replaced")
            things = [t for t in things if t.name not in _set("words", "no_part") or t.name in _SWITCHGEAR]
            if things and self.scopes.noun(k, last) == "done":
                out.append(Handled("replaced", "done", things, k, last, None, True))
        return out

    def needed(self, i: int) -> Handled | None:
        """Read "needs a compressor, two driers and a contactor" as planned; a "new" one is read elsewhere."""
        start, end = self.scopes.sentence(i)
        opener = self.words[i + 1]
        if (
            opener not in ("a", "an", "another", "both")
            and opener not in NUMBER_WORDS
            and not opener.isdigit()
        ):
            return None
        things, _, last, _, _ = self.objects(i + 1, end, "replaced")
        things = [t for t in things if t.name not in _set("words", "no_part")]
        if not things or "new" in self.words[i:last]:
            return None
        before = self.words[self.scopes.skip_back(i - 1, start)] if i > start else ""
        if (
            before in ("didn't", "don't", "doesn't", "not", "you", "they", "won't", "no")
            or any(w in _PERHAPS for w in self.words[max(start, i - 4) : i])
            or not self.scopes.ours(i)
            or self.scopes.conditional(i)
        ):
            return None
        return Handled("replaced", "planned", things, i, last, None, True)

    def governor(self, i: int, start: int) -> str | None:
        """Tell whether a verb before governs the new thing in another sense ("quoted a new drier")."""
        for j in range(i - 1, max(start, i - 10) - 1, -1):
            word = self.words[j]
            if word in (",", ";"):
                return None
            if word in word_set("only_wanted"):
                return "none"
            if word in (".", ";"):
                return None
            if self.scopes.kind(j) == "past":
                return None
        return None

    def ellipses(self) -> None:
        """Read "Contactor too.", "And the overload as well." after a replacement."""
        last: Handled | None = None
        done = [
            h for h in self.out if h.action in ("replaced", "installed", "cleaned") and h.status == "done"
        ]
        for number, (start, end) in enumerate(self.w.sentences):
            here = [h for h in done if start <= h.start < end]
            if here:
                last = here[-1]
                continue
            if last is None or number - self.w.sentence_of[last.start] > 3:
                continue
            k = start
            opened = False
            while k < end and self.words[k] in word_set("ellipsis_openers"):
                opened = opened or self.words[k] in ("and", "also", "plus", "same", "did")
                k += 1
            thing = self.thing_from(k)
            if thing is None or thing.name in _set("words", "no_part"):
                continue
            tail = self.words[thing.end : min(end, thing.end + 3)]
            too = bool(tail) and (tail[0] in ("too", "also") or tail[:2] in (("as", "well"), ("the", "same")))
            at_it = "at" in self.words[start:k] and "while" in self.words[start:k]
            if too or at_it or (opened and tail[:1] in (("too",), ("also",))):
                self.out.append(Handled(last.action, "done", [thing], start, thing.end, None, last.new))
