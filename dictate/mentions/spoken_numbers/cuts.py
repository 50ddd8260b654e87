"""Where a run must be parted before it is read: a name before a value, a value that comes again."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers.atoms import Atom, number_set, number_words, runs_of
from dictate.mentions.spoken_numbers.number import Other
from dictate.mentions.spoken_numbers.segments import best_segments

_HUNDREDS = ("designator", "hundreds")


def pieces_of(narration: Narration, run: list[Atom]) -> Iterator[tuple[list[Atom], tuple[Other, ...]]]:
    """Cut a run where its first digit is a name ("leg two | one eighteen") or a pronoun ("that one |")."""
    tokens = narration.tokens
    first = run[0]
    before = tokens[first.token - 1].lower if first.token else ""
    named = (
        number_set("designator", "said")
        | number_set("designator", "soft")
        | number_set("designator", "written")
    )
    alike = _row_of_alike(narration, run)
    if alike:
        yield from ((run[k : k + alike], ()) for k in range(0, len(run), alike))
        return
    written = len(run) > 1 and first.kind == "N" and len(first.word) == 1 and run[1].kind == "N"
    if (
        written
        and before in named
        and run[1].word[0] == "."
        and len(run) == 2
        and not _named_in_turn(narration, run)
    ):
        # "motor 3 .1 amps" is how "three point one" is written at times; "motor 3" may be its name as well
        joined_up = float(first.word + run[1].word)
        why = f"{before} {first.word} and then {run[1].value:g}, or the one number {joined_up:g}"
        yield run, (Other((run[1].value,), why),)
        return
    if written and before in named:
        yield run[:1], ()
        yield run[1:], ()
        return
    if len(run) > 2 and first.kind == "F" and run[1].word == "one" and before in {"the", "and", ","}:
        # "on the third one twenty-nine": the one may be the thing
        whole, rest = best_segments(run[1:]), best_segments(run[2:])
        if len(whole) == len(rest) == 1 and run[2].kind not in {"H", "K"}:
            one = rest[0][1].value
            yield run[1:], (Other((one,), f'"one" may stand for the thing: then it is {one:g}'),)
            return
    if len(run) > 1 and first.kind == "D" and (_in_turn(narration, run) or _counted_off(narration, run)):
        yield run[:1], ()
        yield run[1:], ()
        return
    if len(run) > 1 and first.kind == "D" and not _determined(narration, run):
        taken_back = before == "no" and run[1].kind == "P" and _number_before(narration, first.token - 1)
        if (
            before in number_set("designator", "said")
            and run[1].kind not in {"H", "K"}  # "second door | four hundred and sixty"
            and not taken_back
            and not _named_already(narration, run)
            and not _ends_in_point_oh(run)
        ):
            yield run[:1], ()
            yield run[1:], ()
            return
        zero = run[1].kind == "Z" and len(run) > 2 and run[2].kind == "P"
        if before in number_set("designator", "soft") and (run[1].kind in {"Y", "T", "D"} or zero):
            rest = best_segments(run[1:])
            joined = best_segments(run)
            sure = len(rest) == 1 and (zero or rest[0][1].value >= 100 or len(joined) > 1)
            if len(rest) == 1 and len(joined) == 1 and not sure:
                sure = _name_by_neighbours(narration, run, joined[0][1].value, rest[0][1].value)
            if sure:
                yield run[:1], ()
                yield run[1:], ()
                return
            if len(rest) == 1 and len(joined) == 1:
                one, two = joined[0][1].value, rest[0][1].value
                why = f"{before} {first.word} and then {two:g}, or the one number {one:g}"
                yield run, (Other((two,), why),)
                return
        if _hyphen_pair(narration, first.token) and len(run) > 2 and len(best_segments(run[2:])) == 1:
            yield run[:1], ()
            yield run[1:2], ()
            yield run[2:], ()
            return
        if before in {"to", "l", "leg", "phase"} and _row_of_pairs(narration, first.token):
            yield run[:1], ()
            yield run[1:], ()
            return
    if len(run) > 1 and first.kind == "D":
        led = (
            before in number_set("pronoun", "split_after")
            and not _came_back(narration, first.token)
            and not _said_anew(narration, first.token)
            and not (before == "same" and _said_before(narration, run))
        )
        if first.word == "one" and led and run[1].kind == "P":
            rest = best_segments(run[1:])
            if len(rest) == 1:
                yield (
                    run,
                    (
                        Other(
                            (rest[0][1].value,),
                            f'"one" may stand for the thing: then it is {rest[0][1].value:g}',
                        ),
                    ),
                )
                return
        if first.word == "one" and led and run[1].kind not in {"P", "H", "K"}:
            yield run[:1], ()
            yield run[1:], ()
            return
    if len(run) > 2 and first.kind == "D" and run[1].kind == "P" and before == "all" and first.value <= 6:
        whole, rest = best_segments(run), best_segments(run[1:])
        if len(rest) == first.value and all(run[1 + k].kind == "P" for k, _ in rest):
            # "all three | point eight point seven point nine": one of each
            yield run[:1], ()
            yield run[1:], ()
            return
        if len(whole) == len(rest) == 1:
            # "the windings, all three | point eight", but "they are all three point eight"
            one, two = whole[0][1].value, rest[0][1].value
            why = f"all {first.word} of them {two:g}, or all of them {one:g}"
            verb = tokens[first.token - 2].lower if first.token > 1 else ""
            if verb in number_set("all", "then_whole"):
                yield run, (Other((two,), why),)
            else:
                yield run[:1], ()
                yield run[1:], (Other((one,), why),)
            return
    if len(run) == 2 and first.kind == "D" and run[1].kind == "N" and before in number_set(*_HUNDREDS):
        tens = run[1]
        if 10 <= tens.value < 100 and tens.word.isdigit():
            # "suction one 21" is written as "1 21" would be
            yield [Atom("N", first.value, first.token, f"{first.value:.0f}"), tens], ()
            return
    # "between two hundred and two fifty", "from ten and": the word "and" parts the two ends of a range.
    if before in {"between", "both"}:
        cut = _parts_range(run, both=before == "both")
        if cut is not None and run[cut + 1].kind not in {"A", "F"}:
            yield run[:cut], ()
            yield run[cut + 1 :], ()
            return
    yield run, ()


def _said_before(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether the same number was said before: "one fifty on it ... the same | one fifty"."""
    words, row = narration.lowers, [a.word for a in run]
    at = run[0].token
    return any(words[k : k + len(row)] == row for k in range(max(0, at - _SAME), at - len(row)))


