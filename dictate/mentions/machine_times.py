"""Whether a time or a length said with its unit was read off the machine, by what happened beside it.

"it terminated on its own at nineteen minutes", "hums 8 seconds and clicks off", "timed it, six minutes",
"it kicked out at fifty six. Eleven minutes." are times of the machine; waiting, driving and working times are
not. "three eighths of ice on the plate", "12 mm of play" were measured; the size of a pipe was not.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.word_lists import phrase_at, word_list

_STOPS = frozenset((".", ",", ";", "?", "!", "but"))
_LEADS = frozenset(("at", "after", "in", "within", "for"))
_TAKES = frozenset(("in", "within", "after", "took", "takes", "taking", "over"))
_BACK = 9  # words before a time in which the event stands that it was timed by


def on_a_stopwatch(number: Number) -> bool:
    """Tell whether a number is said as minutes and seconds are: "one fifty", "two oh five"."""
    digits = number.form == "digits" and 100 <= number.value < 1000 and number.value % 100 < 10
    return digits or (number.form == "pair" and number.value % 100 < 60)


def timed_by_event(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether the time at words [start, end) of the sentence [first, last) is one of the machine."""
    if _of_something_else(words, first, last, start, end):
        return False
    lead = _before_rough_words(words, first, start)
    return (
        _ended(words, first, lead)
        or _until_it_ended(words, first, last, lead, end)
        or _on_the_watch(words, first, start)
        or _on_and_off(words, first, last, start, end)
        or _alone_behind_an_end(words, first, last, lead, end)
        or _next_of_them(words, first, lead)
        or _took_all_of_it(words, first, lead)
        or _down_in(words, first, last, lead, end)
        or _from_level_to_level(words, first, lead)
        or _level_of_a_batch(words, first, lead)
        or _of_a_thing(words, first, lead)
        or _then_it_ended(words, first, last, lead, end)
        or _let_it_end(words, first, lead)
        or _shown_to_run(words, first, lead)
        or _behind_an_end(words, first, last, lead, end)
        or _goes_through(words, first, last, start, end)
    )


