"""Amounts put right by less than an amount: a bare number, or a unit alone.

"Recovered eight ounces. No, nine."                         nine ounces
"Got 700 grams out of it, or rather 720."                   720 grams
"Put back two pounds four, correction, two six."            2 lb 6 oz
"Recovered twelve ounces, I mean pounds."                   12 lb
"Recovered 800 grams. ... It was 880, not 800."             880 grams
"""

from __future__ import annotations

from dictate.mentions.movements.bare_pairs import pounds_and_ounces, told_before
from dictate.mentions.movements.correction_words import takes_first_back
from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.surroundings import phrase_length
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases, units_of
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Amount, Candidate
from dictate.vocabulary.load import word_set

_TAIL = 6
"""Words behind an amount that only say where it went: "700 grams | out of it |, or rather 720"."""
_NEAR = 1.5
"""A bare number this near to the amount before a word of correction is the amount, whatever follows it."""


def correct_by_bare_number(talk: Talk, a: Mass) -> None:
    """Take the bare number of "eight ounces. No, nine." for the amount; the first is retracted."""
    if a.kind not in ("recovered", "charged"):
        return
    numbers = talk.numbers_in(a.end, a.end + 30)
    ends = [n for n in numbers if concludes(talk, a, talk.w.word_of_token(n.start), n.value)]
    for number in ends[:1] or numbers:
        k = talk.w.word_of_token(number.start)
        if not a.end <= k < a.end + 30 or number.form in ("clock", "ordinal", "counted") or number.pronoun:
            continue
        if any(0 <= start - k <= 4 for start, _ in talk.mass_spans):
            return  # "fifty-six, no, eight, fifty-eight grams": the whole follows
        gap = [w for w in talk.words[behind_tail(talk, a.end, k) : k] if w not in (",", ".", ";", "-")]
        if gap[1:] == ["well"]:
            del gap[0]  # "Got nine ounces out, well, ..."
        elif gap[-1:] == ["well"] and talk.words[k - 2 : k] == ("well", ",") and len(gap) <= 6:
            gap = ["well"]
        lead = [
            w for w in gap if w not in ("it", "'s", "was", "that", "is", "make", "to", "be", "should", "say")
        ]
        if k >= a.end + 20 and not ends:
            return
        told = takes_first_back(talk, a.end, k) and tuple(gap) not in phrases("corrections")
        cue = (
            told
            or tuple(gap) in phrases("corrections")
            or (lead != ["not"] and tuple(lead) in phrases("corrections"))
        )
        told = told or bool(ends)
        cue = cue or told
        well = (
            [w for w in gap if w != "no"] == ["well"]
            and a.value * 0.75 <= number.value <= a.value * 1.25
            and not a.q.parts
        )  # "nine ounces out, well, nine and a quarter on the second look"
        cue = cue or well
        told = told or well
        end = talk.w.word_of_token(number.end)
        behind = talk.words[end] if end < len(talk.words) else "."
        finer = said_finer(a, number, gap, behind)
        cue = cue or finer
        taken = any(q.start <= number.start < q.end for q in talk.quantities)
        if "said" in gap and told_before(talk, number, [m for m in talk.masses if m.end <= a.start]):
            return  # "Charged six pounds. I said five nine came out, ..." is of the amount before
        if not cue and behind in word_set("differs_by"):
            continue  # "sorry, the hose was on it, forty less, so two hundred and seventy"
        near = not a.q.parts and a.value / _NEAR <= number.value <= a.value * _NEAR
        if (
            (tuple(gap) in ((), ("not",)) and not finer)
            or not cue
            or taken
            or (behind not in word_set("behind_a_correction") and not near)
        ):
            return
        if not a.value / 10 <= number.value <= a.value * 10 and not a.q.parts:
            return
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        pair = pounds_and_ounces(talk.narration, number) if a.unit == "lb" else None
        if pair is not None and not a.q.parts and pair[0] != a.value:
            pair = None  # "five pounds even, well, five two" against "five pounds, no, six point two"
        if pair is not None:
            a.value, a.review, a.candidates = pair[0] + pair[1] / 16, [], []
        elif a.q.parts and a.unit == "lb" and number.value < 16:
            heard = " ".join(talk.words[k:end])
            a.candidates = [Candidate(value=number.value, unit="lb", heard=heard, why="pounds")]
            a.review = ["the unit was not said with the correction; it was taken for the ounces"]
            a.value = a.q.parts[0] + number.value / 16
        else:
            a.value = number.value
            if finer:
                a.review.append("said again with a part more, and nothing says that the first was wrong")
            more = "then" in talk.words[end : end + 3]
            if more or not a.value / 2 <= a.retracted[-1].value <= a.value * 2:
                a.review.append(f"the unit was not said with the correction; {a.unit} is taken over")
        a.end = end
        return


