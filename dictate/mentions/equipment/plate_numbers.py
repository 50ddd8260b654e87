"""Where the number of a plate begins, and numbers that are said around one."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, phrases
from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import Designation, read_designation
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.vocabulary.load import word_set

_IS = (("is",), ("'s",), ("was",), ("reads",), ("says",))
_THAT_IS = word_set("that_is", "machine_words")
_REPEATS = word_set("repeats", "machine_words")
_TO_SERIAL = word_set("to_serial", "machine_words")


def first_of_number(words: Words, k: int, namings: dict[int, int]) -> int:
    """Return the word where the number announced right before word k begins."""
    row = words.words
    k = _past_its_place(words, k)
    between = {w for p in phrases("between") for w in p}
    steps = 0
    while k < len(row) and steps < 7:
        if namings.get(k, k) > k and row[k - 1] in DETERMINERS and row[namings[k] : namings[k] + 1] in _IS:
            k = namings[k]  # "the serial number on this reach-in is ..."
            continue
        if row[k] == "i" and k + 1 < len(row) and (len(row[k + 1]) == 1 and row[k + 1].isalpha()):
            break  # "model I C five hundred"
        if row[k] not in between and not (row[k] in DETERMINERS and k + 1 in namings):
            break
        if (
            row[k] == "a"
            and k + 1 < len(row)
            and (
                len(row[k + 1]) == 1
                or row[k + 1] in NUMBER_WORDS
                or row[k + 1][:1].isdigit()
                or row[k + 1 : k + 3] == ("as", "in")
            )
        ):
            break
        if (
            row[k] == "."
            and words.sentence_of[min(k + 1, len(row) - 1)] != words.sentence_of[k]
            and steps > 0
        ):
            break
        k += 1
        steps += 1
    return k


def _past_its_place(words: Words, k: int) -> int:
    """Return the word behind the place of a plate: "serial number on the coil", "stamped on the frame"."""
    row = words.words
    j = k + (row[k : k + 1] == ("stamped",))
    if row[j : j + 1] and row[j] in _ON_A_PLACE and row[j + 1 : j + 2] and row[j + 1] in DETERMINERS:
        for n in range(j + 2, min(len(row), j + 5)):
            word = row[n]
            if word == "one" and row[n - 1] in word_set("selecting", "machine_words"):
                continue  # "the model on the middle one"
            if (word,) in _IS:
                return n
            said = words.narration.tokens[words.tokens[n]].text
            letters = len(word) == 1 or (len(said) <= 4 and said.isupper())
            if n > j + 2 and (letters or any(c.isdigit() for c in word) or word in NUMBER_WORDS):
                return n if word.isalnum() else k
            if not word.isalpha() or word in word_set("parts_with_plates", "machine_words"):
                break
    return k


_ON_A_PLACE = frozenset(("on", "off", "from", "inside", "in", "under", "behind", "at"))


def number_said_before(
    narration: Narration, words: Words, i: int, end: int, start: int, field: str, *, bare: bool = False
) -> Designation | None:
    """Return the number said before its own word: "UC24, that's the model", and `bare`: "TF23, model."."""
    row = words.words
    k = i
    while k > start and i - k < 5 and row[k - 1] in _THAT_IS:
        k -= 1
    lead = row[k:i]
    if k == start or not ({"is", "'s", "for", "was", "as"} & set(lead) or (bare and lead in ((), (",",)))):
        return None
    if row[end : end + 1] not in ((",",), (".",), (";",), ("and",), ()):
        return None
    made = _ending_at(narration, words, k, start, letters_first=field == "model")
    if made is None or (field == "model" and not any(c.isalpha() for c in made.text)):
        return None
    return made


def _ending_at(
    narration: Narration, words: Words, k: int, start: int, *, letters_first: bool = False
) -> Designation | None:
    """Return the longest designation of the sentence that ends right before word k."""
    end = words.tokens[k - 1] + 1
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    for j in range(max(start, k - 14), k):
        token = narration.tokens[words.tokens[j]]
        letters = token.text.rstrip("-")
        said = letters.lower() in NUMBER_WORDS or letters[:1].isdigit() or letters.lower() in _REPEATS
        if said and letters_first:
            continue
        if not said and not (letters[:1].isalpha() and letters == letters.upper()):
            continue
        made = read_designation(narration, words.tokens[j])
        if made is None or made.end != end or not named.isdisjoint(range(made.start, made.end)):
            continue
        if any(c.isdigit() for c in made.text) and 3 <= len(made.text) <= 16:
            return made
    return None


_LONGEST_REMARK = 12
_SHORTEST_NUMBER = 4


def behind_a_remark(narration: Narration, words: Words, k: int) -> Designation | None:
    """Return the serial number behind a remark: "serial number I take from my list, eight eight one two".

    The remark holds no number, and what follows it is a number of a plate and the whole of its clause.
    """
    row = words.words
    _, end = words.sentences[words.sentence_of[k - 1]]
    for j in range(k, min(end, k + _LONGEST_REMARK)):
        if (row[j] in NUMBER_WORDS and row[j] != "one") or row[j][:1].isdigit():
            return None
        if row[j] not in (",", ":") or j == k or j + 1 >= len(row):
            continue
        made = read_designation(narration, words.tokens[j + 1])
        if made is None or made.start != words.tokens[j + 1]:
            continue
        digits = sum(c.isdigit() for c in made.text)
        whole = made.end >= len(narration.tokens) or narration.tokens[made.end].lower in (
            ",",
            ".",
            ";",
            "and",
        )
        if whole and digits >= 3 and _SHORTEST_NUMBER <= len(made.text) <= 16:
            return made
    return None


def number_behind(narration: Narration, words: Words, made: Designation) -> Designation | None:
    """Return the number that follows a model at once: "type PS 61, number 10 22 7"."""
    row = words.words
    k = words.word_of_token(made.end)
    if row[k : k + 1] != (",",):
        return None
    k += 2 if row[k + 1 : k + 2] in (("plate",), ("and",)) else 1
    if row[k : k + 1] not in (("number",), ("no",), ("nr",)) or k + 1 >= len(row):
        return None
    number = read_designation(narration, words.tokens[k + 1])
    if number is None or len(number.text) < 4 or number.end >= len(narration.tokens):
        return None
    return number if narration.tokens[number.end].lower in (",", ".", ";", "and") else None


def model_before_serial(narration: Narration, words: Words, i: int, start: int) -> Designation | None:
    """Return the model right before "serial" without its own word: "a CU nine hundred, serial ..."."""
    k = i
    while k > start and i - k < 7 and words.words[k - 1] in _TO_SERIAL:
        k -= 1
    if k == start:
        return None
    made = _ending_at(narration, words, k, start, letters_first=True)
    if made is not None and k == i:  # "it's BC 5 serial 0 9 2": nothing between, so two letters at least
        made = made if len(made.text) > 2 and made.text[:2].isalpha() else None
    if made is None or not made.text[0].isalpha() or len(made.text) > 14:
        return None
    return made
