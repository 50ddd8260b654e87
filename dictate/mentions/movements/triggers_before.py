"""The word before an amount in its sentence that says what was done with it."""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.movements.surroundings import of_another, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity
from dictate.vocabulary.load import word_set

_MOVED = ("recovered", "charged")
_ONLY_WEIGHED = ("weighed", "weigh")
REACH = 14  # words between a verb and its amount


def trigger_before(talk: Talk, start: int, s0: int, q: Quantity | None = None) -> Hit | None:
    """Return the nearest trigger before the amount in its sentence.

    A plate that is only the basis is passed over.
    """
    best: Hit | None = None
    for hit in talk.hits_in(s0, start):
        if hit.end > start and hit.label in ("recovered", "charged"):
            hit = replace(hit, end=start)  # "pulled #" runs into the amount
        if hit.end > start:
            continue
        far = start - hit.end
        if far > REACH and far - counted_up(talk, hit.end, start) > REACH:
            continue
        if talk.words[hit.start : hit.end] == ("net",) and best is not None and best.label in _MOVED:
            continue  # "recovered into the small cylinder, net five ounces"
        if hit.label == "rated" and (is_basis(talk, hit, s0) or of_scale(talk, hit)):
            continue
        if hit.label == "other" and (of_number(talk, hit, start) or of_another(talk, hit, q)):
            continue
        if hit.label == "rated" and talk.words[hit.end : hit.end + 1] in (
            ("exchanger",), ("heat",), ("type",), ("evaporator",), ("condenser",), ("freezer",),
        ):  # fmt: skip
            continue  # a plate exchanger
        if hit.verb is not None and talk.words[max(0, hit.start - 1) : hit.start] == ("pre",):
            hit = replace(hit, label="rated")  # "pre-charged with two kilos"
        if hit.verb is not None and talk.words[max(0, hit.start - 1) : hit.start] in (
            ("over",),
            ("under",),
        ):
            continue  # "over charged by half a pound"
        if hit.verb is not None and of_amount_before(talk, hit):
            continue  # "put back the eleven ounces I took out plus three of new"
        if hit.label in ("recovered", "charged") and (printed(talk, hit) or not can_govern(talk, hit, start)):
            continue
        if best is not None and best.label == "charged" and describes_gas(talk, hit):
            continue  # "reused the recovered gas, all two pounds"
        if (
            best is None
            or hit.end > best.end
            or (hit.end == best.end and hit.start < best.start)
            or (hit.start == best.start and hit.end > best.end)
        ):
            best = hit
    if best is not None and best.verb is None and best.label in ("recovered", "charged"):
        # "collected what was in it, ...": the verb decides, not the words after it.
        verbs = [
            h
            for h in talk.hits_in(s0, best.start)
            if h.verb is not None
            and h.label in ("recovered", "charged")
            and best.start - h.end <= 6
            and not any(h.end <= a.start < best.start for a in talk.masses)  # it has its amount already
            and can_govern(talk, h, start)
        ]
        if verbs:
            return verbs[-1]
    if best is not None and best.label == "charged" and talk.words[best.start] in _ONLY_WEIGHED:
        # "pulled the rest of the gas out, weighed it, 800 grams": weighing alone moves nothing
        way = [h for h in talk.hits_in(s0, best.start) if h.verb is not None and h.label in _MOVED]
        alone = talk.words[best.start + 1 : best.start + 2] in (("it",), ("that",), ("them",), (",",), (":",))
        behind = talk.words[best.start + 2 : best.start + 3]
        out = bool(way) and way[-1].label == "recovered"
        if alone and behind != ("in",) and out:
            if any(way[-1].end <= a.start < best.start for a in talk.masses):
                return best
            return way[-1]
    if best is not None and best.label == "rated":
        # "weighed in the plate charge, twelve ounces": a verb right before the plate word wins.
        before = [
            h
            for h in talk.hits_in(s0, best.start)
            if h.label in ("recovered", "charged")
            and h.end <= best.start
            and best.start - h.end <= 2
            and (h.verb is not None or talk.words[h.end - 1] == "took")
        ]
        words = talk.words[best.start : best.end]
        if before and words[0] in word_set("plate_adjectives"):
            return before[-1]
    return best


def of_amount_before(talk: Talk, hit: Hit) -> bool:
    """Tell whether a verb only says which amount the one before it is: "the eleven ounces I took out"."""
    k = hit.start - 1
    if k < 2 or talk.words[k] not in ("i", "we") or k not in talk.weight_ends:
        return False
    s0, _ = talk.scopes.sentence(hit.start)
    return any(w in ("the", "those", "that", "same") for w in talk.words[max(s0, k - 5) : k])


