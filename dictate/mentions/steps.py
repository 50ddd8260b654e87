"""The steps of the work that were said, with what became of each: `find_steps(narration) -> list[Step]`.

Words come from steps.toml and parts.toml, tense and negation from tense.py. A step is listed once for each
actual doing: said again in other words it is the same step, and its first place counts; a plan that was then
carried out, or a "before brazing" beside "brazed", adds nothing.

    "Killed the breaker and checked it dead. Didn't braze anything."
        power_isolated done, absence_of_voltage_verified done, brazed not_done
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, cast

from dictate.mentions.handled import handled_of
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS, Hit, Matcher, Words, compile_pattern, words_of
from dictate.mentions.tense import ENDING_LOST, Scopes, Status, scopes_of
from dictate.mentions.things import things_of
from dictate.record.visit import Step, StepCode
from dictate.vocabulary.load import table, word_set

_NO_STEP = frozenset(
    {"copper tube", "line set", "suction line", "liquid line", "discharge line", "wire", "wiring",
        "terminal", "oil", "coupling", "lock ring",
     "flare nut", "access valve", "service port", "insulation", "label", "caulk", "mounting bracket"}
)  # fmt: skip
"""What is put in without being a replaced part: the repair itself, or a bit of it."""
_DRIERS = ("filter drier", "suction drier")


@dataclass(frozen=True, slots=True)
class _Found:
    code: str
    status: Status
    start: int
    end: int
    component: str | None
    again: bool = False


@cache
def _matchers() -> tuple[Matcher, Matcher, dict[str, tuple[str, ...]], dict[str, str]]:
    """Return the matchers for what is said and what is not, the near words and the components by step.

    Labels end in "?" for the lines of `near`, in "*" for those of `named`, in "!" for those of `denied`.
    """
    data = dict(table("steps"))
    lists: dict[str, Any] = data.pop("lists")
    said, unsaid = [], []
    near: dict[str, tuple[str, ...]] = {}
    component: dict[str, str] = {}
    for code, entry in data.items():
        said += [compile_pattern(code, line, lists) for line in entry["said"]]
        said += [compile_pattern(f"{code}?", line, lists) for line in entry.get("near", [])]
        said += [compile_pattern(f"{code}*", line, lists) for line in entry.get("named", [])]
        said += [compile_pattern(f"{code}!", line, lists) for line in entry.get("denied", [])]
        unsaid += [compile_pattern(code, line, lists) for line in entry.get("not_said", [])]
        near[code] = tuple(entry.get("near_words", ()))
        if "component" in entry:
            component[code] = entry["component"]
    return Matcher(said), Matcher(unsaid), near, component


def find_steps(narration: Narration) -> list[Step]:
    """Return the steps of a narration in the order in which they were said."""
    words = words_of(narration)
    scopes = scopes_of(words)
    found = _phrases(words, scopes) + _handled(narration)
    found += _stood(words, scopes, found)
    found.sort(key=lambda f: (f.start, f.end))
    found = [f for f in found if not _only_runs(words, f, found)]
    return [_step(narration, words, f, scopes) for f in _once(_corrected(found, words))]


def _stood(words: Words, scopes: Scopes, found: list[_Found]) -> list[_Found]:
    """Return the vacuums that were shut off from the pump and looked at again.

    "... three ninety microns, and fifteen minutes after I had closed the valve it had crept to four sixty"
    """
    row = words.words
    out: list[_Found] = []
    pulled = [f for f in found if f.code == "evacuated" and f.status == "done"]
    for f in pulled:
        _, last = words.sentences[min(len(words.sentences) - 1, words.sentence_of[f.start] + 2)]
        last = min(last, f.end + 45)
        later = [
            g.start
            for g in found
            if g.start > f.end and g.code in ("charged", "ports_capped", "power_restored")
        ]
        last = min([last, *later])
        if any(g.code == "vacuum_held" and f.start - 10 <= g.start <= last + 10 for g in found):
            continue
        for k in range(f.end, last):
            if not _shuts(row, k):
                continue
            behind = row[k + 1 : min(last, k + 24)]
            if any(w in word_set("no_vacuum_signs") for w in behind[:12]):
                break
            if not any(w in NUMBER_WORDS or w[:1].isdigit() or w in word_set("stood_still") for w in behind):
                break
            if scopes.noun(k, k + 1) == "done":
                out.append(_Found("vacuum_held", "done", k, k + 1, None))
            break
    return out


def _shuts(row: tuple[str, ...], k: int) -> bool:
    """Tell whether a vacuum is shut off from its pump at word k."""
    word = row[k]
    if word in ("valved", "blanked", "isolated", "blocked"):
        return True
    after = row[k + 1 : k + 5]
    if word in ("shut", "closed", "killed", "stopped", "turned", "off", "closing", "shutting"):
        return (
            any(w in ("valve", "valves", "pump", "tool", "tools", "hose", "tap") for w in after)
            or after[:1] == ("off",)
            or (word == "closed" and after[:1] in (("it",), ("off",)))
        )
    return word == "pump" and after[:1] == ("off",)


_REPAIRED = frozenset(
    {
        "part_replaced",
        "filter_drier_replaced",
        "charged",
        "cleaned",
        "adjusted",
        "power_restored",
        "brazed",
        "evacuated",
    }
)


def _only_runs(words: Words, f: _Found, found: list[_Found]) -> bool:
    """Tell whether "is running" is how the machine was found: nothing was done to it before."""
    if f.code != "run_checked" or not any(
        w in ("running", "working", "runs") for w in words.words[f.start : f.end]
    ):
        return False
    _, end = words.sentences[words.sentence_of[f.start]]
    said = words.words[f.start : min(end, f.end + 3)]
    if any(w in word_set("runs_well") for w in said):
        return False
    return not any(g.code in _REPAIRED and g.status == "done" and g.start < f.start for g in found)


def _step(narration: Narration, words: Words, f: _Found, scopes: Scopes) -> Step:
    last = _with_gas(words, f) if f.code == "pressure_tested" else f.end
    start, end = words.span(f.start, last)
    return Step(
        step=cast(StepCode, f.code),
        status=f.status,
        component=f.component,
        at=narration.at(start, end),
        heard=narration.heard(start, end),
        review=[
            *([ENDING_LOST] if f.status == "done" and scopes.ending_lost(f.start) else []),
            *([_NARROWED] if _narrowed(words, f) else []),
        ],
    )


_NARROWED = "what was done was said anew right behind it, with less"


def _narrowed(words: Words, f: _Found) -> bool:
    """Tell whether a list of parts is cut down behind it: "motor and capacitor, no, capacitor only"."""
    if f.code not in _BY_PART or f.status != "done":
        return False
    _, stop = words.sentences[words.sentence_of[f.end - 1]]
    behind = words.words[f.end : min(stop, f.end + 14)]
    cue = next((k for k, w in enumerate(behind) if w in _TAKES_BACK), None)
    return cue is not None and bool({"only", "just"} & set(behind[cue : cue + 7]))


def _with_gas(words: Words, f: _Found) -> int:
    """Return the end of a pressure test's words with the gas, when it is named right behind them."""
    _, stop = words.sentences[words.sentence_of[f.start]]
    for k in range(f.end, min(stop, f.end + 8)):
        if words.words[k] in ("nitrogen", "n2", "ofn"):
            return k + 1
    return f.end


