"""The words behind an amount that say what was done with it."""

from __future__ import annotations

from dictate.mentions.movements.mass import Direction
from dictate.mentions.movements.surroundings import inlet_told, phrase_length, through_pump, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.vocabulary.load import word_set

_LEAVES = (",", ".", "and", "before", "then", "in", "into", "to", "with")
"""Words at which the place that gas came out of has been named."""


def direction_behind(talk: Talk, end: int, s1: int) -> tuple[Direction, int] | None:
    """Return the direction that the words behind the amount give, and their place."""
    if (went := it_went(talk, end, s1)) is not None:
        return went
    k = end
    # pass over the refrigerant's name and "of", "the", "was"
    steps = 0
    joined = False
    while k < s1 and steps < 7:
        rest = talk.words[k:s1]
        if rest[:2] == ("in", "total"):
            k, steps = k + 2, steps + 1
            continue
        n_in, n_out = phrase_length(rest, "after_in"), phrase_length(rest, "after_out")
        if joined and (n_in or n_out) and talk.number_at(k + max(n_in, n_out)):
            return None  # "two pounds ten and charged three pounds four"
        into = next((n for n, w in enumerate(rest[:2]) if w in ("into", "in")), None)
        if rest[:2] == ("of", "liquid") and any(
            w in word_set("stage_out") for w in talk.words[talk.scopes.sentence(end)[0] : s1]
        ):
            return None  # "thirty pounds of liquid first, that's the recovery"
        last = rest[max(n_in, n_out) - 1 : max(n_in, n_out)]
        beyond = rest[max(n_in, n_out) : max(n_in, n_out) + 4]
        if last == ("in",) and set(beyond) & word_set("lengths_of_time") and beyond[:1] != ("in",):
            return None  # "two pounds gone in a month"
        if last == ("out",) and set(beyond) & word_set("leaks_out_of"):
            return None  # "two pounds got out through the leak"
        if n_in and into is not None:
            told = rest[into + 1 : into + 5]
            # "in off the little bottle", "in from the jug" is where it came from
            stop = next((n for n, w in enumerate(told) if w in (",", ".", "and", "from", "off")), len(told))
            if vessel_in(told[:stop]) and not set(told[:stop]) & word_set("charging_vessels"):
                return "recovered", k  # "went into the recovery cylinder"
        if n_out and n_out <= 3 and poured_from(talk, k, rest):
            return "charged", k
        # "in the tank" is out of the machine: the longer phrase wins.
        if rest[:1] == ("out",) and n_out == 1 and talk.words[k - 1] == "pounds" and inlet_told(talk, k):
            return None  # "thirty pounds in and eighteen pounds out" of chilled water
        if n_out and n_out >= n_in:
            return "recovered", k
        if n_in:
            if (
                rest[:1] == ("in",)
                and n_in == 1
                and len(rest) > 1
                and (rest[1] not in word_set("after_in_alone") or through_pump(talk, k))
            ):
                return None
            return "charged", k
        if k == end and talk.words[k] == "," and phrase_length(rest[1:], "after_weighed"):
            return ("recovered" if phrase_length(rest[1:], "after_out") else "charged"), k + 1
        word = talk.words[k]
        joined = joined or word == "and"
        if word in word_set("passed_over_behind") or talk.in_name(k):
            k += 1
            steps += 1
            continue
        return None
    return None


def it_went(talk: Talk, end: int, s1: int) -> tuple[Direction, int] | None:
    """Return the way that a pronoun's verb tells: "350 grams to get rid of, and it went in the bottle"."""
    for k in range(end, min(s1, end + 16) - 3):
        if talk.words[k] not in ("went", "goes", "put") or any(end <= a < k for a, _ in talk.mass_spans):
            continue
        lead = [w for w in talk.words[max(end, k - 3) : k] if w not in ("all", "was", "got", "just", "then")]
        if lead[-1:] not in (["it"], ["that"], ["which"], ["they"]):
            continue
        tail = talk.words[k + 1 : k + 7]
        stops = (",", ".", "and", "then", "but", "from", "off", "out")
        stop = next((n for n, w in enumerate(tail) if w in stops), len(tail))
        tail = tail[:stop]
        if tail[:1] in (("in",), ("into",), ("to",)) and vessel_in(tail):
            return ("charged" if set(tail) & word_set("charging_vessels") else "recovered"), k
    return None


def poured_from(talk: Talk, k: int, rest: tuple[str, ...]) -> bool:
    """Tell whether gas came out of a cylinder, so went in: "two cylinders: nine pounds out of one"."""
    if rest[:2] not in (("out", "of"), ("out", "from"), ("came", "from"), ("off", "of")):
        return False
    told = rest[2:6]
    stop = next((n for n, w in enumerate(told) if w in _LEAVES), len(told))
    told = told[:stop]
    if vessel_in(told):
        return True
    s0, _ = talk.scopes.sentence(k)
    picked = told[-1:] and told[-1] in word_set("one_of_several") and not set(told) & word_set("gas_places")
    return bool(picked) and vessel_in(talk.words[s0:k])


def status_behind(talk: Talk, k: int, end: int) -> str | None:
    """Return what became of the work whose words stand behind the amount at word k."""
    if talk.scopes.kind(k) in ("past", "ing") and talk.words[k] != "left":
        return talk.scopes.verb(k)
    return talk.scopes.noun(end - 1, end)
