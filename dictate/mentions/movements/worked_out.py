"""Amounts that were not said: a cylinder weighed before and after, "all of it back and six ounces"."""

from __future__ import annotations

import itertools
from typing import cast

from dictate.mentions.movements.correction_words import opens_with_correction
from dictate.mentions.movements.mass import Direction, Mass, how_far_apart, put_right
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import Hit
from dictate.record.visit import Candidate
from dictate.units import convert
from dictate.vocabulary.load import word_set

_PROVEN = 0.05
"""An amount and the difference of two weights this near to one another are the same."""


def with_cylinder_differences(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Work an amount out of a cylinder's weights before and after.

    Where the amount was said as well, the weights only prove it; behind "no, check that" they put it right.
    """
    out = list(amounts)
    weights = [a for a in amounts if a.kind in ("weight", "vessel")]
    for a, b in itertools.pairwise(weights):
        if (
            talk.w.sentence_of[b.start] - talk.w.sentence_of[a.start] > (3 if b.kind == "vessel" else 1)
            or a.unit != b.unit
            or a.value == b.value
            or not on_scale(talk, a)
        ):
            continue
        roles = by_cylinder(talk, a, b)
        if len(roles) > 1:
            continue  # two vessels, one weighed after the other
        # What a cylinder gains came out of the machine, and what it loses went in.
        by_sign: Direction = "recovered" if b.value > a.value else "charged"
        told = roles[0] if roles else work_around(talk, a.start)
        direction = told or by_sign
        difference = round(abs(b.value - a.value), 6)
        both = f"{a.value:g} and {b.value:g} {a.unit}"
        worked_out = Mass(b.q, a.start, b.end, difference, a.unit, direction, "done", a.start, [], [])
        if said_as_well(talk, worked_out, out, both):
            continue
        if told is None or not (a.q.unit and b.q.unit):
            why = f"worked out from the cylinder's weights, {both}; the amount itself was not said"
            worked_out.review.append(why)
        if direction != by_sign:
            how = "rose" if b.value > a.value else "fell"
            worked_out.review.append(f"the weight {how}, which does not fit")
        out.append(worked_out)
    return sorted(out, key=lambda x: x.start)


def said_as_well(talk: Talk, a: Mass, amounts: list[Mass], both: str) -> bool:
    """Tell whether the amount that two weights give was said too, and hold both against one another."""
    alike = [m for m in amounts if m.kind == a.kind and m.status == "done"]
    here = talk.w.sentence_of[a.start]
    near = [m for m in alike if abs(talk.w.sentence_of[m.start] - here) <= 2]
    if any(how_far_apart(m, a) <= _PROVEN for m in alike):
        return True
    if not near:
        return False
    before = [m for m in near if m.end <= a.start]
    if before and opens_with_correction(talk, a.start):
        put_right(before[-1], a.value, a.unit, a)
    elif len(near) == 1 and word_set("other_stuff").isdisjoint(talk.words[max(0, a.start - 3) : a.end + 3]):
        near[0].review.append(f"the cylinder's weights, {both}, say {a.value:g} {a.unit}")
    return True


def on_scale(talk: Talk, a: Mass) -> bool:
    """Tell whether a cylinder or a scale was named before "went from ... to ..."."""
    if talk.words[a.trigger : a.trigger + 2] != ("went", "from"):
        return True
    first = talk.w.sentences[max(0, talk.w.sentence_of[a.start] - 1)][0]
    named = talk.words[first : a.start]
    return any(w in word_set("weighed_vessels") or w in ("scale", "scales") for w in named)


def by_cylinder(talk: Talk, a: Mass, b: Mass) -> list[Direction]:
    """Return the directions that the cylinder's name or the words around two weights give."""
    s0 = talk.w.sentences[talk.w.sentence_of[a.start]][0]
    s1 = talk.w.sentences[talk.w.sentence_of[b.end - 1]][1]
    row = talk.words[s0:s1]
    ways: list[Direction] = []
    for name, way in (("in_noun", "charged"), ("out_noun", "recovered")):
        if any(row[i : i + len(p)] == p for p in phrases(name) for i in range(len(row))):
            ways.append(cast(Direction, way))
    return ways


def with_all_put_back(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Work out "put it all back plus six ounces": what was recovered, and what was added to it."""
    out: list[Mass] = []
    for a in amounts:
        if a.kind == "charged" and a.status == "done":
            s0, _ = talk.scopes.sentence(a.start)
            before = talk.words[s0 : a.start]
            lead = next((n for n in (1, 2, 3) if before[-n:][:1] in (("plus",), ("and",), ("with",))), 0)
            told = before[: len(before) - lead] if lead else ()
            whole = any(told[-len(p) :] == p for p in phrases("all_of_it"))
            taken_out = [m for m in out if m.kind == "recovered" and m.status == "done"]
            if whole and len(taken_out) == 1:
                first = taken_out[0]
                more = convert(a.value, a.unit, first.unit)
                both = f"{first.value:g} {first.unit} and {a.value:g} {a.unit}"
                a.review.append(f"worked out as what was recovered and what was added, {both}")
                heard = " ".join(talk.words[a.start : a.end])
                a.candidates.append(Candidate(value=a.value, unit=a.unit, heard=heard, why="added alone"))
                a.value, a.unit = round(first.value + more, 6), first.unit
        out.append(a)
    return out


def work_around(talk: Talk, i: int) -> Direction | None:
    """Return the direction of the work named nearest to word i, within two sentences."""
    number = talk.w.sentence_of[i]
    first = talk.w.sentences[max(0, number - 2)][0]
    last = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    best: Hit | None = None
    for h in talk.hits:
        if (
            h.label in ("recovered", "charged")
            and h.verb is not None
            and first <= h.start < last
            and trigger_status(talk, h) == "done"
            and talk.words[h.start] not in ("put", "took", "weighed", "weigh", "got")
        ) and (best is None or abs(h.start - i) < abs(best.start - i)):
            best = h
    return cast(Direction, best.label) if best is not None else None
