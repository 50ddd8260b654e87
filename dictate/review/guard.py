"""Who may talk to the local page: this machine's browser, with the cookie of this run, from the page itself.

A page on another site can make a browser send requests to 127.0.0.1, and can even point its own name there
(DNS rebinding). So the Host must be exactly ours, port included (421 otherwise); a change must come from our
own page (Sec-Fetch-Site and Origin: another port of this machine is the same site, so SameSite alone is
not enough); and everything but the start needs the cookie that the one-time token of the start address buys.
"""

from __future__ import annotations

import hmac
import secrets
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 64 * 1024
"""Bytes of a posted form."""
START = "/start"

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
        "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


@dataclass
class Guard:
    """An ASGI wrapper that lets only the right requests through and puts the headers on every answer."""

    app: ASGIApp
    port: int
    token: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    session: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    used: bool = False

    @property
    def cookie(self) -> str:
        """Return the name of the cookie; cookies know no port, so the port is part of the name."""
        return f"dictate-{self.port}"

    @property
    def hosts(self) -> tuple[str, ...]:
        """Return the Host values that are ours."""
        return (f"127.0.0.1:{self.port}", f"localhost:{self.port}")

    @property
    def address(self) -> str:
        """Return the start address with its one-time token."""
        return f"http://127.0.0.1:{self.port}{START}?token={self.token}"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer or refuse one request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        send = _with_headers(send)
        headers = {k.decode("latin-1").lower(): v.decode("latin-1") for k, v in scope["headers"]}
        refusal = self._refusal(scope, headers)
        if refusal is not None:
            await _plain(send, *refusal)
        elif scope["path"] == START:
            await self._start(scope, headers, send)
        else:
            await self._pass(scope, receive, send)

    def _refusal(self, scope: Scope, headers: dict[str, str]) -> tuple[int, str] | None:
        hosts = [v for k, v in scope["headers"] if k.lower() == b"host"]
        if len(hosts) != 1 or headers["host"] not in self.hosts:
            return 421, "This page answers under its own address only."
        method = scope["method"]
        if method not in ("GET", "HEAD", "POST"):
            return 405, "That is not a thing to do here."
        if scope["path"] == START:
            return None
        site = headers.get("sec-fetch-site")
        if not self._known(headers):
            return (
                403,
                "This page needs the address that 'dictate review' printed. Start it again for a new one.",
            )
        if method == "POST":
            origin = headers.get("origin")
            # With no referrer a browser sends "null" for a plain form of our own page.
            ours = {f"http://{host}" for host in self.hosts} | {"null"}
            if site != "same-origin" or origin not in ours:
                return 403, "A change must come from the page itself."
            length = headers.get("content-length", "0")
            if not length.isdigit() or int(length) > LARGEST_BODY:
                return 413, "That is too long."
        elif site in ("cross-site", "same-site"):
            return 403, "Another page may not ask for this one."
        return None

    def _known(self, headers: dict[str, str]) -> bool:
        try:
            jar = SimpleCookie(headers.get("cookie", ""))
        except CookieError:
            return False
        given = jar.get(self.cookie)
        return given is not None and hmac.compare_digest(given.value.encode(), self.session.encode())

    async def _start(self, scope: Scope, headers: dict[str, str], send: Send) -> None:
        given = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        right = hmac.compare_digest(given.encode(), self.token.encode())
        if right and not self.used and scope["method"] == "GET":
            self.used = True
            cookie = f"{self.cookie}={self.session}; Path=/; HttpOnly; SameSite=Strict"
            await _plain(send, 303, "", [(b"location", b"/"), (b"set-cookie", cookie.encode())])
        elif self._known(headers):
            await _plain(send, 303, "", [(b"location", b"/")])
        else:
            await _plain(
                send, 403, "That address was used before. Start 'dictate review' again for a new one."
            )

    async def _pass(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["method"] != "POST":
            await self.app(scope, receive, send)
            return
        body, got = b"", 0
        while True:
            message = await receive()
            if message["type"] != "http.request":
                return
            got += len(message.get("body", b""))
            if got <= LARGEST_BODY:
                body += message.get("body", b"")
            # A little more is read and dropped, so that the browser hears the answer.
            if got > 16 * LARGEST_BODY or not message.get("more_body"):
                break
        if got > LARGEST_BODY:
            await _plain(send, 413, "That is too long.", [(b"connection", b"close")])
            return
        whole: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

        async def again() -> Message:
            return whole.pop() if whole else await receive()

        await self.app(scope, again, send)


def _with_headers(send: Send) -> Send:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            have = {k.lower() for k, _ in message["headers"]}
            extra = [(k.lower().encode(), v.encode()) for k, v in HEADERS.items()]
            message["headers"] = [*message["headers"], *((k, v) for k, v in extra if k not in have)]
        await send(message)

    return wrapped


async def _plain(
    send: Send, status: int, text: str, headers: list[tuple[bytes, bytes]] | None = None
) -> None:
    body = text.encode()
    kind = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": [*kind, *(headers or [])]})
    await send({"type": "http.response.body", "body": body})
