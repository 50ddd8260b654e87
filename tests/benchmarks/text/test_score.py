"""The scorer itself: an answer made from the labels scores full marks, and each damage to it is counted."""

import copy

import pytest

from tests.benchmarks.text.__main__ import table
from tests.benchmarks.text.found import Answer, Found, Movement
from tests.benchmarks.text.long_visit import WORDS, LongVisit, joined, long_visit
from tests.benchmarks.text.score import Score, same_value, score
from tests.narrations.labels import all_of


def first(row, key):
    options = row.options(key)
    return options[0] if options else None


def perfect(labelled):
    """Return what a reader without fault would answer."""
    keys = [e["key"] for e in labelled.equipment]
    own = keys[0] if len(keys) == 1 else None
    return Answer(
        readings=[
            Found(
                r.first, r.last, r.get("value"), r.get("unit"), r.get("state"), r.get("quantity"),
                first(r, "relation"), first(r, "role"), r.get("stage"),
                first(r, "component"), first(r, "point"),
                r.get("reference"), r.get("equipment") or own, bool(r.get("unit_assumed")),
                bool(r.get("derived")),
            )
            for r in labelled.readings
        ],
        movements=[
            Movement(
                m.first, m.last, m.get("direction"), m.get("refrigerant"), m.get("value"), m.get("unit"),
                m.get("equipment") or own, [], m.get("heard"),
            )
            for m in labelled.movements
        ],
        steps=[(s.get("step"), s.get("status"), first(s, "component"), None, "") for s in labelled.steps],
        parts=[
            (first(p, "name"), first(p, "action"), p.get("part_number"), p.get("quantity"), "")
            for p in labelled.parts
        ],
        equipment=[
            {"type": None, "model": None, "serial": None, "refrigerant": None}
            | {key: value[0] if isinstance(value, list) else value for key, value in e.items()}
            | {"id": e["key"]}
            for e in labelled.equipment
        ],
        labour=labelled.labour,
        checks=[(rule, "missing", None, "") for rule in labelled.raised if "@" not in rule],
    )  # fmt: skip


NARRATIONS = all_of("develop")


@pytest.mark.parametrize("labelled", NARRATIONS, ids=lambda n: n.name)
def test_an_answer_made_from_the_labels_gets_full_marks(labelled):
    s = score(labelled, perfect(labelled))
    short = {key: pair for key, pair in s.pairs.items() if pair[0] != pair[1] and key != "checks raised"}
    assert not short, (short, s.lines)
    assert not +s.counts, (s.counts, s.lines)


def plain(labelled):
    return next(
        i
        for i, r in enumerate(labelled.readings)
        if r.get("role") == "measured"
        and r.get("state") == "value"
        and not r.get("optional")
        and r.get("value")
    )


def test_each_damage_is_counted():
    labelled = next(n for n in NARRATIONS if n.name.startswith("a01"))
    good = perfect(labelled)
    i = plain(labelled)

    wrong = copy.deepcopy(good)
    wrong.readings[i].value += 1
    s = score(labelled, wrong)
    assert s.counts["wrong values"] == s.counts["wrong without a reason"] == 1
    wrong.readings[i].review = ["two readings of the words"]
    s = score(labelled, wrong)
    assert (s.counts["wrong values"], s.counts["wrong without a reason"]) == (1, 0)

    lost = copy.deepcopy(good)
    del lost.readings[i]
    right, of = score(labelled, lost).pairs["found"]
    assert right == of - 1

    trap = copy.deepcopy(good)
    retracted = next(j for j, r in enumerate(labelled.readings) if r.get("role") == "retracted")
    trap.readings[retracted].role = "measured"
    assert score(labelled, trap).counts["role traps taken"] == 1

    invented = copy.deepcopy(good)
    row = labelled.not_readings[0]
    invented.readings.append(Found(row.first, row.last, 4.0, "V", quantity="voltage"))
    assert score(labelled, invented).counts["invented on a trap"] == 1

    asked = copy.deepcopy(good)
    asked.readings[i].review = ["unsure"]
    right, of = score(labelled, asked).pairs["right values without a reason"]
    assert right == of - 1

    elsewhere = copy.deepcopy(good)
    elsewhere.readings[i].component = "door gasket"
    elsewhere.steps.append(("evacuated", "done", None, None, ""))
    s = score(labelled, elsewhere)
    assert s.pairs["component"][0] == s.pairs["component"][1] - 1
    assert s.counts["steps wrongly done"] == 1


def test_values_are_compared_across_units():
    assert same_value(3.5, "lb", 56, "oz")
    assert same_value(2400, "ohm", 2400.0, "ohm")
    assert same_value(0.3, "mbar", 30, "Pa")
    assert not same_value(36, "degF", 36, "delta_degF")
    assert not same_value(36, "V", 36, "A")
    assert not same_value(2.6, "oz", 38, "oz")


def test_an_hour_of_talk_is_joined_of_whole_narrations_and_timed_without_the_start_up():
    visit, other = joined(NARRATIONS)
    assert WORDS <= len(visit.split()) < 1.1 * WORDS
    assert visit.startswith(NARRATIONS[0].text) and other not in visit
    assert long_visit(NARRATIONS[:3]) is None, "three narrations are no hour of talk"

    last = table("develop", Score(), 0, LongVisit(10_204, 0.9, 0.75)).splitlines()[-1]
    assert "10,204 words" in last and last.endswith("0.90 the first time, 0.75 again")
