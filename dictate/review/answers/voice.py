"""Answers that were recorded: heard as a narration is, and put into the log of the visit."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from dictate.record.visit import Clip

if TYPE_CHECKING:
    from dictate.pipeline import Options, Progress
    from dictate.record.transcript import Segment


def spoken(
    folder: Path, paths: Sequence[Path], by: str, options: Options, *, progress: Progress | None = None
) -> list[str]:
    """Add recorded answers to a visit: hear them, put them into its log, keep their sound.

    Returns what was taken from them. Raises the errors of hearing (InputError, NoSpeechError, ModelError).
    """
    from dictate.review.desk import Desk
    from dictate.speech import review_copy

    desk = Desk(folder, by)
    out: list[str] = []
    for path in paths:
        clips, segments = _hear([path], options, progress)
        entry = desk.say(clips[0], segments)
        out += (entry.after or "").split("; ")
        clip = clips[0].model_copy(update={"id": entry.clip.id if entry.clip else clips[0].id})
        if clip.duration_s is not None:
            review_copy(path, {clip.sha256: clip}, desk.folder / "sound")
    return [o for o in out if o]


def _hear(
    paths: Sequence[Path], options: Options, progress: Progress | None
) -> tuple[list[Clip], list[Segment]]:
    from dictate.errors import InputError, NoSpeechError
    from dictate.pipeline import heard

    clips, segments, problems = heard(paths, options, progress=progress)
    if problems:
        raise InputError(f"{problems[0].file}: {problems[0].error}", problems[0].advice)
    if not clips or not segments:
        raise NoSpeechError("nobody speaks in the answer.", "Record it again.")
    return clips, segments