def _phrases(words: Words, scopes: Scopes) -> list[_Found]:
    said, unsaid, near, component = _matchers()
    veto: dict[str, list[tuple[int, int]]] = {}
    for hit in unsaid.hits(words):
        veto.setdefault(hit.label, []).append((hit.start, hit.end))
    by_code: dict[str, list[Hit]] = {}
    leaning: list[Hit] = []
    named: list[Hit] = []
    denied: list[_Found] = []
    for hit in said.hits(words):
        code = hit.label.rstrip("?*!")
        if not hit.label.endswith("!") and any(
            a < hit.end and hit.start < b and not _only_named(words, hit, a) for a, b in veto.get(code, ())
        ):
            continue
        if code == "nitrogen_swept" and (_blows_clean(words, hit) or _sweeps_else(words, hit)):
            continue
        if code in ("evacuated", "vacuum_held") and _other_pump(words, hit):
            continue
        if code in _SHY and _said_before(words, hit, _far(code)):
            continue
        made = Hit(code, hit.start, hit.end, hit.verb, hit.form, hit.line)
        if hit.label.endswith("!"):
            if scopes.ours(hit.start) and not scopes.conditional(hit.start) and not scopes.advised(hit.start):
                denied.append(_Found(code, "not_done", hit.start, hit.end, None))
        elif hit.label.endswith("*"):
            if _stands_alone(words, hit.end):
                named.append(made)
        elif hit.label.endswith("?"):
            leaning.append(made)
        else:
            by_code.setdefault(code, []).append(made)
    out: list[_Found] = []
    isolated: list[tuple[int, int]] = []
    for code, hits in by_code.items():
        out += _judged(words, scopes, hits, component.get(code))
    isolated = [(f.start, f.end) for f in out if f.code == "power_isolated" and f.status == "done"]
    taken = {(f.code, f.start, f.end) for f in out}
    for code in near:
        hits = [
            h
            for h in leaning
            if h.label == code
            and not _said_before(words, h, _far(code))
            and (
                _is_near(words, h, near[code])
                or (code == "absence_of_voltage_verified" and _follows(words, h, isolated))
            )
            and not any(c == code and a < h.end and h.start < b for c, a, b in taken)
        ]
        out += _judged(words, scopes, hits, component.get(code))
    for code in dict.fromkeys(h.label for h in named):
        judged = _judged(words, scopes, [h for h in named if h.label == code], component.get(code))
        wanted = ("planned",) if code == "charged" else ("planned", "not_done")
        out += [
            f
            for f in judged
            if f.status in wanted
            and not any(g.code == code and g.start < f.end and f.start < g.end for g in out)
        ]
    out = [
        f for f in out if not any(d.code == f.code and d.start < f.end and f.start < d.end for d in denied)
    ]
    return out + denied


