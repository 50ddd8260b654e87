"""A verb of handling with its parts."""

from __future__ import annotations

import re
from dataclasses import replace

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.fits import is_a_doing
from dictate.mentions.handled.narrowed import as_corrected
from dictate.mentions.handled.new_or_back import came_from_supply, named_as_any, put_where_one_failed
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import (
    capacitor_rated,
    named_in_row_before,
    numbered_part,
    other_one,
    part_left_out,
    part_meant,
    rated_part,
)
from dictate.mentions.handled.rows import behind_apposition
from dictate.mentions.handled.subjects import has_no_object, is_passive, part_in_front, subjects_before
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS, Hit
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_TRIPS = tuple(("out", w) for w in ("on", "at", "when", "after", "every", "again", "within", "because", "as"))
"""What stands behind "cut" where a machine trips and nothing is taken out."""


def counts_something(talk: Talk, k: int) -> bool:
    """Tell whether word k is part of a longer number, or a number with a unit: no "two of them"."""
    word = talk.words[k]
    behind = talk.words[k + 1 : k + 2]
    if word == "one" and behind and behind[0] in NUMBER_WORDS and behind[0] != "one":
        return True  # "it was bumping one ninety"
    if word in ("one", "ones") or not (word in NUMBER_WORDS or word[:1].isdigit()):
        return False
    if (behind and behind[0] in word_set("rating_units")) or talk.words[k - 1] == "number":
        return False
    if word in ("hundred", "thousand") or (
        behind[:1] == ("and",) and talk.words[k + 2 : k + 3] != () and talk.words[k + 2] in NUMBER_WORDS
    ):
        return True  # "popped the hundred and sixty in": an amount
    if not behind or behind[0] in (".", ",", "in", "on", "and", "of"):
        return word[:1].isdigit() and float(re.sub(r"[^0-9.]", "", word) or 0) > 12
    return True


def to_be_put_in(talk: Talk, verb: int, start: int, action: str) -> bool:
    """Tell whether a passive to come has "it" or nothing for its subject ("it'll be fitted")."""
    if action not in ("replaced", "installed") or talk.words[verb - 1] not in ("be", "gets"):
        return False
    told = talk.words[max(start, verb - 5) : verb]
    return any(w in ("it", "it'll", "they'll", "they", "that", "that'll", "and", "those") for w in told)


def both_capacitors(talk: Talk, things: list[Thing]) -> list[Thing]:
    """Return the parts with "both caps" told as the start and the run capacitor, where both were told of."""
    out = []
    for thing in things:
        out.append(thing)
        if not (thing.plural and thing.name.endswith("capacitor") and talk.words[thing.start - 1] == "both"):
            continue
        if talk.words[thing.start] not in ("caps", "capacitors"):
            continue
        told = {t.name for t in talk.things if t.start < thing.start and thing.start - t.start < 300}
        pair = {"start capacitor", "run capacitor"}
        if pair <= told:
            out[-1] = replace(thing, name="start capacitor", part="start capacitor", plural=False)
            out.append(replace(thing, name="run capacitor", part="run capacitor", plural=False))
    return out


def _of_a_fastener(talk: Talk, referent: Thing, verb: int) -> bool:
    """Tell whether "it" is a screw or a clip of that part ("panel screw was gone, put one in")."""
    if talk.w.sentence_of[referent.start] != talk.w.sentence_of[verb]:
        return False
    return any(
        w in word_set("small_fasteners")
        and talk.thing_over(k) is None
        and talk.words[k + 1] in word_set("behind_a_fastener")
        for k, w in enumerate(talk.words[referent.end : referent.end + 4], referent.end)
    )


def _rated_and_no_old_one(talk: Talk, hit: Hit, thing: Thing, start: int) -> bool:
    """Tell whether a rating opens the sentence before the part ("eight mike capacitor fitted")."""
    if talk.words[hit.start].startswith("re") or thing.name in part_words("no_part"):
        return False
    head = talk.words[start : thing.start]
    number = bool(head) and (head[0] in NUMBER_WORDS or head[0][:1].isdigit())
    return number and len(head) <= 6 and head[-1] in word_set("rates_a_part")


def _gone_down(talk: Talk, hit: Hit, thing: Thing) -> bool:
    """Tell whether the drain is only where the dirt went ("a rinse, fair bit of muck down the drain")."""
    down = talk.words[max(0, thing.start - 2) : thing.start]
    return (
        thing.name == "drain line"
        and thing.start > hit.end
        and down[:1] == ("down",)
        and talk.words[hit.start].startswith(tuple(word_set("down_the_drain")))
    )


_SAID_WITH_IT = 8
"""Words before "tightened them" in which caps or a scale may be named that it is said of."""


