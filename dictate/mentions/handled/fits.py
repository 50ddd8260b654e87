"""Whether a verb with these parts is a doing of its kind."""

from __future__ import annotations

from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import ADJUSTABLE, BE, part_words
from dictate.mentions.patterns import Hit
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def of_the_pump(talk: Talk, i: int) -> bool:
    """Tell whether the hose at word i is one of the vacuum pump's."""
    number = talk.w.sentence_of[i]
    start = talk.w.sentences[max(0, number - 1)][0]
    end = talk.w.sentences[number][1]
    return any(
        w.startswith(("vac", "micron", "pump", "pull", "torr", "mbar", "millibar", "evac"))
        for w in talk.words[max(start, i - 25) : min(end, i + 12)]
    )


def _blows_by_itself(talk: Talk, hit: Hit) -> bool:
    """Tell whether what blows, drains or clears is the machine itself ("coil's blowing on one side")."""
    if not talk.words[hit.start].startswith(("blow", "drain", "clear", "soak", "sweat")):
        return False
    return hit.start > 0 and talk.words[hit.start - 1] in ("'s", "is", "was", "are", "were", "isn't", "still")


def _turned_on_or_plugged(talk: Talk, hit: Hit, things: list[Thing]) -> bool:
    """Tell whether "put it on", "put it in the plug" is said of a mode or of the machine's plug."""
    start, end = talk.scopes.sentence(hit.start)
    behind = talk.words[hit.start + 1 : min(end, hit.start + 6)]
    if behind[:2] not in (("it", "in"), ("it", "into"), ("it", "on")):
        return False
    if any(w in word_set("where_a_plug_goes") for w in behind[2:4]):
        return True  # "I put it in the plug first"
    here = any(start <= t.start < hit.start for t in things)
    alone = behind[2:3] in ((), (",",), (".",), ("and",))
    return alone and not here and any(w in word_set("modes") for w in talk.words[start : hit.start])


def _no_part_moved(talk: Talk, hit: Hit, things: list[Thing], passive: bool) -> bool:
    """Tell whether what was put, thrown or slapped in is no part that was fitted.

    A handle is thrown to isolate, a contactor slaps in by itself, the old blade goes on the new motor, and
    soap is put on a joint.
    """
    verb, row = talk.words[hit.start], talk.words
    first = things[0].start if things else hit.end
    start, end = talk.scopes.sentence(hit.start)
    new = any(w in part_words("plain_new") for w in row[max(start, first - 2) : first])
    if not new and row[first : first + 1] in (("handle",), ("handles",)):
        moved = verb.startswith(tuple(word_set("moves_a_handle")))
        return moved and not any(w in word_set("handles_of_doors") for w in row[max(0, start - 12) : end])
    if not new and passive and verb in word_set("pulls_in"):
        return any(t.name.endswith(("contactor", "relay", "starter")) for t in things)
    named = not passive and hit.label == "installed" and first >= hit.end
    if named and row[first - 1] in ("old", "same", "original", "existing"):
        return True
    fronted = row[start : hit.start]
    return hit.line == "put! on" and any(w in word_set("put_on_joints") for w in fronted[:6])


