"""Refrigerant names in a narration, in ASHRAE 34 form: `find_refrigerants(narration)`.

"four oh four A", "r4. a4a" and "propane" always mean a refrigerant. A bare number ("two ninety", "four ten")
means one only where the words around it say so, and never in front of a unit. A number that several share
("four fifty four") comes out with a reason and the other names.

Source of the names: ASHRAE Standard 34, Designation and Safety Classification of Refrigerants.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass, field
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.phrases import Phrases
from dictate.mentions.refrigerants.introduced import (
    charged_next,
    in_a_machine,
    named_by_its_frame,
    named_with_its_machine,
    only_describes,
)
from dictate.mentions.refrigerants.pieces import SPELLED, end_of_a_winding, in_hundreds, in_pieces
from dictate.mentions.refrigerants.told_apart import told_apart
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class RefrigerantName:
    """A refrigerant named at the tokens [start, end); `others` are names that the same words can mean."""

    start: int
    end: int
    name: str
    others: tuple[str, ...] = ()
    reasons: list[str] = field(default_factory=list)


def _digits(name: str) -> str:
    return "".join(c for c in name if c.isdigit())


@cache
def _forms() -> tuple[dict[str, list[str]], dict[str, list[str]]]:
    """Return (forms that always mean a refrigerant, bare numbers), each form -> names."""
    always: dict[str, list[str]] = defaultdict(list)
    bare: dict[str, list[str]] = defaultdict(list)
    prefixes = ("r ", "our ", "r-", "are ", "r . ")
    for entry in table("refrigerants")["refrigerant"]:
        name: str = entry["name"]
        number = _digits(name)
        letter = entry.get("letter", "")
        numbers = list(dict.fromkeys((number, *entry.get("number", ()), *in_hundreds(number))))
        certain = [*entry.get("said", ()), *entry.get("also", ())]
        if letter:
            spelled = " ".join(letter)
            said = dict.fromkeys((letter, spelled, *SPELLED.get(letter, ())))
            certain += [f"{n} {x}" for n in numbers for x in said]
            certain += [f"r{number} {x}" for x in SPELLED.get(letter, ())]
            certain += [number + letter, number + "-" + letter]
            certain += [
                p + c for p in prefixes for c in [f"{n} {spelled}" for n in numbers] + [number + letter]
            ]
            certain.append("r" + number + letter)
            certain.append("r" + number + " " + letter)
            certain.append("r-" + number + " " + letter)
        certain += [f"r{number}", f"r-{number}"] if not letter or entry.get("alone") else []
        for form in certain:
            if name not in always[form]:
                always[form].append(name)
        if not entry.get("letter_only") and (not letter or entry.get("alone") or numbers[1:]):
            for n in numbers:
                if name not in bare[n]:
                    bare[n].append(name)
                for p in ("r ", "our ", "r . "):
                    if (not letter or entry.get("alone")) and name not in always[p + n]:
                        always[p + n].append(name)
    return dict(always), dict(bare)


@cache
def _matchers() -> tuple[Phrases, Phrases]:
    always, bare = _forms()
    return Phrases({k: [k] for k in always}), Phrases({k: [k] for k in bare})


def _alone(names: list[str]) -> list[str]:
    """Return the names that a number without its letter means in the trade; all when none stands out."""
    entries = {e["name"]: e for e in table("refrigerants")["refrigerant"]}
    usual = [n for n in names if "letter" not in entries[n] or entries[n].get("alone")]
    return usual or names


@cache
def _context(key: str) -> frozenset[str]:
    return frozenset(table("refrigerants")["context"][key])


def _is_named(narration: Narration, start: int, end: int) -> bool:
    """Tell whether the words around a bare number make it the name of a refrigerant."""
    tokens = narration.tokens
    unit = unit_phrases(narration).get(end)
    if unit is not None and tokens[end].lower not in {"a", "c", "f", "head", "section", "point"}:
        return False
    before = tokens[start - 1].lower if start else ""
    second = tokens[start - 2].lower if start > 1 else ""
    after = tokens[end].lower if end < len(tokens) else ""
    if before in _context("strong") or before == "virgin":
        return True
    if before in {"is", "'s", "on", "runs"} and _an_exception(narration, start):
        return True
    if _runs_on(narration, start, end, before, after):
        return True
    if before in {
        "fresh",
        "clean",
        "new",
        "liquid",
        "more",
        "old",
        "existing",
        "original",
    }:  # "six pounds of new 22"
        before, second = second, tokens[start - 3].lower if start > 2 else ""
    if _of_an_amount(narration, start):
        return True
    if before in {"'s", "is", ":"} and second in {"refrigerant", "gas", "freon"}:
        return True  # "refrigerant's five oh seven"
    behind = [t.lower for t in tokens[end : end + 3]]
    if behind[:1] == ["still"]:
        behind = behind[1:]  # "twenty two still in it"
    behind = behind[:2]
    if named_by_its_frame(narration, start, end):
        return True
    if (
        behind in (["in", "it"], ["in", "them"])
        and end - start > 1
        and before in {",", ".", "with", "has", "got", "is", "'s"}
    ):
        return True  # "three compressors on one barrel, five oh seven in it"
    if after in {"refrigerant", "freon", "gas"} or (after in {"vapor", "liquid"} and before != "at"):
        return True
    near = {t.lower for t in tokens[max(0, start - 6) : start]}
    if (
        before in {"with", "on", "of", "some", "to"}
        and near & _context("verbs")
        and not tokens[start].lower.isdigit()
    ):
        return after in word_list("refrigerants_is_named") and before != "to"
    if _moved(narration, start, end) or _well_known(narration, start, end, before, after):
        return True
    if before == "for" and second in word_list("refrigerants_judged_for") and not after[:1].isdigit():
        name = "".join(t.lower for t in tokens[start:end])
        return end - start > 1 or (len(name) == 3 and name.isdigit())  # "a high head for 134"
    if before in {"with", "of"} and near & _context("verbs"):
        return True
    return (
        before in _context("before")
        and after in _context("after")
        and before not in {"is", "'s", "running", "with"}
    ) or (before in {"a", "an", "this", "the", "other"} and after in _context("after"))


def _an_exception(narration: Narration, start: int) -> bool:
    """Tell whether it is the gas of one that is left out: "R 410A all of them except five which is 22"."""
    words = narration.lowers
    first = next((a for a, b in narration.sentences if a <= start < b), 0)
    k = next((k for k in range(max(first, start - 6), start) if words[k] in ("except", "bar", "but")), None)
    if k is None or not {"all", "both", "each", "every"} & set(words[first:k]):
        return False
    always, _ = _matchers()
    return any(first <= phrase.start < k for phrase in always.find(narration))


_ALL_OF_THEM = frozenset(("both", "all", "each", "they're", "are", "re"))
_OWN_WORDS = frozenset(
    ("the", "that", "this", "my", "your", "old", "new", "fresh", "clean", "virgin", "reclaimed", "recycled")
)
_OF_A_SYSTEM = frozenset(("system", "systems", "unit", "units", "equipment"))


def _of_an_amount(narration: Narration, start: int) -> bool:
    """Tell whether "of" behind an amount stands before it: "4 ounces of the 290", "4 pounds 2 of 448"."""
    words = narration.lowers
    k = start - 1
    while k > 0 and words[k] in _OWN_WORDS:
        k -= 1
    if k < 1 or words[k] != "of":
        return False
    if words[k - 1] in _context("masses"):
        return True
    ounces = words[k - 1].isdigit() or words[k - 1] in NUMBER_WORDS
    return ounces and k > 1 and words[k - 2] in ("pounds", "pound", "lb", "lbs", "kilo", "kilos")


@cache
def _well_known_numbers() -> frozenset[tuple[str, ...]]:
    """Return the numbers that hardly mean anything else in the trade, as their words."""
    wanted = set(table("refrigerants")["context"]["well_known"])
    out: set[tuple[str, ...]] = set()
    for entry in table("refrigerants")["refrigerant"]:
        if _digits(entry["name"]) in wanted:
            out |= {tuple(n.split()) for n in (_digits(entry["name"]), *entry.get("number", ()))}
    return frozenset(out)


def _well_known(narration: Narration, start: int, end: int, before: str, after: str) -> bool:
    """Tell whether a well known number is a gas by its frame: "for 404 that's low", "a 448 job", "404 in D".

    Or stands alone where nothing else was asked: "Four oh four." as a sentence, "head two seventy, 404."
    """
    words = narration.lowers
    if tuple(words[start:end]) not in _well_known_numbers():
        return False
    if before in _context("a") and after in _context("well_known_after"):
        return True
    if before == "on" and after in {",", ".", ""} and words[start - 2 : start - 1] in ([","], ["."]):
        return True  # "head was twenty-one, on four oh four."
    if after in _context("generic_machines") and before not in _context("numbered"):
        return True  # "air cooled, four-oh-four machine"
    if before in ("for", "with") and words[end : end + 2] in _JUDGED:
        return True  # "with four oh four I'd be looking for fifty"
    if (
        before in {"on", "of"}
        and start > 1
        and words[start - 2] in {"both", "all", "they're", "are", "re", "it's", "'s"}
    ):
        return after in {".", ",", "", "and"}
    if before == "on" and words[start - 2 : start - 1] == ["is"]:
        return after in {".", ",", "", "and"}  # "discharge is only seven, that is on four oh four"
    if before in {",", ".", "...", "-", "", "is", *_CONTRACTED} and in_a_machine(words, end):
        return True  # "it's one thirty four ... strike that, four oh four in D", "that's 404 in there"
    if before in _CONTRACTED and after == "." and charged_next(narration, end):
        return True  # "It's four four nine. Gave it two pounds"
    if after in {".", ",", ""} and words[start - 2 : start] in (["one", "is"], ["one", "'s"]):
        return True  # "the other is the freezer, this one is four oh four"
    if before in {".", "", "is", *_CONTRACTED} and after == "," and words[end + 1 : end + 2] in _PRESSURES:
        return True  # "Cold room next. Four oh four, suction 3.1 bar"
    alone = after in {".", "", "!"}
    if alone and before in {".", ""}:
        return _sentence_before(narration, start) > 2
    if not alone or before != ",":
        return False
    first = next((a for a, b in narration.sentences if a <= start < b), 0)
    said = words[first : start - 1]
    if _context("introduced_never").isdisjoint(said) and not {
        "compressors",
        "rack",
        "pack",
        "system",
    }.isdisjoint(said):
        return True  # "Low temp rack, three compressors, four oh four."
    clause = start - 1
    while clause > first and words[clause - 1] not in {",", "."}:
        clause -= 1
    labels = {"head", "discharge", "suction", "side", "low", "high"} & set(words[clause : start - 1])
    return bool(labels) and not {"and", "should"} & set(words[clause : start - 1])


_JUDGED = (["that", "'s"], ["it", "'s"], ["this", "is"], ["that", "is"], ["i", "'d"], ["i", "would"],
    ["i'd", "be"], ["i'd", "want"], ["i'd", "expect"], ["you", "'d"], ["you'd", "want"])  # fmt: skip
_CONTRACTED = ("'s", "it's", "that's")
_PRESSURES = (["suction"], ["head"], ["discharge"], ["low"], ["high"])


def _sentence_before(narration: Narration, start: int) -> int:
    """Return how many words the sentence before a place has: "Line voltage. 404." asks for the number."""
    before = [b - a for a, b in narration.sentences if b <= start]
    return before[-1] - 1 if before else 0


def _runs_on(narration: Narration, start: int, end: int, before: str, after: str) -> bool:
    """Tell whether a number tells what machines run on: "both on twenty-two", "rooftop, twenty-two system".

    Only in the first sentences, where nothing was read yet, and for a number that is no usual temperature.
    """
    tokens = narration.tokens
    first = narration.sentences[: min(2, len(narration.sentences))]
    if not first or start >= first[-1][1]:
        return False
    low = tokens[start].lower
    long = end - start > 1 or len(low) > 2
    if not long and low != "22":
        return False
    if end - start == 2 and low == "thirty":
        return False
    if before in {",", ".", "", "a", "an", "old", "the"} and after in _OF_A_SYSTEM:
        return True
    if after not in {",", ".", ";", "", "and", "with"}:
        return False
    if before in _ALL_OF_THEM:
        return True
    return (
        before == "on"
        and start > 1
        and tokens[start - 2].lower in _ALL_OF_THEM | {"runs", "running", "run", "still"}
    )


def find_refrigerants(narration: Narration) -> list[RefrigerantName]:
    """Return every refrigerant named in the narration, in order; computed once per narration."""
    done: list[RefrigerantName] | None = narration.found.get("refrigerants")
    if done is not None:
        return done
    always, bare = _forms()
    certain, numbers = _matchers()
    out: list[RefrigerantName] = []
    taken: set[int] = set()
    for phrase in certain.find(narration):
        if not _plausible(narration, phrase.start, phrase.end, phrase.key):
            continue
        out.append(
            RefrigerantName(phrase.start, phrase.end, always[phrase.key][0], tuple(always[phrase.key][1:]))
        )
        taken.update(range(phrase.start, phrase.end))
    for start, end, name, others in in_pieces(narration, always):
        if taken.isdisjoint(range(start, end)) and not end_of_a_winding(narration, start):
            out.append(RefrigerantName(start, end, name, others))
            taken.update(range(start, end))
    sure = [n.start for n in out]
    for phrase in numbers.find(narration):
        if not taken.isdisjoint(range(phrase.start, phrase.end)):
            continue
        # "two ninety five" is a longer number, and so is "one two ninety".
        if _longer(narration, phrase.start, phrase.end):
            continue
        if phrase.start and end_of_a_winding(narration, phrase.start - 1):
            continue
        names = _alone(bare[phrase.key])
        if not _is_named(narration, phrase.start, phrase.end) and not (
            len(_digits(names[0])) == 3
            and not _digits(names[0]).endswith("00")  # a round number is mostly one that was counted or set
            and (
                named_with_its_machine(narration, phrase.start, phrase.end, names[0])
                or told_apart(narration, phrase.start, phrase.end, _digits(names[0]), sure)
            )
        ):
            continue
        reasons = []
        if len(names) > 1:
            reasons.append("which one is not said: " + ", ".join(names))
        out.append(RefrigerantName(phrase.start, phrase.end, names[0], tuple(names[1:]), reasons))
        taken.update(range(phrase.start, phrase.end))
    out.sort(key=lambda r: r.start)
    narration.found["refrigerants"] = out
    return out


_MOVED = frozenset(
    (
        "pulled",
        "took",
        "recovered",
        "put",
        "charged",
        "added",
        "weighed",
        "reclaimed",
        "got",
        "dumped",
        "topped",
    )
)
_GOES_ON = frozenset(
    ("came", "went", "out", "in", "back", ",", "charge", "was", "and", "with", "into", "from")
)


def _moved(narration: Narration, start: int, end: int) -> bool:
    """Tell whether "the 404" is what came out or went in, and no count ("the old 22 came out")."""
    tokens = narration.tokens
    i = start - 1
    while i > 0 and tokens[i].lower in {"old", "new", "remaining"}:
        i -= 1
    plain = i >= 0 and tokens[i].lower in _MOVED and end - start == 1 and len(tokens[start].lower) == 3
    if i < 0 or not (plain or tokens[i].lower in {"the", "all", "of"}) or end >= len(tokens):
        return False
    after = tokens[end].lower
    nxt = tokens[end + 1].lower if end + 1 < len(tokens) else ""
    if (after, nxt) in {("came", "out"), ("went", "in"), ("went", "back"), ("came", "back")}:
        return True
    if tokens[i].lower == "the" and i and tokens[i - 1].lower == "all" and after in ("out", "in", "back"):
        return True  # "all the 290 out, four ounces"
    near = {t.lower for t in tokens[max(0, i - 3) : i + 1]}
    return bool(near & _MOVED) and after in _GOES_ON


def _longer(narration: Narration, start: int, end: int) -> bool:
    numbers = find_numbers(narration)
    # Numbers stand in order and never overlap.
    k = bisect_right(numbers, start, key=lambda n: n.end)
    while k < len(numbers) and numbers[k].start < end:
        if numbers[k].start < start or numbers[k].end > end:
            return True
        k += 1
    return False


def _plausible(narration: Narration, start: int, end: int, form: str) -> bool:
    """Refuse "are 22", "our 12 amps", "four ten a month": English that only looks like a name."""
    tokens = narration.tokens
    if end_of_a_winding(narration, start) or only_describes(narration, end, form):
        return False
    if end < len(tokens) and end - start >= 1:
        unit = unit_phrases(narration).get(end)
        digits = not tokens[end - 1].lower.isalpha()
        if form.startswith(("are ", "our ")) and digits and unit is not None:
            return False
        if form.startswith("are ") and not form[-1:].isalpha():
            return False
        # "two oh four ten a month" or "at four ten a new ...": the letter is an article when a noun follows
        if (
            tokens[end - 1].lower == "a"
            and not tokens[end - 1].text.isupper()
            and form[0].isalpha()
            and form[0] not in "r"
        ):
            nxt = tokens[end].lower
            if nxt in word_list("refrigerants_plausible"):
                return False
    hundreds = form.endswith(" a") and " hundred " in f" {form} " and not tokens[end - 1].text.isupper()
    behind = tokens[end].lower if end < len(tokens) else "."
    if hundreds and behind.isalpha() and behind not in _context("after"):
        # "one hundred and thirty four a day": only what ends there, or goes on as a trait, is a name
        return behind in ("in", "and", "with", "on", "by", "is", "was")
    if form.startswith("are "):
        last = form.split()[-1]
        return last in {"a", "b", "c", "yf", "f"} or (last[:3].isdigit() and last[3:].isalpha())
    if form[0] != "r" and start and tokens[start - 1].lower in NUMBER_WORDS and form in _hardly_met():
        return False  # "serial nine nine four oh one B"
    return not _cut_number(narration, start)


@cache
def _hardly_met() -> frozenset[str]:
    """Return the forms that mean only blends that are hardly met."""
    rare = {e["name"] for e in table("refrigerants")["refrigerant"] if e.get("letter_only")}
    return frozenset(form for form, names in _forms()[0].items() if rare.issuperset(names))


def _cut_number(narration: Narration, start: int) -> bool:
    tokens = narration.tokens
    return start > 0 and tokens[start].lower[0].isdigit() and tokens[start - 1].lower == "point"
