"""The general libraries on the same text and labels: `python -m tests.benchmarks.text --peers`.

Each runs in a process of its own (`peer_worker.py`), sentence by sentence, because they are documented for
sentences. Set `DICTATE_BENCH_PYTHON` and `DICTATE_BENCH_CQE_PYTHON` to the interpreters that have them, where
their needs do not fit together. What they are given credit for is generous: "degrees" without a scale counts
as whatever temperature the label has, and "microns" as microns, although the library means micrometres.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from tests.benchmarks.text.found import Answer, Found, words_of
from tests.benchmarks.text.score import Score, score, total
from tests.narrations.labels import QUANTITY_OF_UNIT, Labelled

WORKER = Path(__file__).with_name("peer_worker.py")
PYTHON = {
    "quantulum3": "DICTATE_BENCH_PYTHON",
    "Recognizers-Text": "DICTATE_BENCH_PYTHON",
    "Whisper normaliser": "DICTATE_BENCH_PYTHON",
    "CQE": "DICTATE_BENCH_CQE_PYTHON",
}

# What the libraries call a unit (small letters, without plural and blanks) -> a unit of the record.
UNITS = {
    "volt": "V", "v": "V", "ampere": "A", "amp": "A", "a": "A", "ohm": "ohm", "kiloohm": "kohm", "kilohm": "kohm",
    "megohm": "Mohm", "megaohm": "Mohm", "microfarad": "uF", "µf": "uF", "uf": "uF", "mfd": "uF", "watt": "W",
    "w": "W", "hertz": "Hz", "hz": "Hz", "psi": "psi", "poundpersquareinch": "psi",
    "pound-forcepersquareinch": "psi", "poundforcepersquareinch": "psi", "kilopascal": "kPa", "kpa": "kPa",
    "bar": "bar", "millibar": "mbar", "mbar": "mbar", "pascal": "Pa", "inchofmercury": "inHg",
    "micrometre": "micron", "micrometer": "micron", "micron": "micron", "fahrenheit": "degF",
    "degreefahrenheit": "degF", "degreesfahrenheit": "degF", "f": "degF", "celsius": "degC", "c": "degC",
    "degreecelsius": "degC", "degreescelsius": "degC", "degree": "degree", "degreeangle": "degree",
    "degreeofarc": "degree", "d": "degree", "kelvin": "delta_degC", "pound-mass": "lb", "poundmass": "lb",
    "pound": "lb", "lb": "lb", "ounce": "oz", "oz": "oz", "gram": "g", "gramme": "g", "g": "g", "kilogram": "kg",
    "kilo": "kg", "kg": "kg", "cubicfootperhour": "ft3/h", "second": "s", "minute": "min", "hour": "h",
    "inch": "in", "foot": "ft", "feet": "ft", "millimetre": "mm", "millimeter": "mm",
    "revolutionperminute": "rpm", "revolutionsperminute": "rpm", "rpm": "rpm", "rev": "rpm", "percentage": "%",
    "percent": "%", "%": "%",
}  # fmt: skip
_MULTIPLE = {"kohm": ("ohm", 1e3), "Mohm": ("ohm", 1e6)}


def record_unit(unit: str | None) -> str | None:
    """Return the record's unit for a library's unit name, `degree` for one without a scale, or None."""
    if not unit:
        return None
    bare = re.sub(r"[\s_]", "", unit.lower())
    for form in (bare, bare.removesuffix("s"), bare.removesuffix("es")):
        if form in UNITS:
            return UNITS[form]
    return None


def sentences(text: str) -> list[tuple[int, str]]:
    """Cut a text into (start, sentence); a line's end ends a sentence, a point inside a number does not."""
    return [(m.start(), m.group()) for m in re.finditer(r"[^\n]+?(?:[.?!]+(?=\s)|$)", text, re.MULTILINE)]


