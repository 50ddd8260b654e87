"""Engines and voice detectors that stand in for the real ones, also ones that fail on purpose."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from dictate.speech.engine import Heard, Piece
from dictate.speech.replay import ReplayEngine

__all__ = ["ByLoudness", "CrashingEngine", "InterruptedEngine", "NothingEngine", "ReplayEngine"]


class ByLoudness:
    """A voice detector that takes every loud frame for speech; good enough for tones and silence."""

    def __init__(self, threshold: float = 500.0) -> None:
        self.threshold = threshold
        self.frames = 0

    def probabilities(self, samples: NDArray[np.int16]) -> NDArray[np.float32]:
        frames = samples.astype(np.float32).reshape(-1, 512)
        self.frames += len(frames)
        loud = np.sqrt((frames**2).mean(axis=1)) > self.threshold
        return loud.astype(np.float32)


class NothingEngine(ReplayEngine):
    """Hears nothing at all."""

    def __init__(self) -> None:
        super().__init__([], model_id="nothing")


class CrashingEngine(ReplayEngine):
    """Fails as an engine does that runs out of memory."""

    def __init__(self) -> None:
        super().__init__([], model_id="crashing")

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        raise RuntimeError("out of memory")


class InterruptedEngine(ReplayEngine):
    """Is stopped with Ctrl-C when it is asked for the nth time."""

    def __init__(self, answers: Sequence[Heard | str], at_call: int) -> None:
        super().__init__(answers, batch=1)
        self.at_call = at_call

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        if self.calls + 1 >= self.at_call:
            raise KeyboardInterrupt
        return super().hear(pieces)
