"""What one amount is: a direction, or why it is none, and what became of the work."""

from __future__ import annotations

from dictate.mentions.gauge_sides import lost_across
from dictate.mentions.machine_times import ice_weighed
from dictate.mentions.movements.from_cylinders import weighs_something_else
from dictate.mentions.movements.gone import leaked_away
from dictate.mentions.movements.inferred import inferred_from_surroundings, way_told_by_place
from dictate.mentions.movements.no_movement import (
    is_difference,
    is_pressure,
    is_whole,
    none_at_all,
    of_a_part,
    of_container,
    of_other_stuff,
    of_the_test,
    on_paper,
    pumped_down,
    stuff_is_subject,
    whole_behind,
)
from dictate.mentions.movements.scale_closed import by_closed_valve, work_beside_scale
from dictate.mentions.movements.sentence_before import by_sentence_before, went_back
from dictate.mentions.movements.surroundings import gas_named, phrase_length, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_before, trigger_status
from dictate.mentions.movements.vessels import goes_on_weighing, weight_of_vessel
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.movements.words_behind import direction_behind, status_behind
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity
from dictate.vocabulary.load import word_set


def weighed_out(talk: Talk, first: int, start: int) -> bool:
    """Tell whether a charge was weighed out of a machine: "weighed out what was in it, got 1 pound 9"."""
    words = talk.words[first:start]
    at = next((i for i, w in enumerate(words) if w in {"weighed", "weighing"}), None)
    if at is None or words[at + 1 : at + 2] != ("out",):
        return False
    opens = at == 0 or (at == 1 and words[0] in {"i", "we"}) or words[at - 1] in {",", "then", "and"}
    return opens and words[-1] == "got"


def what_it_is(talk: Talk, start: int, end: int, q: Quantity) -> tuple[str, str | None, int]:
    """Return what the amount is, what became of it, and the word that says so."""
    s0, s1 = talk.scopes.sentence(start)
    rest = talk.words[end : min(s1, end + 6)]
    made = ice_weighed(talk.words, s0, start, end) and not gas_named(talk, end, max(end + 1, s1), rest)
    written = on_paper(talk, start, s0) or weighs_something_else(talk, start)
    if made or written or of_other_stuff(rest) or stuff_is_subject(talk, start, end, s0, s1):
        return "other", None, start
    if (scaled := by_scale(talk, start, s0, rest)) is not None:
        return scaled, "done", s0
    if (
        is_difference(talk, start, end, s0, s1)
        or of_container(rest)
        or leaked_away(talk, start, end)
        or none_at_all(talk, start, q)
        or pumped_down(talk, start, end, s0, s1)
        or lost_across(talk.words, s0, s1, start, end)
    ):
        return "other", None, start
    if (closed := by_closed_valve(talk, start, end, s0, s1, q)) is not None:
        return closed, "done", start
    last = talk.masses[-1] if talk.masses else None
    if weight_of_vessel(talk, start, end, s0, s1) or goes_on_weighing(talk, last, start, end, q.value):
        return "vessel", None, start
    if of_a_part(talk, start, s0, rest):
        return "other", None, start
    if (head := by_heading(talk, start, s0)) is not None:
        return head, "done", s0
    if weighed_out(talk, s0, start):
        return "recovered", "done", s0
    left = trigger_before(talk, start, s0, q)
    moved = phrase_length(rest, "after_in") or phrase_length(rest, "after_out")
    verb_before = left is not None and left.label in ("recovered", "charged") and start - left.end <= 1
    plate = phrase_length(rest, "after_rated") and rest[:1] not in (("per",), ("by",))
    if plate and not moved:
        went = phrase_length(rest[phrase_length(rest, "after_rated") :], "went_in")
        if went:
            at = end + phrase_length(rest, "after_rated")
            return "charged", status_behind(talk, at, end), at
    if plate and not moved and (not verb_before or rest[:1] == ("on",)):
        return "rated", None, end
    if left is not None and talk.words[left.start : left.end] == ("in", "it") and not moved:
        by = phrase_length(rest, "after_rated")
        if by and rest[:1] in (("per",), ("by",)):
            return "rated", None, end  # "R-404A in it, twenty-six ounces by the plate"
    if (
        not q.parts
        and any(u == "psi" for u, _ in q.means)
        and (is_pressure(talk, start, end, s0, s1) or of_the_test(talk, q.value, start, end, s0, s1))
    ):
        return "other", None, start
    if is_whole(talk, start):
        return "rated", None, start
    right = direction_behind(talk, whole_behind(talk, end), s1)
    if left is not None and left.label == "rated" and charge_weighed(talk, left, start, end, s0, s1):
        return "charged", "done", left.start
    if left is not None and left.label == "recovered" and left.verb is not None:
        back = went_back(talk, left.end, start)
        described = talk.words[left.start - 1 : left.start] in (("had",), ("i",), ("we",), ("was",), ("got",))
        if back is not None and described and "what" in talk.words[s0 : left.start]:
            return "charged", "done", back  # "what I had recovered went home again, two pounds ten"
    if left is not None and (settled := by_its_words(talk, left, start, rest)) is not None:
        return settled, trigger_status(talk, left) if settled != "other" else None, left.start
    if left is not None and left.label == "weight" and right is None:
        left = work_beside_scale(talk, left, s0, start) or left
    if left is not None:
        if left.label in ("rated", "weight", "other"):
            used = any(left.end <= a.start and a.end <= start for a in talk.masses)
            used = used or (
                # "per the tag, 14.2 ounces went in", "down to the nameplate charge: 14.5 ounces weighed in"
                bool({",", ":"} & set(talk.words[left.end : start]))
                and right is not None
                and not talk.number_at(
                    right[1] + max(phrase_length(talk.words[right[1] : s1], "after_in"), 1)
                )
            )
            if right is not None and (left.label != "rated" or used) and right[1] - end <= 4:
                return right[0], status_behind(talk, right[1], end), right[1]
            return left.label, None, left.start
        apart = "," in talk.words[left.end : start] or start - left.end > 4
        # "2 lb 14 oz came out and 3 lb 6 oz went back": the words before it are the first amount's
        apart = apart or any(a.trigger == left.start and a.end <= left.start for a in talk.masses)
        adjective = left.start > s0 and talk.words[left.start - 1] in ("the", "this", "that", "my")
        if right is not None and right[0] != left.label and right[1] - end <= 1 and (apart or adjective):
            return right[0], status_behind(talk, right[1], end), right[1]
        return left.label, trigger_status(talk, left), left.start
    if right is not None:
        return right[0], status_behind(talk, right[1], end), right[1]
    judged = by_sentence_before(talk, start, s0)
    if judged[0] == "unsaid" or judged[1] is None:
        second = inferred_from_surroundings(talk, start, end, q)
        return judged if second[0] == "unsaid" else second
    words = talk.words[start:s1]
    if talk.vacuum and (
        way_told_by_place(talk.words[s0:start], rest) == "charged"
        or (start == s0 and any(w in word_set("weighing_words") for w in words))
        or (start == s0 and gas_named(talk, s0, s1, words))
    ):
        talk.vacuum = False  # "Three pounds eight back.", "Fifty-two grams by the scale."
    return judged


