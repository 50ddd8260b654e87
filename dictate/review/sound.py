"""The review copies of the sound: where they lie, and the peaks that a waveform is drawn from."""

from __future__ import annotations

import contextlib
import json
import re
import wave
from pathlib import Path

from dictate.record.file import write_atomically

COLUMNS = 400
_ID = re.compile(r"[A-Za-z0-9-]{1,40}")
_BLOCK_FRAMES = 1_000_000


def sound_file(folder: Path, clip: str) -> Path | None:
    """Return the WAV of a clip inside the visit's folder, or null; no link leads outside."""
    if _ID.fullmatch(clip) is None:
        return None
    path = folder / "sound" / f"{clip}.wav"
    try:
        inside = path.resolve(strict=True).is_relative_to(folder.resolve())
    except OSError:
        return None
    return path if inside and path.is_file() else None


def kept_peaks(folder: Path, clip: str) -> list[int] | None:
    """Return peaks worked out before, or null."""
    try:
        data = json.loads((folder / "sound" / f"{clip}.peaks.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    good = isinstance(data, list) and len(data) <= 2 * COLUMNS and all(isinstance(p, int) for p in data)
    return data if good else None


def peaks(folder: Path, clip: str) -> list[int]:
    """Return the loudest sample of each of 400 stretches, 0 to 100 of the loudest one; [] when unreadable."""
    known = kept_peaks(folder, clip)
    path = sound_file(folder, clip)
    if known is not None or path is None:
        return known or []
    try:
        found = _measure(path)
    except (OSError, EOFError, wave.Error):
        return []
    with contextlib.suppress(OSError):
        write_atomically(folder / "sound" / f"{clip}.peaks.json", json.dumps(found).encode())
    return found


def _measure(path: Path) -> list[int]:
    import numpy as np

    with wave.open(str(path), "rb") as file:
        if file.getsampwidth() != 2 or not file.getnframes():
            return []
        total, channels = file.getnframes(), file.getnchannels()
        step = max(1, -(-total // COLUMNS))
        loud: list[float] = []
        rest = np.empty(0, dtype=np.int16)
        while data := file.readframes(_BLOCK_FRAMES):
            block = np.concatenate([rest, np.frombuffer(data, dtype="<i2")[::channels]])
            whole = len(block) // step
            # Every second sample is enough for a picture and halves the work.
            shaped = block[: whole * step].reshape(whole, step)[:, ::2]
            loud += np.abs(shaped.astype(np.int32)).max(axis=1).tolist() if whole else []
            rest = block[whole * step :]
        if len(rest):
            loud.append(float(np.abs(rest.astype(np.int32)).max()))
    top = max(loud) or 1.0
    return [round(100 * v / top) for v in loud]
