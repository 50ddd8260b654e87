"""Superheat too low or too high for where it was measured."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, phrases, spans, words
from dictate.checks.physics._cycle import Moment, limits, moments
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading

TARGET_SPREAD = 5.0
AT_COMPRESSOR = phrases("at_compressor")
AT_EVAPORATOR = phrases("at_evaporator")
RANGES = {"compressor": (8.0, 40.0), "evaporator": (4.0, 20.0), None: (4.0, 30.0)}
"""°F by place; without a place all that fits one of the two is taken, and 20 to 30 is a question."""

FLOODING = "Does the suction line sweat back to the compressor, and is the airflow over the coil right?"

Found = tuple[float, float, list[Reading], str, str | None]


def place_of(facts: Facts, reading: Reading) -> str | None:
    """Return where a superheat was measured, from its point or the words around it."""
    before, after = facts.around(reading)
    text = f" {before} | {words(reading.heard)} | {after} "
    typed = reading.component == "compressor" and reading.at.first_word is None
    if typed or any(f" {w} " in text for w in AT_COMPRESSOR):
        return "compressor"
    if reading.point == "evaporator outlet" or any(f" {w} " in text for w in AT_EVAPORATOR):
        return "evaporator"
    return None


def found_in(moment: Moment) -> Iterator[Found]:
    """Yield (least, greatest, readings, words, place) of each superheat said, else of those worked out."""
    said = [r for r in moment.readings if r.quantity == "superheat" and r.value is not None]
    for least, greatest, used in spans(said, "delta_degF"):
        text = ", ".join(cite(r, "superheat") for r in used)
        yield least, greatest, used, text, place_of(moment.facts, used[0])
    if not said:
        for line, pressure, dew, superheat in moment.superheats():
            text = (
                f"superheat {moment.facts.difference(superheat)} ({cite(line)} less dew "
                f"{moment.facts.degrees(dew)} of "
            )
            text += f"{moment.refrigerant} at {cite(pressure)})"
            place = "evaporator" if line.point == "evaporator outlet" else None
            yield superheat, superheat, [line, pressure], text, place


def changed(facts: Facts, reading: Reading) -> bool:
    """True when the words say that a value is the one after something was done ("went to nine")."""
    return any(
        f" {w} " in f" {facts.around(reading)[0]} {reading.heard.lower()} " for w in phrases("changed_to")
    )


@rule(
    id="superheat.out-of-range",
    checks="The superheat as left lies in the range that was said, else in the usual one for its place: "
    "about 4 "
    "to 20 °F at the evaporator outlet, 8 to 40 °F at the compressor. Counted from the dew temperature.",
    applies="a superheat was said, or suction pressure, suction line temperature and refrigerant were",
    source="Superheat is line temperature less dew temperature at the same place (trade journals); the usual "
    "ranges are common practice and give way to the maker's figure",
    tag="common practice",
    question="Where was it measured, how long had it run, and what does the maker give?",
    caution="Superheat near nil can mean liquid at the compressor.",
)
def check(facts: Facts) -> Iterator[Finding]:
    everything = [(m, f) for m in moments(facts) for f in found_in(m)]
    judged = []
    for moment, (least, greatest, used, text, place) in everything:
        said = limits(facts, "superheat", moment.equipment, TARGET_SPREAD)
        low, high = (said[0], said[1]) if said is not None else RANGES[place]
        if said is None and place is None and facts.said(*phrases("fixed_metering")):
            low, high = (
                2.0,
                40.0,
            )  # with a capillary tube it goes with the load, and is high at the compressor
        which = "the range that was said" if said is not None else "the usual range"
        which += f" ({facts.difference(low)} to {facts.difference(high)}" + (
            f" at the {place})" if place and not said else ")"
        )
        evidence = used + (said[2] if said is not None else [])
        value = least if least > -900 else greatest
        judged.append(
            (moment, value, least, greatest, low, high, which, evidence, text, said is None and place is None)
        )
    for moment, value, least, greatest, low, high, which, evidence, text, vague in judged:
        computed = {
            "superheat": (value, "delta_degF"),
            "least": (low, "delta_degF"),
            "greatest": (high, "delta_degF"),
        }
        name = text[0].upper() + text[1:]
        good = [
            j
            for j in judged
            if j[0].equipment == moment.equipment
            and (j[0].stage == "as_left" or changed(facts, j[7][0]))
            and facts.place(j[7][0]) > facts.place(evidence[0])
            and j[4] <= j[2]
            and j[3] <= j[5]
        ]
        if least >= low and greatest <= high and not (vague and least > 20 and high < 40):
            yield ok(f"{name}: within {which}.", *evidence, computed=computed)
        elif greatest < low or least > high:
            side = "below" if greatest < low else "above"
            if good and (moment.stage == "as_found" or changed(facts, good[-1][7][0])):
                yield ok(
                    f"As found {text}: {side} {which}. As left {good[-1][8]}: within it.",
                    *evidence,
                    *good[-1][7],
                    computed=computed,
                )
            else:
                found = "As found " if moment.stage == "as_found" else ""
                yield problem(
                    f"{found}{text}: {side} {which}.", *evidence, computed=computed,
                    question=None if side == "above" else FLOODING,
                )  # fmt: skip
        elif vague and least > 20:
            yield unsure(
                f"{name}: usual at the compressor, high at the evaporator outlet.",
                *evidence,
                computed=computed,
                question="Was that at the compressor or at the evaporator outlet?",
            )
        else:
            why = "only a bound was said" if len(evidence) == 1 else f"it reaches out of {which}"
            yield unsure(f"{name}: {why}.", *evidence, computed=computed)
