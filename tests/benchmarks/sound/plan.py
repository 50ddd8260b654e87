"""What is spoken, by whom and in which noise: the fit set, and the set that is only run.

The two share no voice and no narration. The fit set speaks the typed narrations that the rest of the project
develops on; the run set speaks narrations of its own (`narrations/`), which nothing is fitted to.
"""

from __future__ import annotations

import zlib
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path

from tests.narrations.labels import Labelled, all_of, read

HERE = Path(__file__).parent
NOISES = ("compressor", "pump", "kitchen", "fan")

FIT_VOICES = (
    "kokoro-am_santa", "kokoro-af_kore", "kokoro-af_heart", "kokoro-bm_fable", "kokoro-bf_lily",
    "kokoro-hf_alpha", "kokoro-pm_alex", "flite-rms", "festival-cmu_us_slt_arctic_hts",
)  # fmt: skip
RUN_VOICES = {
    "kokoro-am_eric": "man, US", "kokoro-am_adam": "man, US", "kokoro-af_bella": "woman, US",
    "kokoro-af_sky": "woman, US", "kokoro-bm_lewis": "man, British", "kokoro-bf_emma": "woman, British",
    "kokoro-ef_dora": "woman, Spanish speaker", "kokoro-im_nicola": "man, Italian speaker",
    "piper-joe": "man, US",
}  # fmt: skip


@dataclass(frozen=True)
class Condition:
    """One way in which the speech reaches the recogniser. `snr` is in dB, both sides above 80 Hz."""

    name: str
    noise: str = "none"
    snr: float = 0.0
    phone: bool = False
    format: str = "wav"


@dataclass(frozen=True)
class Job:
    """One voice speaking one narration, under some conditions."""

    name: str
    voice: str
    narration: Labelled
    seed: int
    conditions: tuple[Condition, ...]

    def as_dict(self) -> dict[str, object]:
        """Return what make_sound.py reads."""
        return {
            "name": self.name,
            "voice": self.voice,
            "text": "\n".join(self.narration.lines),
            "seed": self.seed,
            "conditions": [asdict(c) for c in self.conditions],
        }


RUN_CONDITIONS = ("clean", "15 dB", "10 dB", "5 dB", "phone", "m4a", "ogg")
"""`phone`, `m4a` and `ogg` are at 15 dB: 300 to 3400 Hz; AAC at 32 kbit/s; Opus at 20 kbit/s."""


def condition(name: str, noise: str) -> Condition:
    """Return a condition by name, with the kind of noise that is this job's turn."""
    slug = name.replace(" ", "")
    if name == "clean":
        return Condition(slug)
    if name == "phone":
        return Condition(slug, noise, 15.0, phone=True)
    if name in {"m4a", "ogg"}:
        return Condition(slug, noise, 15.0, format=name)
    return Condition(slug, noise, float(name.split()[0]))


@cache
def run_narrations() -> tuple[Labelled, ...]:
    """Return the narrations that are only run."""
    return tuple(read(path) for path in sorted((HERE / "narrations").glob("*.toml")))


@cache
def fit_narrations() -> tuple[Labelled, ...]:
    """Return the narrations that the confidence is fitted on: those written as they are spoken."""
    return tuple(n for n in all_of("develop") if n.keys["form"] == "words")


def _seed(name: str) -> int:
    return zlib.crc32(name.encode()) % 100_000


SPEAKS = {
    "kokoro-am_eric": "s1 s3 s5", "kokoro-am_adam": "s2 s4 s6", "kokoro-af_bella": "s1 s3 s5",
    "kokoro-af_sky": "s2 s6", "kokoro-bm_lewis": "s1 s5", "kokoro-bf_emma": "s2 s4", "kokoro-ef_dora": "s3 s5",
    "kokoro-im_nicola": "s4 s6", "piper-joe": "s1 s2 s3 s4 s5 s6",
}  # fmt: skip
"""Which run narrations a voice speaks; all on all would take hours."""


def run_jobs(conditions: tuple[str, ...] = RUN_CONDITIONS) -> list[Job]:
    """Return the run narrations by the run voices; the kinds of noise take turns, so each stands at each level."""
    out = []
    for v, voice in enumerate(RUN_VOICES):
        for n, narration in enumerate(run_narrations()):
            if narration.name.split("-")[0] not in SPEAKS[voice].split():
                continue
            name = f"run-{narration.name}-{voice}"
            made = tuple(condition(c, NOISES[(v + n // 2 + k) % 4]) for k, c in enumerate(conditions))
            out.append(Job(name, voice, narration, _seed(name), made))
    return out


FIT_BY_BETTER_VOICES = ("a01", "a02", "a05", "a07", "a11")
"""Fit narrations that a Kokoro voice speaks; they cost twenty times the plainer voices, which speak most."""


def fit_jobs() -> list[Job]:
    """Return the fit narrations by the fit voices, clean and at 10 and 5 dB; the kinds of noise take turns."""
    good = [v for v in FIT_VOICES if v.startswith("kokoro-")]
    plain = [v for v in FIT_VOICES if not v.startswith("kokoro-")]
    out = []
    for n, narration in enumerate(fit_narrations()):
        voices = [good[n % len(good)]] if narration.name.split("-")[0] in FIT_BY_BETTER_VOICES else []
        voices += [plain[n // 2 % len(plain)]] if n % 2 or n >= 10 else []
        for voice in voices:
            name = f"fit-{narration.name}-{voice}"
            turn = n + (voice in plain and n < 10)
            made = tuple(
                condition(c, NOISES[(turn + i) % 4]) for i, c in enumerate(("clean", "10 dB", "5 dB"))
            )
            out.append(Job(name, voice, narration, _seed(name), made))
    return out
