"""Let the recognisers write down sound files: ours (careful, fast) and plain faster-whisper with the same model.

    python -m tests.benchmarks.sound.hear --sound DIR --mode careful --out heard.jsonl.gz [--workers 1]

One JSON line for each sound: {"sound", "mode", "seconds" (wall, without loading), "duration", "segments",
"settings"}. Lines that are there already are kept, so an interrupted run goes on.
"""

from __future__ import annotations

import gzip
import json
import multiprocessing
import time
import wave
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

MODES = ("careful", "fast", "plain")
SOUNDS = {".wav", ".m4a", ".ogg", ".flac"}


class Hearer:
    """One recogniser in one process."""

    def __init__(self, mode: str, model: str, device: str, threads: int, witness: str | None) -> None:
        self.mode = mode
        self.settings: dict[str, str] = {}
        from dictate.speech import models

        if mode == "plain":
            import faster_whisper

            compute = "int8" if device == "cpu" else "float16"
            self.plain = faster_whisper.WhisperModel(
                str(models.find(model).folder), device=device, compute_type=compute, cpu_threads=threads
            )
            self.settings = {"faster_whisper": faster_whisper.__version__, "compute_type": compute}
            return
        from dictate.mentions.hearing import TradeGrammar
        from dictate.speech import hearing
        from dictate.speech.whisper import WhisperEngine

        self.engine = WhisperEngine(
            models.find(model),
            speed=mode,  # type: ignore[arg-type]
            device=device,  # type: ignore[arg-type]
            threads=threads,
            hint=hearing.hint(),
            grammar=TradeGrammar(),
            witness=models.find(witness) if witness and mode == "careful" else None,
        )
        self.settings = self.engine.settings()

    def hear(self, path: Path) -> list[dict[str, Any]]:
        """Return the segments of one sound as plain data; an empty list when nothing was heard."""
        if self.mode == "plain":
            found, _ = self.plain.transcribe(str(path), language="en", vad_filter=True, word_timestamps=True)
            out = []
            for s in found:
                words = [
                    {"text": w.word.strip(), "start_s": round(float(w.start), 2), "end_s": round(float(w.end), 2),
                     "probability": round(min(1.0, float(w.probability)), 4)}
                    for w in s.words or () if w.word.strip()
                ]  # fmt: skip
                # The library splits a number from its sign or its fraction; the record's words have none split.
                joined: list[dict[str, Any]] = []
                for raw, word in zip((w.word for w in s.words or () if w.word.strip()), words, strict=True):
                    if joined and not raw.startswith(" "):
                        joined[-1]["text"] += word["text"]
                        joined[-1]["end_s"] = word["end_s"]
                        joined[-1]["probability"] = min(joined[-1]["probability"], word["probability"])
                    else:
                        joined.append(word)
                out.append(
                    {
                        "clip": "c1",
                        "start_s": round(max(0.0, s.start), 2),
                        "end_s": round(s.end, 2),
                        "text": s.text.strip(),
                        "words": joined,
                    }
                )
            return out
        from dictate.errors import NoSpeechError
        from dictate.speech import listen

        try:
            heard = listen([path], engine=self.engine, keep=False)
        except NoSpeechError:
            return []
        return [s.model_dump(exclude_defaults=True) for s in heard.segments]


_hearer: Hearer | None = None


def _start(*arguments: Any) -> None:
    global _hearer
    _hearer = Hearer(*arguments)


def _one(path: str) -> dict[str, Any]:
    assert _hearer is not None
    begin = time.perf_counter()
    segments = _hearer.hear(Path(path))
    return {
        "sound": Path(path).name,
        "mode": _hearer.mode,
        "seconds": round(time.perf_counter() - begin, 3),
        "duration": _duration(Path(path)),
        "settings": _hearer.settings,
        "segments": segments,
    }


def _duration(path: Path) -> float:
    if path.suffix == ".wav":
        with wave.open(str(path)) as w:
            return round(w.getnframes() / w.getframerate(), 2)
    import av

    with av.open(str(path)) as container:
        return round(float(container.duration or 0) / 1e6, 2)


def read(path: Path) -> Iterator[dict[str, Any]]:
    """Yield the lines of a file of answers."""
    if path.exists():
        with gzip.open(path, "rt", encoding="utf-8") as lines:
            for line in lines:
                yield json.loads(line)


def hear_all(
    sounds: Sequence[Path],
    mode: str,
    out: Path,
    model: str,
    device: str,
    witness: str | None,
    workers: int,
    threads: int,
) -> None:
    """Write one line for each sound; sounds that have one already are left out."""
    done = {(r["sound"], r["mode"]) for r in read(out)}
    todo = [str(p) for p in sounds if (p.name, mode) not in done]
    arguments = (mode, model, device, threads, witness)
    with gzip.open(out, "at", encoding="utf-8", compresslevel=6) as lines:
        if workers == 1:
            _start(*arguments)
            for path in todo:
                lines.write(json.dumps(_one(path)) + "\n")
                lines.flush()
            return
        with multiprocessing.get_context("spawn").Pool(workers, _start, arguments) as pool:
            for n, answer in enumerate(pool.imap_unordered(_one, todo), 1):
                lines.write(json.dumps(answer) + "\n")
                lines.flush()
                if n % 50 == 0:
                    click.echo(f"{mode}: {n} of {len(todo)}", err=True)


@click.command()
@click.option("--sound", type=click.Path(path_type=Path, exists=True), required=True)
@click.option("--mode", type=click.Choice(MODES), required=True)
@click.option("--out", type=click.Path(path_type=Path), required=True)
@click.option("--only", default="", help="Only sounds whose name contains this; several: comma between them.")
@click.option("--model", default="base", show_default=True)
@click.option("--witness", default="tiny.en", show_default=True)
@click.option("--device", type=click.Choice(["cpu", "cuda"]), default="cpu", show_default=True)
@click.option("--workers", default=1, show_default=True)
@click.option("--threads", default=2, show_default=True)
def main(
    sound: Path,
    mode: str,
    out: Path,
    only: str,
    model: str,
    witness: str,
    device: str,
    workers: int,
    threads: int,
) -> None:
    """Write down every sound of a folder."""
    wanted = [w for w in only.split(",") if w]
    sounds = sorted(
        p
        for p in sound.iterdir()
        if p.suffix in SOUNDS
        and not p.name.startswith("part-")
        and (not wanted or any(w in p.name for w in wanted))
    )
    hear_all(sounds, mode, out, model, device, witness or None, workers, threads)


if __name__ == "__main__":
    main()