_BLOWN_CLEAN = frozenset(
    {
        "condenser coil",
        "evaporator coil",
        "condenser",
        "drain line",
        "strainer",
        "air filter",
        "coil",
        "drain pan",
        "contactor",
    }
)


def _blows_clean(words: Words, hit: Hit) -> bool:
    """Tell whether what is blown out is a part named before ("condenser is packed, blew it out with ...")."""
    verb = hit.start if hit.verb is None else hit.verb
    if not words.words[verb].startswith(("blow", "blew")):
        return False
    if not any(w in ("it", "that", "them") for w in words.words[verb : hit.end]):
        return False
    here = words.sentence_of[hit.start]
    start, end = words.sentences[here]
    if any(w in word_set("washing") for w in words.words[start:end]):
        return True
    return any(
        t.name in _BLOWN_CLEAN and t.start < hit.start and here - words.sentence_of[t.start] <= 1
        for t in things_of(words)
    )


def _only_named(words: Words, hit: Hit, a: int) -> bool:
    """Tell whether the words from a on are only the object of a clear verb ("weighed the charge in")."""
    return (
        hit.verb is not None
        and hit.verb < a
        and words.words[a] in ("the", "a")
        and words.words[hit.verb] in ("weighed", "dumped", "weighing", "dumping")
    )


def _other_pump(words: Words, hit: Hit) -> bool:
    """Tell whether a pump that runs or is isolated is no vacuum pump: nothing near speaks of a vacuum."""
    if not any(w in ("pump", "pumps") for w in words.words[hit.start : hit.end]):
        return False
    near = words.words[max(0, hit.start - 60) : hit.end + 45]
    return any(w in word_set("other_pump_signs") for w in near) and not any(
        w.startswith(_VACUUM_SIGNS) for w in near
    )


_VACUUM_SIGNS = ("vac", "micron", "evac", "mbar", "millibar", "nitrogen", "torr", "valved", "pascal", "blank")


def _sweeps_else(words: Words, hit: Hit) -> bool:
    """Tell whether what is swept is no circuit, or not with a gas ("swept it up")."""
    if not any(w.startswith(("sweep", "swept")) for w in words.words[hit.start : hit.end]):
        return False
    _, end = words.sentences[words.sentence_of[hit.start]]
    near = words.words[max(0, hit.start - 8) : min(end, hit.end + 6)]
    if any(w in word_set("nitrogen_names") for w in near):
        return False
    number = words.sentence_of[hit.start]
    first = words.sentences[max(0, number - 1)][0]
    wide = words.words[first : words.sentences[min(len(words.sentences) - 1, number + 1)][1]]
    return any(w in word_set("sweeping_else") for w in near) or not any(
        w in word_set("nitrogen_names") or w.startswith(("braz", "cut", "open", "recover", "vent", "propane"))
        for w in wide
    )


def _stands_alone(words: Words, i: int) -> bool:
    """Tell whether a name of the work ends at word i: nothing follows that makes it part of another name."""
    return i >= len(words.words) or words.words[i] in word_set("after_named_work")