def printed(talk: Talk, hit: Hit) -> bool:
    """Tell whether a plate has got the words and nobody moved it: "tag's got R404A, fourteen ounces"."""
    if talk.words[hit.start] not in ("got", "gets", "has"):
        return False
    before = talk.words[max(0, hit.start - 2) : hit.start]
    return any(w in word_set("plate_words") - {"says"} for w in before)


def describes_gas(talk: Talk, hit: Hit) -> bool:
    """Tell whether "recovered" only says which gas it is: "put the recovered charge back"."""
    return (
        hit.label == "recovered"
        and hit.verb is not None
        and talk.words[hit.start - 1] in ("the", "that", "same", "my", "its", "all")
        and talk.words[hit.start + 1] in word_set("gas_words")
    )


def counted_up(talk: Talk, first: int, last: int) -> int:
    """Return how many words before the amount read the scale: "one seventy, one eighty, there, ..."""
    counted = talk.counted
    return sum(counted[a] - a + 1 for a in range(first, last) if a in counted and counted[a] < last)


def of_scale(talk: Talk, hit: Hit) -> bool:
    """Tell whether "says" is what the scale says, not a plate."""
    return talk.words[hit.start] in ("says", "say") and any(
        w in ("scale", "scales") for w in talk.words[max(0, hit.start - 2) : hit.start]
    )


def of_number(talk: Talk, hit: Hit, start: int) -> bool:
    """Tell whether "psi" belongs to a number before it ("recovered to zero psi, 2.3 pounds")."""
    return talk.words[hit.start : hit.end] == ("psi",) and "," in talk.words[hit.end : start]


def can_govern(talk: Talk, hit: Hit, start: int) -> bool:
    """Tell whether a general verb ("put", "took", "got") can govern an amount there."""
    words = talk.words[hit.start : hit.end]
    between = talk.words[hit.end : start]
    if (
        words == ("weighed",)
        and hit.start > 0
        and talk.words[hit.start - 1] not in word_set("before_weighed")
    ):
        return False  # "the slab weighed two pounds nine"
    if words in (
        ("took",),
        ("it", "took"),
        ("she", "took"),
        ("i", "got"),
        ("we", "got"),
        ("ended", "up", "with"),
        ("put",),
        ("in", "it"),
        ("pulled",),
        ("weighed",),
        ("gave", "it"),
        ("left", "in", "it"),
    ):
        allowed = word_set("between_verb_and_amount")
        return len(between) <= 4 and all(b in allowed for b in between)
    if (
        hit.label == "charged"
        and words[0] in ("fill", "filled", "refill", "refilled")
        and any(b in ("sump", "bin", "tank", "water") for b in between)
    ):
        return False
    if (
        words[0] == "filled"
        and hit.label == "charged"
        and (talk.words[hit.start - 1] in ("that", "which") or vessel_in(talk.words[hit.end : hit.end + 4]))
    ):
        return False  # "..., that filled it, and another pound into the second": a bottle was filled
    if words[0] in ("used", "use", "using", "load", "loaded", "loading", "hit", "virgin"):
        return len(between) <= 2 and any(0 <= n.start - talk.w.tokens[start] < 9 for n in talk.names)
    if words == ("charging",) or words == ("recovery",):
        return len(between) <= 6
    return True


def is_basis(talk: Talk, hit: Hit, s0: int) -> bool:
    """Tell whether a plate word is only why the amount was chosen ("charged to the plate, ...")."""
    for phrase in phrases("basis"):
        n = len(phrase)
        if hit.start - n >= s0 and talk.words[hit.start - n : hit.start] == phrase:
            # "it's on the plate" needs a verb of charging before it
            before = talk.words[max(s0, hit.start - 7) : hit.start]
            return any(
                h.label in ("charged", "recovered")
                and h.verb is not None
                and s0 <= h.start
                and h.end <= hit.start
                and hit.start - h.end <= 6
                for h in talk.hits
            ) and bool(before)
    return False


def trigger_status(talk: Talk, hit: Hit) -> str | None:
    """Return what became of the work that a trigger names."""
    if hit.verb is not None and not talk.reports(hit.verb):
        if talk.scopes.verb(hit.verb) in ("planned", "not_done"):
            return talk.scopes.verb(hit.verb)  # "when I come back I will recover and weigh in two pounds"
        return "done"  # of the notes: with a reason, see `movement_of`
    if talk.words[hit.start : hit.end] == ("weighed", "out") and talk.words[hit.start - 1] == "it":
        return talk.scopes.noun(
            hit.start, hit.end
        )  # "it weighed out at nine pounds": the gas that was pulled
    if hit.verb is not None and talk.scopes.kind(hit.verb) is not None:
        return talk.scopes.verb(hit.verb)
    return talk.scopes.noun(hit.start, hit.end)
