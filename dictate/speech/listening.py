"""The way in: the recordings and transcripts of one visit -> clips, segments, and what could not be used."""

from __future__ import annotations

import datetime
import math
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, NamedTuple, cast, get_args

from dictate.errors import DictateError, InputError, NoSpeechError, UsageError
from dictate.record.transcript import Segment
from dictate.record.visit import Clip, Problem
from dictate.speech import hearing
from dictate.speech.engine import Device, Engine, Grammar, Heard, Piece, Speed, VoiceDetector
from dictate.speech.kept import Kept, key_of
from dictate.speech.recording import Recording, open_recording, readable, sha256, write_review_copy
from dictate.speech.replay import is_transcript, read_transcript
from dictate.speech.voice import Cutting, pieces

Progress = Callable[[str, float, float], None]
"""Called with what is being done, how much of it is done (0 to 1), and the seconds left (nan: not known)."""


@dataclass(frozen=True)
class Options:
    """How to listen.

    `model` is a name of the register or a folder; `witness` adds the small second model where it is
    installed; `fresh` decodes again what was kept; `keep` is the file of kept answers (None: the user's
    cache; False: keep nothing).
    """

    model: str | None = None
    speed: Speed = "careful"
    device: Device = "auto"
    threads: int = 0
    language: str = "en"
    allow_download: bool = False
    witness: bool = True
    fresh: bool = False
    keep: Path | Literal[False] | None = None
    cutting: Cutting = field(default_factory=Cutting)


class Listened(NamedTuple):
    """What came of a visit's inputs, in the order of the visit."""

    clips: list[Clip]
    segments: list[Segment]
    problems: list[Problem]


@dataclass
class _Input:
    path: Path
    sha256: str
    recording: Recording | None  # null for a transcript

    @property
    def recorded_at(self) -> str | None:
        return self.recording.recorded_at if self.recording else None


def listen(
    paths: Sequence[Path | str],
    *,
    model: str | None = None,
    speed: str = "careful",
    device: str = "auto",
    threads: int = 0,
    language: str = "en",
    allow_download: bool = False,
    witness: bool = True,
    fresh: bool = False,
    keep: Path | Literal[False] | None = None,
    cutting: Cutting | None = None,
    grammar: Grammar | None = None,
    engine: Engine | None = None,
    detector: Callable[[], VoiceDetector] | None = None,
    progress: Progress | None = None,
) -> Listened:
    """Turn the recordings and transcripts of one visit into words with times.

    Several files are put in the order of their recording times where all of them have one, else they stay
    as given. A file that cannot be used becomes a problem and the others are still used. Raise the file's
    own error when there is nothing but bad files, NoSpeechError when nobody speaks in any of them,
    ModelError when the model is missing or damaged. `engine` and `detector` stand in for the real ones; the
    other arguments are those of `Options`.
    """
    if speed not in get_args(Speed) or device not in get_args(Device):
        raise UsageError(
            f"there is no speed {speed!r} on device {device!r}.", "Use fast or careful; auto, cpu or cuda."
        )
    chosen = Options(
        model=model,
        speed=cast("Speed", speed),
        device=cast("Device", device),
        threads=threads,
        language=language,
        allow_download=allow_download,
        witness=witness,
        fresh=fresh,
        keep=keep,
        cutting=cutting or Cutting(),
    )
    inputs, problems, errors = _opened([Path(p) for p in paths])
    if not inputs:
        raise _nothing_usable(errors)
    inputs = _in_order(inputs)
    if engine is None and any(i.recording for i in inputs):
        engine = load_engine(chosen, grammar)
    total = sum(i.recording.expected_s for i in inputs if i.recording)
    clock = _Clock(progress, len(inputs), total)
    clips: list[Clip] = []
    segments: list[Segment] = []
    silent: list[DictateError] = []
    with _memory(chosen) as kept:
        for item in inputs:
            clip_id = f"c{len(clips) + 1}"
            clock.begin(item.path)
            try:
                if item.recording is None:
                    clip, found = _read(item, clip_id)
                else:
                    assert engine is not None
                    voices = detector or _silero
                    clip, found = _heard(item, clip_id, engine, voices(), kept, chosen, clock)
                    problems += [_partly(item.path, trouble) for trouble in item.recording.troubles]
            except NoSpeechError as error:
                silent.append(error)
                problems.append(_problem(item.path, error))
                continue
            except InputError as error:
                errors.append(error)
                problems.append(_problem(item.path, error))
                continue
            clips.append(clip)
            segments += found
    if not clips:
        if errors:
            raise _nothing_usable(errors)
        raise silent[0]
    return Listened(clips, segments, problems)


