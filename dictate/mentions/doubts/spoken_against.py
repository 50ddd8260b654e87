"""Did later words speak against it: "that ninety-eight looks odd to me", "both figures are a degree low".

The readers take a value back where it is certain which one is meant and what is right. Where words say that
something was not right and nothing was taken back by them, each value that they may be of gets a reason: the
one with the number that they name, the last one of the thing that they name, or the ones just said where they
only point back ("that", "those two").
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.corrections.cue_senses import other_sense
from dictate.mentions.corrections.disowned import NEAR, find_disowned, pick
from dictate.mentions.doubts.talk import Case, Talk
from dictate.mentions.phrases import Phrases
from dictate.record.visit import Reading
from dictate.vocabulary.load import table


@cache
def _phrases(name: str) -> Phrases:
    return Phrases({name: table("corrections")["against"][name]})


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("corrections")["against"][name])


def spoken_against(c: Case) -> str | None:
    """Doubt a value that a later sentence speaks against without taking it back."""
    done: dict[int, str] | None = c.talk.n.found.get("spoken against")
    if done is None:
        done = _find(c.talk)
        c.talk.n.found["spoken against"] = done
    return done.get(id(c.reading))


def _find(talk: Talk) -> dict[int, str]:
    out: dict[int, str] = {}
    spans = [(r, s) for r in talk.mentions.readings if (s := talk.span(r.at))]
    if not spans:
        return out
    cues = [
        (p.start, p.end, p.key)
        for name in ("clear", "weak", "number", "offset")
        for p in _phrases(name).find(talk.n)
    ]
    harmless = [(p.start, p.end) for p in _phrases("not").find(talk.n)]
    cues = [
        c
        for c in cues
        if not any(x < c[1] and c[0] < y for x, y in harmless) and not other_sense(talk.n, c[0], c[1])
    ]
    cues += _called_wrong(talk.words)
    cues += _spoken_of_again(talk)
    sentences = talk.n.sentences
    _disown(talk, spans, out)
    measured = [(r, s) for r, s in spans if r.role == "measured"]
    corrected = [(r, s) for r, s in spans if r.retracts is not None or r.role == "retracted"]
    for start, end, how in cues:
        i = talk.sentence_of[start]
        a, b = sentences[i]
        many = bool(_words("many") & set(talk.words[a:b])) or how == "called"
        if how == "offset" and not many:
            continue
        said = talk.n.heard(start, end)
        why = f"{said!r} was said of a value here, and nothing was taken back"
        until = sentences[i + 1][1] if i + 1 < len(sentences) else b
        worked = any(
            (r.retracts is not None and a <= s < until) or (r.role == "retracted" and a - 14 <= s < until)
            for r, (s, _) in corrected
        )
        if how == "weak" and any(r.role == "earlier" and a <= s < b for r, (s, _) in spans):
            continue  # "last year's suction was 1.7": a value of then, and said to be one
        units = {q.start: {u for u, _ in q.means} for q in talk.said_from(a, b) if q.means}
        numbers = {
            x.value: units.get(x.start, set())
            for x in talk.numbers_in(a, b)
            if not x.pronoun and (x.value >= 10 or not float(x.value).is_integer())
        }
        before = [(r, s) for r, s in measured if s[1] <= start]
        same = [
            (r, s)
            for r, s in before
            if r.value is not None and r.retracts is None and _again(talk, r, s, numbers) and s[0] < a
        ]
        for r, _ in same:
            out.setdefault(id(r), why)
        if same and not worked:
            for r, s in measured:
                if a <= s[0] < start and r.retracts is None and _again(talk, r, s, numbers):
                    out.setdefault(id(r), why)
        if worked or how == "number":
            continue
        row = _row(talk, i, a, b, before)
        for r in row:
            out.setdefault(id(r), why)
        if same or row:
            continue
        named = _named(talk, a, b, [(r, s) for r, s in before if s[0] < a or how in {"clear", "called"}])
        for r in named:
            out.setdefault(id(r), why)
        if named or how == "weak":
            continue
        near = [(r, s) for r, s in before if talk.sentence_of[s[0]] >= i - 1]
        if not near:
            continue
        last = talk.sentence_of[near[-1][1][0]]
        for r, s in near if many else near[-1:]:
            if talk.sentence_of[s[0]] == last:
                out.setdefault(id(r), why)
    return out


def _disown(talk: Talk, spans: list[tuple[Reading, tuple[int, int]]], out: dict[int, str]) -> None:
    """Doubt the values of which a statement says that they are of something else, or no good."""
    for said in find_disowned(talk.n):
        done = talk.n.found.get("corrections done", ())
        if said.how == "moved" or any(a < said.end and said.start < b for a, b in done):
            continue  # the values were put to what was named
        here = talk.sentence_of[said.start]
        until = talk.n.sentences[min(here + 1, len(talk.n.sentences) - 1)][1]
        before = [(r, s) for r, s in spans if s[1] <= said.start and r.role in {"measured", "retracted"}]
        chosen = [before[k][0] for k in pick([talk.sentence_of[s[0]] for _, s in before], here, said)]
        if said.how == "misled" and (
            any(r.role == "retracted" for r in chosen)
            or any(r.retracts is not None and said.end <= s[0] < until for r, s in spans)
        ):
            continue  # that one was put right
        if said.how == "bad" and (not before or here - talk.sentence_of[before[-1][1][0]] > 1):
            continue  # "those" are things by now
        if said.single and (not before or said.start - before[-1][1][1] > NEAR):
            continue
        what = talk.n.heard(said.start, said.end)
        for r in chosen:
            if r.role == "measured" and r.retracts is None:
                out.setdefault(id(r), f"{what!r} was said of a value here, and nothing was taken back")


def _called_wrong(words: list[str]) -> list[tuple[int, int, str]]:
    """Return "I called that B wrong", "I had the return wrong" at their tokens."""
    out: list[tuple[int, int, str]] = []
    for i, word in enumerate(words):
        if word != "wrong" or i < 3:
            continue
        for k in range(i - 2, max(0, i - 8), -1):
            if words[k] in {".", "?", "!", ",", ";"}:
                break
            if words[k] in _words("called") and words[k - 1] in _words("who"):
                out.append((k - 1, i + 1, "called"))
                break
    return out


def _spoken_of_again(talk: Talk) -> list[tuple[int, int, str]]:
    """Return "the sixteen is from the sheet", "the 55 I'm not happy with": a number that is judged."""
    out: list[tuple[int, int, str]] = []
    for x in talk.numbers:
        if x.pronoun or x.form == "ordinal" or x.start < 2 or talk.words[x.start - 1] not in _words("the"):
            continue
        if talk.words[x.end : x.end + 1] and talk.words[x.end] in _words("judged"):
            a, b = talk.n.sentences[talk.sentence_of[x.start]]
            if not _words("moves") & set(talk.words[a:b]):
                out.append((x.start - 1, x.end + 1, "number"))
    return out


def _row(talk: Talk, i: int, a: int, b: int, before: list[tuple[Reading, tuple[int, int]]]) -> list[Reading]:
    """Return the values of the row of which one is spoken of by its place: "the third one bothers me"."""
    placed = any(
        talk.words[k] in _words("places") and talk.words[k + 1] in _words("ones") for k in range(a, b - 1)
    )
    near = [(r, s) for r, s in before if i - 2 <= talk.sentence_of[s[0]] < i]
    if not placed or not near:
        return []
    last = talk.sentence_of[near[-1][1][0]]
    row = [r for r, s in near if talk.sentence_of[s[0]] == last and r.quantity == near[-1][0].quantity]
    return row if len(row) > 1 else []


def _again(talk: Talk, r: Reading, span: tuple[int, int], numbers: dict[float, set[str]]) -> bool:
    """Tell whether a value has one of these numbers, and no other unit than was said behind it."""
    x = talk.numbers_in(*span)
    if not x or x[0].value not in numbers:
        return False
    units = numbers[x[0].value]
    return not units or r.unit in units or r.unit.removeprefix("delta_") in units


def _named(talk: Talk, a: int, b: int, before: list[tuple[Reading, tuple[int, int]]]) -> list[Reading]:
    """Return the last value of each thing that is named in a sentence."""
    out: list[Reading] = []
    points = {x.label.point for x in talk.labels_from(a, b) if x.label.point}
    points |= {x.name for x in talk.points_from(a, b)}
    quantities = {x.label.quantity for x in talk.labels_from(a, b) if x.label.quantity and not x.label.point}
    parts = {x.name for x in talk.components_from(a, b)}
    for group in (
        [r for r, _ in before if r.point in points],
        [r for r, _ in before if r.quantity in quantities and r.point is None],
        [r for r, _ in before if r.component in parts],
    ):
        if group:
            last = group[-1]
            out.append(last)
    return out