_SAME = 150
"""Words back in which a number that is the same was said."""

_TENTHS = (re.compile("(YDD){2,}"), re.compile("(TD){2,}"))
_DIGITS = re.compile("(?:[DZ]{3}){2,4}|(?:D[DZ]){2,4}")
_APART = {2: 3, 3: 12}
"""How far the values of a row of so many digits each lie from the first at most."""
_IDENTITY = 5
"""Words before a row of digits in which it may be called a number of something."""


def _row_of_alike(narration: Narration, run: list[Atom]) -> int:
    """Return how many words each value of a row has that was said without a comma, 0 where it is no row.

    "twenty one four twenty one six", "eleven two eleven four", "two two five two two six two two four",
    "nine six nine eight nine seven": values of one thing hardly differ, and nothing else is said like it.
    """
    kinds = "".join(a.kind for a in run)
    for row in _TENTHS:
        if row.fullmatch(kinds):
            size = 3 if kinds[0] == "Y" else 2
            heads = [sum(a.value for a in run[k : k + size - 1]) for k in range(0, len(run), size)]
            return size if max(heads) - min(heads) <= 1 else 0
    if not _DIGITS.fullmatch(kinds):
        return 0
    start = run[0].token
    led = {t.lower for t in narration.tokens[max(0, start - _IDENTITY) : start]}
    if led & number_set("identity", "said"):
        return 0
    for size, apart in sorted(_APART.items(), reverse=True):
        values = [int("".join(f"{a.value:.0f}" for a in run[k : k + size])) for k in range(0, len(run), size)]
        whole = len(run) % size == 0 and all(v >= 10 ** (size - 1) for v in values)
        if whole and len(values) > (1 if size == 3 else 2) and max(values) - min(values) <= apart:
            return size
    return 0


