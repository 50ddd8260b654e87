"""Words around a phrase that bear it out, or that speak of something else."""

from __future__ import annotations

from collections.abc import Iterable

from dictate.mentions.patterns import Hit, Words
from dictate.mentions.steps.vocabulary import matchers
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import table, word_set

SHY = frozenset({"run_checked"})
"""Steps whose every line is given up beside the words of `far`."""
VACUUM_SIGNS = (
    "vac", "micron", "evac", "mbar", "millibar", "nitrogen", "torr", "valved", "pascal", "blank",
    "decay", "rise",
)  # fmt: skip
DEAD_SIGNS = (
    "test", "check", "meter", "prov", "verif", "confirm", "prob", "volt", "power", "zero", "nothing",
)  # fmt: skip
"""Beginnings of words that tell of a proof that something is dead."""
BLOWN_CLEAN = frozenset(table("parts")["words"]["blown_clean"])


def said_before(words: Words, hit: Hit, beginnings: tuple[str, ...]) -> bool:
    """Tell whether one of the words stands in the hit or before it in its sentence, up to 30 words back."""
    if not beginnings:
        return False
    start, _ = words.sentences[words.sentence_of[hit.start]]
    first = max(start, hit.start - (10 if hit.label in SHY else 30))
    row = words.words[first : hit.end]
    far = max((k for k, w in enumerate(row) if w.startswith(beginnings)), default=-1)
    if far < 0 and not any(" " in b and b in " ".join(row) for b in beginnings):
        return False
    # "... one fifty of nitrogen, held, evacuated to three hundred, held": the nearer word decides.
    near = matchers()[2].get(hit.label, ())
    closer = max(
        (k for k, w in enumerate(row) if near and w.startswith(tuple(b.strip() for b in near))), default=-1
    )
    return closer <= far


def follows_isolation(words: Words, hit: Hit, isolated: list[tuple[int, int]]) -> bool:
    """Tell whether the power was isolated in the same sentence before, or in the sentence before."""
    here = words.sentence_of[hit.start]
    return any(a < hit.start and here - words.sentence_of[a] <= 2 for a, _ in isolated)


def is_near(words: Words, hit: Hit, beginnings: tuple[str, ...]) -> bool:
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
    text = (
        text.replace("heat pump", "")
        .replace("no vacuum", "")
        .replace("no brazing", "")
        .replace("brazed nothing", "")
    )
    text = text.replace("vacuum cleaner", "")
    if any(w in word_set("washing") for w in words.words[first:last]):
        text = text.replace(" vacuumed", "")
    if hit.label in ("vacuum_held", "evacuated"):
        text = (
            text.replace("brush and the vacuum", "").replace("with the vacuum", "").replace("new pump on", "")
        )
    return any((f" {b}" in f" {text}") for b in beginnings)


def stands_alone(words: Words, i: int) -> bool:
    """Tell whether a name of the work ends at word i: nothing follows that makes it part of another name."""
    return i >= len(words.words) or words.words[i] in word_set("after_named_work")


def only_named(words: Words, hit: Hit, a: int) -> bool:
    """Tell whether the words from a on are only the object of a clear verb ("weighed the charge in")."""
    return (
        hit.verb is not None
        and hit.verb < a
        and words.words[a] in ("the", "a")
        and words.words[hit.verb] in ("weighed", "dumped", "weighing", "dumping")
    )


def blows_clean(words: Words, hit: Hit) -> bool:
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
        t.name in BLOWN_CLEAN and t.start < hit.start and here - words.sentence_of[t.start] <= 1
        for t in things_of(words)
    )


