"""The sound benchmark: `python -m tests.benchmarks.sound --help`; README.md says what it needs."""

from __future__ import annotations

import datetime
import json
import math
import os
import platform
import shlex
import subprocess
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

import click

from dictate.record.transcript import Segment
from tests.benchmarks.sound import human, plan
from tests.benchmarks.sound.hear import SOUNDS, hear_all, read
from tests.benchmarks.sound.score import Scored, bootstrap, figures, from_text, score, spans_of, wilson

HERE = Path(__file__).parent
ORDER = tuple(c.replace(" ", "") for c in plan.RUN_CONDITIONS)
SHOWN = {
    "15dB": "15 dB",
    "10dB": "10 dB",
    "5dB": "5 dB",
    "m4a": "15 dB, m4a",
    "ogg": "15 dB, ogg",
    "phone": "15 dB, phone band",
}
NAMES = {"careful": "dictate, careful", "fast": "dictate, fast", "plain": "plain faster-whisper"}


def make(speak: str, work: Path, which: str, workers: int, threads: int) -> None:
    """Let the speaking script make the sound of the run set, the fit set, or both."""
    python, script = shlex.split(speak)
    jobs = [*(plan.run_jobs() if which != "fit" else []), *(plan.fit_jobs() if which != "run" else [])]
    work.mkdir(parents=True, exist_ok=True)
    listing = work / f"jobs-{which}.json"
    listing.write_text(json.dumps([j.as_dict() for j in jobs]), encoding="utf-8")
    subprocess.run(
        [python, str(HERE / "make_sound.py"), "--speak", script, "--jobs", str(listing), "--out",
         str(work / "sound"), "--workers", str(workers), "--threads", str(threads)],
        check=True,
    )  # fmt: skip


def scored(work: Path, heard: Path) -> dict[tuple[str, str], list[Scored]]:
    """Score everything heard of the run set; keys are (mode, condition)."""
    jobs = {j.name: j for j in plan.run_jobs()}
    out: dict[tuple[str, str], list[Scored]] = {}
    for line in read(heard):
        job, _, rest = str(line["sound"]).partition("--")
        if job not in jobs:
            continue
        segments = [Segment.model_validate(s) for s in line["segments"]]
        one = score(line["sound"], line["mode"], jobs[job].narration, spans_of(work / "sound", job), segments)
        one.seconds, one.duration = line["seconds"], line["duration"]
        out.setdefault((line["mode"], rest.rsplit(".", 1)[0]), []).append(one)
    return out


def percent(part: int, of: int) -> str:
    """Return a share with its 95 % interval."""
    if not of:
        return "-"
    low, high = wilson(part, of)
    return f"{100 * part / of:.1f} ({100 * low:.1f}-{100 * high:.1f})"


def table(rows: dict[tuple[str, str], list[Scored]]) -> list[str]:
    """Lay the figures out as a Markdown table."""
    out = [
        "| what | condition | sounds | readings | right, % | right and of what, % | not heard, % | accepted and wrong, % of values "
        "| unflagged, % | right but flagged, % | AUROC |",
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |",
    ]
    for mode in ("careful", "fast", "plain"):
        for condition in ORDER:
            sounds = rows.get((mode, condition))
            if not sounds:
                continue
            f = figures(sounds)
            low, high = bootstrap(sounds, "auroc", 200)
            area = "-" if math.isnan(f.auroc) else f"{f.auroc:.3f} ({low:.3f}-{high:.3f})"
            out.append(
                f"| {NAMES[mode]} | {SHOWN.get(condition, condition)} | {len(sounds)} | {f.labels} | "
                f"{percent(f.right, f.labels)} | {percent(f.right_what, f.labels)} | {percent(f.missed, f.labels)} | "
                f"{percent(f.accepted_wrong, f.found)} | {percent(f.unflagged, f.found)} | "
                f"{percent(f.right_flagged, f.found - f.wrong)} | {area} |"
            )
    return out


def shared(rows: dict[tuple[str, str], list[Scored]]) -> dict[tuple[str, str], list[Scored]]:
    """Return only the recordings that plain faster-whisper wrote down as well."""
    plain = {s.sound for (mode, _), group in rows.items() if mode == "plain" for s in group}
    return {k: [s for s in group if s.sound in plain] for k, group in rows.items()}


