"""Steps told by the phrases of steps.toml."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import replace
from operator import attrgetter

from dictate.mentions.handled.as_it_was import fastened_again
from dictate.mentions.handled.not_cleaned import only_thawed
from dictate.mentions.patterns import NUMBER_WORDS, Hit, Words
from dictate.mentions.steps.around_phrase import (
    SHY,
    blows_clean,
    does_not_hold,
    fastens_caps,
    fills_else,
    follows_isolation,
    has_no_ports,
    is_near,
    lets_gas_in,
    of_a_dead_part,
    of_a_parts_plug,
    of_a_test_gas,
    of_an_open_winding,
    of_another_pump,
    only_a_symptom,
    only_named,
    runs_as_gas,
    runs_as_solder,
    said_before,
    stands_alone,
    sweeps_else,
)
from dictate.mentions.steps.found import Found
from dictate.mentions.steps.vocabulary import far_words, matchers
from dictate.mentions.tense import Scopes, Status
from dictate.mentions.whose.of_which_part import sized_cap
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

_SWITCHED = ("power_isolated", "power_restored")
_DENIED = frozenset({"no", "not", "never", "nothing", "n't"})
RULED_OUT = "steps ruled out"
"""Kept with the narration: the words [start, end) that look like a step and are none, by step."""


def from_phrases(words: Words, scopes: Scopes) -> list[Found]:
    """Return the steps told by phrases, each judged, those that other words speak against left out."""
    said, unsaid, near, component = matchers()
    veto: dict[str, list[tuple[int, int]]] = {}
    ruled_out: dict[str, list[tuple[int, int]]] = {}
    for hit in unsaid.hits(words):
        code = hit.label.rstrip("!")
        veto.setdefault(code, []).append((hit.start, hit.end))
        if hit.label.endswith("!"):
            ruled_out.setdefault(code, []).append((hit.start, hit.end))
    by_code: dict[str, list[Hit]] = {}
    words.narration.found[RULED_OUT] = ruled_out
    leaning: list[Hit] = []
    named: list[Hit] = []
    denied: list[Found] = []
    for hit in said.hits(words):
        code = hit.label.rstrip("?*!")
        if not hit.label.endswith("!") and any(
            a < hit.end and hit.start < b and not only_named(words, hit, a) for a, b in veto.get(code, ())
        ):
            continue
        if code == "ports_capped" and has_no_ports(words, hit, ruled_out.get(code, ())):
            continue
        if code == "ports_capped" and any(sized_cap(words, i) for i in range(hit.start, hit.end)):
            continue
        if speaks_of_else(words, hit, code):
            if code in ("power_isolated", "absence_of_voltage_verified", "run_checked", "adjusted"):
                ruled_out.setdefault(code, []).append((hit.start, hit.end))  # a part was unplugged, is dead
            continue
        made = Hit(code, hit.start, hit.end, hit.verb, hit.form, hit.line)
        if hit.label.endswith("!"):
            # "... if he gets it cleaned, which I didn't do": the denial is a clause of its own
            own = hit.end - 1 if "which/that" in hit.line else hit.start
            # "He's none the wiser" is of what I did not say; "nobody to tell" only of an empty house.
            untold = code == "customer_informed" and "to tell" not in hit.line
            ours = untold or scopes.ours(own)
            if ours and not scopes.conditional(own) and not scopes.advised(hit.start):
                denied.append(Found(code, "not_done", hit.start, hit.end, None))
        elif hit.label.endswith("*"):
            if stands_alone(words, hit.end):
                named.append(made)
        elif hit.label.endswith("?"):
            leaning.append(made)
        else:
            by_code.setdefault(code, []).append(made)
    out: list[Found] = []
    isolated: list[tuple[int, int]] = []
    for code, hits in by_code.items():
        out += judged_hits(words, scopes, hits, component.get(code))
    isolated = [(f.start, f.end) for f in out if f.code == "power_isolated" and f.status == "done"]
    out = [_thrown_again(words, f, out) for f in out if not _only_started(words, f, isolated)]
    out = [_thrown_as_told(words, f) for f in out]
    taken: dict[str, list[tuple[int, int]]] = {}
    for f in out:
        taken.setdefault(f.code, []).append((f.start, f.end))
    for code in near:
        hits = [
            h
            for h in leaning
            if h.label == code
            and not said_before(words, h, far_words(code))
            and (
                is_near(words, h, near[code])
                or (code == "absence_of_voltage_verified" and follows_isolation(words, h, isolated))
            )
            and not any(a < h.end and h.start < b for a, b in taken.get(code, ()))
        ]
        out += judged_hits(words, scopes, hits, component.get(code))
    for code in dict.fromkeys(h.label for h in named):
        judged = judged_hits(words, scopes, [h for h in named if h.label == code], component.get(code))
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


def speaks_of_else(words: Words, hit: Hit, code: str) -> bool:
    """Tell whether the words around a phrase make it something else than its step."""
    if code == "refrigerant_recovered":
        return words.words[hit.start] == "caught"  # "caught what it made in ten minutes"
    if code == "power_isolated":
        return of_a_parts_plug(words, hit)
    if code == "charged":
        return fills_else(words, hit)
    if code == "nitrogen_swept":
        return blows_clean(words, hit) or sweeps_else(words, hit)
    if code == "cleaned":
        return only_thawed(words, hit.start)
    if code == "adjusted":
        if fastened_again(words, hit.start):
            return True
        return of_a_test_gas(words, hit) or lets_gas_in(words, hit) or fastens_caps(words, hit)
    if code == "absence_of_voltage_verified":
        return of_an_open_winding(words, hit) or of_a_dead_part(words, hit)
    if code in ("evacuated", "vacuum_held") and of_another_pump(words, hit):
        return True
    if code == "vacuum_held" and does_not_hold(words, hit):
        return True
    if code == "run_checked" and (runs_as_gas(words, hit) or runs_as_solder(words, hit)):
        return True
    return code in SHY and said_before(words, hit, far_words(code))


def _only_started(words: Words, f: Found, isolated: list[tuple[int, int]]) -> bool:
    """Tell whether a machine was only started: nothing had been isolated before."""
    return (
        f.code == "power_restored"
        and words.words[f.start].startswith("start")
        and not any(a < f.start for a, _ in isolated)
    )


def _thrown_again(words: Words, f: Found, told: list[Found]) -> Found:
    """Return a handle or breaker that was thrown as thrown on where it was off, isolated and not restored.

    "Handle down ... New fuse. Threw the handle and I got twenty-six volts."
    """
    if f.code != "power_isolated" or f.status != "done":
        return f
    row = words.words[f.start : f.end + 1]
    if row[0] not in word_set("thrown_either_way") or any(w in word_set("thrown_off") for w in row):
        return f
    before = [g for g in told if g.end <= f.start and g.status == "done" and g.code in _SWITCHED]
    last = max(before, key=lambda g: g.start, default=None)
    off = last is not None and last.code == "power_isolated" and not _in_one_go(words, last, f)
    return replace(f, code="power_restored") if off or _came_alive(words, f) else f


def _in_one_go(words: Words, first: Found, then: Found) -> bool:
    """Tell whether a switch went the way of the first: "yanked the disconnect and flipped the breaker"."""
    same = words.sentence_of[first.start] == words.sentence_of[then.start]
    between = words.words[first.end : then.start]
    return same and "and" in between and "then" not in between and then.start - first.end <= 6


def _came_alive(words: Words, f: Found) -> bool:
    """Tell whether something runs as soon as the switch is thrown: "flipped the breaker, it lit right up"."""
    number = words.sentence_of[f.start]
    end = words.sentences[number][1]
    behind = words.words[f.end : min(end, f.end + 7)]
    if any(w in word_set("comes_alive") for w in behind) and not any(w in _DENIED for w in behind):
        return True
    if number + 1 >= len(words.sentences) or f.end < end - 1:
        return False
    return reads_volts(words, *words.sentences[number + 1])


def reads_volts(words: Words, start: int, end: int) -> bool:
    """Tell whether a sentence begins with volts that are there ("239 volts at the disconnect")."""
    row = words.words[start : min(end, start + 8)]
    at = next((k for k, w in enumerate(row) if w in ("volts", "volt", "v")), None)
    if not at:
        return False
    return all(w in NUMBER_WORDS or w[:1].isdigit() for w in row[:at]) and row[0] not in ("zero", "0", "no")


def _thrown_as_told(words: Words, f: Found) -> Found:
    """Return a power that was about to come as restored ("I'll plug her in. Away she goes")."""
    if f.code != "power_restored" or f.status != "planned":
        return f
    number = words.sentence_of[f.start]
    start, end = words.sentences[number]
    if number + 1 >= len(words.sentences) or f.end < end - 1:
        return f
    if not any(
        w in ("i'll", "we'll", "lemme", "gonna") for w in words.words[max(start, f.start - 3) : f.end]
    ):
        return f
    row = words.words[words.sentences[number + 1][0] : words.sentences[number + 1][1]]
    off = row[0] in word_set("goes_off") and row[1:2] in (("she",), ("it",), ("he",), ("we",))
    return replace(f, status="done") if off and row[2:3] in (("goes",), ("go",), ("is",), ("'s",)) else f


def judged_hits(words: Words, scopes: Scopes, hits: list[Hit], component: str | None) -> list[Found]:
    """Judge the hits of one step; of those that overlap the longest that says anything counts.

    What a verb form makes of a phrase stands above what a noun inside it would make of it: "they pulled a
    vacuum" is somebody else's, although "a vacuum" alone would count. Only a plain form that nothing
    governs ("pressure test" at the head of a sentence) has nothing to say.
    """
    found: list[tuple[Hit, Status]] = []
    closed: list[tuple[int, int]] = []
    for hit in hits:
        if hit.verb is not None:
            head = words.words[hit.verb]
            led = led_to(words, scopes, hit)
            status = scopes.verb(hit.verb if led is None else led)
            if (
                hit.label == "leak_checked"
                and status == "not_done"
                and head.startswith(("find", "see", "detect", "bubble"))
            ):
                status = "done"  # who could not find a leak has looked for one
            if status is None and not scopes.bare(hit.verb):
                closed.append((hit.start, hit.end))
        else:
            status = scopes.noun(hit.start, hit.end)
        if status == "not_done":
            if hit.label == "leak_checked" and tells_a_result(words, hit):
                status = "done"  # "no bubbles at the joints": who saw none has looked
            elif only_a_symptom(hit, None if hit.verb is None else scopes.kind(hit.verb)):
                status = None
        if status is not None:
            found.append((hit, status))
    kept: list[Found] = []
    for hit, status in sorted(found, key=lambda x: (x[0].verb is None, x[0].start - x[0].end, x[0].start)):
        if any(k.start < hit.end and hit.start < k.end for k in kept):
            continue
        if hit.verb is None and any(a <= hit.start < b for a, b in closed):
            continue
        kept.append(
            Found(
                hit.label,
                status,
                hit.start,
                hit.end,
                component_of(words, hit, component),
                once_more(words, hit),
            )
        )
    return kept


def tells_a_result(words: Words, hit: Hit) -> bool:
    """Tell whether the words of a leak check are what was found: bubbles, or a joint that stayed clean."""
    return words.words[hit.start] in ("bubbles", "bubble") or words.words[hit.end - 1] in word_set(
        "leak_results"
    )


def led_to(words: Words, scopes: Scopes, hit: Hit) -> int | None:
    """Return the verb that a head verb of another kind leads to ("started to pull a vacuum")."""
    verb = hit.verb
    if verb is None or words.words[verb + 1 : verb + 2] != ("to",) or verb + 2 >= hit.end:
        return None
    return verb + 2 if scopes.kind(verb + 2) == "base" else None


def once_more(words: Words, hit: Hit) -> bool:
    """Tell whether the words say that it is done another time."""
    around = words.words[max(0, hit.start - 3) : hit.end + 3]
    return any(w in ("again", "second", "third", "another", "twice") for w in around)


def component_of(words: Words, hit: Hit, rule: str | None) -> str | None:
    """Return the part named with the step, by the step's rule."""
    if rule is None:
        return None
    if rule != "object":
        return rule
    _, end = words.sentences[words.sentence_of[hit.start]]
    after = None
    things = things_of(words)
    for thing in things[bisect_right(things, hit.start, key=attrgetter("end")) :]:
        if thing.start >= end or thing.start > hit.end + 4:
            break
        between = words.words[hit.end : thing.start] if thing.start >= hit.end else ()
        if any(w in (",", ".", "and", "but", "then", "i", "we", "with") for w in between):
            break
        if words.words[thing.end : thing.end + 1] in (("guard",), ("guards",), ("shroud",), ("shrouds",)):
            break
        if thing.name in (
            "panel",
            "breaker",
            "disconnect",
            "fuse",
            "service port",
            "power cord",
            "piston",
            "hose",
        ):
            continue
        after = None if thing.generic and thing.name == "coil" else thing.name
        break
    return after
