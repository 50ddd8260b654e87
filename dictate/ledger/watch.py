"""The watcher: look at the folder, keep the workers alive, write visits up.

The watcher's process scans and repairs; the listening happens in worker processes, each with its model loaded
once. Everything that matters is in the ledger, so any of these processes may be killed at any time.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dictate.errors import DictateError, ExitCode, ModelError, OutputError, UsageError
from dictate.ledger import scan
from dictate.ledger.store import Ledger, worker_name
from dictate.ledger.work import BEAT_SECONDS, Listen, do_clip, write_up

if TYPE_CHECKING:
    from dictate.settings import Settings

LEASE_SECONDS = 5 * BEAT_SECONDS
"""A clip whose beat stood still this long is taken from its worker."""
MEMORY_PER_WORKER = 1_300_000_000
"""Bytes that one listening worker may need (measured peak, with room)."""

ListenMaker = Callable[[], Listen]
"""Called once in each worker process: loads the model and returns what hears a file."""


def workers_that_fit(wanted: int | None = None) -> int:
    """Return how many workers this machine carries: by cores and by memory, at least one."""
    if wanted is not None:
        return max(1, wanted)
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    with contextlib.suppress(ValueError, OSError, AttributeError):
        memory = os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE")
        return max(1, min(cores, int(memory // MEMORY_PER_WORKER)))
    return max(1, cores)


def real_listen(speed: str, model: str | None, threads: int) -> ListenMaker:
    """Return a maker that loads the model once and hears files with it."""
    return _RealListen(speed, model, threads)


@dataclass(frozen=True)
class _RealListen:
    speed: str
    model: str | None
    threads: int

    def __call__(self) -> Listen:
        from dictate.pipeline import listener

        return listener(self.speed, self.model, self.threads)


@dataclass
class Reaper:
    """Takes clips from workers that stopped beating, by this process's own monotonic clock."""

    ledger: Ledger
    tries: int
    lease_s: float = LEASE_SECONDS
    watched: dict[str, tuple[int, float]] = field(default_factory=dict)

    def look(self, dead: set[str] = frozenset()) -> list[str]:  # type: ignore[assignment]
        """Look once; `dead` names workers known to be gone. Returns the clips taken back."""
        taken = []
        running = self.ledger.running()
        for sha256, (owner, beat) in running.items():
            former = self.watched.get(sha256)
            if former is None or former[0] != beat:
                self.watched[sha256] = (beat, time.monotonic())
                if owner not in dead:
                    continue
                former = self.watched[sha256]
            gone = owner in dead or time.monotonic() - former[1] > self.lease_s
            if gone and self.ledger.release(sha256, beat, self.tries) is not None:
                taken.append(sha256)
        for sha256 in set(self.watched) - set(running):
            del self.watched[sha256]
        return taken


def work_until_idle(ledger: Ledger, listen: Listen, owner: str, say: Callable[[str], None]) -> int:
    """Do the clips that wait until none does; returns how many were done."""
    count = 0
    while (clip := ledger.claim(owner)) is not None:
        try:
            state = do_clip(ledger, clip, owner, listen)
        except KeyboardInterrupt:
            ledger.hand_back(clip.sha256, owner)
            raise
        say(f"{clip.path.name}: {state}")
        count += 1
    return count


def _worker(folder: str, make: ListenMaker, parent: int, idle_s: float, line: Any) -> None:
    """Run a worker process: claim, hear, put away; leave when told to, or when the watcher died.

    `line` is a pipe from the watcher that carries nothing: its end, closed by the watcher or by its death,
    means stop. (A shared event will not do: a worker killed while it waits for one leaves it locked.)
    """
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the watcher tells when to stop
    owner = worker_name()
    try:
        # Before anything is claimed: a missing model must not count against a recording.
        listen = make()
        with Ledger(Path(folder)) as ledger:
            while not line.poll(0) and os.getppid() == parent:
                clip = ledger.claim(owner)
                if clip is None:
                    line.poll(idle_s)
                    continue
                do_clip(ledger, clip, owner, listen)
    except DictateError as error:
        print(f"dictate: worker: {error}", file=sys.stderr)
        sys.exit(int(error.exit_code))
    except Exception as error:
        # The recording took this worker down; the watcher puts it back, and isolates it in the end.
        print(f"dictate: worker: {type(error).__name__}: {error}", file=sys.stderr)
        sys.exit(1)


