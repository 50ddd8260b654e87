"""Stand-ins for listening, importable by worker processes."""

import os
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from dictate.errors import InputError
from dictate.record.transcript import Segment, Word
from dictate.record.visit import Clip, Problem
from dictate.speech.recording import sha256

WORDS = "suction pressure twenty two psi"


@dataclass(frozen=True)
class Fake:
    """Makes a listener that says the same words of every clip, and misbehaves where a name asks for it."""

    log: str | None = None
    seconds: float = 0.0

    def __call__(self) -> Callable[[Path], tuple[list[Clip], list[Segment], list[Problem]]]:
        return self.hear

    def hear(self, path: Path) -> tuple[list[Clip], list[Segment], list[Problem]]:
        if self.log:
            with Path(self.log).open("a", encoding="utf-8") as log:
                log.write(f"{path.name}\n")
        if "poison" in path.name:
            os.kill(os.getpid(), signal.SIGKILL)
        if "broken" in path.name:
            raise InputError(f"{path} is broken.", "Copy it again.")
        time.sleep(self.seconds)
        clip = Clip(id="c1", file=str(path), sha256=sha256(path), duration_s=1.0)
        words = [Word(text=w, start_s=n * 0.2, end_s=n * 0.2 + 0.2) for n, w in enumerate(WORDS.split())]
        return [clip], [Segment(clip="c1", start_s=0, end_s=1, text=WORDS, words=words)], []


def wav(path: Path, note: int, seconds: float = 0.2) -> Path:
    """Write a whole wav file whose bytes depend on `note`."""
    import wave

    path.parent.mkdir(parents=True, exist_ok=True)
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(8000)
        file.writeframes(note.to_bytes(4, "little") * int(2000 * seconds))
    return path