def of_another_pump(words: Words, hit: Hit) -> bool:
    """Tell whether a pump that runs or is isolated is no vacuum pump: nothing near speaks of a vacuum.

    What holds, is shut or sits tight needs a vacuum near as well ("the bin switch shut it off").
    """
    if hit.label == "vacuum_held*" and hit.start and words.words[hit.start - 1].endswith("n't"):
        near = words.words[max(0, hit.start - 60) : hit.end + 45]
        return not any(w.startswith(VACUUM_SIGNS) for w in near)  # "the pans won't hold"
    if not hit.label.startswith("vacuum_held") and not any(
        w in ("pump", "pumps") for w in words.words[hit.start : hit.end]
    ):
        return False
    first = max(0, hit.start - 60)
    near = words.words[first : hit.end + 45]
    if hit.label == "vacuum_held" and not any(
        w.startswith((*VACUUM_SIGNS, "pump", "pull"))
        and not (w in ("pump", "pumps") and words.words[first + k - 1] in ("heat", "water", "condensate"))
        for k, w in enumerate(near)
    ):
        return True
    return any(w in word_set("other_pump_signs") for w in near) and not any(
        w.startswith(VACUUM_SIGNS) for w in near
    )


def of_a_parts_plug(words: Words, hit: Hit) -> bool:
    """Tell whether the plug is a part's and not the machine's ("the clutch plug ... pulled the plug")."""
    row = words.words
    things = things_of(words)
    if row[hit.start].startswith("unplug") and row[hit.end : hit.end + 1] in (("and",), (",",)):
        # "the sensor was green, so I unplugged and cleaned it"
        start, _ = words.sentences[words.sentence_of[hit.start]]
        if any(
            max(start, hit.start - 16) <= t.start < hit.start
            and t.name.split()[-1] in word_set("unplugged_parts")
            for t in things
        ):
            return True
    if not any(w in ("plug", "plugs", "connector", "lead", "leads") for w in row[hit.start : hit.end]):
        return False
    behind = row[hit.end : hit.end + 3]
    if behind[:1] in (("on",), ("of",), ("off",), ("from",), ("at",)):
        k = hit.end + 1 + (behind[1:2] in (("the",), ("that",), ("its",), ("my",), ("both",)))
        owner = row[k] if k < len(row) else ""
        if owner in word_set("parts_with_plugs") or any(t.start == k and not t.generic for t in things):
            return owner not in ("wall", "receptacle", "socket")
    first = max(0, hit.start - 45)
    ends = {t.end for t in things}
    return any(
        row[k] in ("plug", "connector") and (row[k - 1] in word_set("parts_with_plugs") or k in ends)
        for k in range(first + 1, hit.start)
    )


def has_no_ports(words: Words, hit: Hit, ruled_out: Iterable[tuple[int, int]]) -> bool:
    """Tell whether a tube was closed for good: its sentence says that there is nothing to cap."""
    here = words.sentence_of[hit.start]
    return any(words.sentence_of[a] == here for a, _ in ruled_out)


def fills_else(words: Words, hit: Hit) -> bool:
    """Tell whether another liquid is filled in, and no refrigerant is named in the sentence."""
    start, end = words.sentences[words.sentence_of[hit.start]]
    row = words.words[start:end]
    return any(w in word_set("other_fills") for w in row) and not any(
        w in word_set("refrigerant_words") or (w[:1] == "r" and w[1:4].isdigit()) for w in row
    )


def of_a_test_gas(words: Words, hit: Hit) -> bool:
    """Tell whether a pressure is put back, and no setting ("remade the flare, put it back to 38")."""
    if not words.words[hit.start].startswith(("put", "brought", "bring")):
        return False
    here = words.sentence_of[hit.start]
    first = max(words.sentences[max(0, here - 2)][0], hit.start - 30)
    near = words.words[first : min(words.sentences[here][1], hit.end + 3)]
    return any(w in word_set("nitrogen_names") or w in word_set("test_gas_signs") for w in near)


def of_an_open_winding(words: Words, hit: Hit) -> bool:
    """Tell whether "nothing" on the meter is no continuity ("it don't read nothing, wide open")."""
    _, end = words.sentences[words.sentence_of[hit.start]]
    behind = tuple(
        w for w in words.words[hit.end : min(end, hit.end + 4)] if w not in (",", "wide", "it", "'s")
    )
    return behind[:1] in (("open",), ("infinite",), ("ol",))