def _parts_range(run: list[Atom], *, both: bool) -> int | None:
    """Return the "and" between two ends of a range: "between 400 and 15 | and 400 and 18"."""
    ands = [
        k
        for k, a in enumerate(run)
        if a.kind == "&" and k and k + 1 < len(run) and not (both and _one_hundred(run, k))
    ]
    if len(ands) < 2:
        return ands[0] if ands else None
    spans: dict[int, float] = {}
    for k in ands:
        low, high = best_segments(run[:k]), best_segments(run[k + 1 :])
        if len(low) == len(high) == 1 and 0 < low[0][1].value < high[0][1].value:
            spans[k] = high[0][1].value / low[0][1].value
    return min(spans, key=lambda k: spans[k]) if spans else ands[0]


_ITEM = 14
"""Words that an item of a list that is counted off has at most."""


# Not one with `_numbered` in found.py or with counted_on.py: both need a value of every item and make its
# digit a counted number. Here an item before may have none, and the digit stays a plain number: see the
# comment at `_numbered`. It looks at one digit at a time, after those two have taken theirs.
def _counted_off(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether a list is counted off, and this is its next: "four: 35.3. Five's 35, six | 34.8".

    The two items before must each be parted from their values, else "five eighty, six forty" are hundreds.
    """
    words, at = narration.lowers, run[0].token
    if run[0].value < 3 or run[1].kind not in {"Y", "T", "Z", "P"} or not _opens(words, at):
        return False
    digits = number_words()
    if (
        at >= 2
        and words[at - 1] == ","
        and digits.get(words[at - 2], ("", 0.0))
        in (
            ("D", run[0].value),
            ("D", run[0].value - 1),
        )
    ):
        return False  # "Two, | three fifty", "three, | three ninety": the value of it
    for wanted in (run[0].value - 1, run[0].value - 2):
        for k in range(at - 1, max(-1, at - 1 - _ITEM), -1):
            own = digits.get(words[k], ("", 0.0)) == ("D", wanted)
            if own and _opens(words, k) and words[k + 1] in {":", ",", "'s", "is"}:
                at = k
                break
        else:
            return False
    return True


def _opens(words: list[str], at: int) -> bool:
    return not at or words[at - 1] in {",", ".", ";", ":"}


def _in_turn(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether the same noun has the next digit: "comp | one nineteen amps, comp | two eighteen four"."""
    at = run[0].token - 1
    words = narration.lowers
    if at < 0 or words[at] not in number_set("designator", "in_turn") or run[1].kind in {"H", "K", "M", "&"}:
        return False
    digits = number_words()
    for k in range(max(0, at - 24), min(len(words) - 1, at + 24)):
        if words[k] != words[at] or k == at or _told_apart(words, k, at):
            continue
        kind, value = digits.get(words[k + 1], ("", 0.0))
        if kind == "D" and value - run[0].value == (1 if k > at else -1):
            rest = best_segments(run[1:])  # "unit two | seventy-five and fifty-six"
            return bool(rest) and all(start == 0 or run[start].kind == "&" for start, _ in rest)
    return False


def _told_apart(words: list[str], one: int, other: int) -> bool:
    """Tell whether a noun names two things: "door heater one nineteen, defrost heater two oh eight"."""
    fronts = {words[one - 1], words[other - 1]} if one and other else set()
    return len(fronts) == 2 and fronts <= number_set("designator", "told_apart")


def _named_in_turn(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether the same noun has another written digit near: "motor 1 .9, motor 2 .8"."""
    words, at = narration.lowers, run[0].token - 1
    return any(
        words[k] == words[at]
        and len(words[k + 1]) == 1
        and words[k + 1].isdigit()
        and words[k + 1] != run[0].word
        for k in range(max(0, at - 24), min(len(words) - 1, at + 24))
        if k != at
    )


def _ends_in_point_oh(run: list[Atom]) -> bool:
    """Tell whether "point oh" ends a run: "terminal | two point oh volts", where the two is no name."""
    return len(run) == 3 and run[1].kind == "P" and run[2].kind == "Z"


def _determined(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether the noun before a digit has its article: "the one by the door | one point four".

    A thing that a number tells from others is called without one: "door one", "compressor two".
    """
    at = run[0].token
    return (
        at > 1
        and run[1].kind in {"P", "Y", "T"}
        and narration.lowers[at - 2] in number_set("designator", "determined")
        and narration.lowers[at - 1] not in number_set("designator", "never_determined")
    )


def _said_anew(narration: Narration, at: int) -> bool:
    """Tell whether "that" is what was said before: "make that | one thirty five", "call that one ten"."""
    words = narration.lowers[max(0, at - 2) : at]
    return words[1:] == ["that"] and words[0] in number_set("pronoun", "say_anew")


def _number_before(narration: Narration, at: int) -> bool:
    """Tell whether a number ends at a token: "one point five | no one point four" has no "number one"."""
    return any(run[-1].token == at - 1 for run in runs_of(narration))


def _one_hundred(run: list[Atom], k: int) -> bool:
    """Tell whether the "and" at k stands inside of one number: "both eight hundred and fifteen ohms"."""
    rest = best_segments(run[k + 1 :])
    return run[k - 1].kind in {"H", "K"} and len(rest) == 1 and 0 < rest[0][1].value < 100


def _name_by_neighbours(narration: Narration, run: list[Atom], one: float, two: float) -> bool:
    """Tell whether the digit is a name by what follows: "compressor three thirty-one, thirty-two".

    A value goes on in its own size; and no motor draws a hundred amps and some tenths.
    """
    if one >= 100 and not one.is_integer() and any(a.kind == "P" for a in run):
        return True
    words = narration.lowers
    k = run[-1].token + 1
    while k < len(words) and k - run[-1].token < 4 and words[k] in {",", "and", "then"}:
        k += 1
    after = next((r for r in runs_of(narration) if r[0].token == k), None) if k < len(words) else None
    if after is None or k == run[-1].token + 1:
        return False
    following = best_segments(after)
    if len(following) != 1 or not following[0][1].value:
        return False
    value = following[0][1].value
    return 0.6 <= value / two <= 1.6 and not 0.6 <= value / one <= 1.6


def _came_back(narration: Narration, i: int) -> bool:
    """Tell whether "back" in front of token i is where a value came back to: "came back one fifty"."""
    words = narration.lowers[max(0, i - 3) : i]
    return words[-1:] == ["back"] and bool(
        {"came", "come", "comes", "coming", "went", "read", "reads", "it", "'s", "is", "was"}
        & set(words[:-1])
    )


def _named_already(narration: Narration, run: list[Atom]) -> bool:
    """Tell whether the noun before a digit needs no name: "B leg | six point four", "leg | six point four".

    There are three legs and phases, and those with a letter or a place before them have their name.
    """
    tokens = narration.tokens
    first = run[0]
    noun = tokens[first.token - 1].lower
    behind = [t.lower for t in tokens[run[-1].token + 1 : run[-1].token + 3]]
    if noun in {"legs", "phases", "poles"} and behind == [",", first.word]:
        return True  # "on the legs one nineteen, one twenty, one twenty-one"
    if noun in number_set("designator", "three") and first.value > 3:
        return True
    before = tokens[first.token - 2].lower if first.token > 1 else ""
    if before == "to" and first.token > 2 and tokens[first.token - 3].lower == noun:
        return True  # "phase to phase three ninety-eight"
    return noun in number_set("designator", "placed") and before in number_set("designator", "places")


def _row_of_pairs(narration: Narration, i: int) -> bool:
    """Tell whether "one to three | point eight" goes on a row of terminal pairs."""
    small = {"one", "two", "three"}
    names = {"l", "leg", "phase", "t", "line", "and"}
    words = [t.lower for t in narration.tokens[max(0, i - 28) : i]]
    words = [w for w in words if w not in names]
    if len(words) < 2 or words[-1] != "to" or words[-2] not in small:
        return False
    later = [t.lower for t in narration.tokens[i + 1 : i + 16]]
    later = [w for w in later if w not in names]
    return any(
        row[k] in small and row[k + 1] == "to" and row[k + 2] in small
        for row, stop in ((words, len(words) - 4), (later, len(later) - 2))
        for k in range(stop)
    )


def _hyphen_pair(narration: Narration, i: int) -> bool:
    """Tell whether "one-two | four seventy-eight" names two legs: another such pair stands near."""
    small = {"one-", "two-", "three-"}
    tokens = narration.tokens

    def pair(k: int) -> bool:
        if not 0 <= k < len(tokens) - 1 or tokens[k].text.lower() not in small:
            return False
        other = tokens[k + 1].text.lower()
        return other in {"one", "two", "three"} and other != tokens[k].text.lower()[:-1]

    return pair(i) and any(pair(k) for k in range(max(0, i - 12), i + 12) if k != i)
