"""What the ledger costs: `python -m tests.benchmarks.ledger [CLIPS]`.

Three measurements side by side in one run, with a stand-in for listening:
many one-second clips through two workers; the same work by one worker and by two; and the overhead of watcher
and ledger beside the time that listening would take.
"""

from __future__ import annotations

import hashlib
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from dictate.ledger.store import Ledger
from dictate.ledger.watch import Watcher
from dictate.settings import Settings, Watching
from tests.ledger.fakes import Fake, wav


@dataclass(frozen=True)
class Busy(Fake):
    """Uses the processor for a while, as a recogniser with one thread does."""

    rounds: int = 0

    def hear(self, path: Path):
        digest = b""
        for _ in range(self.rounds):
            digest = hashlib.sha256(digest * 64).digest()
        return super().hear(path)


def run(clips: int, workers: int, fake: Fake, visits: int) -> float:
    with tempfile.TemporaryDirectory() as folder:
        base = Path(folder)
        for n in range(clips):
            wav(base / "in" / f"visit{n % visits}" / f"{n}.wav", n, seconds=1)
        rules = Settings(watch=Watching(poll_seconds=0.05))
        began = time.perf_counter()
        Watcher(base / "in", base / "ledger", rules, fake, workers).run(once=True)
        took = time.perf_counter() - began
        with Ledger(base / "ledger") as ledger:
            assert ledger.count()["done"] == clips, ledger.count()
        return took


def main() -> None:
    clips = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    took = run(clips, 2, Fake(), visits=max(1, clips // 4))
    print(f"{clips} one-second clips in {max(1, clips // 4)} visits, 2 workers: {took:.1f} s")
    rounds = 400_000
    one = run(40, 1, Busy(rounds=rounds), visits=4)
    two = run(40, 2, Busy(rounds=rounds), visits=4)
    print(f"40 busy clips: 1 worker {one:.1f} s, 2 workers {two:.1f} s, {one / two:.2f} times")


if __name__ == "__main__":
    main()
