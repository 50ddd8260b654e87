"""Transcripts that exist already: typed or exported files, and an engine that repeats stored answers.

A `.txt` is read line by line and may carry `[m:ss]` marks; `.vtt` (W3C WebVTT) and `.srt` carry times. Words
get times by interpolation where their cue has them, and none where it has none.
"""

from __future__ import annotations

import html
import re
import zlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from dictate.errors import InputError, NoSpeechError
from dictate.record.transcript import Segment, Word
from dictate.speech.engine import Heard, Piece
from dictate.speech.recording import readable

SUFFIXES = (".txt", ".vtt", ".srt")
"""File name endings that are read as transcripts."""

_LARGEST = 20 << 20
_PER_WORD_S = 0.45
"""Seconds a word takes when a cue's end is not known or far away: about 130 words a minute."""

_MARK = re.compile(r"\[\s*(?:(\d{1,3}):)?(\d{1,3}):([0-5]\d(?:[.,]\d{1,3})?)\s*\]")
_TIME = r"(?:(\d{1,4}):)?([0-5]?\d):([0-5]?\d)(?:[.,](\d{1,3}))?"
_ARROW = re.compile(rf"^\s*{_TIME}\s*-->\s*{_TIME}(?:\s.*)?$")
_TAG = re.compile(r"<[^<>\n]{0,200}>")


def is_transcript(path: Path) -> bool:
    """Tell by the ending whether a path is read as a transcript."""
    return path.suffix.lower() in SUFFIXES


def read_transcript(path: Path, clip: str) -> list[Segment]:
    """Read a transcript file into segments of the clip.

    Raise InputError when it cannot be read or is malformed, NoSpeechError when there is not one word in it.
    """
    text = _text_of(path)
    suffix = path.suffix.lower()
    if suffix == ".txt":
        segments = list(from_text(text, clip))
    else:
        segments = list(_from_cues(_cues(text, path, vtt=suffix == ".vtt"), clip))
    if not any(segment.words for segment in segments):
        raise NoSpeechError(f"{path} holds no words.", "Name the transcript or the recording of a visit.")
    return segments


