"""Small sounds made at test time, and files of them in many containers."""

from __future__ import annotations

import wave
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

RATE = 16_000
Sound = NDArray[np.int16]


def tone(seconds: float, hz: float = 440.0, rate: int = RATE, level: float = 8000.0) -> Sound:
    t = np.arange(int(seconds * rate)) / rate
    return (level * np.sin(2 * np.pi * hz * t)).astype(np.int16)


def silence(seconds: float, rate: int = RATE) -> Sound:
    return np.zeros(int(seconds * rate), np.int16)


def hum(seconds: float, seed: int = 1) -> Sound:
    """Mains hum with harmonics and broadband noise: a compressor, roughly."""
    rng = np.random.default_rng(seed)
    t = np.arange(int(seconds * RATE)) / RATE
    x = sum(3000 / k * np.sin(2 * np.pi * 60 * k * t + k) for k in range(1, 12))
    return (x + 600 * rng.standard_normal(len(t))).astype(np.int16)


def taps(seconds: float, seed: int = 1) -> Sound:
    """Metal taps, a few each second, over faint noise."""
    rng = np.random.default_rng(seed)
    x = 40 * rng.standard_normal(int(seconds * RATE))
    for at in np.cumsum(rng.uniform(0.15, 0.6, int(seconds * 3))):
        start = int(at * RATE)
        length = min(1600, len(x) - start)
        if length <= 0:
            break
        t = np.arange(length) / RATE
        x[start : start + length] += 9000 * np.exp(-t * 80) * np.sin(2 * np.pi * rng.uniform(800, 3000) * t)
    return np.clip(x, -32000, 32000).astype(np.int16)


def bursts(lengths: list[float], pause: float = 2.5) -> Sound:
    """Tones of these lengths with pauses between them: what `ByLoudness` takes for speech."""
    parts: list[Sound] = [silence(0.5)]
    for n, seconds in enumerate(lengths):
        parts += [tone(seconds, 300 + 10 * n), silence(pause)]
    return np.concatenate(parts)


def write_wav(path: Path, sound: Sound, rate: int = RATE, channels: int = 1) -> Path:
    with wave.open(str(path), "wb") as out:
        out.setnchannels(channels)
        out.setsampwidth(2)
        out.setframerate(rate)
        out.writeframes(sound.astype("<i2").tobytes())
    return path


def write_coded(
    path: Path,
    sound: Sound,
    codec: str,
    rate: int = RATE,
    metadata: dict[str, str] | None = None,
    **options: str,
) -> Path:
    """Encode mono sound with PyAV; the container follows from the name."""
    with av.open(str(path), "w", options=dict(options)) as container:
        for key, value in (metadata or {}).items():
            container.metadata[key] = value
        stream = container.add_stream(codec, rate=rate)
        stream.layout = "mono"
        frame = av.AudioFrame.from_ndarray(sound.reshape(1, -1), format="s16", layout="mono")
        frame.rate = RATE
        fifo = av.AudioFifo()
        size = stream.codec_context.frame_size or 1024
        resampler = av.AudioResampler(format=stream.format, layout="mono", rate=rate)
        for out in resampler.resample(frame):
            fifo.write(out)
        while (piece := fifo.read(size)) is not None:
            container.mux(stream.encode(piece))
        rest = fifo.read(partial=True) if fifo.samples else None
        if rest is not None:
            container.mux(stream.encode(rest))
        container.mux(stream.encode(None))
    return path
