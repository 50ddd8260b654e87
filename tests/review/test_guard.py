"""What the page refuses. The order of attacks follows OWASP ASVS 4.0.3, V3 (sessions), V4.2 (cross-site requests), V12.3 (paths) and V14.4 (headers)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from dictate.review.guard import LARGEST_BODY
from dictate.review.shelf import Shelf
from tests.review.build import folder, freezer, hostile
from tests.review.conftest import Served, serving


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    place = folder(tmp_path_factory.mktemp("visits") / "v-quay", freezer())
    (place.parent / "secret.wav").write_bytes(b"RIFF secret")
    with serving(Shelf("A. Sample", [place])) as running:
        yield running


@pytest.fixture
def client(served: Served) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=served.base, cookies=served.cookies) as made:
        yield made


def test_the_start_address_works_once_and_gives_a_strict_cookie(tmp_path: Path) -> None:
    with serving(Shelf("A. Sample", [folder(tmp_path / "v", freezer(), with_sound=False)])) as running:
        first = httpx.get(running.guard.address)
        assert first.status_code == 303
        cookie = first.headers["set-cookie"]
        assert "HttpOnly" in cookie and "SameSite=Strict" in cookie
        assert httpx.get(running.guard.address).status_code == 403
        assert httpx.get(running.base + "/start?token=x").status_code == 403
        jar = {running.guard.cookie: running.guard.session}
        assert httpx.get(running.guard.address, cookies=jar).status_code == 303


@pytest.mark.parametrize("path", ["/", "/v/v-quay/", "/v/v-quay/sound/c1.wav", "/static/review.js"])
def test_nothing_is_shown_without_the_cookie(served: Served, path: str) -> None:
    assert httpx.get(served.base + path).status_code == 403
    assert httpx.get(served.base + path, cookies={served.guard.cookie: "guess"}).status_code == 403


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "localhost", "127.0.0.1.evil.example:{port}", ""]
)
def test_a_name_that_was_bound_to_this_machine_is_misdirected(
    client: httpx.Client, served: Served, host: str
) -> None:
    answer = client.get("/v/v-quay/", headers={"Host": host.format(port=served.guard.port)})
    assert answer.status_code == 421
    assert "Quay" not in answer.text


def test_localhost_with_the_port_is_ours(client: httpx.Client, served: Served) -> None:
    assert client.get("/v/v-quay/", headers={"Host": f"localhost:{served.guard.port}"}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Origin": "http://evil.example", "Sec-Fetch-Site": "cross-site"},
        {"Origin": "http://127.0.0.1:1", "Sec-Fetch-Site": "same-site"},
        {"Origin": "http://127.0.0.1:1", "Sec-Fetch-Site": "same-origin"},
        {"Origin": "null", "Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-origin"},
        {"Sec-Fetch-Site": "none", "Origin": "null"},
    ],
)
def test_a_change_from_another_page_is_refused(
    client: httpx.Client, served: Served, headers: dict[str, str]
) -> None:
    desk = served.shelf.desk("v-quay")
    assert desk is not None
    before = desk.now()
    form = {"shown": before.hash, "action": "confirm", "key": "r2"}
    assert client.post("/v/v-quay/save", data=form, headers=headers).status_code == 403
    assert desk.now().hash == before.hash


def test_another_page_cannot_embed_the_sound(client: httpx.Client) -> None:
    assert client.get("/v/v-quay/sound/c1.wav", headers={"Sec-Fetch-Site": "same-site"}).status_code == 403
    assert client.get("/v/v-quay/sound/c1.wav", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403


@pytest.mark.parametrize(
    "path", ["/", "/v/v-quay/", "/v/v-quay/sound/c1.wav", "/static/review.css", "/nothing"]
)
def test_every_answer_carries_the_headers(client: httpx.Client, path: str) -> None:
    headers = client.get(path).headers
    assert headers["content-security-policy"].startswith("default-src 'none';")
    assert "unsafe" not in headers["content-security-policy"]
    assert "frame-ancestors 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["cache-control"] == "no-store"
    assert "access-control-allow-origin" not in headers
    assert "server" not in headers


@pytest.mark.parametrize(
    "path",
    [
        "/v/v-quay/sound/..%2f..%2fsecret.wav", "/v/v-quay/sound/%2e%2e/%2e%2e/secret.wav", "/v/..%2f..%2fetc/",
        "/v/v-quay/sound/record.json", "/v/v-quay/sound/c2.wav", "/static/..%2fserver.py", "/static/server.py",
        "/v/v-quay/item/..%2f..%2frecord.json", "/v/nobody/", "/v/v-quay/wave/..%2fsecret", "/v/v-quay/sound/c1.wav%00",
    ],
)  # fmt: skip
def test_no_address_leads_out_of_the_visit(client: httpx.Client, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert "secret" not in answer.text


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    place = folder(tmp_path / "v", freezer(), with_sound=False)
    (tmp_path / "secret.wav").write_bytes(b"RIFF secret")
    (place / "sound").mkdir()
    (place / "sound" / "c1.wav").symlink_to(tmp_path / "secret.wav")
    with serving(Shelf("A. Sample", [place])) as running:
        answer = httpx.get(running.base + "/v/v/sound/c1.wav", cookies=running.cookies)
        assert answer.status_code == 404


def test_the_sound_answers_ranges(client: httpx.Client) -> None:
    # RFC 9110, 14.2 and 15.3.7: a satisfiable range is answered with 206 and Content-Range.
    answer = client.get("/v/v-quay/sound/c1.wav", headers={"Range": "bytes=100-199"})
    assert answer.status_code == 206
    assert len(answer.content) == 100
    assert answer.headers["content-range"].startswith("bytes 100-199/")
    assert client.get("/v/v-quay/sound/c1.wav", headers={"Range": "bytes=99999999-"}).status_code == 416


def test_sizes_are_limited(client: httpx.Client, served: Served) -> None:
    desk = served.shelf.desk("v-quay")
    assert desk is not None
    form = {"shown": desk.now().hash, "action": "note", "text": "x" * (LARGEST_BODY + 1)}
    assert client.post("/v/v-quay/save", data=form, headers=served.ours).status_code == 413
    chunks = iter([b"action=note&text=", *[b"x" * 8000] * 20])
    kind = {"Content-Type": "application/x-www-form-urlencoded"}
    answer = client.post("/v/v-quay/save", content=chunks, headers={**served.ours, **kind})
    assert answer.status_code in (400, 413)
    form["text"] = "x" * 2000
    assert client.post("/v/v-quay/save", data=form, headers=served.ours).status_code == 422
    assert client.put("/v/v-quay/save").status_code == 405


def test_hostile_words_and_names_stay_text(tmp_path: Path) -> None:
    with serving(Shelf("A. <b>Sample", [folder(tmp_path / "v", hostile())])) as running:
        page = httpx.get(running.base + "/v/v/", cookies=running.cookies)
        assert page.status_code == 200
        assert "<script>document" not in page.text and "<img src=x" not in page.text
        assert "&lt;script&gt;document" in page.text
        assert "{{ 7*7 }}" in page.text and "<b>Sample" not in page.text
        said = httpx.get(running.base + "/v/v/said", cookies=running.cookies).text
        assert "<script>document" not in said
        assert len(page.text) < 150_000 and len(said) < 150_000