def _text_of(path: Path) -> str:
    readable(path)
    try:
        size = path.stat().st_size
        if size > _LARGEST:
            raise InputError(
                f"{path} has {size >> 20} MB, too much for a transcript.", "Name a text file, or split it."
            )
        raw = path.read_bytes()
    except PermissionError:
        raise InputError(
            f"{path} may not be read.", "Give yourself permission to read it (chmod u+r)."
        ) from None
    except OSError as error:
        raise InputError(
            f"{path} cannot be read ({error.strerror}).", "Check the disk or the copy."
        ) from None
    try:
        text = raw.decode("utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
    except UnicodeDecodeError:
        # A typed note of an older program; every byte sequence without a NUL is a text in this encoding.
        text = raw.decode("cp1252", errors="replace")
    odd = sum(1 for c in text if (c < " " and c not in "\t\n\r\f\v") or c in "\x7f\ufffd")
    if "\0" in text or odd > 0.02 * len(text):
        raise InputError(
            f"{path} is not a text file.", "Name a recording by its own ending, or save it as UTF-8 text."
        )
    text = "".join(c if c >= " " or c in "\t\n\r" else " " for c in text)
    return text.replace("\r\n", "\n").replace("\r", "\n")


# ---------------------------------------------------------------------------------------- plain text


def from_text(text: str, clip: str) -> Iterator[Segment]:
    """Yield the segments of a plain text; `[m:ss]` or `[h:mm:ss]` marks, where there are any, give times."""
    marks = list(_MARK.finditer(text))
    if not marks:
        for line in _joined(text.split("\n")):
            yield from _segment(clip, line, None, None)
        return
    for line in _joined(text[: marks[0].start()].split("\n")):
        yield from _segment(clip, line, None, None)
    starts = [_seconds(m.group(1), m.group(2), m.group(3)) for m in marks]
    for n, mark in enumerate(marks):
        stop = marks[n + 1].start() if n + 1 < len(marks) else len(text)
        body = " ".join(text[mark.end() : stop].split())
        later = starts[n + 1] if n + 1 < len(marks) and starts[n + 1] > starts[n] else None
        yield from _segment(clip, body, starts[n], later)


def _joined(lines: Iterable[str]) -> Iterator[str]:
    """Put lines that were broken for their width together again; an empty line always separates."""
    held = ""
    for line in lines:
        line = " ".join(line.split())
        broken = held and line and held[-1] not in ".?!:;" and (len(held) > 60 or line[0].islower())
        if broken:
            held = f"{held} {line}"
            continue
        if held:
            yield held
        held = line
    if held:
        yield held


def _seconds(hours: str | None, minutes: str, seconds: str) -> float:
    return int(hours or 0) * 3600 + int(minutes) * 60 + float(seconds.replace(",", "."))


def _segment(clip: str, text: str, start: float | None, end: float | None) -> Iterator[Segment]:
    """Yield one segment with its words, timed by interpolation; nothing when there are no words."""
    texts = text.split()
    if not texts:
        return
    if start is None:
        yield Segment(clip=clip, text=" ".join(texts), words=[Word(text=t) for t in texts])
        return
    guess = start + _PER_WORD_S * len(texts)
    stop = guess if end is None else min(end, max(guess, start + 0.01))
    letters = [len(t) + 1 for t in texts]
    total, at, words = sum(letters), 0, []
    for word, n in zip(texts, letters, strict=True):
        a = start + (stop - start) * at / total
        at += n
        words.append(
            Word(text=word, start_s=round(a, 2), end_s=round(start + (stop - start) * at / total, 2))
        )
    yield Segment(clip=clip, start_s=round(start, 3), end_s=round(stop, 3), text=" ".join(texts), words=words)


# ---------------------------------------------------------------------------------------- timed cues


@dataclass
class _Cue:
    start: float
    end: float
    lines: list[str] = field(default_factory=list)


def _cues(text: str, path: Path, *, vtt: bool) -> list[_Cue]:
    lines = text.split("\n")
    if vtt:
        if not re.match(r"WEBVTT(?:[ \t].*)?$", lines[0]):
            raise InputError(
                f"{path} does not begin with WEBVTT, so it is not a WebVTT file.",
                "Export it again, or save the words as .txt.",
            )
        lines[0] = ""
    cues: list[_Cue] = []
    n = 0
    while n < len(lines):
        block_start = n
        block: list[str] = []
        while n < len(lines) and lines[n].strip():
            block.append(lines[n])
            n += 1
        n += 1
        if not block or (vtt and re.match(r"(?:NOTE|STYLE|REGION)(?:\s|$)", block[0])):
            continue
        cues += _block(block, block_start + 1, path, vtt=vtt)
    return cues


def _block(block: list[str], line: int, path: Path, *, vtt: bool) -> Iterator[_Cue]:
    """Yield the cues of one block; usually one, several where the empty lines between them are missing."""
    arrows = [i for i, text in enumerate(block) if "-->" in text]
    if not arrows:
        if vtt and line <= 2:
            return  # header lines right below WEBVTT
        raise InputError(
            f"{path}, line {line}: there is no time (00:01.000 --> 00:04.000) above the words.",
            "Mend that line, or save the words as .txt.",
        )
    for n, at in enumerate(arrows):
        match = _ARROW.match(block[at])
        if match is None:
            raise InputError(
                f"{path}, line {line + at}: the time cannot be read.", "Write it as 00:01.000 --> 00:04.000"
            )
        g = match.groups()
        start, end = (_clock_s(*g[i : i + 4]) for i in (0, 4))
        stop = arrows[n + 1] if n + 1 < len(arrows) else len(block)
        body = block[at + 1 : stop]
        if n + 1 < len(arrows) and body and re.fullmatch(r"\s*\d+\s*", body[-1]) and not vtt:
            body = body[:-1]  # the number of the next subtitle
        yield _Cue(start, max(start, end), [clean for text in body if (clean := _clean(text))])


def _clock_s(hours: str | None, minutes: str, seconds: str, part: str | None) -> float:
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + (float(f"0.{part}") if part else 0.0)


def _clean(text: str) -> str:
    """Return the words of a cue's line, without tags and with entities resolved."""
    return " ".join(html.unescape(_TAG.sub(" ", text)).split())


def _from_cues(cues: Sequence[_Cue], clip: str) -> Iterator[Segment]:
    """Yield segments; a line that a rolling caption shows twice is said once."""
    before: list[str] = []
    before_end = -1.0
    for cue in cues:
        lines = cue.lines
        if before and cue.start <= before_end + 0.06:
            for size in range(min(len(before), len(lines)), 0, -1):
                # A cue that only repeats what stands already is still being shown, not said again.
                if before[-size:] == lines[:size] and (len(lines) > size or len(before) > size):
                    lines = lines[size:]
                    break
        before, before_end = cue.lines, cue.end
        yield from _segment(clip, " ".join(lines), cue.start, cue.end)


# ------------------------------------------------------------------------------------ stored answers


class ReplayEngine:
    """An engine that repeats stored answers: the nth piece gets the nth one, later pieces get nothing.

    An answer is a `Heard` or a text, whose words are then spread over the piece.
    """

    def __init__(self, answers: Sequence[Heard | str], *, model_id: str = "stored", batch: int = 4) -> None:
        self.answers = list(answers)
        self.model_id = model_id
        self.language = "en"
        self.batch = batch
        self.calls = 0

    def settings(self) -> dict[str, str]:
        """Return what identifies the stored answers."""
        return {"model": self.model_id, "answers": f"{zlib.crc32(repr(self.answers).encode()):08x}"}

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        """Return the stored answer of each piece."""
        self.calls += 1
        out = []
        for piece in pieces:
            answer = self.answers[piece.index] if piece.index < len(self.answers) else Heard()
            out.append(answer if isinstance(answer, Heard) else spoken(answer, piece.seconds))
        return out


def spoken(text: str, seconds: float, probability: float = 0.95) -> Heard:
    """Return an answer whose words are spread evenly over so many seconds."""
    texts = text.split()
    if not texts:
        return Heard()
    step = seconds / len(texts)
    words = [
        Word(text=t, start_s=round(n * step, 2), end_s=round((n + 1) * step, 2), probability=probability)
        for n, t in enumerate(texts)
    ]
    return Heard(text=" ".join(texts), words=words, score=-0.1, no_speech=0.01)