def said_finer(a: Mass, number: Number, gap: list[str], behind: str) -> bool:
    """Tell whether the amount is said again with a fraction: "twelve ounces, twelve and a half I mean"."""
    same_whole = a.value == int(a.value) == int(number.value) < number.value
    whole = not a.q.parts and number.form == "fraction" and same_whole
    return whole and gap in ([], ["or"]) and behind in word_set("behind_a_finer_amount")


def concludes(talk: Talk, a: Mass, k: int, value: float) -> bool:
    """Tell whether a number ends a correction: "Sorry, the hose was on it, so two hundred."."""
    if talk.words[k - 1 : k] not in (("so",), ("'s",), ("is",), ("makes",), ("to",)) or a.q.parts:
        return False
    if talk.words[k - 2] in word_set("says_a_charge"):
        return False  # "six pounds, no wait, 6.4 pounds, the plate's 7.8"
    first = talk.w.sentence_of[a.start]
    here = talk.w.sentence_of[k]
    last = talk.w.sentences[first][1]
    if here > first + 1 or not a.value / 2 <= value <= a.value * 2:
        return False
    low = max(a.end, last) if here == first + 1 else a.end
    for i in range(low, k):
        if talk.words[i] in word_set("opens_a_correction") and (
            i == low or talk.words[i - 1] in (",", ".", "-", ";")
        ):
            return True
    return False


def settle_on_last(talk: Talk, a: Mass) -> None:
    """Take the number that the speaker settles on ("eight ounces, ... let's write eight and a half")."""
    if a.kind not in ("recovered", "charged"):
        return
    number_of = talk.w.sentence_of[a.start]
    _, s1 = talk.w.sentences[min(number_of + 1, len(talk.w.sentences) - 1)]
    for number in talk.numbers_in(a.end, min(s1, a.end + 26)):
        k = talk.w.word_of_token(number.start)
        if (
            not a.end <= k < min(s1, a.end + 26)
            or number.pronoun
            or number.form in ("clock", "ordinal", "counted")
        ):
            continue
        cue = talk.words[k - 2 : k]
        if cue not in phrases("settles"):
            continue
        if any(a.end < b.start <= k < b.end for b in talk.masses) or number.value == a.value:
            continue
        if talk.w.sentence_of[k] != number_of and not 0.6 <= float(number.value) / (a.value or 1) <= 1.6:
            continue  # "call it four" of hours
        end = talk.w.word_of_token(number.end)
        if talk.words[end : end + 1] and talk.words[end] in word_set("totals_behind"):
            continue  # "... plus two for the drier, so call it seven six total" is the sum of them
        pair = pounds_and_ounces(talk.narration, number) if a.unit == "lb" and a.q.parts else None
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        a.value, a.end = pair[0] + pair[1] / 16 if pair else number.value, end
        if a.q.parts:
            a.review.append(f"the unit was not said with the last number; {a.unit} is taken over")