def lasted_so_long(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether a time, of hours as well, is how long the machine took for something that it does."""
    if _of_something_else(words, first, last, start, end):
        return False
    lead = _before_rough_words(words, first, start)
    return _from_level_to_level(words, first, lead) or _of_a_thing(words, first, lead)


def _of_something_else(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether work, waiting or hearsay is spoken of in the clause of a time."""
    behind = min(last, end + 5)
    near = words[max(first, start - 6) : _clause_end(words, end, behind)]
    others = word_list("machine_time_others")
    return not others.isdisjoint(near) or not word_list("machine_time_hearsay").isdisjoint(words[end:behind])


def _clause_end(words: Sequence[str], at: int, last: int) -> int:
    """Return where the clause ends that words [.., at) stand in: what comes behind is of another matter."""
    while at < last and words[at] not in _STOPS and words[at] != "and":
        at += 1
    return at


def _before_rough_words(words: Sequence[str], first: int, at: int) -> int:
    """Return the word behind the last one before `at` that is not "about", "only", "just"."""
    while at > first and words[at - 1] in word_list("machine_time_rough"):
        at -= 1
    return at


def _clause_start(words: Sequence[str], first: int, at: int) -> int:
    while at > first and words[at - 1] not in _STOPS:
        at -= 1
    return at


def _by_somebody(words: Sequence[str], begin: int, verb: int, size: int) -> bool:
    """Tell whether a person does it: "I shut off", "shut off the pump"; the machine does what has no doer."""
    if words[verb] in {"fell", "falls", "slid", "slides", "terminated", "terminates"}:
        return False  # "the ice fell off the plate": nobody does that to a thing
    return not word_list("machine_time_people").isdisjoint(words[begin:verb]) or words[
        verb + size : verb + size + 1
    ] in (["the"], ["my"], ["her"], ["it"], ["them"], ["that"])


def _an_end(words: Sequence[str], begin: int, stop: int) -> bool:
    """Tell whether the machine begins or ends something in the words [begin, stop)."""
    for i in range(begin, stop):
        size = phrase_at("machine_time_ends", words, i)
        if size and i + size <= stop and not _by_somebody(words, begin, i, size):
            return True
        # "the flow switch stopped the machine", "the overload drops it out": a part does it
        part = not word_list("machine_time_doers").isdisjoint(words[begin:i])
        if part and words[i] in word_list("machine_time_stops_it"):
            return True
    return False


def _ended(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "it ended by itself at forty-eight degrees after | seventeen minutes"."""
    if lead == first or words[lead - 1] not in _LEADS:
        return False
    begin = max(_clause_start(words, first, lead), lead - _BACK)
    return _an_end(words, begin, lead - 1)


def ends_before(words: Sequence[str], first: int, lead: int) -> bool:
    """Tell whether the machine begins or ends something in the clause in front of "in", "after"."""
    begin = max(_clause_start(words, first, lead), lead - _BACK)
    return _an_end(words, begin, lead)


def ended_at(words: Sequence[str], first: int, lead: int) -> bool:
    """Tell whether a defrost was said to end right in front of "at": "terminated on temp | at 58"."""
    i = lead
    while i > first and words[i - 1] in word_list("machine_time_by_what"):
        i -= 1
    return any(
        i - n >= first and phrase_at("machine_time_defrost_ends", words, i - n) == n for n in (1, 2, 3, 4)
    )


def _until_it_ended(words: Sequence[str], first: int, last: int, lead: int, end: int) -> bool:
    """Read "hums | 8 seconds and clicks off", "runs for | forty seconds and trips out"."""
    at = lead - 1 if lead > first and words[lead - 1] == "for" else lead
    begin = max(_clause_start(words, first, at), at - 5)
    runs = [i for i in range(begin, at) if words[i] in word_list("machine_time_runs")]
    if not runs or not word_list("machine_time_people").isdisjoint(words[begin : runs[-1]]):
        return False
    if words[runs[-1]] in word_list("machine_time_sounds"):
        return True
    if words[runs[-1] + 1 : runs[-1] + 2] in (["it"], ["the"], ["her"], ["them"]):
        return False  # "ran it for 20 minutes"
    tail = end + 1 if end < last and words[end] == "," else end
    if tail >= last or words[tail] not in {"and", "then", "before", "until", "till"}:
        return False
    stop = next((i for i in range(tail, last) if words[i] in _STOPS), last)
    return _an_end(words, tail, min(stop, tail + 8))


def _on_the_watch(words: Sequence[str], first: int, start: int) -> bool:
    """Read "timed it, | six minutes forty", "I clocked | four minutes"."""
    before = words[max(first, start - 5) : start]
    return not word_list("machine_time_watch").isdisjoint(before)


def _on_and_off(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Read "| 40 seconds on and two minutes off", "off for | 3 minutes", and the other one."""
    lead = [w for w in words[max(first, start - 3) : start] if w not in word_list("machine_time_rough")]
    led = lead[-2:] if lead[-1:] == ["for"] else []
    if led[:1] in (["on"], ["off"]) and (
        end >= last or words[end] in _STOPS or words[end] in {"and", "then"}
    ):
        other = "off" if led[0] == "on" else "on"
        around = [*words[max(first, start - 10) : start - 2], *words[end : min(last, end + 4)]]
        if led[0] == "off" and not {"ran", "runs"}.isdisjoint(around):
            return True  # "she ran forty seconds, off for about three minutes, ran forty again"
        return other in around and "for" in around
    if end >= last or words[end] not in {"on", "off"}:
        return False
    other = "off" if words[end] == "on" else "on"
    behind = words[end + 1 : end + 2]
    closes = not behind or behind[0] in _STOPS or behind[0] == "and"
    return closes and (
        other in words[end + 1 : min(last, end + 8)] or other in words[max(first, start - 4) : start]
    )


def _alone_behind_an_end(words: Sequence[str], first: int, last: int, lead: int, end: int) -> bool:
    """Read "it kicked out at fifty six. | Eleven minutes."."""
    rest = [w for w in words[end:last] if w not in word_list("machine_time_rough") and w not in _STOPS]
    if lead != first or rest or not first:
        return False
    stop = first - 1
    begin = max(_clause_start(words, 0, stop), stop - _BACK)
    return words[stop] in {".", "!"} and _an_end(words, begin, stop)


def _behind_an_end(words: Sequence[str], first: int, last: int, lead: int, end: int) -> bool:
    """Read "coil got to 58 and she came off, | 5 minutes 20", "till it kicked off, | 22 minutes"."""
    if lead <= first or words[lead - 1] not in {",", "-"} or (end < last and words[end] not in _STOPS):
        return False
    begin = _clause_start(words, first, lead - 1)
    if not word_list("machine_time_away").isdisjoint(words[begin : lead - 1]):
        return False
    # The end closes the clause: "... and she came off".
    return any(
        phrase_at("machine_time_ends", words, lead - 1 - n) == n
        and not _by_somebody(words, begin, lead - 1 - n, n)
        for n in (1, 2, 3)
        if lead - 1 - n >= begin
    )


def _goes_through(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Read "takes | 26 minutes to clear", "| sixteen seconds to empty", "runs | 3 minutes, stops"."""
    size = phrase_at("machine_time_behind", words, end)
    closes = end + size >= last or words[end + size] in _STOPS or words[end + size] == "and"
    begin = _clause_start(words, first, start)
    people = not word_list("machine_time_people").isdisjoint(words[begin:start])
    if size and closes and not people:
        return True
    runs = start > first and words[start - 1] in {"runs", "ran", "run"} and begin >= start - 5
    stops = words[end : end + 1] == [","] and phrase_at("machine_time_ends", words, end + 1) > 0
    return runs and stops and not people


def _next_of_them(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "the last one was | 31 minutes", "second one | 21 minutes", "ran a third batch, | 20 minutes"."""
    begin = _clause_start(words, first, lead)
    if lead - begin > 5:
        return False
    said = list(words[begin:lead])
    while said and said[-1] in {"was", "took", "ran", "is", "lasted", "now", ":"}:
        said.pop()
    if not said and begin > first and words[begin - 1] == ",":
        said = list(words[max(first, begin - 3) : begin - 1])
    if said[:1] in (["the"], ["and"], ["then"], ["my"]):
        said = said[1:]
    if len(said) != 2 or said[0] not in word_list("machine_time_which"):
        return False
    if said[1] not in word_list("machine_time_rounds"):
        return False
    cycles = word_list("machine_time_cycles")
    return said[1] in cycles or not cycles.isdisjoint(words[max(0, begin - 30) : begin])


def _took_all_of_it(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "ran a cycle with two trays, seventy at the start and three at the finish, took | 84 minutes"."""
    if lead - 2 <= first or words[lead - 1] not in {"took", "taking", "in", "for"} or words[lead - 2] != ",":
        return False
    cycles = word_list("machine_time_cycles")
    for i in range(lead - 3, max(first, lead - 30), -1):
        if words[i] not in cycles:
            continue
        behind = words[i + 1]
        told = words[i - 1] in word_list("machine_time_one") or words[i - 2] in word_list("machine_time_one")
        return told and (behind in _STOPS or behind in word_list("machine_time_goes_on"))
    return False


def _down_in(words: Sequence[str], first: int, last: int, lead: int, end: int) -> bool:
    """Read "62 down to 3, | 71 minutes": how long a load took from one temperature to another."""
    before = words[max(first, lead - 6) : lead]
    if before[-1:] != [","] or (end < last and words[end] not in _STOPS):
        return False
    return any(tuple(before[i : i + 2]) == ("down", "to") for i in range(len(before) - 2))


def _from_level_to_level(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "from 65 to 3 in | 85 minutes", "70 to 3 degrees took | 85 minutes": so long a load took."""
    if lead == first or words[lead - 1] not in _TAKES:
        return False
    begin = max(_clause_start(words, first, lead), lead - 12)
    said = list(words[begin : lead - 1])
    if not word_list("machine_time_people").isdisjoint(said):
        return False
    moved = next((i for i in range(len(said) - 1, 0, -1) if said[i] == "to"), 0)
    if moved > 1 and said[moved - 1] in {"down", "up"}:
        said, moved = [*said[: moved - 1], *said[moved:]], moved - 1
    return moved > 0 and _is_number(said[moved - 1]) and any(_is_number(w) for w in said[moved + 1 :])


def _level_of_a_batch(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "then a real batch, 72 at the start, three degrees after | 81 minutes": so long a load took."""
    if lead - 2 <= first or words[lead - 1] not in {"after", "at", "in"}:
        return False
    at = lead - 2
    while at > first and words[at] in {
        "degrees",
        "degree",
        "core",
        "c",
        "celsius",
        "inside",
        "center",
        "centre",
    }:
        at -= 1
    if not _is_number(words[at]):
        return False
    said = words[max(0, at - 30) : at]
    if not {"pump", "micron", "microns", "nitrogen", "vacuum"}.isdisjoint(said):
        return False
    return not word_list("machine_time_batches").isdisjoint(said)


def _of_a_thing(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "fill is | a minute fifty", "pump down takes | 40 seconds", "it takes | 3 hours now"."""
    if lead == first or words[lead - 1] not in word_list("machine_time_lasts"):
        return False
    begin = max(_clause_start(words, first, lead), lead - _BACK)
    said = words[begin : lead - 1]
    if said[-1:] in (["it"], ["she"]) and words[lead - 1] == "takes":
        return True
    if not word_list("machine_time_people").isdisjoint(said):
        return False
    return any(phrase_at("machine_time_things", words, i) for i in range(begin, lead - 1))


def _is_number(word: str) -> bool:
    return word in NUMBER_WORDS or word.replace(".", "", 1).isdigit()


def _then_it_ended(words: Sequence[str], first: int, last: int, lead: int, end: int) -> bool:
    """Read "locked rotor for | 4 seconds, then clicks off": the machine ends it, nobody is spoken of."""
    if lead == first or words[lead - 1] not in {"for", "sits", "sat"} or end >= last:
        return False
    tail = end + 1 if words[end] in {",", "and"} else end
    if words[tail : tail + 1] not in (["then"], ["before"], ["until"], ["till"]):
        return False
    begin = _clause_start(words, first, lead)
    if not word_list("machine_time_people").isdisjoint(words[begin:lead]):
        return False
    stop = next((i for i in range(tail, last) if words[i] in _STOPS), last)
    return _an_end(words, tail, min(stop, tail + 6))


def _let_it_end(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "let it terminate by itself, took | 26 minutes", "I let it do one, | 6 minutes"."""
    at = lead - 1 if lead > first and words[lead - 1] in _TAKES else lead
    if at - first < 3 or words[at - 1] not in {",", "and", ":", "."}:
        return False
    begin = max(_clause_start(words, first, at - 1), at - _BACK)
    said = words[begin : at - 1]
    if "let" not in said:
        return False
    behind = said[said.index("let") + 1 :]
    return behind[:1] != ["me"] and any(
        phrase_at("machine_time_through", behind, i) for i in range(len(behind))
    )


def _shown_to_run(words: Sequence[str], first: int, lead: int) -> bool:
    """Read "the clock said it ran | eleven minutes": what counts the time says so."""
    if lead - first < 4 or words[lead - 1] not in {"ran", "took", "lasted", "went", "needed"}:
        return False
    begin = max(_clause_start(words, first, lead), lead - 7)
    said = words[begin : lead - 1]
    shows = [i for i, w in enumerate(said) if w in {"said", "says", "shows", "showed", "shown", "has", "had"}]
    return bool(shows) and not word_list("machine_time_doers").isdisjoint(said[: shows[0]])


def size_of_a_thing(words: Sequence[str], end: int) -> bool:
    """Tell whether a thing that is sold by its size stands behind a length: "a half inch strap"."""
    return words[end : end + 1] != ["off"] and not word_list("length_sized").isdisjoint(words[end : end + 1])


def measured_length(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether a length was measured on the machine (ice, frost, a gap) and is no size of a pipe."""
    behind = words[end : min(last, end + 3)]
    if not word_list("length_sized").isdisjoint(behind[:2]) and not phrase_at("length_behind", words, end):
        return False
    if phrase_at("length_behind", words, end):
        return True
    begin = max(_clause_start(words, first, start), start - 6)
    before = words[begin:start]
    return word_list("length_sized").isdisjoint(before[-3:]) and not word_list("length_of").isdisjoint(before)


_ICE_NEAR = 60
"""Words around a catch test in which it shows that ice is made."""


def _caught_in_minutes(words: Sequence[str], begin: int, start: int, end: int) -> bool:
    """Tell whether a machine gave so much in so many minutes: "caught eleven ounces in five minutes"."""
    if words[end : end + 1] not in (("in",), ["in"], ("over",), ["over"]):
        return False
    if {"minute", "minutes", "min"}.isdisjoint(words[end + 1 : end + 5]):
        return False
    if word_list("ice_caught").isdisjoint(words[begin:start]):
        return False
    return not word_list("ice_near").isdisjoint(words[max(0, start - _ICE_NEAR) : end + 20])


def ice_weighed(words: Sequence[str], first: int, start: int, end: int) -> bool:
    """Tell whether a mass is what the machine made: "first batch 4.6 pounds", "3.2 pounds a cycle"."""
    begin = max(first, start - 6)
    said = words[begin:start]
    if not word_list("ice_removed").isdisjoint((*said, *words[end : end + 4])):
        return False  # "two kilos of ice knocked off"
    if phrase_at("ice_behind", words, end):
        return True
    if not word_list("ice_not").isdisjoint(said):
        return False
    if _caught_in_minutes(words, begin, start, end):
        return True
    return any(phrase_at("ice_before", words, i) for i in range(begin, start))
