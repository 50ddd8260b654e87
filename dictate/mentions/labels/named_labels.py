"""Labels of quantities.toml in a narration: "head pressure", "superheat", "box"."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class Label:
    """An entry of quantities.toml."""

    id: int
    quantity: str | None
    default: str | None
    point: str | None
    component: str | None
    reference: str | None
    derived: bool
    rated: bool
    weak: bool
    mode: str | None
    only: frozenset[str]
    gap: int
    hints: dict[str, frozenset[str]]
    unit: str | None = None
    """Unit id (units.toml) of a bare number in a US visit; `metric_unit` the one in a metric visit."""
    metric_unit: str | None = None

    def fits(self, quantity: str) -> bool:
        """Tell whether the words can go with a value of this quantity."""
        if self.quantity is not None:
            return quantity == self.quantity
        if self.only:
            return quantity in self.only
        return self.default is None or quantity == self.default


@dataclass(frozen=True, slots=True)
class LabelAt:
    """A label at the tokens [start, end)."""

    start: int
    end: int
    label: Label


@cache
def labels() -> tuple[Label, ...]:
    """Return the labels of quantities.toml."""
    out = []
    for i, entry in enumerate(table("quantities")["label"]):
        out.append(
            Label(
                i,
                entry.get("quantity"),
                entry.get("default"),
                entry.get("point"),
                entry.get("component"),
                entry.get("reference"),
                entry.get("derived", False),
                entry.get("rated", False),
                entry.get("weak", False),
                entry.get("mode"),
                frozenset(entry.get("only", ())),
                entry.get("gap", 99),
                {point: frozenset(words) for point, words in entry.get("hints", {}).items()},
                entry.get("unit"),
                entry.get("metric"),
            )
        )
    return tuple(out)


@cache
def _label_phrases() -> Phrases:
    return Phrases({str(i): e["said"] for i, e in enumerate(table("quantities")["label"])})


_AIR = frozenset({"temperature"})


def find_labels(narration: Narration) -> list[LabelAt]:
    """Return the labels of the narration, the longest of overlapping ones."""
    done: list[LabelAt] | None = narration.found.get("labels")
    if done is None:
        known = labels()
        done = [
            _placed(
                narration.lowers,
                LabelAt(p.start, p.end, _pointed(narration, known[int(p.key)], p.start, p.end)),
            )
            if narration.lowers[p.start : p.end] != ["heads"] or not _indoor_heads(narration)
            else LabelAt(
                p.start, p.end, replace(known[int(p.key)], default="temperature", point="supply", only=_AIR)
            )
            for p in _label_phrases().find(narration)
            if not _as_ground(narration.lowers, known[int(p.key)], p.start)
            and not _of_a_speed(narration.lowers, p.start, p.end)
        ]
        narration.found["labels"] = done
    return done


def _placed(words: list[str], at: LabelAt) -> LabelAt:
    """Settle what a cold place makes of a label: "the beer cave" and "air in the tunnel" are of a box."""
    point = at.label.point
    if point == "product" and at.end < len(words):
        noun = words[at.end].removesuffix("'s")
        if noun in word_list("labels_cold_rooms") and words[at.end - 1] not in {"product", "core", "probe"}:
            return LabelAt(at.start, at.end + 1, replace(at.label, point="box"))
    elif words[at.end - 1] == "glycol" and words[at.end : at.end + 1] in _PROBE_BOTTLES:
        return LabelAt(at.start, at.end + 1, replace(at.label, point="product"))
    elif point == "ambient" and words[at.end - 1] == "air" and words[at.end : at.end + 2] in _IN_THERE:
        if word_list("labels_cold_rooms") & set(words):
            return LabelAt(at.start, at.end + 2, replace(at.label, point="box"))
    elif (
        point == "ambient" and words[at.end - 1] == "in" and words[at.end : at.end + 1] in (["there"], ["it"])
    ):
        if word_list("labels_cold_rooms") & set(words):
            return LabelAt(at.start, at.end + 1, replace(at.label, point="box"))
    elif point == "ambient" and words[at.end - 1] == "in" and words[at.end : at.end + 1] == ["the"]:
        rest = words[at.end + 1 : at.end + 3]
        cold = word_list("labels_cold_rooms") | word_list("labels_cold_spaces")
        if set(rest[:1]) & cold or (
            rest[1:] and rest[1] in cold and rest[0] in word_list("readings_cold_places")
        ):
            return LabelAt(at.start, at.end, replace(at.label, point="box"))
    return at


def _as_ground(words: list[str], label: Label, at: int) -> bool:
    """Tell whether a cabinet is what a meter was held to: "two forty on the load, zero to the cabinet"."""
    if label.point != "box" or at < 3 or words[at - 2 : at] != ["to", "the"]:
        return False
    return words[at - 3] in word_list("labels_no_reading")


def _indoor_heads(narration: Narration) -> bool:
    """Tell whether heads are the indoor units of the visit: "one outdoor, five heads"."""
    known: bool | None = narration.found.get("indoor heads")
    if known is None:
        words = narration.lowers
        known = narration.found["indoor heads"] = any(
            w in {"head", "heads"} and words[max(0, i - 1)] in word_list("labels_indoor_heads")
            for i, w in enumerate(words)
        )
    return known


def _of_a_speed(words: list[str], start: int, end: int) -> bool:
    """Tell whether a label is only how fast a machine runs: "9 psi on high speed, 13 at low idle"."""
    if end - start > 1:
        return False
    if words[start] in {"high", "low"}:
        return words[end : end + 1] in (["speed"], ["idle"], ["fan"], ["gear"], ["stage"])
    led = words[max(0, start - 2) : start]
    alone = words[end : end + 1] in ([], [","], ["."], ["and"], [";"])
    return (
        alone and words[start] == "speed" and led[-1:] in (["high"], ["low"]) and led[0] in {"on", "at", "in"}
    )


def labels_by_start(narration: Narration) -> dict[int, LabelAt]:
    """Return the labels by their first token; computed once per narration."""
    done: dict[int, LabelAt] | None = narration.found.get("labels by start")
    if done is None:
        done = narration.found["labels by start"] = {x.start: x for x in find_labels(narration)}
    return done


def labels_by_end(narration: Narration) -> dict[int, LabelAt]:
    """Return the labels by the token behind them; computed once per narration."""
    done: dict[int, LabelAt] | None = narration.found.get("labels by end")
    if done is None:
        done = narration.found["labels by end"] = {x.end: x for x in find_labels(narration)}
    return done


def _pointed(narration: Narration, label: Label, at: int, end: int) -> Label:
    """Settle a label that means one of two places by its own words, else by the last hint before it.

    As in "air off the evap", "air on" a coil.
    """
    if not label.hints:
        return label
    tokens = narration.tokens
    for i in range(end - 1, max(-1, at - 200), -1):
        for point, words in label.hints.items():
            if tokens[i].lower in words and not _another(narration.lowers, i):
                return replace(label, point=point)
    return label


def _another(words: list[str], i: int) -> bool:
    """Tell whether a word of a hint is part of another thing: a blast chiller, a probe's bottle of glycol."""
    if words[i] == "chiller":
        return i > 0 and words[i - 1] in {"blast", "shock"}
    return words[i] == "glycol" and words[i + 1 : i + 2] in _PROBE_BOTTLES


_IN_THERE = (["in", "there"], ["in", "it"])
_PROBE_BOTTLES = tuple(
    [w] for w in ("bottle", "vial", "simulator", "buffer", "jar", "pot", "probe", "bottles")
)
