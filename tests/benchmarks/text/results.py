"""Write RESULTS.md: the figures with the day, the versions and the class of machine that gave them."""

from __future__ import annotations

import datetime
import os
import platform
import subprocess
from pathlib import Path

HEAD = """# Reading typed narrations: results

Written by `python -m tests.benchmarks.text --peers --write`, with `--set held_out` for the set that is only run: the
rules were written on the other one, and the peers need an hour and a half for it. Run on {day}, commit {commit}, Python {python},
{cores} cores ({cpu}), {system}. Seconds are processor seconds, start-up left out (vocabulary, models, caches: each
reader reads a sentence or a narration before its clock starts), one thread each. The long visit is an hour's
transcript, joined of narrations of the set: the time that the reader takes from its words to the mentions.

What the columns mean, in shares of the measured values that the labels have (doubtful and optional ones left out):
*found*: some value was taken from the words of the label. *Value right*: the number is right, whatever its unit.
*Value and unit right*: both, after conversion. *Right what*: the kind of quantity as well, for the peers by dimension
(a vacuum counts as a pressure, a superheat as a temperature). *Taken, no reading*: values given as plain readings that
are targets, plate values, former visits, retracted, or no reading at all; amounts of refrigerant moved do not count.

The peers get the same text sentence by sentence, with the settings their documentation recommends: quantulum3 with
its classifier; Recognizers-Text with its temperature, dimension and currency models and its number model where those
are silent; Whisper's English normaliser with the word after a number as its unit; CQE with the small English model.
"Degrees" without a scale counts for them as the label's scale, and "microns" as microns.

Setting up: `pip install .[bench]` in an environment of its own, named by `DICTATE_BENCH_PYTHON`; `CQE`, `numpy<2`,
`click`, `requests` and the spaCy model `en_core_web_sm` in another, named by `DICTATE_BENCH_CQE_PYTHON`. CQE wants the
locale en_US.UTF-8. CQE is GPL: it is run here as a program of its own and is no part of this one.

"""


def _cpu() -> str:
    for line in Path("/proc/cpuinfo").read_text().splitlines() if Path("/proc/cpuinfo").exists() else []:
        if line.startswith("model name"):
            return line.partition(":")[2].strip()
    return platform.machine()


def write_results(report: list[str]) -> None:
    """Write the tables under a head that says what they are and where they come from."""
    commit = subprocess.run(
        ["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True, check=False
    )
    head = HEAD.format(
        day=datetime.date.today().isoformat(),
        commit=commit.stdout.strip() or "unknown",
        python=platform.python_version(),
        cores=os.cpu_count(),
        cpu=_cpu(),
        system=platform.system(),
    )
    Path(__file__).with_name("RESULTS.md").write_text(head + "\n".join(report), encoding="utf-8")
