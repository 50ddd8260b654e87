"""What a recogniser is to the rest of this stage: pieces of speech in, words with evidence out.

The real one is `whisper.py`; `replay.py` has one that repeats stored answers, and the tests have ones that
fail on purpose. The trade's grammar comes in through `Grammar`: the stage that takes readings implements it
and the pipeline passes it along, so that this stage knows nothing about readings.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, Protocol

import numpy as np
from numpy.typing import NDArray

from dictate.record.transcript import Alternative, Doubt, Word

Speed = Literal["fast", "careful"]
Device = Literal["auto", "cpu", "cuda"]


@dataclass(frozen=True)
class Piece:
    """One piece of speech: at most about ten seconds, cut at pauses.

    `samples` is int16, 16 kHz, one channel; `start_s` is its place in the clip; `speech_s` is how much of it
    the voice detector took for speech; `snr_db` compares the loudness of its speech with the clip's noise.
    """

    index: int
    start_s: float
    samples: NDArray[np.int16]
    speech_s: float
    snr_db: float | None = None

    @property
    def seconds(self) -> float:
        """Return its length."""
        return len(self.samples) / 16_000


@dataclass
class Heard:
    """What the recogniser made of one piece. Times are seconds from the start of the piece.

    `text` is empty when nothing was said. `score` is the mean log probability of a token under the decode
    that won, `no_speech` the model's own belief that nobody speaks; `source` names the decode that won.
    """

    text: str = ""
    words: list[Word] = field(default_factory=list)
    alternatives: list[Alternative] = field(default_factory=list)
    doubts: list[Doubt] = field(default_factory=list)
    score: float | None = None
    no_speech: float | None = None
    source: str = "decode"


class Grammar(Protocol):
    """What the trade's grammar says about a text, without hearing it.

    `version` names this state of the grammar: kept results of another version are not used again.
    """

    @property
    def version(self) -> str:
        """Return a short name that changes when the answers may change."""
        ...

    def score(self, text: str) -> float:
        """Return how much of the text is accepted: higher is better, 0 is neutral.

        The unit is one well-formed value: a text with one accepted reading more scores 1 higher; one with a
        value that cannot be (ounces of current, a recovery in ohms) scores lower.
        """
        ...

    def values(self, text: str) -> Sequence[tuple[int, int, str]]:
        """Return the values in the text as (start, end, key): characters [start, end).

        The same value has the same key however it is written.
        """
        ...

    def rivals(self, text: str) -> Sequence[tuple[int, int, str]]:
        """Return wordings (start, end, text) of the numeric spans that sound alike and mean another value."""
        ...


class NeutralGrammar:
    """A grammar that has no opinion; what is used when none is passed. It knows numbers in digits only."""

    version = "neutral"

    def score(self, text: str) -> float:  # noqa: ARG002 - the protocol's signature
        """Return 0: every text is as good as another."""
        return 0.0

    def values(self, text: str) -> Sequence[tuple[int, int, str]]:
        """Return the numbers that are written in digits."""
        return [(m.start(), m.end(), m.group()) for m in re.finditer(r"\d+(?:\.\d+)?", text)]

    def rivals(self, text: str) -> Sequence[tuple[int, int, str]]:  # noqa: ARG002
        """Return no rivals."""
        return ()


class Engine(Protocol):
    """A recogniser.

    `settings()` names everything that may change an answer (model hash, speed, versions …): kept results are
    found again by it. `batch` is how many pieces it likes to get at once.
    """

    @property
    def model_id(self) -> str:
        """Return the model's name as the record shows it."""
        ...

    @property
    def language(self) -> str:
        """Return the language that is written down."""
        ...

    @property
    def batch(self) -> int:
        """Return how many pieces one call should hold."""
        ...

    def settings(self) -> dict[str, str]:
        """Return what the answers depend on, in words."""
        ...

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        """Write down the pieces, in order, one answer each."""
        ...


class VoiceDetector(Protocol):
    """Tells speech from everything else, frame by frame."""

    def probabilities(self, samples: NDArray[np.int16]) -> NDArray[np.float32]:
        """Return the probability of speech of each frame of 512 samples.

        Called block after block; the length is a multiple of 512 and the state carries over.
        """
        ...
