"""Make the pictures of README from a demo visit: `python -m tests.review.pictures DEMO_FOLDER`.

DEMO_FOLDER is what `dictate demo --out` wrote; the pictures go to `dictate/review/pictures/`.
"""

from __future__ import annotations

import io
import shutil
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from dictate.review.shelf import Shelf
from tests.review.conftest import ARGUMENTS, chromium_path, serving

PLACE = Path(__file__).parents[2] / "dictate" / "review" / "pictures"
COLOURS = 64  # text and lines need no more, and each picture stays under 150 kB


def main(demo: Path) -> None:
    """Take the review page, wide and on a phone, and the printed page."""
    with tempfile.TemporaryDirectory() as scratch:
        visit = Path(shutil.copytree(demo, Path(scratch) / "demo-visit"))
        with serving(Shelf("A. Sample", [visit])) as served, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
            page = browser.new_context(viewport={"width": 1100, "height": 1000}).new_page()
            page.goto(served.guard.address)
            _save(page.screenshot(), "review")
            page.set_viewport_size({"width": 390, "height": 844})
            page.reload()
            _save(page.screenshot(), "review-phone")
            page.set_viewport_size({"width": 880, "height": 1150})
            page.goto((visit / "record.html").as_uri())
            _save(page.screenshot(), "record")
            browser.close()


def _save(png: bytes, name: str) -> None:
    picture = Image.open(io.BytesIO(png)).convert("RGB").quantize(COLOURS)
    picture.save(PLACE / f"{name}.png", optimize=True)
    print(name, (PLACE / f"{name}.png").stat().st_size)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