def review_copy(path: Path, clips: Mapping[str, Clip], folder: Path) -> Path | None:
    """Write the 16 kHz WAV of a recording into `folder`, named after its clip, with the transcript's times.

    `clips` are the visit's clips by the SHA-256 of their bytes. Return the file, or None for a transcript or
    a file that is no clip of the visit. Raise OutputError when it cannot be written.
    """
    if is_transcript(path) or not path.is_file():
        return None
    clip = clips.get(sha256(path))
    if clip is None:
        return None
    target = folder / f"{clip.id}.wav"
    write_review_copy(path, target)
    return target


def load_engine(options: Options, grammar: Grammar | None = None) -> Engine:
    """Find, verify and load the model, and the witness where it is wanted and installed."""
    from dictate.speech import models

    model = models.find(options.model, allow_download=options.allow_download)
    witness = None
    name = models.register().witness
    if options.witness and options.speed == "careful" and model.id != name and models.installed(name):
        witness = models.find(name)
    from dictate.speech.whisper import WhisperEngine

    return WhisperEngine(
        model,
        speed=options.speed,
        device=options.device,
        threads=options.threads,
        language=options.language,
        hint=hearing.hint(),
        grammar=grammar,
        witness=witness,
    )


def _silero() -> VoiceDetector:
    from dictate.speech.whisper import SileroDetector

    return SileroDetector()


# -------------------------------------------------------------------------------------------- inputs


def _opened(paths: Sequence[Path]) -> tuple[list[_Input], list[Problem], list[DictateError]]:
    """Open every path; what cannot be opened becomes a problem, and so does the same bytes given twice."""
    inputs: list[_Input] = []
    problems: list[Problem] = []
    errors: list[DictateError] = []
    seen: dict[str, Path] = {}
    for path in paths:
        try:
            if is_transcript(path):
                readable(path)
                item = _Input(path, sha256(path), None)
            else:
                recording = open_recording(path)
                item = _Input(path, recording.sha256, recording)
            if item.sha256 in seen:
                raise InputError(
                    f"{path} is the same recording as {seen[item.sha256]}.", "It was used once; name it once."
                )
        except InputError as error:
            problems.append(_problem(path, error))
            errors.append(error)
            continue
        seen[item.sha256] = path
        inputs.append(item)
    return inputs, problems, errors


def _in_order(inputs: list[_Input]) -> list[_Input]:
    times = [i.recorded_at for i in inputs]
    if any(t is None for t in times):
        return inputs
    return sorted(inputs, key=lambda i: datetime.datetime.fromisoformat(i.recorded_at or ""))


def _nothing_usable(errors: Sequence[DictateError]) -> DictateError:
    if len(errors) == 1:
        return errors[0]
    whats = " ".join(e.what for e in errors)
    return InputError(f"none of the {len(errors)} inputs can be used: {whats}", errors[0].advice)


def _problem(path: Path, error: DictateError) -> Problem:
    # The file has a field of its own, so its name is not said twice.
    return Problem(file=str(path), error=error.what.removeprefix(f"{path} "), advice=error.advice)


def _partly(path: Path, trouble: str) -> Problem:
    return Problem(
        file=str(path),
        error=f"{trouble}; what could be decoded was used",
        advice="Copy the recording again from the phone and run again, or say what is missing.",
    )


def _read(item: _Input, clip_id: str) -> tuple[Clip, list[Segment]]:
    segments = read_transcript(item.path, clip_id)
    ends = [s.end_s for s in segments if s.end_s is not None]
    clip = Clip(id=clip_id, file=str(item.path), sha256=item.sha256, duration_s=max(ends, default=None))
    return clip, segments


# --------------------------------------------------------------------------------------------- sound


def _memory(options: Options) -> Kept | _Nothing:
    if options.keep is False:
        return _Nothing()
    return Kept(options.keep if isinstance(options.keep, Path) else None)


