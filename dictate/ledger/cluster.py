"""The same work on many machines, over Dask distributed (extra `cluster`).

Every machine sees the ledger's folder and the recordings under the same paths (a shared disk). A task looks
in the result store first, hears the clip, writes the result there whole, and returns a small receipt; the
ledger itself is touched only by the process that submits, since SQLite must not be shared over a network
disk. Tasks go out in a window of a few for each worker, keyed by the clip's hash, so a lost machine's tasks
run again elsewhere and nothing is done twice.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from dictate.errors import DictateError, InputError, UsageError
from dictate.ledger.store import Clip, Ledger, worker_name
from dictate.ledger.watch import ListenMaker
from dictate.ledger.work import hear, stored
from dictate.record.file import write_atomically

WINDOW_PER_WORKER = 3
RETRIES = 2


@dataclass(frozen=True)
class Receipt:
    """What a task returns: enough to settle the clip in the ledger."""

    sha256: str
    error: str | None = None
    advice: str = ""


_loaded: dict[ListenMaker, Any] = {}


def task(path: str, sha256: str, target: str, make: ListenMaker) -> Receipt:
    """Hear one clip on whichever machine this runs; the model is loaded once for each worker process."""
    place = Path(target)
    if stored(place):
        return Receipt(sha256)
    if make not in _loaded:
        _loaded[make] = make()
    try:
        result = hear(Path(path), _loaded[make])
    except InputError as error:
        return Receipt(sha256, error.what, error.advice)
    write_atomically(place, result.to_json())
    return Receipt(sha256)


def connect(address: str) -> Any:
    """Return a client of the scheduler at this address. Raises UsageError."""
    try:
        from distributed import Client
    except ImportError:
        raise UsageError(
            "--on needs Dask distributed.", "Install it: pip install 'dictate[cluster]'."
        ) from None
    try:
        return Client(address, timeout="10s")
    except (OSError, ValueError) as error:
        raise UsageError(
            f"no scheduler answers at {address}: {error}.", "Start one, or check the address."
        ) from None


def run_waiting(ledger: Ledger, client: Any, make: ListenMaker, say: Callable[[str], None]) -> int:
    """Do every waiting clip on the cluster; returns how many were settled.

    `resources={"GPU": 1}` is asked for when the workers offer it.
    """
    from distributed import as_completed

    owner = worker_name()
    workers = client.scheduler_info()["workers"]
    options: dict[str, Any] = {}
    if workers and all("GPU" in w.get("resources", {}) for w in workers.values()):
        options["resources"] = {"GPU": 1}
    window = max(1, len(workers)) * WINDOW_PER_WORKER
    running: dict[Any, Clip] = {}
    settled = 0

    def submit() -> Any:
        clip = ledger.claim(owner)
        if clip is None:
            return None
        target = str(ledger.result_path(clip.sha256))
        future = client.submit(
            task,
            str(clip.path),
            clip.sha256,
            target,
            make,
            key=f"hear-{clip.sha256}",
            retries=RETRIES,
            **options,
        )
        running[future] = clip
        return future

    try:
        first = [f for f in (submit() for _ in range(window)) if f is not None]
        queue = as_completed(first)
        for future in queue:
            clip = running.pop(future)
            settled += 1
            _settle(ledger, clip, owner, future, say)
            for other in running.values():
                ledger.beat(other.sha256, owner)
            following = submit()
            if following is not None:
                queue.add(following)
    finally:
        for future, clip in running.items():
            future.cancel()
            ledger.hand_back(clip.sha256, owner)
    return settled


def _settle(ledger: Ledger, clip: Clip, owner: str, future: Any, say: Callable[[str], None]) -> None:
    try:
        receipt: Receipt = future.result()
    except DictateError:
        raise
    except Exception as error:
        # The clip took its workers down more often than it may: it is set aside, and the others go on.
        ledger.fail(clip.sha256, owner, f"it took its workers down ({type(error).__name__})",
                    "Play the file to see whether it is sound; then 'dictate retry'.")  # fmt: skip
        say(f"{clip.path.name}: set aside")
        return
    if receipt.error is not None:
        ledger.fail(clip.sha256, owner, receipt.error, receipt.advice)
        say(f"{clip.path.name}: {receipt.error}")
        return
    ledger.finish(clip.sha256, owner)
    say(f"{clip.path.name}: done")
