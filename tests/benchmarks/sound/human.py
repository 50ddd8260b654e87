"""Real human speech with known words, as Debian packages ship it: word errors, and numbers that were spoken.

* asterisk-core-sounds-en-wav (CC-BY-SA-3.0): one woman, prompts with their texts, 8 kHz. Her spoken digits, tens
  and hundreds are put together to numbers as they are said ("two hundred | sixty | five", "two | sixty | five").
* pocketsphinx-testdata: sentences of a public-domain reading, cards read aloud, connected digits.

Nothing of it is kept in the repository; what is not installed is left out and named.
"""

from __future__ import annotations

import gzip
import random
import re
import wave
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
TEXTS = Path("/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz")
READINGS = Path("/usr/share/pocketsphinx/test/data")
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


@dataclass(frozen=True)
class Known:
    """One sound with its words; `value` is set where the words are a number."""

    name: str
    words: str
    set: str
    value: float | None = None


def _samples(path: Path) -> NDArray[np.int16]:
    with wave.open(str(path)) as w:
        x = np.frombuffer(w.readframes(w.getnframes()), np.int16)
        if w.getframerate() == 16_000:
            return x
        # Twice the rate by putting a mean between neighbours: enough for a telephone band.
        y = x.astype(np.float32)
        between = np.append((y[:-1] + y[1:]) / 2, y[-1:])
        return np.stack([y, between], 1).ravel().astype(np.int16)


def _trimmed(x: NDArray[np.int16]) -> NDArray[np.int16]:
    loud = np.flatnonzero(np.abs(x) > 0.03 * max(1, int(np.abs(x).max())))
    return x[max(0, loud[0] - 320) : loud[-1] + 480] if len(loud) else x


def _write(path: Path, x: NDArray[np.int16]) -> None:
    quiet = np.zeros(8000, np.int16)
    with wave.open(str(path), "wb") as w:
        w.setnchannels(1)
        w.setsampwidth(2)
        w.setframerate(16_000)
        w.writeframes(np.concatenate([quiet, x, quiet]).tobytes())


def _below_100(n: int) -> list[str]:
    if n < 20:
        return [str(n)]
    return [str(n // 10 * 10), *([str(n % 10)] if n % 10 else [])]


def _word(part: str) -> str:
    if not part.isdigit():
        return part
    n = int(part)
    return _ONES[n] if n < 20 else _TENS[n // 10]


def _numbers(count: int = 120) -> list[tuple[float, list[str]]]:
    """Return numbers with the prompts that say them, in the ways a technician says them."""
    rng = random.Random(5)
    out: list[tuple[float, list[str]]] = []
    while len(out) < count:
        hundreds, rest = rng.randint(1, 9), rng.randint(1, 99)
        kind = rng.choice(["two", "hundred", "pair", "pair", "oh"])
        if kind == "two":
            out.append((rest, _below_100(rest)))
        elif kind == "hundred":
            out.append((hundreds * 100 + rest, [str(hundreds), "hundred", *_below_100(rest)]))
        elif kind == "pair" and rest >= 10:
            out.append((hundreds * 100 + rest, [str(hundreds), *_below_100(rest)]))
        elif kind == "oh":
            out.append((hundreds * 100 + rest % 9 + 1, [str(hundreds), "oh", str(rest % 9 + 1)]))
    return out


def make(folder: Path) -> tuple[list[Known], list[str]]:
    """Write the sounds into a folder; return what is said in each, and what is not installed."""
    folder.mkdir(parents=True, exist_ok=True)
    known: list[Known] = []
    missing = []
    if PROMPTS.is_dir() and TEXTS.is_file():
        with gzip.open(TEXTS, "rt", encoding="utf-8", errors="replace") as lines:
            texts = [line.strip().partition(": ") for line in lines if ": " in line and line[0] not in ";["]
        for name, _, words in texts:
            path = PROMPTS / f"{name}.wav"
            if "[" in words or len(words.split()) < 4 or not path.is_file() or "/" in name:
                continue
            target = f"human-prompt-{name}.wav"
            if not (folder / target).exists():
                _write(folder / target, _samples(path))
            known.append(Known(target, words, "prompts"))
        for n, (value, parts) in enumerate(_numbers()):
            target = f"human-number-{n:03d}.wav"
            if not (folder / target).exists():
                gap = np.zeros(800, np.int16)
                sounds = [_trimmed(_samples(PROMPTS / "digits" / f"{p}.wav")) for p in parts]
                _write(folder / target, np.concatenate([s for x in sounds for s in (x, gap)]))
            known.append(Known(target, " ".join(_word(p) for p in parts), "numbers", value))
    else:
        missing.append("asterisk-core-sounds-en-wav")
    if READINGS.is_dir():
        for folder_name, transcript in (("cards", "cards.transcription"), ("librivox", "transcription")):
            for line in (READINGS / folder_name / transcript).read_text(encoding="utf-8").splitlines():
                match = re.match(r"<s> (.*?)\s*</s> \((.+)\)", line)
                path = READINGS / folder_name / f"{match[2]}.wav" if match else None
                if match and path is not None and path.is_file():
                    target = f"human-{folder_name}-{match[2]}.wav"
                    if not (folder / target).exists():
                        _write(folder / target, _samples(path))
                    known.append(Known(target, match[1], folder_name))
    else:
        missing.append("pocketsphinx-testdata")
    return known, missing


def normal(text: str) -> list[str]:
    """Return the words for comparison: lower case, no marks, numbers in words."""
    from num2words import num2words

    def spoken(match: re.Match[str]) -> str:
        return " " + num2words(float(match[0]) if "." in match[0] else int(match[0])).replace("-", " ") + " "

    text = re.sub(r"(?<=\d),(?=\d{3})", "", text.lower().replace("’", "'"))
    text = re.sub(r"\d+(?:\.\d+)?", spoken, text)
    return re.findall(r"[a-z']+", text.replace("-", " "))


def word_errors(said: list[str], heard: list[str]) -> int:
    """Return the least number of words to change, leave out or put in (Levenshtein 1966)."""
    row = list(range(len(heard) + 1))
    for i, a in enumerate(said, 1):
        before, row[0] = row[0], i
        for j, b in enumerate(heard, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (a != b))
    return row[-1]


def number_right(value: float, text: str) -> bool:
    """Tell whether exactly this number is read from the words.

    The numbers are put together from single prompts, each of which ends in its own falling tone, so a recogniser
    writes commas between them; those are taken out first.
    """
    from dictate.mentions.spoken_numbers import parse

    numbers = [
        n.value
        for n in parse(re.sub(r"(?<=[a-z\d])[,.](?= |$)", "", text.lower()))
        if n.form not in {"clock", "ordinal"}
    ]
    return len(numbers) == 1 and abs(numbers[0] - value) < 1e-9
