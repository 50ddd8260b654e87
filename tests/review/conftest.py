"""A served visit, and a real Chromium that can reach nothing but this machine."""

from __future__ import annotations

import contextlib
import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from dictate.review.guard import Guard
from dictate.review.server import application
from dictate.review.shelf import Shelf

# Playwright's own browser may not be installed; Debian's package works as well.
_PLACES = ("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
    "--no-first-run", "--disable-sync", "--mute-audio", "--autoplay-policy=no-user-gesture-required",
    # The page must not need a network: no other name or address can be reached.
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]  # fmt: skip


@dataclass
class Served:
    """A running review page."""

    guard: Guard
    shelf: Shelf

    @property
    def base(self) -> str:
        return f"http://127.0.0.1:{self.guard.port}"

    @property
    def cookies(self) -> dict[str, str]:
        return {self.guard.cookie: self.guard.session}

    @property
    def ours(self) -> dict[str, str]:
        """The headers that a browser sends with a form of our own page."""
        return {"Origin": self.base, "Sec-Fetch-Site": "same-origin"}


@contextlib.contextmanager
def serving(shelf: Shelf) -> Iterator[Served]:
    import uvicorn

    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    guard = Guard(application(shelf), listening.getsockname()[1])
    server = uvicorn.Server(
        uvicorn.Config(guard, log_level="error", access_log=False, lifespan="off", server_header=False)
    )
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    deadline = time.monotonic() + 10
    while not server.started and time.monotonic() < deadline:
        time.sleep(0.01)
    try:
        yield Served(guard, shelf)
    finally:
        server.should_exit = True
        thread.join(10)
        listening.close()


def chromium_path() -> str | None:
    named = os.environ.get("DICTATE_CHROMIUM")
    return named or next((p for p in _PLACES if Path(p).exists()), None) or shutil.which("chromium")


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    try:
        from playwright.sync_api import Error, sync_playwright
    except ImportError:
        _missing("playwright is not installed: pip install -e '.[dev]'")
    with sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
        except Error as error:
            _missing(
                f"no Chromium: 'playwright install chromium', or DICTATE_CHROMIUM=PATH ({error.message[:80]})"
            )
        yield browser
        browser.close()


def _missing(why: str) -> None:
    """Skip in words; on a continuous-integration run a missing browser is a failure."""
    if os.environ.get("CI") == "true":
        pytest.fail(why)
    pytest.skip(why)