def is_a_doing(
    talk: Talk, action: str, hit: Hit, things: list[Thing], new: bool, last: int, passive: bool
) -> bool:
    """Tell whether this verb with these things is a doing of this kind."""
    verb = talk.words[hit.start]
    names = [t.name for t in things]
    if talk.words[hit.start + 1 : hit.start + 3] in (("it", "in"), ("it", "into"), ("it", "on")) and any(
        w in word_set("modes") or w in word_set("turns_of_duty")
        for w in talk.words[hit.start + 3 : hit.start + 5]
    ):
        return False  # "put it in manual defrost"
    if _turned_on_or_plugged(talk, hit, things):
        return False
    if action in ("installed", "replaced", "removed") and _no_part_moved(talk, hit, things, passive):
        return False
    if (
        action == "installed"
        and not new
        and not passive
        and things
        and talk.words[things[0].end - 1] in word_set("held_to_measure")
        and talk.words[last : last + 1] not in (("back",), ("it",))
        and "back" not in talk.words[hit.start : last]
    ):
        return False  # "I put the probe in a tub of cheese": the technician's own
    if (
        action == "installed"
        and things
        and talk.words[last : last + 1] in (("in",), ("into",), ("inside",))
        and any(w in word_set("baths") for w in talk.words[last + 1 : last + 6])
    ):
        return False  # "unplugged it, stuck it in an ice bath"
    if action == "cleaned" and talk.scopes.kind(hit.start) == "ing" and _blows_by_itself(talk, hit):
        return False  # "the coil's blowing on one side only"
    if verb in ("stuck", "hung", "caught") and not passive and hit.start and talk.words[hit.start - 1] in BE:
        return False  # "that was stuck in the receiver"
    if action == "installed" and verb in ("dropped", "drops") and not new:
        return False  # "the switch dropped it out"
    if (
        action == "cleaned"
        and things
        and things[-1].start < hit.start
        and any(
            w.startswith(("braz", "braised", "rebra", "sold", "sweat")) for w in talk.words[last : last + 3]
        )
    ):
        return False  # "cleaned it and brazed it"
    end = talk.scopes.sentence(hit.start)[1]
    after = talk.words[last : min(last + 3, end)]
    if (
        action in ("installed", "replaced")
        and "back" in talk.words[hit.start : min(last + 2, end)]
        and not new
    ):
        return False
    if (
        action in ("replaced", "installed")
        and talk.words[last : last + 2] in (("in", "my"), ("in", "the"), ("on", "my"))
        and any(w in word_set("own_tools") or w == "manifold" for w in talk.words[last + 2 : last + 4])
    ):
        return False  # "put a new battery in my gauge"
    # "the sight glass cleared", "coil cleared in 18 minutes": the machine's doing
    own = passive and talk.words[hit.start - 1] not in BE and after[:1] != ("out",)
    if verb in ("cleared", "clear", "clears", "clearing") and ("sight glass" in names or own):
        return False
    if verb.startswith("switch") and any(n in part_words("switchgear") or "switch" in n for n in names):
        return False
    if passive and verb in ("took", "blew"):
        return False  # "the fan took off", "a bend blew bubbles"
    if (
        verb.startswith(("swap", "swop", "chang", "switch", "exchang"))
        and any(
            w in ("positions", "position", "places", "round", "around", "over", "sides", "ends")
            for w in talk.words[last : min(end, last + 2)]
        )
        and talk.words[last : last + 2] not in (("over", "with"), ("over", "for"), ("around", "for"))
    ):
        return False  # "swapped the probe positions"
    if verb.startswith("swap") and talk.words[hit.end : hit.end + 1] == ("with",):
        other = talk.words[hit.end + 1 : hit.end + 4]
        if other[:1] in (("it",), ("that",), ("them",)):
            return True  # "overload block swapped with it": along with it
        if not any(w in ("a", "an", "new", "one", "another", "spare") for w in other):
            return False  # "swapped with the air sensor": two changed places
    if verb.startswith("swap") and talk.words[last : last + 2] in (("with", "the"), ("with", "that")):
        behind = talk.words[last + 2 : min(end, last + 10)]
        tool = talk.words[last + 1 : last + 2] == ("the",) and any(
            w in word_set("tool_words") for w in behind[:4]
        )
        if not tool and not any(
            w in ("new", "replacement", "spare") or w in word_set("own_stock") for w in behind
        ):
            return False  # "swapped the sensor with the one from the next case"
    if passive and hit.label == "installed" and verb in word_set("no_passive_install") and not new:
        return False
    if passive and action == "removed" and verb == "cut":
        return False
    if (
        action in ("installed", "removed")
        and names
        and all(n in part_words("no_part") for n in names)
        and not new
    ):
        return False
    if hit.line in ("braze!", "sweat!", "solder!") and not all(
        "drier" in n or n == "access valve" or new for n in names
    ):
        return False
    if hit.label == "installed" and verb in word_set("needs_new") and not new:
        particle = any(w in ("in", "on") for w in talk.words[hit.start + 1 : hit.end]) or (
            after[:1] in (("in",), ("on",))
        )
        if (
            not particle
            or verb in ("set", "setting", "drop", "dropped")
            or any(t.name in ("compressor", "condenser", "evaporator") for t in things)
            or any(t.generic for t in things)
        ):
            return False
        if (
            after[:1] in (("in",), ("on",))
            and len(after) > 1
            and (after[1] in ("the", "a", "my", "it", "fan") or after[1] in word_set("modes"))
        ):
            return False
    if (
        action == "installed"
        and verb.startswith("add")
        and any(t.name in ("oil", "insulation") for t in things)
        and not new
    ):
        return True
    before = talk.words[hit.start - 1] if hit.start else ""
    if (
        action == "adjusted"
        and verb == "calibrated"
        and talk.thing_from(hit.start + 1) is not None
        and talk.words[hit.start + 1] not in ("the", "both")
    ):
        return False  # "calibrated probe, so these are good numbers"
    if action == "adjusted" and verb.startswith("calibrat") and before in ("my", "a", "the", "with", "own"):
        return False  # "with a calibrated probe"
    if action == "adjusted":
        if verb.startswith(("open", "clos")) and not any(
            any(a in n for a in word_set("opened_by_turns")) for n in names
        ):
            return False  # "opened it half a turn" is said of what has a stem
        if verb.startswith(("open", "clos", "crack")) and any(
            talk.words[k] in word_set("only_opened") for t in things for k in range(t.start - 1, t.end)
        ):
            return False  # "opening the liquid valve a quarter turn": it lets the gas in
        if verb in word_set("setting_verbs"):
            if not any(any(a in n for a in word_set("settable")) and "gasket" not in n for n in names):
                return False
            if verb.startswith("turn") and after[:1] in (("off",), ("on",)):
                return False
            if verb in ("set", "setting") and after[:1] in (("aside",), ("on",), ("in",), ("down",)):
                return False
            if (
                verb == "reset"
                and not any(any(a in n for a in ("timer", "defrost timer")) for n in names)
                and not (
                    after[:1] == ("to",)
                    and set(talk.words[last : min(end, last + 5)]) & word_set("set_to_do")
                )
            ):
                return False  # "reset the overload"; not "reset that switch to go out at fifteen"
            if (
                verb in ("raised", "raise", "raising")
                and not any("set" in w for w in talk.words[hit.start : min(last + 4, end)])
                and not any(
                    "thermostat" in n or "control" in n or "pressure" in n or "float" in n for n in names
                )
            ):
                return False
            if any(
                talk.words[k] == "to" and talk.words[k + 1] in word_set("only_to_test")
                for k in range(last, min(last + 5, end - 1))
            ):
                return False  # "turned the stat down to hear the relay click"
            if verb.startswith("bump") and talk.words[last : last + 1] == ("with",):
                return False  # "the bin stat, bumped it with ice"
            if passive and verb in ("set", "reset"):
                return False  # "the timer was set for four a day" tells how it was found
        elif not any(any(a in n for a in ADJUSTABLE) for n in names):
            return False
        if any(n in ("terminal", "valve core") for n in names) and verb.startswith(("torqu", "nip", "snug")):
            return False
        if verb.startswith("torqu") and any(n.endswith(("motor", "valve", "compressor")) for n in names):
            return False  # bolts and stems are torqued, nothing is set
        if any(n == "valve core" for n in names) and any(
            w in ("cap", "caps") for w in talk.words[max(0, hit.start - 8) : hit.start]
        ):
            return False  # "caps on, cores tightened"
        if verb.startswith("torqu") and any("flare" in n for n in names):
            return False  # fastened, not adjusted
    if verb.startswith("nip") and (after[:1] == ("off",) or talk.words[hit.end : hit.end + 1] == ("off",)):
        return False  # "nipped the old flare off": cut, not tightened
    if verb.startswith("nip") and any(
        w in ("cap", "caps") for w in talk.words[max(0, hit.start - 8) : hit.start]
    ):
        return False
    if verb.startswith("brush") and any(
        w.startswith("soap") for w in talk.words[hit.end : min(end, last + 5)]
    ):
        return False  # a leak test
    if names == ["hose"] and of_the_pump(talk, hit.start):
        return False
    if (
        action in ("installed", "replaced")
        and verb in ("put", "stuck", "clipped", "hung", "threw", "popped", "slapped")
        and things
        and not any(w == "new" for w in talk.words[hit.start : things[0].start])
        and talk.words[things[0].start] in word_set("put_on_to_test")
        and ("on" in talk.words[hit.start + 1 : hit.end] or after[:1] in (("on",), ("across",)))
    ):
        return False  # "put a clamp on it"
    if action in ("installed", "replaced") and things and _only_put_to_use(talk, hit, things, last, end):
        return False
    if action == "cleaned" and verb.startswith(("blow", "blew")) and after[:1] == ("through",):
        return False  # swept
    if action == "cleaned" and verb.startswith("flush") and word_set("sweeping_gas") & set(after[:4]):
        return False  # swept as well: "flushed it with nitrogen"
    if action == "cleaned":
        if verb.startswith(("blow", "blew")) and any(
            "fuse" in n
            or n in ("compressor", "contactor", "capacitor", "transformer", "control board", "breaker")
            for n in names
        ):
            return False
        if verb in ("clear", "cleared", "clearing") and any(
            n in ("control board", "thermostat", "breaker") for n in names
        ):
            return False
        if verb in ("blow", "blew", "blown", "blowing") and not any(
            n in part_words("cleanable") or "coil" in n or "drain" in n or "condenser" in n for n in names
        ):
            return False
        if verb in ("sand", "sanded", "polished") and any("contactor" in n for n in names):
            return True
        if verb.startswith(("soak", "foam", "steam", "flush", "clean", "jet")) and any(
            n in ("suction line", "liquid line", "discharge line", "line set") for n in names
        ):
            return False
        if verb.startswith("vacuum") and any(
            n in ("suction line", "liquid line", "line set", "compressor") for n in names
        ):
            return False
    return True


def _only_put_to_use(talk: Talk, hit: Hit, things: list[Thing], last: int, end: int) -> bool:
    """Tell whether a tool was put to use for a while: "put a box fan on it till it cooled down"."""
    if talk.words[hit.start] not in word_set("puts_to_use"):
        return False
    thing = things[0]
    told = talk.words[hit.start : thing.start]
    if "new" in told or not any(
        w in thing.name for w in ("fan", "heater", "light", "pump", "blower", "motor")
    ):
        return False
    if not {"a", "an", "my", "our"} & set(told):
        return False
    names = talk.words[thing.start - 1 : thing.end - 1]
    behind = talk.words[last : min(end, last + 8)]
    if behind[:3] == ("in", "front", "of"):
        return True
    own = bool(word_set("fans_put_to_use") & set(names)) or "my" in told or "our" in told
    return own and behind[:1] in (("on",), ("at",), ("in",), ("by",), ("under",), ("over",), ("against",))