def by_noise(rows: dict[tuple[str, str], list[Scored]]) -> list[str]:
    """Lay out the readings right by kind of noise and by voice (careful)."""
    jobs = {j.name: j for j in plan.run_jobs()}
    noises: dict[tuple[str, str], list[Scored]] = {}
    voices: dict[tuple[str, str], list[Scored]] = {}
    for (mode, condition), sounds in rows.items():
        if mode != "careful":
            continue
        for s in sounds:
            job = jobs[s.sound.partition("--")[0]]
            kind = next(c.noise for c in job.conditions if c.name == condition)
            if condition in {"15dB", "10dB", "5dB"}:
                noises.setdefault((kind, condition), []).append(s)
            if condition in {"clean", "10dB"}:
                voices.setdefault((job.voice, condition), []).append(s)
    out = ["| noise | 15 dB | 10 dB | 5 dB |", "| --- | --- | --- | --- |"]
    for kind in plan.NOISES:
        cells = [_right(noises.get((kind, c), [])) for c in ("15dB", "10dB", "5dB")]
        out.append(f"| {kind} | " + " | ".join(cells) + " |")
    out += ["", "| voice | | clean | 10 dB |", "| --- | --- | --- | --- |"]
    for voice, about in plan.RUN_VOICES.items():
        cells = [_right(voices.get((voice, c), [])) for c in ("clean", "10dB")]
        out.append(f"| {voice} | {about} | " + " | ".join(cells) + " |")
    return out


def _right(sounds: Sequence[Scored]) -> str:
    f = figures(sounds)
    return percent(f.right, f.labels)


def errors(rows: dict[tuple[str, str], list[Scored]], most: int) -> list[str]:
    """List accepted wrong values, and the labels missed most often (careful)."""
    out = []
    for condition in ORDER:
        for s in rows.get(("careful", condition), []):
            for f in s.found:
                if f.outcome in {"wrong", "invented"} and not f.review:
                    out.append(
                        f"- {SHOWN.get(condition, condition)}, {s.sound.partition('--')[0].removeprefix('run-')}: "
                        f'heard "{f.heard}" as {_shown(f.value)} {f.unit}; '
                        + (f'said "{f.label}"' if f.label else "nothing like it was said")
                        + f" (confidence {f.confidence:.2f})"
                    )
    return out[:most] + ([f"- … and {len(out) - most} more"] if len(out) > most else [])


def _shown(value: float | None) -> str:
    return "open" if value is None else f"{value:g}"


def speeds(rows: dict[tuple[str, str], list[Scored]]) -> list[str]:
    """Return wall seconds for each second of sound, by mode."""
    out = []
    for mode in ("careful", "fast", "plain"):
        sounds = [s for (m, _), group in rows.items() if m == mode for s in group]
        if sounds:
            f = figures(sounds)
            out.append(
                f"- {NAMES[mode]}: {f.seconds / max(1e-9, f.duration):.3f} s for each second of sound, one of several processes at once on the machine named above"
            )
    return out


def humans(known: Sequence[human.Known], heard: Path, mode: str) -> list[str]:
    """Return table rows for the real human recordings."""
    texts: dict[str, str] = {}
    for line in read(heard):
        if line["mode"] == mode:
            texts[line["sound"]] = " ".join(s["text"] for s in line["segments"])
    out = []
    for name in ("prompts", "librivox", "cards", "numbers"):
        group = [k for k in known if k.set == name and k.name in texts]
        if not group:
            continue
        said = [human.normal(k.words) for k in group]
        wrong = sum(
            human.word_errors(a, human.normal(texts[k.name])) for a, k in zip(said, group, strict=True)
        )
        words = sum(map(len, said))
        numbers = [k for k in group if k.value is not None]
        right = sum(human.number_right(k.value or 0.0, texts[k.name]) for k in numbers)
        out.append(
            f"| {NAMES[mode]} | {name} | {len(group)} | {words} | {percent(wrong, words)} | "
            f"{percent(right, len(numbers)) if numbers else '-'} |"
        )
    return out


