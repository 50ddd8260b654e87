"""How fast the review page is, in a real Chromium: `python -m tests.benchmarks.page`.

A visit of a few readings: milliseconds to the first paint. A visit of two hours with 400 readings: seconds until it is
open, and the longest step of the page while a reading is confirmed, the transcript is loaded and a stretch of it played;
beside it, in the same run, the same page with everything laid out at once. The best of so many rounds, of the steps the
median: one of under 50 ms counts as none (W3C, Long Tasks API).
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from playwright.sync_api import Browser, sync_playwright

from dictate.review.shelf import Shelf
from dictate.review.view import view
from tests.review.build import folder, freezer, large
from tests.review.conftest import ARGUMENTS, chromium_path, serving
from tests.review.test_browser import WATCH_LONG_STEPS, Watched, first_paints, one_answer

LAID_OUT = "document.addEventListener('DOMContentLoaded', () => { const s = document.createElement('style');"
LAID_OUT += " s.textContent = '* { content-visibility: visible !important; }'; document.head.append(s); });"
"""Lays everything out at once."""


def small(browser: Browser, base: Path, rounds: int) -> float:
    """Return the milliseconds to the first paint of a small visit."""
    with serving(Shelf("A. Sample", [folder(base / "v-quay", freezer())])) as served:
        made = Watched(browser, served)
        best = min(first_paints(made.page, rounds))
        made.context.close()
    return best


def two_hours(browser: Browser, place: Path, rounds: int, before: str) -> tuple[float, float]:
    """Return the seconds until a large visit is open, and the milliseconds of its longest step."""
    shelf = Shelf("A. Sample", [place])
    desk = shelf.desk(place.name)
    assert desk is not None
    view(desk, place.name)  # as `serve` does before the browser opens
    with serving(shelf) as served:
        made = Watched(browser, served, bypass_csp=bool(before))
        made.page.add_init_script(WATCH_LONG_STEPS + before)
        took = []
        for _ in range(rounds):
            began = time.perf_counter()
            made.page.goto(f"{served.base}/v/{place.name}/", wait_until="load")
            took.append(time.perf_counter() - began)
        longest = median(one_answer(made) for _ in range(rounds))
        made.context.close()
    return min(took), longest


def main() -> None:
    """Print the figures."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as kept, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
        print(f"small visit: first paint {small(browser, Path(kept), rounds):.0f} ms")
        place = folder(Path(kept) / "v-long", large())
        for name, before in (("as it is", ""), ("laid out at once", LAID_OUT)):
            opened, longest = two_hours(browser, place, rounds, before)
            print(f"two hours, 400 readings, {name}: open in {opened:.2f} s, longest step {longest:.0f} ms")
        browser.close()


if __name__ == "__main__":
    main()