def _of_no_part(talk: Talk, verb: int, start: int) -> bool:
    """Tell whether a pronoun stands for no part: "put the caps on and tightened them"."""
    if not talk.words[verb].startswith(tuple(word_set("done_to_caps"))):
        return False  # "took the cap off and opened it half a turn" is of the valve under it
    near = talk.words[max(start, verb - _SAID_WITH_IT) : verb]
    return not word_set("stands_for_it_too").isdisjoint(near)


def _one_of_else(talk: Talk, hit: Hit) -> bool:
    """Tell whether "one" is of a cap or another thing that is no part: "dropped one cap down the drain"."""
    return talk.words[hit.end : hit.end + 1] == ("one",) and talk.words[hit.end + 1] in word_set(
        "stands_for_it_too"
    )


def _is_a_setting(talk: Talk, hit: Hit, end: int) -> bool:
    """Tell whether a number was put where a setting had another: "I put twelve", behind a set point."""
    told = talk.words[hit.end : end]
    number = (
        told[:1] != ()
        and (told[0] in NUMBER_WORDS or told[0][:1].isdigit())
        and told[1:2] in ((".",), (",",), ())
    )
    before = talk.words[max(0, hit.start - 9) : hit.start]
    return number and ("set" in before or not word_set("settings_told").isdisjoint(before))


def _under_gas(follows: tuple[str, ...], behind: tuple[str, ...]) -> bool:
    """Tell whether the words behind a verb put a system under gas: "it | in dry nitrogen"."""
    if follows[1:2] not in (("in",), ("under",), ("on",)) or follows[0] not in word_set("system_pronouns"):
        return False
    gas = behind[1:] if behind[:1] in (("dry",), ("some",)) else behind[:1]
    return not word_set("nitrogen_names").isdisjoint(gas)