def run(peer: str, cut: list[str]) -> dict[str, Any] | str:
    """Run one peer over sentences; a string says why it did not run."""
    python = os.environ.get(PYTHON[peer], sys.executable)
    try:
        done = subprocess.run(
            [python, str(WORKER)],
            input=json.dumps({"peer": peer, "sentences": cut}),
            env=os.environ | {"OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"},
            capture_output=True,
            text=True,
            timeout=1800,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        return str(error)
    if done.returncode:
        return (done.stderr.strip().splitlines() or ["no message"])[-1]
    result: dict[str, Any] = json.loads(done.stdout)
    return result


def found_in(labelled: Labelled, cut: list[tuple[int, str]], per_sentence: list[Any]) -> Answer:
    """Put one peer's finds into our shape, each placed on the words of the narration."""
    answer = Answer([])
    for (start, sentence), finds in zip(cut, per_sentence, strict=True):
        for a, b, value, unit, kind, surface in finds:
            lead = len(sentence[a:b]) - len(sentence[a:b].lstrip())
            first, last = words_of(labelled.text, start + a + lead, start + b)
            ours = record_unit(unit)
            if ours in _MULTIPLE:
                ours, factor = _MULTIPLE[ours]
                value = value * factor if value is not None else None
            if ours == "degree":
                # The scale that the label has counts as said.
                near = [r for r in labelled.readings if r.first <= last and first <= r.last]
                ours = next((r.get("unit") for r in near if "deg" in str(r.get("unit"))), "degF")
            quantity = QUANTITY_OF_UNIT.get(ours or "")
            if ours == "micron":
                quantity = "length"  # what the library means by it
            if kind == "angle":
                quantity = "temperature"
            answer.readings.append(
                Found(first, last, value, ours, quantity=quantity, relation="=", heard=surface)
            )
    return answer


def seconds_to_mentions(narrations: list[Labelled]) -> float:
    """Return the processor seconds for taking everything from the words, which is what the peers do a part of.

    What `own` of `compare` holds has the write-up and the checks in it as well.
    """
    from dictate.mentions import find
    from dictate.mentions.narration import segments_of

    segments = [list(segments_of(n.lines, "c1")) for n in narrations]
    start = time.process_time()
    for one in segments:
        find(one)
    return time.process_time() - start


def compare(narrations: list[Labelled], own: Score) -> list[str]:
    """Run every peer on the narrations, print one row for each beside our own, and return the table."""
    cut = [sentences(n.text) for n in narrations]
    flat = [sentence for one in cut for _, sentence in one]
    rows: list[tuple[str, Score | None, str]] = [
        ("this pipeline", own, "words to checked record"),
        ("this pipeline", replace(own, seconds=seconds_to_mentions(narrations)), "words to mentions"),
    ]
    for peer in PYTHON:
        result = run(peer, flat)
        if isinstance(result, str):
            rows.append((peer, None, f"did not run: {result}"))
            continue
        finds = iter(result["found"])
        scores = []
        for labelled, sentences_here in zip(narrations, cut, strict=True):
            answer = found_in(labelled, sentences_here, [next(finds) for _ in sentences_here])
            scores.append(score(labelled, answer, peer=True))
        whole = total(scores)
        whole.seconds = result["seconds"]
        note = result["version"] + (f"; {result['errors']} sentences failed" if result["errors"] else "")
        rows.append((peer, whole, note))
    lines = [
        "| reader | found | value right | value and unit right | right what | taken, no reading | s per 1,000 words |",
        "|---|---|---|---|---|---|---|",
    ]
    for name, s, note in rows:
        cells = list(figure(s).values()) if s else [""] * 6
        lines.append("| " + " | ".join([f"{name} ({note})" if note else name, *cells]) + " |")
    click.echo("\n" + "\n".join(lines) + "\n")
    return lines


def figure(s: Score) -> dict[str, str]:
    """Return one row: shares of all measured values that the labels have."""
    of = s.pairs["found"][1]
    share = {
        "found": s.pairs["found"][0],
        "value": s.pairs["right number"][0],
        "value and unit": s.pairs["right value and unit"][0],
        "what": s.pairs["right what"][0],
    }
    out = {key: f"{100 * n / of:.1f} %" for key, n in share.items()}
    out["taken"] = str(s.counts["taken, not a reading"])
    out["seconds"] = f"{1000 * s.seconds / s.words:.3f}"
    return out
