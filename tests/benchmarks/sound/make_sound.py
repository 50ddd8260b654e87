"""Make the sound of a list of jobs with the external speaking script; runs under that script's own Python.

    PYTHON make_sound.py --speak SCRIPT --jobs jobs.json --out DIR [--workers 2] [--phonemes cache.json]

A job is one voice speaking one narration, with a list of conditions: {"name", "voice", "text", "seed",
"conditions": [{"name", "noise", "snr", "phone", "format"}]}. The speech is made once and every condition is laid
over it. Beside each sound lies `NAME.where.json`: when each sentence is spoken. Files that exist are kept.

The script must be importable and offer dry_speech, add_noise, phone_band, finish and write, as README.md says.
"""

from __future__ import annotations

import argparse
import importlib.util
import json
import multiprocessing
import os
import wave
from pathlib import Path

import numpy as np


def lab(path: str, phonemes: str | None):
    """Import the speaking script; with a phoneme cache its words need no pronunciation library."""
    spec = importlib.util.spec_from_file_location("speaking_script", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    if phonemes and Path(phonemes).exists():
        known = json.loads(Path(phonemes).read_text(encoding="utf-8"))
        module.Kokoro.phonemes = lambda self, text, british: known[f"{int(british)} {text}"]
    return module


def work(argument):
    """Make one job's files."""
    script, phonemes, out, job, threads = argument
    module = lab(script, phonemes)
    folder = Path(out)
    wanted = [(c, folder / f"{job['name']}--{c['name']}.{c['format']}") for c in job["conditions"]]
    where = folder / f"{job['name']}.where.json"
    if where.exists() and all(path.exists() for _, path in wanted):
        return job["name"]
    clean = folder / f"{job['name']}--clean.wav"
    if where.exists() and clean.exists():
        # The clean condition is the speech itself, so it need not be spoken again.
        with wave.open(str(clean)) as w:
            dry = np.frombuffer(w.readframes(w.getnframes()), np.int16).astype(np.float32) / 32768
    else:
        dry, spans = module.dry_speech(job["text"], job["voice"], 1.0, job["seed"], None, threads)
        where.write_text(json.dumps([[round(a, 2), round(b, 2), t] for a, b, t in spans]), encoding="utf-8")
    for condition, path in wanted:
        if path.exists():
            continue
        x = dry
        if condition["noise"] != "none":
            x = module.add_noise(x, condition["noise"], condition["snr"], job["seed"])
        if condition["phone"]:
            x = module.phone_band(x)
        partial = path.with_name("part-" + path.name)
        module.write(partial, module.finish(x), condition["format"])
        partial.rename(path)
    return job["name"]


def main():
    """Read the jobs and spread them over the workers."""
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("--speak", required=True)
    ap.add_argument("--jobs", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--workers", type=int, default=1)
    ap.add_argument("--threads", type=int, default=1)
    ap.add_argument("--phonemes")
    a = ap.parse_args()
    Path(a.out).mkdir(parents=True, exist_ok=True)
    os.environ.setdefault("OMP_NUM_THREADS", str(a.threads))
    jobs = json.loads(Path(a.jobs).read_text(encoding="utf-8"))
    todo = [(a.speak, a.phonemes, a.out, job, a.threads) for job in jobs]
    if a.workers == 1:
        for n, argument in enumerate(todo, 1):
            print(f"{n}/{len(todo)} {work(argument)}", flush=True)
        return
    with multiprocessing.get_context("spawn").Pool(a.workers) as pool:
        for n, name in enumerate(pool.imap_unordered(work, todo), 1):
            print(f"{n}/{len(todo)} {name}", flush=True)


if __name__ == "__main__":
    main()