def _judged(words: Words, scopes: Scopes, hits: list[Hit], component: str | None) -> list[_Found]:
    """Judge the hits of one step; of those that overlap the longest that says anything counts.

    What a verb form makes of a phrase stands above what a noun inside it would make of it: "they pulled a
    vacuum" is somebody else's, although "a vacuum" alone would count. Only a plain form that nothing
    governs ("pressure test" at the head of a sentence) has nothing to say.
    """
    found: list[tuple[Hit, Status]] = []
    closed: list[tuple[int, int]] = []
    for hit in hits:
        if hit.verb is not None:
            status = scopes.verb(hit.verb)
            head = words.words[hit.verb]
            if (
                hit.label == "leak_checked"
                and status == "not_done"
                and head.startswith(("find", "see", "detect"))
            ):
                status = "done"  # who could not find a leak has looked for one
            if status is None and not scopes.bare(hit.verb):
                closed.append((hit.start, hit.end))
        else:
            status = scopes.noun(hit.start, hit.end)
        if status is not None:
            found.append((hit, status))
    kept: list[_Found] = []
    for hit, status in sorted(found, key=lambda x: (x[0].verb is None, x[0].start - x[0].end, x[0].start)):
        if any(k.start < hit.end and hit.start < k.end for k in kept):
            continue
        if hit.verb is None and any(a <= hit.start < b for a, b in closed):
            continue
        kept.append(
            _Found(
                hit.label, status, hit.start, hit.end, _component(words, hit, component), _again(words, hit)
            )
        )
    return kept


_SHY = frozenset({"run_checked"})
"""Steps whose every line is given up beside the words of `far`."""


@cache
def _far(code: str) -> tuple[str, ...]:
    """Return the words beside which the lines of a step mean something else."""
    return tuple(table("steps")[code].get("far", ()))


def _said_before(words: Words, hit: Hit, beginnings: tuple[str, ...]) -> bool:
    """Tell whether one of the words stands in the hit or before it in its sentence, up to 30 words back."""
    if not beginnings:
        return False
    start, _ = words.sentences[words.sentence_of[hit.start]]
    first = max(start, hit.start - (10 if hit.label in _SHY else 30))
    row = words.words[first : hit.end]
    far = max((k for k, w in enumerate(row) if w.startswith(beginnings)), default=-1)
    if far < 0 and not any(" " in b and b in " ".join(row) for b in beginnings):
        return False
    # "... one fifty of nitrogen, held, evacuated to three hundred, held": the nearer word decides.
    near = _matchers()[2].get(hit.label, ())
    closer = max(
        (k for k, w in enumerate(row) if near and w.startswith(tuple(b.strip() for b in near))), default=-1
    )
    return closer <= far


def _follows(words: Words, hit: Hit, isolated: list[tuple[int, int]]) -> bool:
    """Tell whether the power was isolated in the same sentence before, or in the sentence before."""
    here = words.sentence_of[hit.start]
    return any(a < hit.start and here - words.sentence_of[a] <= 2 for a, _ in isolated)


def _is_near(words: Words, hit: Hit, beginnings: tuple[str, ...]) -> bool:
    """Tell whether one of the near words is said in the sentence of the hit or in the one before or after."""
    number = words.sentence_of[hit.start]
    # A hold is told some sentences after the pump was named.
    back = {"vacuum_held": 4, "pressure_tested": 4, "capacitor_discharged": 3}.get(hit.label, 1)
    first = words.sentences[max(0, number - back)][0]
    last = words.sentences[min(len(words.sentences) - 1, number + 1)][1]
    first, last = max(first, hit.start - 45), min(last, hit.end + 40)
    text = (
        " ".join(words.words[first : hit.start])
        + " | "
        + " ".join(words.words[hit.end : last])
        + " "
        + " ".join(words.words[hit.start : hit.end])
    )
    text = text.replace("no vacuum", "")
    return any((f" {b}" in f" {text}") for b in beginnings)


def _again(words: Words, hit: Hit) -> bool:
    """Tell whether the words say that it is done another time."""
    around = words.words[max(0, hit.start - 3) : hit.end + 3]
    return any(w in ("again", "second", "third", "another", "twice") for w in around)


def _component(words: Words, hit: Hit, rule: str | None) -> str | None:
    """Return the part named with the step, by the step's rule."""
    if rule is None:
        return None
    if rule != "object":
        return rule
    _, end = words.sentences[words.sentence_of[hit.start]]
    after = None
    for thing in things_of(words):
        if thing.start >= end or thing.start > hit.end + 4:
            break
        if thing.end <= hit.start or False:
            continue
        between = words.words[hit.end : thing.start] if thing.start >= hit.end else ()
        if any(w in (",", ".", "and", "but", "then", "i", "we", "with") for w in between):
            break
        if thing.name in ("panel", "breaker", "disconnect", "fuse", "service port", "power cord", "piston"):
            continue
        after = thing.name
        break
    return after


