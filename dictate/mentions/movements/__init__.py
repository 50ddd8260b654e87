"""Refrigerant out of and into a machine: `find_movements(narration) -> list[Movement]`.

Every amount that can be a mass is judged by the words nearest to it: a verb of recovering or charging
makes it a movement, unless it was planned, conditional, somebody else's or long ago; a plate, a
cylinder's weight, oil or nitrogen make it something else. Pounds and ounces are one amount, an amount
said again in another unit is the same movement, and a corrected one keeps what was retracted.

    "Recovered four pounds, no wait, five pounds eleven."   recovered 5.6875 lb, retracted 4 lb
    "Weighed in twelve ounces, plate says twelve."          charged 12 oz
    "Recovered 2.6 ohms."                                   recovered 2 lb 6 oz, with a reason

The way of an amount through this folder:

    quantities_weighed   which quantities can be weights; broken_off: those said in two pieces
    judged               one quantity with its kind and every reason to look at it
      kind                 what it is: vessels, no_movement, triggers_before, words_behind,
                           sentence_before, scale_closed, inferred, gone
    weighed              amounts that the weights of a cylinder prove
    unsaid_units         bare numbers that take a unit from the amount beside them
    some_more            one more portion: "gave it eight more"
    read_aloud           a scale read aloud while gas moves
    by_reference         the plate's charge "is what went in", a total without its unit
    bare_pairs           pounds and ounces by their two numbers alone
    corrections          amounts that correct one another; corrections_by_number: a bare number or a unit
                         alone does; earlier_amounts: said again in a later sentence
    worked_out           cylinder differences, "all of it back and six ounces"
    said_again           repetitions, totals and their parts left out
    last_word            the scale read again, or what is decided on: "one ninety, the scale's just updated"
    running_sums         the last of the sums that are told as amounts are added
    totals               a total in the place of the parts that give it
    shares               the old and the new gas of which an amount was made up
    from_cylinders       which way it went by the cylinder it came from; "the zero point eight back in"
    into_bottles         "first cylinder 11.8 kilos, second 11.6 ..., 23.4 altogether"
    bottles_without_units  "twenty-five from the one jug and nineteen from the other"
    put_back             "put back what I took out"
    sounds_moved         the opinion of the text encoder: what no phrase told
    no_readings          bare numbers that are amounts and no readings as well
    to_record            the record's movement, with its refrigerant
"""

from __future__ import annotations

from dictate.mentions.movements.bottles_without_units import with_bottles_without_units
from dictate.mentions.movements.by_reference import with_lone_totals, with_plates_put_in
from dictate.mentions.movements.corrections import with_corrections
from dictate.mentions.movements.from_cylinders import with_the_cylinders_way
from dictate.mentions.movements.inferred import leave_to_plans
from dictate.mentions.movements.into_bottles import with_bottles
from dictate.mentions.movements.judged import judged
from dictate.mentions.movements.last_word import with_the_last_word
from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.no_readings import keep_bare_amounts, leave_out_amounts
from dictate.mentions.movements.put_back import with_same_put_back
from dictate.mentions.movements.quantities_weighed import quantities_weighed
from dictate.mentions.movements.read_aloud import with_last_reading, with_scale_runs
from dictate.mentions.movements.running_sums import with_running_sums
from dictate.mentions.movements.said_again import says_again, without_parts
from dictate.mentions.movements.shares import without_shares
from dictate.mentions.movements.some_more import with_some_more
from dictate.mentions.movements.sounds_moved import with_what_sounds_moved
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.to_record import movement_of
from dictate.mentions.movements.totals import with_totals
from dictate.mentions.movements.unsaid_units import with_unsaid_units
from dictate.mentions.movements.weighed import with_what_was_weighed
from dictate.mentions.movements.worked_out import with_all_put_back, with_cylinder_differences
from dictate.mentions.narration import Narration
from dictate.record.visit import Movement

__all__ = ["find_movements", "leave_out_amounts"]


def find_movements(narration: Narration) -> list[Movement]:
    """Return the refrigerant movements of a narration in the order in which they were said."""
    talk = Talk(narration)
    talk.quantities = quantities_weighed(talk)
    for quantity in talk.quantities:
        mass = judged(talk, quantity)
        if mass is not None:
            if mass.kind == "vessel" and talk.masses and talk.masses[-1].kind == "weight":
                talk.masses[-1].kind = "vessel"  # the first weight of the pair
            talk.masses.append(mass)
    talk.masses = with_what_was_weighed(talk, talk.masses)
    talk.masses = with_some_more(talk, with_unsaid_units(talk, talk.masses))
    talk.masses = with_last_reading(talk, with_scale_runs(talk, talk.masses))
    talk.masses = with_lone_totals(talk, with_plates_put_in(talk, talk.masses))
    talk.masses = with_bottles_without_units(talk, talk.masses)
    talk.masses = with_bottles(talk, with_the_cylinders_way(talk, talk.masses))
    leave_to_plans(talk, talk.masses)
    kept = with_cylinder_differences(talk, with_all_put_back(talk, with_corrections(talk, talk.masses)))
    moved: list[Mass] = []
    for mass in kept:
        if mass.kind not in ("recovered", "charged") or not mass.value:
            continue
        if not says_again(talk, mass, moved):
            moved.append(mass)
    keep_bare_amounts(talk, moved)
    moved = with_running_sums(talk, with_the_last_word(talk, moved))
    moved = with_totals(talk, without_parts(talk, moved))
    moved = with_same_put_back(talk, without_shares(talk, moved))
    return [movement_of(talk, mass) for mass in with_what_sounds_moved(talk, moved)]
