"""Cut the sound into pieces of speech: at most about ten seconds, cut at pauses, nothing between them lost.

Long windows make the recogniser carry mistakes along and eat memory; without voice detection it invents
words on hum and taps. The sound comes as a stream of blocks and leaves as a stream of pieces; what is held
is the piece at hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from dictate.speech.engine import Piece, VoiceDetector

FRAME = 512
"""Samples per frame of the voice detector (32 ms at 16 kHz)."""

_RATE = 16_000
_PER_S = _RATE / FRAME


@dataclass(frozen=True)
class Cutting:
    """How pieces are cut; times in seconds, probabilities 0 to 1.

    `longest` bounds a piece; `shortest` is the length before which no ordinary pause cuts; a pause of
    `long_pause` always cuts. Speech begins at `threshold` and ends below `end_threshold`. `pad` is kept on
    both sides.
    """

    longest: float = 10.0
    shortest: float = 4.0
    long_pause: float = 1.6
    threshold: float = 0.5
    end_threshold: float = 0.35
    pad: float = 0.3
    least_speech: float = 0.16

    def words(self) -> str:
        """Return the settings as one line, for the key under which results are kept."""
        return " ".join(f"{v:g}" for v in vars(self).values())


class _Noise:
    """Running loudness of what is no speech, in mean power per sample."""

    def __init__(self) -> None:
        self.power = 0.0
        self.frames = 0

    def add(self, power: float) -> None:
        self.frames += 1
        # A mean over the clip so far at first, a slow running one later: machines start and stop.
        self.power += max(1.0 / self.frames, 0.01) * (power - self.power)


@dataclass
class _Cutter:
    """Holds the frames that are not yet part of a piece, and hands out pieces as soon as they are whole."""

    cut: Cutting
    first: int = 0  # index in the clip of the first frame held
    frames: list[NDArray[np.int16]] = field(default_factory=list)
    speech: list[bool] = field(default_factory=list)
    power: list[float] = field(default_factory=list)
    begin: int | None = None  # the first frame of speech among those held
    silent: int = 0  # frames without speech at the end of those held
    count: int = 0
    noise: _Noise = field(default_factory=_Noise)

    def add(self, frame: NDArray[np.int16], probability: float) -> Iterator[Piece]:
        """Take one frame; yield the pieces that it completes."""
        talking = bool(self.speech) and self.speech[-1]
        spoke = probability >= (self.cut.end_threshold if talking else self.cut.threshold)
        power = float(np.mean(frame.astype(np.float32) ** 2))
        if probability < 0.1:
            self.noise.add(power)
        self.frames.append(frame)
        self.speech.append(spoke)
        self.power.append(power)
        self.silent = 0 if spoke else self.silent + 1
        if self.begin is None:
            if spoke:
                self.begin = len(self.frames) - 1
            elif len(self.frames) > 4 * _frames(self.cut.pad):
                self._forget(len(self.frames))
            return
        yield from self._whole(finished=self.silent >= _frames(self.cut.long_pause))

    def finish(self) -> Iterator[Piece]:
        """Yield what is left at the end of the clip."""
        yield from self._whole(finished=True)

    def _whole(self, *, finished: bool) -> Iterator[Piece]:
        longest = _frames(self.cut.longest)
        while self.begin is not None:
            end = len(self.frames) - self.silent
            if end - self.begin > longest:
                yield from self._hand_out(self._best_cut())
            elif finished:
                yield from self._hand_out(end)
            else:
                return

    def _best_cut(self) -> int:
        """Return the frame at which a stretch that is too long is cut: a long pause, rather late.

        Without any pause it is cut at its quietest place near its end: a word may be broken there, which
        is why that is the last resort.
        """
        assert self.begin is not None
        end = self.begin + _frames(self.cut.longest)
        low = self.begin + _frames(self.cut.shortest)
        best, best_value = None, 0.0
        at = low
        while at < end:
            stop = at
            while stop < end and not self.speech[stop]:
                stop += 1
            if stop > at:
                # Half a second of pause counts as much as coming five seconds later.
                value = (stop - at) / _PER_S + 0.1 * (at - low) / _PER_S
                if value > best_value:
                    best, best_value = at, value
            at = stop + 1
        if best is not None:
            return best
        late = self.power[end - _frames(3.0) : end]
        smooth = np.convolve(late, np.ones(3) / 3, mode="same")
        return end - len(late) + int(smooth.argmin())

    def _hand_out(self, end: int) -> Iterator[Piece]:
        """Yield the piece that ends before frame `end`, with its pads, unless hardly anything was said."""
        assert self.begin is not None
        begin, pad = self.begin, _frames(self.cut.pad)
        flags = self.speech[begin:end]
        spoken = sum(flags) / _PER_S
        if spoken >= self.cut.least_speech:
            start = max(0, begin - pad)
            stop = end
            while stop < min(len(self.frames), end + pad) and not self.speech[stop]:
                stop += 1
            loud = [p for p, flag in zip(self.power[begin:end], flags, strict=True) if flag]
            yield Piece(
                index=self.count,
                start_s=round((self.first + start) * FRAME / _RATE, 3),
                samples=np.concatenate(self.frames[start:stop]),
                speech_s=round(spoken, 2),
                snr_db=self._snr(float(np.mean(loud))),
            )
            self.count += 1
        self._forget(end)

    def _snr(self, power: float) -> float | None:
        if self.noise.frames < 10:
            return None
        noise = max(self.noise.power, 1e-2)
        ratio = 10 * np.log10(max(power - noise, 1e-2) / noise)
        return round(float(np.clip(ratio, -20, 60)), 1)

    def _forget(self, end: int) -> None:
        """Drop the frames before `end`, but keep a pad of silence for the piece that follows."""
        back = 0
        while back < min(_frames(self.cut.pad), end) and not self.speech[end - 1 - back]:
            back += 1
        drop = end - back
        del self.frames[:drop], self.speech[:drop], self.power[:drop]
        self.first += drop
        self.begin = next((i for i, spoke in enumerate(self.speech) if spoke), None)


def pieces(
    blocks: Iterable[NDArray[np.int16]], detector: VoiceDetector, cutting: Cutting | None = None
) -> Iterator[Piece]:
    """Yield the pieces of speech of one clip, in order. Blocks are int16, 16 kHz, one channel."""
    cutter = _Cutter(cutting or Cutting())
    for frames in _whole_frames(blocks):
        for frame, probability in zip(frames, detector.probabilities(frames.reshape(-1)), strict=True):
            yield from cutter.add(frame, float(probability))
    yield from cutter.finish()


def _whole_frames(blocks: Iterable[NDArray[np.int16]]) -> Iterator[NDArray[np.int16]]:
    """Regroup blocks into arrays of whole frames, shape (n, FRAME); the end is filled up with silence."""
    rest: NDArray[np.int16] = np.zeros(0, np.int16)
    for block in blocks:
        rest = np.concatenate([rest, block])
        whole = len(rest) // FRAME * FRAME
        if whole:
            yield rest[:whole].reshape(-1, FRAME)
            rest = rest[whole:]
    if len(rest):
        yield np.pad(rest, (0, FRAME - len(rest))).reshape(-1, FRAME)


def _frames(seconds: float) -> int:
    return max(1, round(seconds * _PER_S))