@dataclass
class Watcher:
    """One folder being watched into one ledger."""

    root: Path
    folder: Path
    settings: Settings
    make: ListenMaker
    workers: int = 1
    say: Callable[[str], None] = lambda _: None

    def __post_init__(self) -> None:
        root, folder = self.root.resolve(), self.folder.resolve()
        if folder == root or root in folder.parents:
            raise UsageError(
                f"the ledger folder {folder} lies inside the watched folder.", "Name another with --ledger."
            )
        self.scanner = scan.Scanner(root, self.settings.watch)
        self.ledger = Ledger(folder)
        self.reaper = Reaper(self.ledger, self.settings.watch.tries)
        self._processes: list[Any] = []
        self._context = multiprocessing.get_context("spawn")
        self._lines: dict[Any, Any] = {}
        self._stopping = False
        self._gone = False

    def look(self) -> int:
        """Scan once and take in what is ready; returns how many new clips there are."""
        try:
            found = list(self.scanner.ready(self.ledger.known))
        except OutputError as error:
            if not self._gone:
                self.say(str(error))
            self._gone = True
            return 0
        if self._gone:
            self.say(f"{self.root} is back.")
        self._gone = False
        return sum(self.take(f) for f in found)

    def take(self, found: scan.Found) -> bool:
        """Take one file in; a file that vanishes meanwhile is no error."""
        from dictate.speech.recording import sha256 as hash_of

        try:
            digest = hash_of(found.path)
            recorded = scan.recorded_time(found.path, found.mtime_ns)
        except DictateError as error:
            self.say(str(error))
            return False
        key = self._key(found, recorded)
        new = self.ledger.add(
            found.path, digest, found.size, found.mtime_ns, key, recorded.isoformat(timespec="seconds")
        )
        self.scanner.seen.pop(found.path, None)
        self.say(f"{found.path.name}: " + (f"taken in ({key})" if new else "already known"))
        return new

    def _key(self, found: scan.Found, recorded: Any) -> str:
        rules = self.settings.watch
        if rules.group == "gap":
            rows = self.ledger.db.execute("SELECT visit, position FROM clip WHERE visit LIKE 'gap:%'")
            for row in rows:
                if scan.near(recorded, row["position"], rules.gap_minutes):
                    return str(row["visit"])
        return scan.visit_key(found.path, self.scanner.root, rules, recorded)

    def tend(self) -> None:
        """Replace dead workers, take back what they held, and write up the visits that are complete."""
        dead = set()
        for process in [p for p in self._processes if not p.is_alive()]:
            if process.exitcode == int(ExitCode.MODEL):
                raise ModelError("the speech model cannot be loaded.", "See 'dictate models'.")
            if process.exitcode == int(ExitCode.OUTPUT):
                self.say("results cannot be written (is the disk full?); nothing is lost, trying again")
            dead.add(worker_name().rsplit(":", 1)[0] + f":{process.pid}")
            self._processes.remove(process)
            self._lines.pop(process).close()
        for sha256 in self.reaper.look(dead):
            self.say(f"{sha256[:12]}: its worker died; put back")
        waiting = self.ledger.count()["waiting"]
        while waiting and len(self._processes) < self.workers and not self._stopping:
            there, here = self._context.Pipe(duplex=False)
            process = self._context.Process(
                target=_worker,
                args=(str(self.folder), self.make, os.getpid(), self.settings.watch.poll_seconds, there),
                daemon=True,
            )
            process.start()
            there.close()
            self._processes.append(process)
            self._lines[process] = here
        arriving = {
            scan.visit_key(p.resolve(), self.scanner.root, self.settings.watch)
            for p in self.scanner.waiting()
        }
        for visit in set(self.ledger.ready_visits()) - arriving:
            try:
                record = write_up(self.ledger, visit, self.settings)
            except OutputError as error:
                self.say(f"{visit}: {error}")
                continue
            opened = sum(c.outcome in ("problem", "missing", "unsure") for c in record.checks)
            self.say(f"{record.visit.id} ({visit}): written, revision {record.visit.revision}, {opened} open")

    def forget(self) -> None:
        """Delete the sound that the shop's settings say is due; without such a setting nothing is deleted."""
        days = self.settings.retention.delete_sound_after_days
        if days is None:
            return
        from dictate.ledger.retention import delete_sound

        for path in delete_sound(self.ledger, days):
            self.say(f"{path.name}: sound deleted after {days} days; its record and hash are kept")

    def idle(self) -> bool:
        """Tell whether nothing waits, runs or needs writing up."""
        count = self.ledger.count()
        return not (count["waiting"] or count["running"] or self.ledger.ready_visits())

    def run(self, *, once: bool = False) -> None:
        """Watch until interrupted; with `once`, until everything that is there now is done."""
        try:
            while True:
                self.look()
                self.tend()
                self.forget()
                if once and self.idle() and (not self.scanner.waiting() or self._gone):
                    return
                time.sleep(self.settings.watch.poll_seconds)
        finally:
            self.close()

    def run_on(self, address: str, *, once: bool = False) -> None:
        """Watch as `run` does, with the listening on a Dask cluster."""
        from dictate.ledger import cluster

        client = cluster.connect(address)
        self.workers = 0
        try:
            while True:
                self.look()
                cluster.run_waiting(self.ledger, client, self.make, self.say)
                self.tend()
                if once and self.idle() and (not self.scanner.waiting() or self._gone):
                    return
                time.sleep(self.settings.watch.poll_seconds)
        finally:
            client.close()
            self.close()

    def close(self) -> None:
        """Stop the workers in order; each puts its clip away first, or is taken down after a lease."""
        self._stopping = True
        for line in self._lines.values():
            line.close()
        for process in self._processes:
            process.join(LEASE_SECONDS)
            if process.is_alive():
                process.kill()
                process.join()
        self.reaper.look({worker_name().rsplit(":", 1)[0] + f":{p.pid}" for p in self._processes})
        self.ledger.close()
