"""Transcript -> mentions: numbers, readings, movements, steps, parts, machines, as said.

    find(segments) -> Mentions

Nothing here looks further than the words: which machine a reading belongs to, before or after the repair, and
what is missing is decided by the stages behind.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from dictate.record.mentions import Mentions
from dictate.record.transcript import Segment


def find(segments: Sequence[Segment]) -> Mentions:
    """Return everything that the segments of one visit mention, each list in the order of the words."""
    with _undisturbed():
        return _find(segments)


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Let the collector of cycles rest meanwhile: very many small objects live until the end anyway."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            if not gc.get_freeze_count():
                # What is left counts as old at once, or the collector walks over all of it when it wakes.
                gc.freeze()
                gc.unfreeze()
            gc.enable()


def _find(segments: Sequence[Segment]) -> Mentions:
    from dictate.mentions.borne_out import bear_out
    from dictate.mentions.by_all_words import settle_by_all_words
    from dictate.mentions.conclusions import find_conclusions, find_remarks
    from dictate.mentions.corrections.corrector import correct
    from dictate.mentions.doubts import doubt
    from dictate.mentions.equipment import find_equipment
    from dictate.mentions.events import find_events
    from dictate.mentions.holds import find_holds
    from dictate.mentions.labels import find_components
    from dictate.mentions.labels.named_labels import labels_by_start
    from dictate.mentions.labour import find_labour, leave_out_times
    from dictate.mentions.movements import find_movements, leave_out_amounts
    from dictate.mentions.narration import Narration
    from dictate.mentions.parts.handled_parts import add_driers, find_parts
    from dictate.mentions.parts.part_marks import add_part_numbers
    from dictate.mentions.places.default_points import settle_points
    from dictate.mentions.readings import find_readings
    from dictate.mentions.refrigerants.named import find_refrigerants
    from dictate.mentions.roles.former_records import settle_former_records
    from dictate.mentions.second_opinion import begin, go_on
    from dictate.mentions.stages.told import tell_stages
    from dictate.mentions.steps import find_steps
    from dictate.mentions.steps.from_values import add_steps_of_values
    from dictate.mentions.units_system.settled import other_system, settle_scales
    from dictate.mentions.visit_facts import find_visit_facts
    from dictate.mentions.weights_in_two import tell_pounds_and_ounces

    segments = list(segments)
    narration = Narration(segments)
    mentions = Mentions()
    begin(narration)
    # What hangs on no reading is found while the encoder reads: the readings would have to wait for it.
    mentions.equipment = find_equipment(narration)
    mentions.events = find_events(narration)
    mentions.conclusions = find_conclusions(narration)
    mentions.remarks = find_remarks(narration)
    mentions.labour = find_labour(narration)
    mentions.visit = find_visit_facts(narration)
    mentions.steps = find_steps(narration)
    found = find_readings(narration)
    system = other_system(narration, found)
    if system is not None:
        last, narration = narration, Narration(segments)
        narration.found["unit system"] = system
        go_on(last, narration)
        found = find_readings(narration)
    settle_scales(narration, found)
    mentions.readings = correct(narration, found)
    bear_out(mentions.readings, {gas.name for gas in find_refrigerants(narration)})
    mentions.units = found.units.name
    mentions.units_assumed = found.units.assumed
    mentions.movements = find_movements(narration)
    leave_out_amounts(narration, mentions)
    tell_pounds_and_ounces(narration, mentions.readings)
    add_steps_of_values(narration, mentions)
    mentions.parts = find_parts(narration)
    add_driers(mentions)
    add_part_numbers(narration, mentions)
    tell_stages(narration, mentions)
    mentions.holds = find_holds(narration, mentions)
    settle_points(found, narration.lowers, labels_by_start(narration), find_components(narration))
    settle_by_all_words(narration, mentions, found.units)
    settle_former_records(narration, mentions)
    doubt(narration, mentions)
    leave_out_times(mentions)
    for reading in mentions.readings:
        if reading.unit == "min" and reading.value is not None:
            reading.value = round(reading.value, 4)  # "fourteen minutes forty": nobody times a millisecond
        # What a speaker calls superheat or subcooling was worked out of a line and a saturation temperature.
        if reading.quantity in {"superheat", "subcooling"}:
            reading.derived = True
    # What was found points back at the narration: let go of it here, so that the collector need not find it.
    narration.found.clear()
    return mentions