class _Nothing:
    """Keeps nothing."""

    def __enter__(self) -> _Nothing:
        return self

    def __exit__(self, *_: object) -> None:
        return None

    def get(self, key: str) -> None:  # noqa: ARG002 - stands in for Kept
        return None

    def put(self, key: str, heard: Heard) -> None:
        pass


def _heard(
    item: _Input,
    clip_id: str,
    engine: Engine,
    detector: VoiceDetector,
    kept: Kept | _Nothing,
    options: Options,
    clock: _Clock,
) -> tuple[Clip, list[Segment]]:
    recording = item.recording
    assert recording is not None
    settings = engine.settings()
    segments: list[Segment] = []
    waiting: list[Piece] = []
    for piece in pieces(recording.blocks(), detector, options.cutting):
        waiting.append(piece)
        if len(waiting) >= engine.batch:
            segments += _answers(waiting, engine, kept, settings, clip_id, fresh=options.fresh)
            clock.at(piece.start_s + piece.seconds)
            waiting = []
    if waiting:
        segments += _answers(waiting, engine, kept, settings, clip_id, fresh=options.fresh)
    clock.end(recording.duration_s)
    if not segments:
        raise NoSpeechError(
            f"nobody speaks in {item.path} (listened to {recording.duration_s:.0f} s).",
            "Check that it is the right recording and that the microphone was not covered.",
        )
    clip = Clip(
        id=clip_id,
        file=str(item.path),
        sha256=item.sha256,
        duration_s=round(recording.duration_s, 3),
        recorded_at=recording.recorded_at,
        model=engine.model_id,
        language=engine.language,
        engine=settings,
    )
    return clip, segments


def _answers(
    batch: Sequence[Piece],
    engine: Engine,
    kept: Kept | _Nothing,
    settings: dict[str, str],
    clip_id: str,
    *,
    fresh: bool,
) -> list[Segment]:
    """Return the segments of a batch, from what was kept where it was, else from the engine."""
    keys = [key_of(piece, settings) for piece in batch]
    answers: list[Heard | None] = [None if fresh else kept.get(key) for key in keys]
    missing = [n for n, answer in enumerate(answers) if answer is None]
    if missing:
        for n, new in zip(missing, engine.hear([batch[n] for n in missing]), strict=True):
            answers[n] = new
            kept.put(keys[n], new)
    out = []
    for piece, answer in zip(batch, answers, strict=True):
        if answer is not None and answer.text.strip():
            out.append(hearing.put_right(_segment(piece, answer, clip_id)))
    return out


def _segment(piece: Piece, heard: Heard, clip_id: str) -> Segment:
    """Return the segment of a piece, its times counted from the start of the clip."""

    def moved(value: float | None) -> float | None:
        return None if value is None else round(value + piece.start_s, 2)

    words = [w.model_copy(update={"start_s": moved(w.start_s), "end_s": moved(w.end_s)}) for w in heard.words]
    starts = [w.start_s for w in words if w.start_s is not None]
    ends = [w.end_s for w in words if w.end_s is not None]
    return Segment(
        clip=clip_id,
        start_s=min(starts, default=round(piece.start_s, 2)),
        end_s=max(ends, default=round(piece.start_s + piece.seconds, 2)),
        text=heard.text,
        words=words,
        alternatives=heard.alternatives,
        doubts=heard.doubts,
        snr_db=piece.snr_db,
        score=heard.score,
        no_speech=heard.no_speech,
        source=heard.source,
    )


class _Clock:
    """Counts sound and time, and tells the caller what is left."""

    def __init__(self, tell: Progress | None, clips: int, total_s: float) -> None:
        self.tell = tell
        self.clips = clips
        self.total_s = total_s
        self.before_s = 0.0
        self.clip = 0
        self.file = ""
        self.started = time.monotonic()

    def begin(self, path: Path) -> None:
        self.clip += 1
        self.file = path.name
        self.at(0.0)

    def at(self, done_s: float) -> None:
        done = self.before_s + done_s
        self.total_s = max(self.total_s, done)
        elapsed = time.monotonic() - self.started
        left = elapsed * (self.total_s - done) / done if done > 0 else math.nan
        if self.tell is not None:
            share = done / self.total_s if self.total_s > 0 else 0.0
            self.tell(f"listening to {self.file}", min(1.0, share), left)

    def end(self, duration_s: float) -> None:
        self.at(duration_s)
        self.before_s += duration_s