@click.command()
@click.option(
    "--speak",
    default=lambda: os.environ.get("DICTATE_SPEAK", ""),
    help="'PYTHON SCRIPT' of the speaking script; default: $DICTATE_SPEAK.",
)
@click.option(
    "--work",
    type=click.Path(path_type=Path),
    required=True,
    help="Folder for the sound and the answers; made things are kept.",
)
@click.option("--set", "which", type=click.Choice(["run", "fit", "all"]), default="run", show_default=True)
@click.option("--modes", default="careful,fast,plain", show_default=True)
@click.option("--only", default="", help="Only sounds whose name contains one of these (comma between).")
@click.option("--device", type=click.Choice(["cpu", "cuda"]), default="cpu", show_default=True)
@click.option("--workers", default=1, show_default=True, help="Processes at once.")
@click.option("--threads", default=2, show_default=True, help="Threads of each.")
@click.option("--score-only", is_flag=True, help="Make and hear nothing; score the answers that are there.")
@click.option("--machine", default="", help="Class of the machine, for the table.")
@click.option("--write", is_flag=True, help="Write RESULTS.md.")
@click.option(
    "--errors", "most", default=40, show_default=True, help="How many wrong accepted values to list."
)
def main(
    speak: str,
    work: Path,
    which: str,
    modes: str,
    only: str,
    device: str,
    workers: int,
    threads: int,
    score_only: bool,
    machine: str,
    write: bool,
    most: int,
) -> None:
    """Speak, add noise, hear with our engine and with plain faster-whisper, extract, compare, print the table."""
    heard = work / "heard.jsonl.gz"
    known, missing = human.make(work / "human")
    if not score_only:
        if speak:
            make(speak, work, which, workers, threads)
        elif not any((work / "sound").glob("run-*")):
            raise click.UsageError(
                "name the speaking script with --speak or DICTATE_SPEAK; README.md says what it must do"
            )
        wanted = [w for w in only.split(",") if w]
        sounds = sorted(
            p
            for d in ("sound", "human")
            for p in (work / d).iterdir()
            if p.suffix in SOUNDS and not p.name.startswith("part-")
        )
        prefixes = {"run": ("run-", "human-"), "fit": ("fit-",), "all": ("run-", "fit-", "human-")}[which]
        sounds = [
            p
            for p in sounds
            if p.name.startswith(prefixes) and (not wanted or any(w in p.name for w in wanted))
        ]
        for mode in modes.split(","):
            hear_all(sounds, mode, heard, "base", device, "tiny.en", workers, threads)
    rows = scored(work, heard)
    typed = figures([from_text(n) for n in plan.run_narrations()])
    lines = [
        "# Results of the sound benchmark",
        "",
        f"{datetime.date.today().isoformat()}; {machine or platform.machine()}; Python {platform.python_version()}, "
        f"faster-whisper {version('faster-whisper')}, CTranslate2 {version('ctranslate2')}, model base, witness tiny.en.",
        "",
        f"{len(plan.run_narrations())} narrations, {len(plan.RUN_VOICES)} voices, none of which the confidence was fitted on. "
        f"From the true words the extractor takes {percent(typed.right, typed.labels)} % of the {typed.labels} labelled values. "
        "In brackets: 95 % intervals (Wilson; for AUROC bootstrap over recordings). A value is right when value and "
        "unit are (of a movement the direction too), and right of what when quantity, component and point are as well, as far as they "
        "are labelled. Flagged: it carries a reason in `review`. Wrong: any other value, inventions included, except what the "
        "extractor takes from the true words of that sentence too. Plain faster-whisper runs with its defaults, whole file, with "
        "its voice detection, and the same extractor and the one-decode confidence behind it.",
        "",
        *table({k: v for k, v in rows.items() if k[0] != "plain"}),
        "",
        "## Beside plain faster-whisper, on the same recordings",
        "",
        *table(shared(rows)),
        "",
        "## By noise and by voice (careful, readings right, %)",
        "",
        *by_noise(rows),
        "",
        "## Human recordings",
        "",
        "| what | set | sounds | words | word errors, % | numbers right, % |",
        "| --- | --- | --- | --- | --- | --- |",
        *(row for mode in NAMES for row in humans(known, heard, mode)),
        *([f"\nNot installed, so left out: {', '.join(missing)}."] if missing else []),
        "",
        "Prompts: one woman, telephone band. Numbers: her digits, tens and hundreds put together (commas between them are taken "
        "out before the number is read). The cards are two or three words each.",
        "",
        "## Time",
        "",
        *speeds(rows),
        "",
        "## Wrong values that carried no reason (careful)",
        "",
        *errors(rows, most),
    ]  # fmt: skip
    text = "\n".join(lines) + "\n"
    click.echo(text)
    if write:
        (HERE / "RESULTS.md").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
