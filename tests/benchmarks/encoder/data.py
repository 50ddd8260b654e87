"""The labelled narrations and the table tests as texts whose numbers the encoder learns to judge.

The tables of readings tell what each number is; those of movements tell only which way an amount went, and
the class of their other numbers is not learned. The same holds for the snippets (`snippets/`), short pieces
of talk in which the values are marked. Which steps of the work a stretch of talk tells is learned from the
narrations and from the sentences of steps (`tests/benchmarks/steps`), what became of a part that is named from
the narrations and from sentences of parts (`tests/benchmarks/parts`), some sentences in a row as one text.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Collection, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, dataclass, field, replace
from itertools import accumulate, pairwise
from pathlib import Path
from random import Random

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import MEASURED, NONE
from dictate.mentions.second_opinion.encoder import NO_STATE, NO_WAY, known
from dictate.mentions.second_opinion.encoder.model import WORD
from dictate.mentions.second_opinion.opinion import BETWEEN
from dictate.mentions.second_opinion.state_words import state_places
from dictate.mentions.second_opinion.surroundings import size_of
from dictate.mentions.spoken_numbers import find_numbers
from tests.benchmarks.encoder.marks import unmarked
from tests.benchmarks.encoder.stored import keys_of
from tests.benchmarks.parts import told as parts
from tests.benchmarks.parts.told import Named
from tests.benchmarks.second_opinion.__main__ import cases
from tests.benchmarks.second_opinion.told import HOME, TABLES, judged
from tests.benchmarks.steps import __main__ as steps
from tests.benchmarks.steps.told import told
from tests.narrations.labels import Labelled, Row, all_of

WHERE = ("component", "point", "stage", "role", "state")
"""What the labels of narrations tell of a number beside its class; the last one of words that may stand for one."""
STATE = "state"
SNIPPETS = Path(__file__).with_name("snippets")
IN_A_ROW = 8
"""Sentences of steps, or of parts, that are one text."""
TIMES = 2
"""How often a table test is learned from in each round."""
_WAYS = {"+": "charged", "-": "recovered"}


@dataclass
class Number:
    """One number: its tokens [start, end), what is known of it, its class, `WHERE`, its way.

    The class is None where the text does not tell it.
    """

    start: int
    end: int
    value: float
    form: str
    size: str
    written: bool
    fixed: bool
    """Whether it must stay what it is: a pronoun, or the name of a refrigerant."""
    known: list[str]
    target: str | None
    where: dict[str, str | None]
    way: str
    key: int


@dataclass
class Stretch:
    """The tokens [start, end), the steps that they tell, and the ones that they may tell or not.

    Those are told in some stretch of the text; `placed` are the ones that training has found in this one.
    """

    start: int
    end: int
    steps: list[str]
    open: list[str]
    placed: list[str] = field(default_factory=list)


@dataclass
class Word:
    """The tokens [start, end) that may stand for a value, what is known of them, and what of `WHERE` is told.

    "state" is one of the heads: "open", "voltage", ... of a nought, `NO_STATE`.
    """

    start: int
    end: int
    where: dict[str, str | None]
    known: tuple[str, ...] = (WORD,)
    target: None = None
    way: str = ""


@dataclass
class Text:
    """The tokens of a text, the tokens behind its sentences, its numbers; `told` when it is no narration.

    It is learned from so many `times` in a round.
    """

    name: str
    tokens: list[str]
    ends: list[int]
    numbers: list[Number]
    told: bool
    times: int
    stretches: list[Stretch] = field(default_factory=list)
    parts: list[Named] = field(default_factory=list)
    words: list[Word] = field(default_factory=list)

    @property
    def places(self) -> list[tuple[int, int]]:
        """The tokens [start, end) of each stretch."""
        return [(x.start, x.end) for x in self.stretches]


def texts() -> list[Text]:
    """Return the narrations of `develop/` in the order of their names, then the tables, then the snippets."""
    with ProcessPoolExecutor() as pool:
        read = list(pool.map(_of_narration, all_of("develop"), chunksize=16))
    narrations, visits = [text for text, _ in read], [visit for _, visit in read]
    known = {number.target for text in narrations for number in text.numbers}
    beside = list(told())
    sentences = [steps.sentence(*one) for one in beside]
    stretches = [
        _stretches(visit, placed)
        for visit, placed in zip(visits + sentences, steps.placed(visits + sentences), strict=True)
    ]
    for text, own in zip(narrations, stretches, strict=False):
        text.stretches = own
    of_steps = [
        _plain(f"steps {i}", said, own)
        for i, ((said, _), own) in enumerate(zip(beside, stretches[len(visits) :], strict=True))
    ]
    of_parts = [
        _plain(f"{name} {i}", said, [], own)
        for name, some in (("parts", parts.sentences()), ("part snippets", parts.snippets()))
        for i, (said, own) in enumerate(some)
    ]
    return narrations + _tables() + _moved() + _snippets(known) + _in_rows(of_steps) + _in_rows(of_parts)


def _of_narration(labelled: Labelled) -> tuple[Text, steps.Visit]:
    """Return a narration without its stretches, and the steps that are told in it."""
    text = _labelled(labelled)
    text.parts, text.words = parts.told_of(labelled), words_of(labelled)
    return text, steps.visit(labelled)


def _plain(name: str, said: str, stretches: list[Stretch], named: Sequence[Named] = ()) -> Text:
    """Return a sentence of whose numbers nothing is known."""
    narration = Narration(list(segments_of([said], "c1")))
    nothing = [""] * len(find_numbers(narration))
    text = _text(name, narration, [None] * len(nothing), {}, nothing, times=1)
    text.stretches, text.parts = stretches, list(named)
    return text


def _stretches(visit: steps.Visit, placed: list[set[str]]) -> list[Stretch]:
    lost = visit.missed - {name for stretch in placed for name in stretch}
    return [
        Stretch(start, end, sorted(told), sorted(lost))
        for (start, end), told in zip(visit.tokens, placed, strict=True)
    ]


def _in_rows(texts: Sequence[Text]) -> list[Text]:
    """Return some texts in a row as one, in any order: as a visit tells one thing behind another."""
    order = list(texts)
    Random(0).shuffle(order)
    out = []
    for i in range(0, len(order), IN_A_ROW):
        row = Text(f"in a row: {order[i].name}", [], [], [], told=True, times=1)
        for text in order[i : i + IN_A_ROW]:
            at = len(row.tokens)
            row.tokens += text.tokens
            row.ends += [at + end for end in text.ends]
            row.numbers += [replace(x, start=at + x.start, end=at + x.end) for x in text.numbers]
            row.stretches += [replace(x, start=at + x.start, end=at + x.end) for x in text.stretches]
            row.words += [replace(x, start=at + x.start, end=at + x.end) for x in text.words]
            row.parts += [replace(x, start=at + x.start, end=at + x.end) for x in text.parts]
        out.append(row)
    return out


def _labelled(labelled: Labelled) -> Text:
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    where: dict[str, list[str | None]] = {key: [] for key in WHERE if key != STATE}
    ways = []
    moved = [(m.first, m.last, m.get("value"), m.get("direction")) for m in labelled.movements]
    spans = _spans(narration)
    for first, last, value in spans:
        rows = [r for r in labelled.readings if r.first <= last and first <= r.last]
        rows.sort(
            key=lambda r: (r.get("value") is None or abs(r.get("value") - value) > 1e-6, r.last - r.first)
        )
        for key, told_there in where.items():
            told_there.append(_option(rows[0], key) if rows else None)
        ways.append(NO_WAY if rows else way_of((first, last, value), spans, moved))
    targets = [c.quantity + BETWEEN + c.meaning for c in cases(labelled)]
    return _text(labelled.name, narration, targets, where, ways, times=1, told=False)


def _option(row: Row, key: str) -> str | None:
    """Return the first of what a label accepts, "" for nothing; None where it does not say."""
    options = row.options(key)
    if options is None:
        return MEASURED if key == "role" else None
    return options[0] or ""


def words_of(labelled: Labelled) -> list[Word]:
    """Return the words of a narration that may stand for a value, and what its labels say of each.

    Where several stand in the words of one label, all but the likeliest are left open, and so are those of
    labels that may be left out.
    """
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    offsets = _offsets(narration)
    places = state_places(narration)
    spoken = [
        tuple(offsets[narration.tokens[t].segment] + narration.tokens[t].word for t in (start, end - 1))
        for start, end in places
    ]
    numbers = _spans(narration)
    told: list[Row | str | None] = [NO_STATE] * len(places)
    for row in labelled.readings:
        here = [i for i, (first, last) in enumerate(spoken) if row.first <= last and first <= row.last]
        is_open = row.get("state") == "open"
        nought = not is_open and row.get("value") == 0
        in_figures = any(row.first <= b and a <= row.last and value == 0 for a, b, value in numbers)
        if not here or not (is_open or nought):
            continue
        best = next((i for i in here if not _SURE_WORDS.isdisjoint(_of(narration, places[i]))), here[0])
        for i in here:
            if i != best and told[i] == NO_STATE:
                told[i] = None
        if row.get("optional") or in_figures:
            told[best] = told[best] if isinstance(told[best], Row) else None
        elif not isinstance(told[best], Row):
            told[best] = row
    return [
        Word(*place, {STATE: label} if not isinstance(label, Row) else _where_of(label))
        for place, label in zip(places, told, strict=True)
    ]


_SURE_WORDS = frozenset(
    {"open", "ol", "infinite", "infinity", "nothing", "dead", "clear", "continuity", "none", "well", "l"}
)


def _of(narration: Narration, place: tuple[int, int]) -> list[str]:
    return narration.lowers[place[0] : place[1]]


def _where_of(row: Row) -> dict[str, str | None]:
    out = {key: _option(row, key) for key in WHERE if key != STATE}
    now = out["role"] == MEASURED
    out[STATE] = ("open" if row.get("state") == "open" else row.get("quantity")) if now else "not now"
    return out


def _tables() -> list[Text]:
    out = []
    for name in TABLES:
        for i, case in enumerate(tomllib.loads((HOME / f"{name}.toml").read_text(encoding="utf-8"))["case"]):
            found = judged(case)
            if found is not None and found[1]:
                narration, numbers = found
                targets = [quantity + BETWEEN + meaning for _, quantity, meaning in numbers]
                ways = _ways_taken(narration)
                out.append(_text(f"{name} {i}", narration, targets, {}, ways, TIMES))
    return out


def _moved() -> list[Text]:
    out = []
    for path in sorted(HOME.glob("movements*.toml")):
        for i, (said, _) in enumerate(tomllib.loads(path.read_text(encoding="utf-8"))["cases"]):
            narration = Narration(list(segments_of([said], "c1")))
            ways = _ways_taken(narration)
            targets = [None if way == NO_WAY else f"movement{BETWEEN}movement" for way in ways]
            if ways:
                out.append(_text(f"{path.stem} {i}", narration, targets, {}, ways, TIMES))
    return out


def _ways_taken(narration: Narration) -> list[str]:
    """Return the way of every number as the readers take it, which the tests hold them to."""
    offsets = _offsets(narration)
    moved = [
        (
            offsets[m.at.segment] + (m.at.first_word or 0),
            offsets[m.at.segment] + (m.at.last_word or 0),
            m.value,
            m.direction,
        )
        for m in find(narration.segments).movements
        if m.at.segment is not None
    ]
    spans = _spans(narration)
    return [way_of(span, spans, moved) for span in spans]


def _offsets(narration: Narration) -> list[int]:
    """Return how many words of the narration stand before each segment."""
    return [0, *accumulate(len(segment.words) for segment in narration.segments)]


def _spans(narration: Narration) -> list[Span]:
    """Return the first and the last word of every number, and its value."""
    offsets = _offsets(narration)

    def word(token: int) -> int:
        return offsets[narration.tokens[token].segment] + narration.tokens[token].word

    return [(word(x.start), word(x.end - 1), x.value) for x in find_numbers(narration)]


def _snippets(known: Collection[str | None]) -> list[Text]:
    out = []
    for path in sorted(SNIPPETS.glob("*.toml")):
        of_movements = path.stem.startswith("moved")
        for i, piece in enumerate(tomllib.loads(path.read_text(encoding="utf-8"))["pieces"]):
            text, marks = unmarked(piece)
            narration = Narration(list(segments_of([text], "c1")))
            targets: list[str | None] = []
            ways = []
            where: dict[str, list[str | None]] = {"component": [], "point": []}
            for x in find_numbers(narration):
                first, last = (narration.tokens[t].word for t in (x.start, x.end - 1))
                mark = next((kind for a, b, kind in marks if a <= last and first <= b), None)
                kind, told_there = _parted(mark)
                for key, some in where.items():
                    some.append(told_there.get(key))
                ways.append(_WAYS.get(kind or "", NO_WAY))
                target = _class_of(kind)
                targets.append(None if target not in known or (of_movements and kind is None) else target)
            if ways:
                out.append(_text(f"{path.stem} {i}", narration, targets, where, ways, times=1))
    return out


def _parted(mark: str | None) -> tuple[str | None, dict[str, str]]:
    """Return the kind of a mark, and where it says that the value was read: "current; agitator motor; L1".

    Nothing between two marks is "on no part", a question mark leaves it open.
    """
    if mark is None:
        return None, {}
    kind, *where = (part.strip() for part in mark.split(";"))
    return kind, {key: told for key, told in zip(("component", "point"), where, strict=False) if told != "?"}


def _class_of(kind: str | None) -> str:
    if kind is None:
        return NONE + BETWEEN + NONE
    if kind in _WAYS:
        return f"movement{BETWEEN}movement"
    for meaning in ("not now", "retracted"):
        if kind.endswith(f" {meaning}"):
            return kind.removesuffix(f" {meaning}") + BETWEEN + meaning
    return kind + BETWEEN + MEASURED


_JOINED = ((1, 1 / 16), (16, 1), (1, 1 / 1000), (1000, 1), (1, 1))
"""How two numbers make one amount: what the first and the second count in its unit."""

Span = tuple[int, int, float]
"""The first and the last word of a number, and its value."""


def way_of(number: Span, numbers: Sequence[Span], moved: Sequence[tuple[int, int, float | None, str]]) -> str:
    """Return which way the amount went that a number tells: `NO_WAY` for a number that tells none.

    `moved` are the amounts of refrigerant, (first word, last word, value, direction). Where one number in the
    words of an amount is its value, the others there are not.
    """
    first, last, _ = number
    for begin, end, amount, direction in moved:
        if begin <= last and first <= end:
            inside = [n for n in numbers if begin <= n[1] and n[0] <= end]
            # "From nineteen three to twenty fourteen": the weights of a bottle are no amounts, their difference is.
            if len(inside) == 1 or any(number in amount_ for amount_ in _amounts(inside, amount)):
                return direction
    return NO_WAY


def _amounts(numbers: Sequence[Span], amount: float | None) -> list[tuple[Span, ...]]:
    """Return the numbers that make an amount, alone or two together: pounds and ounces, kilos and grams."""
    alone: list[tuple[Span, ...]] = [(n,) for n in numbers if _equal(n[2], amount)]
    return alone or [
        (a, b)
        for a, b in pairwise(numbers)
        if any(_equal(a[2] * times + b[2] * parts, amount) for times, parts in _JOINED)
    ]


def _equal(value: float, amount: float | None) -> bool:
    return amount is not None and abs(value - amount) <= 1e-3 * max(1.0, amount)


def _text(
    name: str,
    narration: Narration,
    targets: Sequence[str | None],
    where: Mapping[str, Sequence[str | None]],
    ways: Sequence[str],
    times: int,
    told: bool = True,
) -> Text:
    numbers = [
        Number(
            x.start, x.end, x.value, x.form, size_of(x), x.written,
            x.pronoun or "refrigerant" in what, what, target,
            {name: told[i] for name, told in where.items()}, way, key,
        )
        for i, (x, what, target, way, key) in enumerate(
            zip(
                find_numbers(narration), known(narration), targets, ways, keys_of(name, narration),
                strict=True,
            )
        )
    ]  # fmt: skip
    ends = [end for _, end in narration.sentences]
    return Text(name, list(narration.lowers), ends, numbers, told, times)


def write(some: list[Text], path: Path) -> None:
    """Write texts down, for a machine that has nothing but the training code."""
    path.write_text(json.dumps([asdict(text) for text in some]), encoding="utf-8")


__all__ = ["Named", "Number", "Stretch", "Text", "texts", "way_of", "write"]
