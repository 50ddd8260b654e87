"""The same work on Dask distributed gives the same bytes, and a lost worker loses nothing."""

import os
import signal
import threading
import time
from pathlib import Path

import pytest

from dictate.ledger import cluster
from dictate.ledger.store import Ledger
from dictate.ledger.work import stored
from tests.ledger.fakes import Fake, wav
from tests.ledger.test_ledger import do_here, take_all, watcher

distributed = pytest.importorskip("distributed")


@pytest.fixture(scope="module")
def client():
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as local,
        distributed.Client(local) as made,
    ):
        yield made


def results(ledger: Ledger) -> dict[str, bytes]:
    return {c.sha256: ledger.result_path(c.sha256).read_bytes() for c in ledger.clips() if c.state == "done"}


def test_cluster_and_local_run_give_the_same_bytes(tmp_path: Path, client) -> None:
    for n in range(8):
        wav(tmp_path / "in" / f"v{n}" / "a.wav", n)
    wav(tmp_path / "in" / "v9" / "broken.wav", 99)
    here = watcher(tmp_path)
    take_all(here)
    do_here(here)
    local = results(here.ledger)
    here.ledger.close()
    (tmp_path / "ledger").rename(tmp_path / "ledger-local")

    there = watcher(tmp_path)
    take_all(there)
    assert cluster.run_waiting(there.ledger, client, Fake(), lambda _: None) == 9
    assert results(there.ledger) == local
    assert there.ledger.count()["failed"] == 1


def test_a_result_that_is_there_is_not_made_again(tmp_path: Path, client) -> None:
    log = tmp_path / "log"
    wav(tmp_path / "in" / "a.wav", 1)
    made = watcher(tmp_path)
    take_all(made)
    clip = made.ledger.clips()[0]
    target = str(made.ledger.result_path(clip.sha256))
    for _ in range(2):
        client.submit(cluster.task, str(clip.path), clip.sha256, target, Fake(str(log)), pure=False).result()
    assert log.read_text().split() == ["a.wav"]


def test_a_worker_that_is_killed_loses_nothing(tmp_path: Path, client) -> None:
    for n in range(12):
        wav(tmp_path / "in" / f"v{n}" / "a.wav", n)
    made = watcher(tmp_path)
    take_all(made)
    victim = next(iter(client.run(os.getpid).values()))

    def kill() -> None:
        time.sleep(0.5)
        os.kill(victim, signal.SIGKILL)

    thread = threading.Thread(target=kill)
    thread.start()
    settled = cluster.run_waiting(made.ledger, client, Fake(seconds=0.2), lambda _: None)
    thread.join()
    assert settled == 12
    assert made.ledger.count()["done"] == 12
    assert all(stored(made.ledger.result_path(c.sha256)) for c in made.ledger.clips())


def test_no_scheduler_is_one_clear_error(monkeypatch) -> None:
    from dictate.errors import UsageError

    def refuse(*_: object, **__: object) -> None:
        raise OSError("refused")

    monkeypatch.setattr(distributed, "Client", refuse)
    with pytest.raises(UsageError, match="no scheduler answers"):
        cluster.connect("tcp://127.0.0.1:9")
