"""Numbers that can be nothing but a time, though other values have the same shape."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt, find_components, find_labels
from dictate.mentions.narration import Narration
from dictate.mentions.not_values.around import excluding, sentence_around
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import word_set

_CLAUSE_ENDS = frozenset((".", ",", ";", "?", "!"))
_WAYS = frozenset(("in", "out"))
_TIME_LEADS = frozenset(("at", "by", "until", "till", "til", "from", "to", "since", "around"))


_TIME_WORKED = {
    ("in", "all"), ("in", "total"), ("on", "site"), ("all", "in"), ("all", "told"), ("all", "up"),
    ("all", "together"), ("on", "this"), ("for", "the"), ("on", "the"), ("on", "it"),
}  # fmt: skip


def minutes_behind_hours(narration: Narration, number: Number) -> bool:
    """Tell whether a number is the minutes of a time worked: "one hour fifty in all"."""
    words = narration.lowers
    if words[number.start - 1 : number.start] not in (["hour"], ["hours"]) or number.value % 5:
        return False
    behind = words[number.end : number.end + 2]
    return number.value < 60 and (behind[:1] in ([], ["."], ["total"]) or tuple(behind) in _TIME_WORKED)


def dotted_time(narration: Narration, number: Number) -> bool:
    """Tell whether the number is a time as a recogniser writes it with a dot: "250 still at 12.10".

    Measured decimals are written without a nought at the end, so full tens and fives of minutes behind "at"
    are a time, and other minutes where a coming or a going is told.
    """
    tokens = narration.tokens
    if not number.written or number.places != 2 or number.negative or not 1 <= number.value < 24:
        return False
    minutes = round(number.value * 100) % 100
    before = [t.lower for t in tokens[max(0, number.start - 6) : number.start]]
    if (
        minutes <= 59
        and number.end not in unit_phrases(narration)
        and _came_or_went(narration, number, minutes)
    ):
        return True
    if (
        minutes > 59
        or before[-1:] == []
        or before[-1] not in _TIME_LEADS
        or number.end in unit_phrases(narration)
    ):
        return False
    lead = number.start - 1
    valued = {n.start for n in find_numbers(narration)}

    def leads_here(end: int) -> bool:
        """Tell whether a thing named before it, with no value in between, may have this value."""
        between = range(end, lead)
        return (
            end <= lead
            and lead - end <= 4
            and valued.isdisjoint(between)
            and not any(tokens[t].lower in _CLAUSE_ENDS for t in between)
        )

    ends = [x.end for x in find_labels(narration)] + [x.end for x in find_components(narration)]
    named = any(leads_here(end) for end in ends)
    told = bool(excluding("clock") & set(before))
    return told or (minutes % 5 == 0 and not named)


def _came_or_went(narration: Narration, number: Number, minutes: int) -> bool:
    """Read "when I left, | 13.00", "switch on | 17.20", "Monday, | 6.40 on site" as times of day.

    No meter shows a nought at the end that the next reading does not have, so full tens of minutes are enough
    beside a coming, a going or a switching that nothing else was read with.
    """
    if minutes % 10:
        return False
    words, start, end = narration.lowers, number.start, number.end
    before, behind = words[max(0, start - 7) : start], words[end : end + 3]
    while before and before[-1] in {",", "at", "about", "around"}:
        before = before[:-1]
    cut = max((i for i, w in enumerate(before) if w in {".", "?", "!"}), default=-1)
    before = before[cut + 1 :]
    if {tuple(behind[:2])} & {("on", "site"), ("at", "site")} or behind[:1] in (
        ["arrived"],
        ["o'clock"],
        ["hrs"],
    ):
        return True
    if before[-1:] in (["on"], ["off"]):
        return not word_list("sure_times_switches").isdisjoint(before)
    tail = before[-2:]
    return not word_list("sure_times_moves").isdisjoint(tail) or not word_list("not_values_days").isdisjoint(
        tail
    )


def surely_time(narration: Narration, number: Number) -> bool:
    """Tell whether a number can be nothing but a time: "nitrogen at ten oh five", "at four thirty it was 38".

    A number of that shape may as well be a pressure or a voltage ("head at two thirty", "12 amps at two oh
    eight"). So a value must stand beside it that the time belongs to.
    """
    if _half_of_day_behind(narration, number) or _clock_started(narration, number):
        return True
    tokens = narration.tokens
    start, end = number.start, number.end
    before = tokens[start - 1].lower if start else ""
    if _minutes_beside_an_hour(narration, number):
        return True
    value = number.value
    if (
        before not in {"at", "by"}
        or not value.is_integer()
        or number.places
        or number.negative
        or not (100 < value < 1260 and value % 100 < 60 and 1 <= value // 100 <= 12)
        or number.form not in {"pair", "digits"}
        or end in unit_phrases(narration)
    ):
        return False
    first, last = sentence_around(tokens, start)
    words = [t.lower for t in tokens[first:last]]
    here = start - first
    if word_list("not_values_electric_words").intersection(words):
        return False
    after = words[end - first] if end < last else "."
    values = [
        n for n in find_numbers(narration) if first <= n.start < last and n.form not in {"ordinal", "clock"}
    ]
    later = any(n.start > end for n in values)
    if after in word_list("not_values_stands") and any(n.start == end + 1 for n in values):
        return True
    if after in {"it", "it's", "i", "we", "she"} and not any(
        x.end <= start and start - x.end <= 3 and x.label.mode is None for x in find_labels(narration)
    ):
        verb = here + (end - start) + (1 if after == "it's" else 2)
        if any(first + verb <= n.start <= first + verb + 1 for n in values):
            return True  # "my first number was at nine forty it was eighty-four"
    if after in {"on", "of", "at", "psi", "head", "suction", "or", "to", "-"}:
        return False
    second = words[here - 2] if here > 1 else "."
    if second in _WAYS and not word_set("of_a_control", "labour").isdisjoint(words[:here]):
        return False  # "cutting out at forty and in at one forty"
    if (
        later
        and (here < 2 or second in {",", ";", "and", "then"})
        and after in word_list("not_values_time_goes_on")
    ):
        return True
    closes = after in {".", ",", ";", "still", "and", "?"}
    if (
        second in {"on", "off"}
        and value > 600
        and closes
        and not word_list("not_values_switches").intersection(words)
    ):
        return True  # "nitrogen on at nine oh eight"
    told = [n for n in values if n.end < start and start - n.end <= 5]
    return (
        closes
        and bool(told)
        and second not in word_list("not_values_presents") | {",", ";"}
        and not any(w in {",", ";"} for w in words[told[-1].end - first : here])
        and not any(label.end == start - 1 and label.start >= told[-1].end for label in _pressures(narration))
    )


def _pressures(narration: Narration) -> list[LabelAt]:
    return [x for x in find_labels(narration) if narration.tokens[x.start].lower not in {"nitrogen", "nitro"}]


def _minutes_beside_an_hour(narration: Narration, number: Number) -> bool:
    """Tell whether a number is a part of "ten of two", "at 25 after", "five to eleven"."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    leads = {"at", "by", "around", "about", "until", "till"}
    for minutes in (number, ends.get(number.start - 1)):
        if minutes is None or minutes.value not in {5, 10, 20, 25} or minutes.places or not minutes.start:
            continue
        link = tokens[minutes.end].lower if minutes.end < len(tokens) else "."
        if link not in {"after", "past", "of", "to", "till", "til", "before"}:
            continue
        if tokens[minutes.start - 1].lower not in leads:
            continue
        hour = starts.get(minutes.end + 1)
        behind = tokens[minutes.end + 1].lower if minutes.end + 1 < len(tokens) else "."
        if hour is None:
            if number is minutes and link in {"after", "past", "till", "til"} and behind in {".", ",", ";"}:
                return True
            continue
        whole = hour.value.is_integer() and 1 <= hour.value <= 12 and not hour.places
        if whole and hour.end not in unit_phrases(narration) and number in (minutes, hour):
            return True
    return False


_DAY_HALVES = frozenset(("morning", "afternoon", "evening"))
_BEFORE_A_TIME = frozenset((",", ".", ":", "at", "by", "around", "about", "since", "before", "after", ""))


def _half_of_day_behind(narration: Narration, number: Number) -> bool:
    """Tell whether "four thirty in the afternoon" stands alone or behind a word that leads to a time."""
    words = narration.lowers
    if words[number.end : number.end + 2] != ["in", "the"] or not _hour_and_minutes(number):
        return False
    before = words[number.start - 1] if number.start else ""
    return words[number.end + 2 : number.end + 3] != [] and (
        words[number.end + 2] in _DAY_HALVES and before in _BEFORE_A_TIME
    )


def _hour_and_minutes(number: Number) -> bool:
    value = number.value
    whole = float(value).is_integer() and not number.negative and not number.places
    return whole and 100 <= value <= 2359 and value % 100 < 60 and number.form in {"pair", "digits"}


def _clock_started(narration: Narration, number: Number) -> bool:
    """Tell whether a sentence begins with a later time of a stand: "clock at one oh two. 1 32, 400 still"."""
    words = narration.lowers
    if not _hour_and_minutes(number) or (number.start and words[number.start - 1] != "."):
        return False
    if words[number.end : number.end + 1] != [","]:
        return False
    numbers = find_numbers(narration)
    near = [n for n in numbers if number.start - 40 <= n.start < number.start]
    told = next((n for n in numbers if number.end < n.start <= number.end + 4), None)
    if told is None or not any(n.value == told.value for n in near):
        return False
    return any(
        words[n.start - 1] == "at" and _hour_and_minutes(n) and 0 < number.value - n.value <= 400
        for n in near
        if n.start
    )