def unit_doubted(talk: Talk, a: Mass) -> None:
    """Take the unit of "0.4 of a kilo, did I say kilo, the scale's in pounds": the unit alone was wrong."""
    units = {**units_of("coupled"), "kilo": "kg", "gram": "g", "ounce": "oz", "pound": "lb"}
    row = talk.words[a.end : a.end + 24]
    at = next((k for k in range(len(row) - 3) if row[k : k + 3] == ("did", "i", "say")), None)
    if at is None or units.get(row[at + 3]) != a.unit or a.q.parts:
        return
    right = next((units[w] for w in row[at + 4 :] if w in units and units[w] != a.unit), None)
    if right is not None:
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        a.unit = right


def behind_tail(talk: Talk, first: int, last: int) -> int:
    """Return the word behind the words that only say where an amount went: "700 grams | out of it | , or"."""
    # "nineteen ounces | went in | . No, nineteen and a half"
    went = max(phrase_length(talk.words[first : first + _TAIL], name) for name in ("after_in", "after_out"))
    for k in range(first + went, min(last, first + went + _TAIL, len(talk.words))):
        if talk.words[k] in (",", ".", ";", "-"):
            return k
        if talk.words[k] not in word_set("tail_of_an_amount") and not talk.in_name(k):
            break
    return first


def correct_unit(talk: Talk, a: Mass) -> None:
    """Take the unit alone of "twelve ounces, I mean pounds" for the right one; the first is retracted."""
    if a.kind not in ("recovered", "charged") or a.q.parts:
        return
    units = units_of("coupled")
    first = behind_tail(talk, a.end, a.end + _TAIL)
    for k in range(first, min(len(talk.words), first + 12)):
        unit = units.get(talk.words[k])
        if unit is None or unit == a.unit or talk.number_at(k - 1):
            continue
        if talk.words[k - 1] == "not":
            return  # "1.4 kilos, not pounds, kilos": it is the other unit that is denied
        if talk.words[k + 1 : k + 2] not in ((".",), (",",), (), ("not",), ("instead",)):
            return
        row = talk.words[first:k]
        if row[-1:] == ("not",):
            return  # "1.4 kilos, not pounds, kilos"
        cut = max((i + 1 for i, w in enumerate(row) if w in (".", ",")), default=0)
        lead = tuple(w for w in row[cut:] if w not in word_set("between_cue_and_unit"))
        named = any(units.get(w) == a.unit for w in row) and "said" in row
        cues = phrases("corrections")
        before = tuple(w for w in row if w not in (",", ".", *word_set("between_cue_and_unit")))
        ends = talk.words[k + 1 : k + 2] in ((".",), (",",), ())
        alone = ends and not lead and len(before) <= 1 and row[:1] in ((",",), (".",))
        if lead in cues or before in cues or (named and not lead) or alone:
            a.retracted.append(Amount(value=a.value, unit=a.unit))
            a.unit, a.end = unit, k + 1
            if alone and before not in cues and not named:
                a.review.append("two units were said of it, one after the other")
        return


def with_denied_numbers(talk: Talk, moved: list[Mass]) -> None:
    """Put amounts right by two bare numbers later: "the recovered weight was 29, not 27"."""
    plain = [m for m in moved if m.kind in ("recovered", "charged") and not m.q.parts]
    if not plain:
        return
    taken = {q.start for q in talk.quantities}
    for k, word in enumerate(talk.words):
        if word != "not" or talk.words[k - 1 : k] != (",",):
            continue
        wrong = next(iter(talk.numbers_in(k + 1, k + 2)), None)
        right = next((n for n in talk.numbers_in(k - 6, k) if talk.w.word_of_token(n.end) == k - 1), None)
        if wrong is None or right is None or right.pronoun or right.start in taken:
            continue
        meant = [m for m in plain if m.end <= k and m.value == wrong.value]
        if len(meant) == 1 and wrong.value / 2 <= right.value <= wrong.value * 2:
            s0, _ = talk.scopes.sentence(k)
            told = set(talk.words[s0:k])
            if (
                not told & word_set("tells_an_amount")
                and talk.w.sentence_of[k] - talk.w.sentence_of[meant[0].start] > 1
            ):
                continue  # "superheat was 29, not 27"
            meant[0].retracted.append(Amount(value=meant[0].value, unit=meant[0].unit))
            meant[0].value = right.value