def doing_of_verb(talk: Talk, hit: Hit) -> Handled | None:
    """Read one verb with its objects."""
    verb = hit.verb if hit.verb is not None else hit.start
    action = hit.label
    name = talk.thing_over(verb)
    if name is not None and (talk.scopes.kind(verb) != "past" or name.start < verb):
        return None  # the verb's form is part of a name: "set screw", "fan cycle switch"
    if talk.scopes.kind(verb) == "base" and talk.scopes.like_a_noun(verb, talk.scopes.sentence(verb)[0]):
        return None
    follows = talk.words[verb + 1 : verb + 3]
    if follows in _TRIPS or (talk.words[verb] == "set" and follows[:1] in (("point",), ("points",))):
        return None  # "it's cutting out on the low pressure switch", "set point 34 on the control"
    if _under_gas(follows, talk.words[verb + 3 : verb + 5]):
        return None  # "put it in nitrogen at fifty pounds"
    misheard = hit.line in ("braced in", "raised in")  # for "brazed in"
    status = talk.scopes.noun(verb, verb + 1) if misheard else talk.scopes.verb(verb)
    if status is None:
        return None
    if talk.words[verb] == "mounted" and verb and talk.words[verb - 1] in word_set("mounting_places"):
        return None  # "wall mounted evap": what kind it is
    if talk.words[verb - 1 : verb] == ("looked",) or (
        verb and talk.words[verb - 1] in ("good", "bad", "too", "very")
    ):
        return None
    start, end = talk.scopes.sentence(verb)
    if talk.words[hit.end : hit.end + 1] == ("neither",):
        status = "not_done"
    things, new, last, pronoun, np = objects_behind(
        talk, verb + 1 if "~" in hit.line else hit.end, end, action
    )
    if action == "adjusted" and not things and pronoun and _of_no_part(talk, verb, start):
        return None
    passive = False
    if (misheard or talk.scopes.kind(verb) == "past") and (not things or is_passive(talk, verb, start)):
        left, left_start, left_new = subjects_before(talk, verb, start)
        if left and (not things or is_passive(talk, verb, start)):
            things, passive, new = left, True, left_new
            last = hit.end
            made_start = left_start
    if passive and action == "replaced" and talk.words[last : last + 1] == (",",):
        joiner = behind_apposition(talk, last, end)
        if joiner is not None:
            more, _, behind, _, _ = objects_behind(talk, joiner + 1, end, action)
            if more:
                things, last = [*things, *more], behind
    if not passive:
        made_start = hit.start
    if (
        not things
        and talk.scopes.kind(verb) == "ing"
        and talk.words[verb - 1] in ("need", "needs", "needing", "wants")
    ):
        things, made_start, new = subjects_before(talk, verb - 1, start)  # "the condenser needs cleaning"
    if (
        not things
        and not pronoun
        and talk.scopes.kind(verb) == "past"
        and talk.words[verb - 1] in ("one", "ones")
    ):
        # "get the new one brazed in"
        pronoun, new = True, "new" in talk.words[max(start, verb - 3) : verb]
    if hit.line in ("that went in", "it went in", "they went in"):
        if hit.start > start and talk.words[hit.start - 1] in ("before", "when", "till", "until", "as"):
            return None
        if talk.words[hit.end : hit.end + 1] not in (
            (".",),
            (",",),
            ("and",),
            ("too",),
            ("also",),
            ("today",),
            ("as",),
        ):
            return None
        things, pronoun, new, np, last = [], True, True, None, hit.end
    if hit.line in ("in it went", "on it went", "in they went", "on they went"):
        things, pronoun, new, np, last = [], True, True, None, hit.end
    unknown = None
    if (
        not things
        and not pronoun
        and talk.words[verb - 1] in ("i", "we")
        and verb - 2 >= start
        and talk.words[verb - 2] in word_set("ordinals")
        and has_no_object(talk, hit.end, end)
    ):
        pronoun = True  # "the third I changed"
    if (
        not things
        and pronoun
        and talk.words[hit.end : hit.end + 1] == (",",)
        and talk.words[verb - 1] == "ones"
    ):
        things, _, last, _, _ = objects_behind(
            talk, hit.end + 1, end, action
        )  # "... ones replaced, 16 watt motors"
    if (
        not things
        and pronoun
        and status == "not_done"
        and any(w in word_set("settings_told") for w in talk.words[max(0, verb - 8) : verb])
    ):
        return None  # "that's the schedule, I didn't change it"
    if not things and pronoun and _is_a_setting(talk, hit, end):
        return None  # "set point was fourteen, I put twelve"
    if not things and pronoun and _one_of_else(talk, hit):
        return None
    if not things and pronoun:
        referent = capacitor_rated(talk, verb) if new else None
        if referent is None and new:
            referent = rated_part(talk, verb, hit.end, last)
        if referent is None and last >= 2:
            referent = numbered_part(talk, verb, last - 2)
        if referent is None and not counts_something(talk, last - 1):
            referent = part_meant(talk, verb, action)
        adjective = talk.words[last - 1 : last] == ("one",) and talk.words[last - 3 : last - 2] in (
            ("a",),
            ("an",),
        )
        if referent is not None and _of_a_fastener(talk, referent, hit.start):
            referent = None
        if adjective and referent is not None and referent.start < start:
            far = talk.w.sentence_of[verb] - talk.w.sentence_of[referent.start] > 1
            referent = None if far else referent  # "put in a replaceable one": of what was just told of
        if referent is not None:
            things = [referent]
            if any(w in word_set("plural_pronouns") for w in talk.words[hit.start + 1 : last + 1]):
                row = named_in_row_before(talk, referent)
                if not row and "both" in talk.words[hit.start + 1 : last + 1]:
                    row = other_one(talk, referent)
                things = [*row, referent]
            elif any(w in word_set("sold_together") for w in talk.words[referent.end : hit.start]):
                things = [*named_in_row_before(talk, referent), referent]  # "... come as a kit. Fitted that"
    if (
        not things
        and not pronoun
        and action == "replaced"
        and talk.words[hit.end : hit.end + 1] in (("was",), ("were",))
    ):
        things, _, last, _, _ = objects_behind(
            talk, hit.end + 1, end, action
        )  # "what I changed was the relay"
    if (
        not things
        and not pronoun
        and action == "replaced"
        and talk.words[verb - 1] in ("got", "was", "is", "'s", "were")
        and (
            talk.words[verb - 2 : verb - 1] in (("that",), ("it",), ("those",), ("both",), ("they",))
            or talk.words[verb - 3 : verb - 1]
            in (("that", "one"), ("this", "one"), ("bad", "one"), ("old", "one"))
        )
    ):
        referent = part_meant(talk, verb - 1, action)
        if referent is not None:
            things, pronoun = [referent], True
    if not things and not pronoun and status == "planned" and to_be_put_in(talk, verb, start, action):
        referent = part_meant(talk, verb, "replaced")
        if referent is not None:
            things, pronoun = [referent], True
    if (
        not things
        and not pronoun
        and action == "replaced"
        and talk.words[hit.end : hit.end + 4]
        in (("for", "a", "new", "one"), ("with", "a", "new", "one"), ("for", "a", "new", "spare"))
    ):
        referent = part_meant(talk, verb, action)
        if referent is not None:
            things, last = [referent], hit.end + 4
    told = talk.words[hit.end : min(end, hit.end + 6)]
    moved = any(told[k : k + 2] in (("to", "the"), ("over", "to"), ("into", "the")) for k in range(len(told)))
    if not things and np in word_set("one_of_them") and {"one", "ones"} & set(told):
        referent = part_meant(talk, verb, action)  # "heaters read eighteen and open. Replaced the open one"
        if referent is not None:
            behind = next(k for k, w in enumerate(told) if w in {"one", "ones"})
            things, pronoun, last = [referent], True, hit.end + behind + 1
    if not things and action == "replaced" and np and not pronoun and not moved:
        unknown = np  # but "swapped the blood to the spare" moves what is in it
    if not things and not pronoun:
        fronted = part_in_front(talk, verb, start)
        if fronted is not None and has_no_object(talk, hit.end, end):
            things, unknown, made_start, last = [fronted], None, fronted.start, hit.end
    if not things and not pronoun and unknown is None:
        referent = part_left_out(talk, verb, hit, action)
        if referent is not None:
            both = talk.words[verb - 1] == "both" and not referent.plural
            things = [*(other_one(talk, referent) if both else []), referent]
    if not things and unknown is None:
        return None
    if passive and action == "installed" and not new:
        head = talk.words[made_start : things[0].start]
        new = any(w in NUMBER_WORDS or w.isdigit() for w in head) and not any(
            t.name in part_words("no_part") for t in things
        )  # "two door gaskets fitted"
        new = new or _rated_and_no_old_one(talk, hit, things[0], start)
    if action == "installed" and not new and not passive and not pronoun:
        new = named_as_any(talk, hit, things, last, end)
    if action == "installed" and not new and pronoun and things and things[-1].start < verb:
        new = "back" not in talk.words[verb : verb + 4] and (
            came_from_supply(talk, things[-1], verb)
            or talk.words[hit.end : last] in (("one",), ("another",), ("another", "one"))
            or talk.words[hit.end : hit.end + 2] == ("one", "of")
            or any(w in word_set("own_stock") for w in talk.words[last : min(end, last + 4)])
        )
    if not is_a_doing(talk, action, hit, things, new, last, passive):
        return None
    if action == "installed" and not new and pronoun:
        # "got another one off the truck and fitted that"
        told = talk.words[start:verb]
        new = any(
            told[k : k + 2]
            in (
                ("another", "one"),
                ("another", "off"),
                ("another", "from"),
                ("new", "one"),
                ("spare", "one"),
                ("replacement", "one"),
                ("fresh", "one"),
                ("ordered", "one"),
                ("ordered", "a"),
            )
            for k in range(len(told))
        ) or any(
            told[k : k + 2] == ("another", t)
            for k in range(len(told))
            for x in things
            for t in (talk.words[x.start],)
        )
    if action == "installed" and not new and pronoun and things and things[-1].start < verb:
        new = came_from_supply(talk, things[-1], verb)
    if action == "installed" and talk.words[hit.end : hit.end + 2] == ("one", "of"):
        new = True  # "put one of those in"
    if action == "installed" and not new and not passive and not pronoun and things:
        new = put_where_one_failed(talk, hit, things, last, end)
    if action == "installed" and not new and things:
        new = talk.words[last : last + 3] in (("in", "its", "place"), ("in", "their", "place"))
    if action == "installed" and not new and not passive and things:
        told = talk.words[last : last + 20]
        new = any(told[k : k + 2] in (("old", "one"), ("new", "one")) for k in range(len(told) - 1))
    if pronoun and status == "not_done" and hit.line in ("braze!", "sweat!", "solder!"):
        return None  # "no brazing on this"
    if (
        action == "installed"
        and status != "done"
        and not any(t.name in part_words("no_part") for t in things)
    ):
        new = True  # "the gasket isn't fitted, I'll hang it Thursday"
    if action == "repaired" and new and pronoun and things and things[0].start < verb:
        action = "replaced"  # "a new start capacitor fixed it"
    if (
        action == "installed"
        and not new
        and any(w in ("order", "ordered") for w in talk.words[last : min(end, last + 5)])
    ):
        new = True  # "installed the board that was on order"
    if action == "cleaned" and not passive:
        things = [t for t in things if not _gone_down(talk, hit, t)]
    things = as_corrected(talk, things, max(last, hit.end))
    things = both_capacitors(talk, things)
    if not things and unknown is None:
        return None
    if (
        action == "installed"
        and new
        and (
            all(t.part not in part_words("added") for t in things)
            or put_where_one_failed(talk, hit, things, last, end)
        )
    ):
        action = "replaced"
    return Handled(
        action,
        status,
        things,
        made_start,
        max(last, hit.end),
        verb,
        new,
        unknown,
        pronoun and not passive,
    )