def of_a_dead_part(words: Words, hit: Hit) -> bool:
    """Tell whether what is dead is a part that has failed, and no circuit ("the fan motor's dead, open").

    "So that's dead" behind a part is of that part, unless something was tested or metered in between.
    """
    row = words.words
    if row[hit.end - 1] != "dead" or any(w not in word_set("being_dead") for w in row[hit.start : hit.end]):
        return False
    k = hit.end - 2
    while k > 0 and row[k] in word_set("being_dead"):
        k -= 1
    if k == hit.end - 2:
        return False  # "pulled the disconnect, dead"
    before = [t for t in things_of(words) if t.start < hit.start]
    thing = before[-1] if before else None
    if thing is None or thing.name in word_set("proved_dead_at"):
        return False
    if thing.end == k + 1:
        return True
    here = words.sentence_of[hit.start]
    between = row[thing.end : hit.start]
    return (
        row[k] in ("that", "it", "so")
        and here - words.sentence_of[thing.start] <= 1
        and not any(w.startswith(DEAD_SIGNS) for w in between)
    )


def only_a_symptom(hit: Hit, kind: str | None) -> bool:
    """Tell whether what the machine does not do is its fault, and no test left out ("not pulling down")."""
    return hit.label == "run_checked" and hit.verb is not None and kind == "ing"


def does_not_hold(words: Words, hit: Hit) -> bool:
    """Tell whether the vacuum rose to a thousand microns or more, or is said to have failed."""
    _, end = words.sentences[words.sentence_of[hit.start]]
    row = words.words[hit.start : min(end, hit.end + 14)]
    if any(w in word_set("hold_failed") for w in row):
        return True
    for k, word in enumerate(row):
        if word not in word_set("rises"):
            continue
        behind = row[k + 1 : k + 7]
        if "thousand" in behind or any(w.isdigit() and len(w) >= 4 for w in behind):
            return True
        if any(
            w == "hundred"
            and j
            and (behind[j - 1] in word_set("teens") or behind[j - 1] in word_set("tens_of_hundreds"))
            for j, w in enumerate(behind)
        ):
            return True
    return False


def sweeps_else(words: Words, hit: Hit) -> bool:
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


def runs_as_gas(words: Words, hit: Hit) -> bool:
    """Tell whether what runs is gas or water ("leave the gas running till it quits glowing")."""
    start, _ = words.sentences[words.sentence_of[hit.start]]
    at = next((k for k in range(hit.start, hit.end) if words.words[k].startswith(("run", "ran"))), None)
    if at is None:
        return False
    return any(w in word_set("runs_of_gas") for w in words.words[max(start, at - 3) : at])


def runs_as_solder(words: Words, hit: Hit) -> bool:
    """Tell whether what runs is solder: torch work stands near ("outlet first, runs nice")."""
    at = next((k for k in range(hit.start, hit.end) if words.words[k] in ("runs", "run")), None)
    if at is None or words.words[at + 1 : at + 2] in (("it",), ("her",), ("them",), ("at",)):
        return False
    number = words.sentence_of[hit.start]
    first = words.sentences[max(0, number - 1)][0]
    last = words.sentences[min(len(words.sentences) - 1, number + 1)][1]
    near = words.words[max(first, hit.start - 25) : min(last, hit.end + 15)]
    return any(w in word_set("solder_signs") for w in near)


def lets_gas_in(words: Words, hit: Hit) -> bool:
    """Tell whether a valve is opened to let the gas in ("opening the liquid valve a quarter turn")."""
    start, _ = words.sentences[words.sentence_of[hit.start]]
    row = words.words[max(start, hit.start - 5) : hit.end]
    opened = next((k for k, w in enumerate(row) if w.startswith(("open", "crack", "clos"))), None)
    return opened is not None and any(w in word_set("only_opened") for w in row[opened:])


def fastens_caps(words: Words, hit: Hit) -> bool:
    """Tell whether caps are what is made tight ("caps back on, nipped up")."""
    if not words.words[hit.start].startswith(("nip", "snug", "tighten")):
        return False
    start, _ = words.sentences[words.sentence_of[hit.start]]
    before = words.words[max(start, hit.start - 6) : hit.start]
    return any(w in ("cap", "caps") for w in before) and hit.end - hit.start <= 2