def charge_weighed(talk: Talk, left: Hit, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether "charge is" is of no plate but of what was weighed in: "charge is 8.6 kilos, by scale"."""
    if talk.words[left.start : left.end] not in phrases("charge_told") or start - left.end > 2:
        return False
    sentence = talk.words[s0:s1]
    if (
        set(sentence) & (word_set("plate_words") - {"says"})
        or talk.scopes.noun(left.start, left.end) != "done"
    ):
        return False
    if set(talk.words[left.end : start]) & {",", "gone", "low", "out", "short"}:
        return False
    rest = talk.words[end : min(s1, end + 12)]
    return any(rest[i : i + len(p)] == p for p in phrases("weighed_in_behind") for i in range(len(rest)))


def by_its_words(talk: Talk, left: Hit, start: int, rest: tuple[str, ...]) -> str | None:
    """Return what an amount is whose verb says both ways, by the vessel or place behind it."""
    if left.label not in ("recovered", "charged"):
        return None
    first, last = talk.words[left.start], talk.words[left.end - 1]
    if left.label == "charged":
        told = talk.words[left.end : min(start, left.end + 7)]
        stop = told.index(",") if "," in told else len(told)
        told = (last, *told[:stop])
        into = next((n for n, w in enumerate(told) if w in ("in", "into", "back")), len(told))
        if vessel_in(told[into:]) and not set(told[into:]) & word_set("charging_vessels"):
            return "recovered"  # "back in the jug, seven pounds two"
        if first == "weighed" and last == "weighed" and taken_out_first(talk, left.start):
            return "recovered"  # "refrigerant charge removed and weighed, three pounds two"
        if (
            first == "took"
            and rest[:1] in (("from",), ("off",))
            and (rest[1:2] in (("it",), ("her",), ("there",)) or set(rest[1:4]) & word_set("gas_places"))
        ):
            return "recovered"  # "took two kilos from it"
        if first == "took" and rest[:2] in phrases("off_the") and set(rest[2:3]) & word_set("stores"):
            return "other"  # "took six pounds off the truck"
        if first == "put" and talk.words[left.start - 1 : left.start] in (("said",), ("says",), ("me",)):
            return "other"  # "the office said put in six pounds"
    if (
        "got" in talk.words[left.start : left.end]
        and left.label == "recovered"
        and rest[:1] in (("in",), ("into",))
    ):
        stop = next((n for n, w in enumerate(rest) if w in (",", ".", "and")), len(rest))
        if set(rest[1:2]) & {"it", "her", "there"} or (
            set(rest[:stop]) & word_set("gas_places") and not vessel_in(rest[:stop])
        ):
            return "charged"
    return None


def taken_out_first(talk: Talk, k: int) -> bool:
    """Tell whether what was weighed at word k had been taken out right before, in the same sentence."""
    s0, _ = talk.scopes.sentence(k)
    row = [
        w
        for w in talk.words[max(s0, k - 7) : k]
        if w in word_set("stage_out") or w in ("removed", "put", "in")
    ]
    return bool(row) and row[-1] not in ("put", "in") and talk.words[k - 1] in ("and", ",", "it", "then")


def by_heading(talk: Talk, start: int, s0: int) -> str | None:
    """Return what a heading right before the amount says: "Out: 5 lb 2 oz.", "virgin R404A in, 2 lb"."""
    k = start
    while k > s0 and talk.words[k - 1] in (":", ",", "-"):
        k -= 1
    first = max((j + 1 for j in range(s0, k) if talk.words[j] in (",", ":", ";")), default=s0)
    if k - first > 6 or k == first:
        return None
    named = {t for n in talk.names for t in range(n.start, n.end)}
    head = tuple(
        talk.words[j]
        for j in range(first, k)
        if talk.w.tokens[j] not in named
        and talk.words[j]
        not in (
            "virgin",
            "the",
            "then",
            "and",
            "total",
            "was",
            "is",
            "came",
            "to",
            "brand",
            "by",
            "weight",
            "scale",
            "at",
        )
    )
    if head and head[0] == "new" and head not in phrases("heads_in_after"):
        head = head[1:]
    if (
        k == start
        and (
            "came" in talk.words[first:k]  # "the charge came in at fourteen ounces" can be either way
            or (
                len(head) == 1
                and any(w in ("was", "is", "came", "to", "the", "by") for w in talk.words[first:k])
            )
            or any(h.verb is not None for h in talk.hits_in(first, k))
        )
    ):
        return None  # "in the two pounds ...", "charged to forty pounds suction"
    if talk.scopes.noun(first, k) != "done":
        return None
    if head in phrases("heads_out"):
        return "recovered"
    if head in phrases("heads_in"):
        return "charged"
    _, s1 = talk.scopes.sentence(start)
    if head in phrases("heads_in_after") and (
        any(
            a.kind == "recovered" and talk.w.sentence_of[start] - talk.w.sentence_of[a.start] <= 2
            for a in talk.masses
        )
        or "then" in talk.words[first:k]
        or (k > 0 and any(w in word_set("weighing_words") for w in talk.words[start:s1]))
    ):
        return "charged"
    return None


def by_scale(talk: Talk, start: int, s0: int, rest: tuple[str, ...]) -> str | None:
    """Read what a cylinder or its scale lost or gained: "the scale dropped by 3.4 pounds"."""
    k = start
    while k > s0 and talk.words[k - 1] in ("by", "about", "exactly", "just", "a", "another", "of"):
        k -= 1
    if k > s0 + 1 and talk.words[k - 2 : k] in (("went", "down"), ("came", "down"), ("went", "up")):
        verb, subject = "gained" if talk.words[k - 1] == "up" else "lost", talk.words[k - 3]
    elif k > s0:
        verb, subject = talk.words[k - 1], talk.words[k - 2] if k - 2 >= s0 else ""
    else:
        return None
    if verb in ("reads", "read", "shows", "is", "was", "weighs", "weighed", "'s", "now") and (
        {"scale", *word_set("weighed_vessels")} & set(talk.words[max(s0, k - 3) : k])
    ):
        if rest[:1] == ("less",) or rest[:1] == ("lighter",):
            return "charged"
        return "recovered" if rest[:1] in (("more",), ("heavier",)) else None
    if subject not in ("scale", "scales", "cylinder", "bottle", "tank", "drum", "jug"):
        return None
    if verb in ("dropped", "lost", "fell", "decreased"):
        return "charged"
    return "recovered" if verb in ("gained", "rose", "increased") else None
