"""The only place that joins the stages: recording → transcript → mentions → record → checks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, cast

from dictate.record.base import At
from dictate.record.transcript import Segment
from dictate.record.visit import Clip, Correction, Problem, Record

if TYPE_CHECKING:
    from dictate.settings import Settings
    from dictate.speech import Listened
    from dictate.speech.engine import Engine, Speed

Progress = Callable[[str, float, float], None]
"""Called with what is being done, how much of it is done (0 to 1), and the seconds left (or nan)."""


@dataclass(frozen=True)
class Options:
    """How a visit is to be heard and read."""

    model: str | None = None
    speed: str = "careful"
    allow_download: bool = False
    fresh: bool = False
    device: str = "auto"
    facts: dict[str, str] = field(default_factory=dict)
    """Facts about the visit from the command line, by field name of `visit`."""
    settings: Settings | None = None
    """The shop's own facts and settings, where there are any."""


def record_of(
    paths: Sequence[Path],
    options: Options | None = None,
    *,
    engine: Engine | None = None,
    progress: Progress | None = None,
) -> Record:
    """Turn the recordings or transcripts of one visit into its checked record.

    An input that cannot be read becomes an entry of `problems[]`; InputError is raised only when none could
    be read, ModelError when the model is missing, NoSpeechError when nobody speaks in any of them.
    """
    options = options or Options()
    clips, segments, problems = heard(paths, options, engine=engine, progress=progress)
    return read(clips, segments, problems, options.facts, options.settings)


def heard(
    paths: Sequence[Path],
    options: Options,
    *,
    engine: Engine | None = None,
    progress: Progress | None = None,
) -> Listened:
    """Hear recordings or transcripts: (clips, segments, problems). Raises as `record_of` does."""
    from dictate.mentions.hearing import TradeGrammar
    from dictate.speech import listen

    return listen(
        paths,
        model=options.model,
        speed=options.speed,
        allow_download=options.allow_download,
        fresh=options.fresh,
        device=options.device,
        engine=engine,
        grammar=TradeGrammar(),
        progress=progress,
    )


def listener(speed: str, model: str | None, threads: int) -> Callable[[Path], Listened]:
    """Load the model once and return what hears one file after the other with it."""
    from dictate.mentions.hearing import TradeGrammar
    from dictate.speech import Options as Listening
    from dictate.speech import listen, load_engine

    grammar = TradeGrammar()
    engine = load_engine(Listening(model=model, speed=cast("Speed", speed), threads=threads), grammar)

    def hear(path: Path) -> Listened:
        return listen([path], speed=speed, engine=engine, grammar=grammar)

    return hear


def read(
    clips: Sequence[Clip],
    segments: Sequence[Segment],
    problems: Sequence[Problem] = (),
    facts: dict[str, str] | None = None,
    settings: Settings | None = None,
) -> Record:
    """Turn a transcript into a checked record: mentions, confidence, writeup, checks."""
    from dictate.mentions import find
    from dictate.mentions.confidence import judge
    from dictate.writeup import compose

    mentions = find(segments)
    judge(mentions, segments)
    record = compose(mentions, clips, segments, problems)
    for name, value in (facts or {}).items():
        if getattr(record.visit, name) is None:
            setattr(record.visit, name, value)
    if settings is not None:
        from dictate.writeup.known import apply

        apply(record, settings)
    return check(record)


def read_text(text: str, facts: dict[str, str] | None = None) -> Record:
    """Turn a typed narration (one paragraph a line) into a checked record; for tests and try-outs."""
    import hashlib

    from dictate.mentions.narration import segments_of

    digest = hashlib.sha256(text.encode()).hexdigest()
    clip = Clip(id="c1", file="narration.txt", sha256=digest)
    return read([clip], list(segments_of(text.splitlines(), "c1")), (), facts)


def current(path: Path) -> Record:
    """Return a visit's record as it stands now, from its output folder or its `record.json`.

    What people corrected is in it (see `record/corrections/`), and it is checked again.
    """
    from dictate.record import corrections
    from dictate.record.file import load

    base = load(path)
    if path.is_file() and path.name != "record.json":
        return base
    log = corrections.load(corrections.log_path(path))
    return corrected(base, log) if log else base


def corrected(base: Record, log: Sequence[Correction]) -> Record:
    """Return a record with its corrections replayed and its checks run again; `base` is left as it is."""
    from dictate.record import corrections

    record = corrections.replay(base, log, _read_again)
    check(record)
    corrections.settle(record, log)
    return record


def _read_again(clips: Sequence[Clip], segments: Sequence[Segment]) -> Record:
    """Read a transcript without checking it; the last few are kept, since most saves change no words."""
    import hashlib

    from dictate.mentions import find
    from dictate.mentions.confidence import judge
    from dictate.writeup import compose

    key = hashlib.sha256("\n".join(s.model_dump_json() for s in segments).encode()).hexdigest()
    if key not in _READ:
        mentions = find(segments)
        judge(mentions, segments)
        while len(_READ) > 3:
            _READ.pop(next(iter(_READ)))
        _READ[key] = compose(mentions, clips, segments, ())
    return _READ[key]


_READ: dict[str, Record] = {}


def claim_fields(record: Record) -> list[tuple[str, str, At | None]]:
    """Return what a warranty claim asks for: (field, value or "not stated", where it was said)."""
    from dictate.checks.completeness import warranty

    said = "stated, without words"
    return [(f.name, (f.value or said) if f.present else "not stated", f.at) for f in warranty(record)]


def check(record: Record) -> Record:
    """Run every rule on the record again, and return it with the new verdicts."""
    from dictate.checks.run import run

    record.checks = run(record)
    return record
