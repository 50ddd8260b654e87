"""The page in a real Chromium: the whole path, keys only, without scripts, both themes, a phone, two tabs, a large visit.

Accessibility is judged by axe-core against WCAG 2.2 A and AA (W3C Recommendation, 5 October 2023).
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from dictate.pipeline import current
from dictate.review.questions import questions
from dictate.review.shelf import Shelf
from tests.review.build import folder, freezer, hostile, large, two_machines
from tests.review.conftest import Served, serving

pytestmark = pytest.mark.browser

AXE = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }
}


@pytest.fixture
def visit(tmp_path: Path) -> Path:
    return folder(tmp_path / "v-quay", freezer())


@pytest.fixture
def served(visit: Path) -> Iterator[Served]:
    with serving(Shelf("A. Sample", [visit])) as running:
        yield running


def until(page: Any, expression: str, arg: Any = None, seconds: float = 20.0) -> None:
    """Wait until an expression holds; Playwright's own waiting needs `eval`, which the page's policy forbids."""
    deadline = time.monotonic() + seconds
    while not page.evaluate(expression, arg):
        assert time.monotonic() < deadline, f"never true: {expression} {arg!r}"
        page.wait_for_timeout(20)


class Watched:
    """A page with what went wrong on it and what it asked for."""

    def __init__(self, browser: Any, served: Served, **context: Any) -> None:
        self.context = browser.new_context(**{"viewport": {"width": 1100, "height": 900}, **context})
        self.context.set_default_timeout(20000)
        self.page = self.context.new_page()
        self.wrong: list[str] = []
        self.answers: list[tuple[int, str]] = []
        self.page.on("pageerror", lambda e: self.wrong.append(str(e)))
        self.page.on("console", lambda m: self.wrong.append(m.text) if m.type == "error" else None)
        self.context.on("response", lambda r: self.answers.append((r.status, r.url)))
        self.page.goto(served.guard.address)

    def status(self, part: str) -> None:
        until(self.page, "part => document.querySelector('#status').textContent.includes(part)", part)


@pytest.fixture
def watched(chromium: Any, served: Served) -> Iterator[Watched]:
    made = Watched(chromium, served)
    yield made
    assert made.wrong == []
    made.context.close()


def card(page: Any, text: str) -> Any:
    return page.locator(".card", has_text=text).first


def test_the_whole_path(watched: Watched, visit: Path) -> None:
    page = watched.page
    before = len(questions(current(visit)))
    # Play exactly the span of the doubtful resistance: seconds 12.5 to 14.
    card(page, "common-run").locator("a[href*=sound]").first.click()
    until(
        page, "() => { const a = document.querySelector('audio'); return !a.paused && a.currentTime > 12.6; }"
    )
    assert any(status == 206 and url.endswith("c1.wav") for status, url in watched.answers)
    assert page.locator("#said .lit").count() == 1
    until(page, "() => document.querySelector('audio').paused")
    assert 13.9 < page.evaluate("document.querySelector('audio').currentTime") < 14.6
    # Correct a value.
    card(page, "common-run").locator('input[data-k="t"]').fill("4.4 ohm")
    card(page, "common-run").get_by_role("button", name="Save", exact=True).first.click()
    watched.status("4.4 ohm")
    # Answer three gaps.
    card(page, "2.6 oz").get_by_role("button", name="2.375 lb").click()
    watched.status("2.375 lb")
    card(page, "Did nitrogen flow").get_by_role("button", name="Done, just not said").click()
    watched.status("nitrogen flowed while brazing: done")
    card(page, "caps put back").get_by_role("button", name="Done, just not said").click()
    watched.status("ports capped: done")
    # Set one aside.
    leak = card(page, "checked for leaks")
    leak.locator("summary", has_text="Set aside").click()
    leak.get_by_role("button", name="nobody can tell any more").click()
    watched.status("nobody can tell any more")
    # The checks have changed, here and in the record.
    assert page.locator(".card", has_text="Did nitrogen flow").count() == 0
    record = current(visit)
    assert next(c for c in record.checks if c.rule == "purge.not-stated").outcome == "ok"
    assert next(c for c in record.checks if c.rule == "leak-check.not-stated").waived
    assert len(questions(record)) <= before - 5
    assert record.visit.revision == 6
    # A reload shows the same, and it prints.
    page.reload()
    assert page.locator("#log").get_by_text("nobody can tell any more").count()
    assert page.locator(".machine").get_by_text("4.4 ohm").count()
    pdf = page.pdf(format="A4")
    assert pdf.startswith(b"%PDF")
    from io import BytesIO

    from pypdf import PdfReader

    text = "".join(p.extract_text() for p in PdfReader(BytesIO(pdf)).pages)
    assert "4.4 ohm" in text and "It does not state that anything is safe" in " ".join(text.split())


def test_a_refused_answer_says_why_and_keeps_what_was_typed(
    chromium: Any, served: Served, visit: Path
) -> None:
    made = Watched(chromium, served)
    field = card(made.page, "common-run").locator('input[data-k="t"]')
    field.fill("plenty")
    field.press("Enter")
    made.status("no number was found")
    assert field.input_value() == "plenty"
    assert current(visit).visit.revision == 1
    made.context.close()


def test_five_questions_close_with_twelve_keys(chromium: Any, tmp_path: Path) -> None:
    """Figure of the work: five open questions, closed by confirm, choose or waive, at most 12 key presses."""
    record = freezer()
    record.equipment[0].model = "WF-20"
    record.steps = [s for s in record.steps if s.step != "charged"]
    place = folder(tmp_path / "v-quay", record)
    with serving(Shelf("A. Sample", [place])) as served:
        made = Watched(chromium, served)
        page, pressed = made.page, 0
        kinds = [q.kind for q in questions(current(place))][:5]
        for kind in kinds:
            left = page.locator(".card").count()
            keys = {"doubtful value": ["1"]}.get(kind, ["u", "1"])
            for key in keys:
                page.keyboard.press(key)
                pressed += 1
            until(page, "n => document.querySelectorAll('.card').length < n", left)
        assert len(current(place).corrections) == 5
        assert pressed <= 12
        assert made.wrong == []
        made.context.close()


def test_keys_alone_do_everything_and_can_be_switched_off(watched: Watched, visit: Path) -> None:
    page = watched.page
    page.keyboard.press("j")
    page.keyboard.press("j")
    assert "2.6 oz" in page.evaluate("document.activeElement.textContent")
    page.keyboard.press("k")
    page.keyboard.press("p")
    until(page, "() => !document.querySelector('audio').paused")
    page.keyboard.press("t")
    page.keyboard.type("4.5")
    page.keyboard.press("Enter")
    watched.status("4.5 ohm")
    # The next question has the focus, so that the next key answers it.
    assert "2.6 oz" in page.evaluate("document.activeElement.textContent")
    page.keyboard.press("z")
    watched.status("taken back")
    assert [r.value for r in current(visit).readings if r.id == "r2"] == [4.3]
    page.locator("#keys").uncheck()
    page.locator("#q1").focus()
    page.keyboard.press("c")
    page.wait_for_timeout(300)
    assert current(visit).visit.revision == 3
    page.reload()
    assert not page.locator("#keys").is_checked()
    # Tab reaches what the single keys reach.
    page.locator("#q1").focus()
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent").startswith("Right as read"):
            break
    page.keyboard.press("Enter")
    watched.status("confirmed")


def test_it_works_without_scripts(chromium: Any, served: Served, visit: Path) -> None:
    made = Watched(chromium, served, java_script_enabled=False)
    page = made.page
    assert page.locator(".card").count() > 5
    assert page.locator("a[href*=sound]").first.get_attribute("href") == "sound/c1.wav#t=12.5,14"
    card(page, "common-run").get_by_role("button", name="Right as read").click()
    assert page.locator("#status").inner_text().startswith("Saved: confirmed")
    field = card(page, "2.6 oz").locator('input[name="text"]').first
    field.fill("two pounds six")
    field.press("Enter")
    assert "2.375 lb" in page.locator("#status").inner_text()
    leak = card(page, "checked for leaks")
    leak.locator("summary", has_text="Set aside").click()
    leak.get_by_role("button", name="will be told later").click()
    field = page.locator("#seen")
    field.fill("R. Client")
    field.press("Enter")
    record = current(visit)
    assert [c.action for c in record.corrections] == ["confirm", "change", "waive", "acknowledge"]
    page.locator(".machine a", has_text="9 psi").click()
    page.locator("#value").fill("nonsense")
    page.locator("#value").press("Enter")
    assert "no number was found" in page.locator("main").inner_text()
    made.context.close()


def test_of_two_tabs_only_one_saves_the_same_state(chromium: Any, served: Served, visit: Path) -> None:
    made = Watched(chromium, served)
    one, two = made.page, made.context.new_page()
    two.goto(served.base + "/v/v-quay/")
    card(one, "common-run").get_by_role("button", name="Right as read").click()
    made.status("confirmed")
    field = card(two, "2.6 oz").locator('input[data-k="t"]')
    field.fill("two pounds six")
    field.press("Enter")
    until(two, "() => document.querySelector('#status').textContent.includes('changed elsewhere')")
    assert current(visit).visit.revision == 2
    # The second tab now shows how it stands, and still has what was typed.
    until(two, "() => !document.querySelector('#look').textContent.includes('4.3 or 40.3')")
    field = card(two, "2.6 oz").locator('input[data-k="t"]')
    assert field.input_value() == "two pounds six"
    field.press("Enter")
    until(two, "() => document.querySelector('#status').textContent.includes('2.375 lb')")
    assert current(visit).visit.revision == 3
    made.context.close()


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1100, 390])
def test_axe_finds_nothing(chromium: Any, tmp_path: Path, theme: str, width: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    places = [folder(tmp_path / "v-quay", freezer()), folder(tmp_path / "v-two", two_machines())]
    with serving(Shelf("A. Sample", places)) as served:
        made = Watched(chromium, served, color_scheme=theme, viewport={"width": width, "height": 844})
        page, axe = made.page, Axe()
        visited = [
            "/",
            "/?show=all",
            "/v/v-quay/",
            "/v/v-two/",
            "/v/v-quay/item/r2",
            "/v/v-quay/item/e1",
            "/v/v-quay/item/visit",
            "/v/v-quay/said",
            "/v/nobody/",
        ]
        for path in visited:
            page.goto(served.base + path)
            if path == "/v/v-quay/":
                card(page, "common-run").get_by_role("button", name="Right as read").click()
                made.status("confirmed")
                page.evaluate("for (const d of document.querySelectorAll('details')) d.open = true")
            # Scrolled half away, a target under the sticky player would count as covered.
            page.evaluate("scrollTo({top: 0, behavior: 'instant'})")
            result = axe.run(page, options=AXE)
            found = [
                (v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in result.response["violations"]
            ]
            assert found == [], (path, found)
            assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        made.context.close()


def test_hostile_words_do_nothing(chromium: Any, tmp_path: Path) -> None:
    with serving(Shelf("A. Sample", [folder(tmp_path / "v-quay", hostile())])) as served:
        made = Watched(chromium, served)
        page = made.page
        assert "owned" not in page.title() or "<script>" in page.title()
        assert page.locator("img").count() == 0
        assert page.evaluate("document.querySelectorAll('body script').length") == 0
        # Right-to-left marks stay inside their own words.
        assert page.evaluate("[...document.querySelectorAll('.heard bdi')].length") > 0
        made.page.goto(served.base + "/v/v-quay/said")
        assert "more characters in the record" in made.page.locator("main").inner_text()
        assert made.wrong == []
        made.context.close()


def test_another_site_cannot_change_or_show_anything(
    chromium: Any, served: Served, visit: Path, tmp_path: Path
) -> None:
    """A page of another port of this machine is the same site to a browser, and still may do nothing."""
    import http.server
    import threading

    form = f'<form id="f" method="post" action="{served.base}/v/v-quay/save"><input name="action" value="acknowledge"><input name="text" value="Mallory"></form>'
    frame = f'<iframe src="{served.base}/v/v-quay/"></iframe><img src="{served.base}/v/v-quay/">'
    (tmp_path / "evil").mkdir()
    (tmp_path / "evil" / "index.html").write_text(
        f"<html><body>{frame}{form}</body></html>", encoding="utf-8"
    )

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def __init__(self, *a: Any) -> None:
            super().__init__(*a, directory=str(tmp_path / "evil"))

        def log_message(self, *a: Any) -> None:
            pass

    other = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Quiet)
    threading.Thread(target=other.serve_forever, daemon=True).start()
    try:
        made = Watched(chromium, served)
        page = made.context.new_page()
        page.goto(f"http://127.0.0.1:{other.server_port}/index.html")
        assert all("Quay" not in f.content() for f in page.frames[1:])
        with page.expect_navigation():
            page.evaluate("document.querySelector('#f').submit()")
        assert "must come from the page itself" in page.content() or "needs the address" in page.content()
        assert current(visit).acknowledgement is None
        made.context.close()
    finally:
        other.shutdown()
        other.server_close()


def test_a_small_visit_is_light_and_asks_nobody_else(chromium: Any, served: Served) -> None:
    made = Watched(chromium, served)
    page = made.page
    assert first_paints(page, times=1)[0] > 0
    size = page.evaluate(
        "performance.getEntries().reduce((n, e) => n + (e.initiatorType === 'audio' ? 0 : e.encodedBodySize || 0), 0)"
    )
    assert size < 150_000
    assert all(url.startswith(served.base) for _, url in made.answers)
    made.context.close()


def first_paints(page: Any, times: int) -> list[float]:
    """Load a page again so often; milliseconds to the first paint of each."""
    out: list[float] = []
    for _ in range(times):
        page.reload()
        until(page, "() => performance.getEntriesByName('first-contentful-paint').length > 0")
        out.append(page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime"))
    return out


def one_answer(made: Watched) -> float:
    """Confirm, load the transcript, play a stretch, take it back; the longest step of it in milliseconds."""
    page = made.page
    page.evaluate("window.long.length = 0")
    page.locator("#q1").focus()
    page.keyboard.press("c")
    made.status("confirmed")
    page.locator("#load-said").click()
    until(page, "() => document.querySelectorAll('#said-rows .said').length > 100")
    page.locator("#said-rows a[href*=sound]").nth(3).click()
    until(page, "() => !document.querySelector('audio').paused")
    page.wait_for_timeout(300)
    longest: float = max(page.evaluate("window.long"), default=0)
    page.keyboard.press("z")
    made.status("taken back")
    return longest


WATCH_LONG_STEPS = (
    "window.long = []; new PerformanceObserver(l => { for (const e of l.getEntries()) window.long.push(e.duration); })"
    ".observe({type: 'longtask', buffered: true});"
)


def test_two_hours_and_400_readings(chromium: Any, tmp_path: Path) -> None:
    """How fast it is `python -m tests.benchmarks.page` says: a machine that is busy fails no test."""
    place = folder(tmp_path / "v-long", large())
    shelf = Shelf("A. Sample", [place])
    with serving(shelf) as served:
        made = Watched(chromium, served)
        page = made.page
        page.add_init_script(WATCH_LONG_STEPS)
        page.goto(served.base + "/v/v-long/", wait_until="load")
        assert len(page.request.get(served.base + "/v/v-long/").body()) < 150_000
        assert len(current(place).readings) == 400
        for _ in range(2):
            one_answer(made)
        # What is off the screen is not laid out for an answer: all of it would take longer than the shown part.
        hidden = page.locator(".machine").last
        assert hidden.evaluate("e => getComputedStyle(e).contentVisibility") == "auto"
        assert made.wrong == []
        made.context.close()
