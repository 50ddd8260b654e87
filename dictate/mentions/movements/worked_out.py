"""Amounts that were not said: a cylinder weighed before and after, "all of it back and six ounces"."""

from __future__ import annotations

import itertools
from typing import cast

from dictate.mentions.movements.mass import Direction, Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import Hit
from dictate.record.visit import Candidate
from dictate.units import convert
from dictate.vocabulary.load import word_set


def with_cylinder_differences(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Work an amount out of a cylinder's weights before and after, where no amount was said."""
    out = list(amounts)
    weights = [a for a in amounts if a.kind == "weight"]
    for a, b in itertools.pairwise(weights):
        if (
            talk.w.sentence_of[b.start] - talk.w.sentence_of[a.start] > 1
            or a.unit != b.unit
            or a.value == b.value
        ):
            continue
        if not on_scale(talk, a):
            continue
        direction = by_cylinder(talk, a, b) or work_around(talk, a.start)
        if direction is None:
            continue
        if any(m.kind == direction and m.status == "done" for m in amounts):
            continue
        difference = round(abs(b.value - a.value), 6)
        both = f"{a.value:g} and {b.value:g} {a.unit}"
        why = f"worked out from the cylinder's weights, {both}; the amount itself was not said"
        told = by_cylinder(talk, a, b) == direction and (b.value > a.value) == (direction == "recovered")
        # Two weights of a cylinder, each with its unit, and which way it went say the amount as well.
        reasons = [] if told and a.q.unit and b.q.unit else [why]
        if (b.value > a.value) != (direction == "recovered"):
            reasons.append(f"the weight {'rose' if b.value > a.value else 'fell'}, which does not fit")
        out.append(
            Mass(
                b.q,
                a.start,
                b.end,
                difference,
                a.unit,
                direction,
                "done",
                a.start,
                reasons,
                [],
            )
        )
    return sorted(out, key=lambda x: x.start)


def on_scale(talk: Talk, a: Mass) -> bool:
    """Tell whether a cylinder or a scale was named before "went from ... to ..."."""
    if talk.words[a.trigger : a.trigger + 2] != ("went", "from"):
        return True
    first = talk.w.sentences[max(0, talk.w.sentence_of[a.start] - 1)][0]
    named = talk.words[first : a.start]
    return any(w in word_set("weighed_vessels") or w in ("scale", "scales") for w in named)


def by_cylinder(talk: Talk, a: Mass, b: Mass) -> Direction | None:
    """Return the direction that the cylinder's name or the words around two weights give."""
    s0 = talk.w.sentences[talk.w.sentence_of[a.start]][0]
    s1 = talk.w.sentences[talk.w.sentence_of[b.end - 1]][1]
    row = talk.words[s0:s1]
    ways: list[Direction] = []
    for name, way in (("in_noun", "charged"), ("out_noun", "recovered")):
        if any(row[i : i + len(p)] == p for p in phrases(name) for i in range(len(row))):
            ways.append(cast(Direction, way))
    return ways[0] if len(ways) == 1 else None


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