def _comes_with(narration: Narration, i: int) -> bool:
    """Tell whether the thing at word i only comes with another one."""
    row = words_of(narration).words
    return any(w == "with" for w in row[max(0, i - 2) : i + 1])


def _handled(narration: Narration) -> list[_Found]:
    out: list[_Found] = []
    for h in handled_of(narration):
        if h.action in ("replaced", "installed"):
            if h.unknown is not None:
                out.append(_Found("part_replaced", h.status, h.start, h.end, h.unknown))
            for thing in h.things:
                if thing.name in _DRIERS:
                    out.append(_Found("filter_drier_replaced", h.status, h.start, h.end, "filter drier"))
                elif thing.name == "o-ring" and h.verb is None and _comes_with(narration, h.start):
                    continue  # "both caps on with new o-rings"
                elif h.action == "replaced" and thing.name not in _NO_STEP:
                    out.append(_Found("part_replaced", h.status, h.start, h.end, thing.name))
        elif h.action == "cleaned":
            for thing in h.things:
                out.append(_Found("cleaned", h.status, h.start, h.end, None if thing.generic else thing.name))
        elif h.action == "adjusted":
            for thing in h.things:
                out.append(_Found("adjusted", h.status, h.start, h.end, thing.name))
    return out


# Steps that are counted once for each part they are done to.
_BY_PART = frozenset({"part_replaced", "cleaned", "adjusted"})
# Steps that are done again when something else was done in between.
_UNDONE_BY = {"power_isolated": "power_restored", "power_restored": "power_isolated"}


_REPAIRS = frozenset({"brazed", "part_replaced", "filter_drier_replaced", "pressure_tested"})
_TAKES_BACK = frozenset(
    ["no", "sorry", "actually", "wait", "scratch", "correction", "mean", "rather", "strike", "nope"]
)


def _corrected(found: list[_Found], words: Words) -> list[_Found]:
    """Drop a step that was taken back at once ("charged it, no sorry, I didn't charge anything")."""
    out = []
    for f in found:
        taken = any(
            g.code == f.code
            and g.status == "not_done"
            and 0 <= g.start - f.end <= 9
            and any(w in _TAKES_BACK for w in words.words[f.end : g.start])
            for g in found
        )
        if not (taken and f.status == "done"):
            out.append(f)
    return out


def _once(found: list[_Found]) -> list[_Found]:
    """Drop what is said again: same step, same status, nothing in between that undoes it."""
    out: list[_Found] = []
    last: dict[tuple[str, str, str | None], _Found] = {}
    for f in found:
        part = f.component if f.code in _BY_PART else None
        key = (f.code, f.status, part)
        previous = last.get(key)
        if f.code in _BY_PART and part is None:
            earlier = [g for g in out if g.code == f.code and g.status == f.status]
            previous = earlier[-1] if earlier else previous
        elif f.code in _BY_PART and previous is None:
            # Named without the part first, with it now: one doing.
            earlier = [g for g in out if g.code == f.code and g.status == f.status and g.component is None]
            if earlier and f.start - earlier[-1].end < 25:
                out[out.index(earlier[-1])] = _with_component(earlier[-1], part)
                last[key] = earlier[-1]
                continue
        if previous is not None and not _done_anew(f, previous, out):
            continue
        out.append(f)
        last[key] = f
    done = {(f.code, f.component if f.code in _BY_PART else None) for f in out if f.status == "done"}
    return [f for f in out if not (f.status == "planned" and _carried_out(f, out, done))]


def _with_component(f: _Found, component: str | None) -> _Found:
    return _Found(f.code, f.status, f.start, f.end, component, f.again)


def _done_anew(f: _Found, previous: _Found, out: list[_Found]) -> bool:
    """Tell whether the step was really done another time after `previous`."""
    if f.status != "done":
        return False
    if (
        f.again
        and f.code in ("evacuated", "pressure_tested", "vacuum_held", "charged")
        and f.start - previous.end > 2
    ):
        return True
    if f.code == "leak_checked" and any(
        g.code in _REPAIRS and g.status == "done" and previous.start < g.start < f.start for g in out
    ):
        return True  # the search for the leak, and the check of the repair
    undone = _UNDONE_BY.get(f.code)
    return undone is not None and any(
        g.code == undone and g.status == "done" and previous.start < g.start < f.start for g in out
    )


def _carried_out(f: _Found, out: list[_Found], done: set[tuple[str, str | None]]) -> bool:
    """Tell whether a plan said before was carried out later in the visit."""
    part = f.component if f.code in _BY_PART else None
    return (f.code, part) in done and any(
        g.code == f.code and g.status == "done" and g.start > f.start for g in out
    )
