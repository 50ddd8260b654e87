"""Who did what to which part: verbs of handling with the parts that they take.

Steps (`part_replaced`, `cleaned`, `adjusted`) and the parts list are two views of the same sentences, so the
sentences are read once, here.

    verbs                 a verb with its parts: asks objects, subjects, referents, new_or_back, fits
    new_parts, new_ones   new parts told of without such a verb
    named_work            replacements told by a noun or a set frame ("compressor changeout complete")
    ordered               parts that are ordered and still to come
    comes_later           parts that are elsewhere and go in on a day to come
    to_bring              parts that the technician will come back with
    came_with             parts that are "new too" beside another
    set_apart             parts that are new beside others that stayed, or that are in now
    treated               cleanings told by what a part was given, or put into
    by_number             parts told by their part numbers alone
    exchanged             parts told of in pairs, by the old one, or by where they are now
    old_one               the same, by the old one; put_in: what these share
    left_undone           parts that were left, and those that wait for another trip
    not_touched           parts that were found dirty and left so
    taken_out             parts that came out, told by where they lie now
    set_back              settings moved before that stand where they belong again
    as_it_was             doings after which a part is as it was
    in_vain               parts that were to be handled and were not, and those that only changed places
    by_gesture            exchanges told by gestures ("old one's out. New one."); under_test: of which part
    new_for_old           parts taken out, and a new one told of right behind
    run_on                rows of new parts that run on behind numbers and sizes
    refused               parts that were offered and refused
    left_for              parts that somebody wants left, and those whose exchange waits
    headed                parts only named in a list of work undone or to come
    put_off               work not done that is put off to another day
    not_cleaned           cleanings taken back right behind, and coils only freed of ice
    which_coil            which coil was cleaned, where only "the coil" is said
    by_all_words          parts that only all the words together tell of
    lists                 lists of parts, and what is the same for another part
"""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.handled.by_all_words import sounds_handled
from dictate.mentions.handled.by_gesture import by_gesture
from dictate.mentions.handled.by_number import by_number
from dictate.mentions.handled.came_with import came_with
from dictate.mentions.handled.comes_later import comes_later
from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.exchanged import exchanged
from dictate.mentions.handled.headed import headed
from dictate.mentions.handled.in_vain import without_vain
from dictate.mentions.handled.left_for import left_for
from dictate.mentions.handled.left_undone import left_undone
from dictate.mentions.handled.lists import from_lists, same_for_another
from dictate.mentions.handled.named_work import told_by_frames
from dictate.mentions.handled.new_for_old import new_for_old
from dictate.mentions.handled.new_ones import got_one, it_fitted
from dictate.mentions.handled.new_or_back import stood_before
from dictate.mentions.handled.new_parts import without_verb
from dictate.mentions.handled.not_cleaned import as_told_behind
from dictate.mentions.handled.not_touched import not_touched
from dictate.mentions.handled.ordered import still_ordered
from dictate.mentions.handled.put_in import goes_another_day
from dictate.mentions.handled.put_off import is_a_rule, put_off
from dictate.mentions.handled.refused import refused, turned_down
from dictate.mentions.handled.run_on import by_size, run_on
from dictate.mentions.handled.set_apart import set_apart
from dictate.mentions.handled.set_back import set_back
from dictate.mentions.handled.taken_out import taken_out
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.to_bring import to_bring
from dictate.mentions.handled.treated import treated
from dictate.mentions.handled.verbs import doing_of_verb
from dictate.mentions.handled.vocabulary import matcher, part_words
from dictate.mentions.handled.which_coil import coil_told
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Hit
from dictate.mentions.whose.things import Thing

__all__ = ["Handled", "handled_of"]

_FILTERS = frozenset(("air filter", "water filter", "filter"))


def handled_of(narration: Narration) -> list[Handled]:
    """Return every doing in the narration, in order; made once and kept with it."""
    found = narration.found.get("handled")
    if isinstance(found, list):
        return found
    out = _all_doings(Talk(narration))
    narration.found["handled"] = out
    return out


def _all_doings(talk: Talk) -> list[Handled]:
    """Read the verbs, then what is said without one."""
    taken: list[tuple[int, int]] = []
    by_verb: dict[int, list[Hit]] = {}
    for hit in sorted(matcher().hits(talk.w), key=lambda h: (h.start, h.start - h.end)):
        by_verb.setdefault(hit.start, []).append(hit)
    for start in sorted(by_verb):
        for hit in by_verb[start]:
            if any(a <= hit.start < b for a, b in taken):
                continue
            made = doing_of_verb(talk, hit)
            if made is not None:
                talk.out.append(made)
                taken.append((hit.start, hit.end))
                break
    talk.out += by_gesture(talk)
    talk.out += without_verb(talk)
    talk.out += got_one(talk)
    talk.out += told_by_frames(talk)
    talk.out += from_lists(talk)
    if "new" in talk.words:
        talk.out += came_with(talk)
    talk.out += it_fitted(talk)
    talk.out += set_apart(talk)
    talk.out += exchanged(talk)
    talk.out += taken_out(talk)
    talk.out += new_for_old(talk)
    talk.out += by_size(talk)
    talk.out += run_on(talk)
    talk.out += by_number(talk)
    talk.out += treated(talk)
    talk.out += still_ordered(talk)
    talk.out += to_bring(talk)
    talk.out += comes_later(talk)
    talk.out += refused(talk)
    talk.out += turned_down(talk)
    talk.out += left_undone(talk)
    talk.out += left_for(talk)
    talk.out += not_touched(talk)
    talk.out += set_back(talk)
    talk.out += headed(talk)
    talk.out += put_off(talk)
    talk.out = [h for h in talk.out if not is_a_rule(talk, h)]
    talk.out += sounds_handled(talk)
    talk.out = without_vain(talk, talk.out)
    talk.out = [told for h in talk.out if (told := as_told_behind(talk, h)) is not None]
    for h in talk.out:
        if h.action == "cleaned":
            coil_told(talk, h)
        elif h.verb is not None and talk.words[h.verb] in part_words("brazed_in"):
            # Of air or water nobody brazes a filter in: "plugged, this filter. I cut, I solder new one"
            h.things = [_of_the_circuit(t) for t in h.things]
        done = h.action == "installed" and h.status == "done" and h.new and h.things
        if done and all(stood_before(talk, t, h) for t in h.things):
            h.action = "replaced"
        if h.action == "repaired" and h.new and h.verb is not None and talk.words[h.verb] == "fixed":
            h.action = "replaced"  # "new compressor fixed with new rubbers": nobody mends a new one
        if goes_another_day(talk, h):
            h.status = "planned"
        added = h.verb is not None and talk.words[h.verb].startswith("add")
        if h.action == "installed" and not added and all(t.name == "filter drier" for t in h.things):
            h.action = "replaced"  # a circuit has its drier already
    talk.out.sort(key=lambda h: h.start)
    same_for_another(talk)
    talk.out.sort(key=lambda h: h.start)
    return talk.out


def _of_the_circuit(thing: Thing) -> Thing:
    """Return the filter of the refrigerant circuit for one of air or water."""
    return replace(thing, name="filter drier", part="filter drier") if thing.name in _FILTERS else thing
