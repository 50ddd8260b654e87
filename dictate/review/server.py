"""The local review page: Starlette behind `guard.Guard`, on the loopback address only.

Pages are made on the server and work without scripts; `static/review.js` adds the player, single keys, and
saving without a new page. Addresses:

| address | answers |
| --- | --- |
| `/` | the visits, open ones first (or the one visit) |
| `/v/VISIT/` | the page of a visit; with the header `X-Part: 1` only its changing middle |
| `/v/VISIT/save` | POST: one answer |
| `/v/VISIT/item/ID` | one value, step, part or machine, to change it |
| `/v/VISIT/said` | the transcript, a page at a time |
| `/v/VISIT/sound/CLIP.wav` | the sound, with ranges |
| `/v/VISIT/wave/CLIP` | the waveform of a long clip |
"""

from __future__ import annotations

import contextlib
import socket
import webbrowser
from importlib import resources
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from dictate.errors import DictateError, OutputError, UsageError
from dictate.record.corrections import item_by_id
from dictate.review import view as views
from dictate.review.answers import NotUnderstoodError, Reply
from dictate.review.desk import MovedOnError
from dictate.review.guard import Guard
from dictate.review.shelf import Shelf
from dictate.review.sound import sound_file

if TYPE_CHECKING:
    from starlette.requests import Request

    from dictate.review.desk import Desk

STATIC = {"review.css": "text/css; charset=utf-8", "review.js": "text/javascript; charset=utf-8"}
_MOST_FIELDS = 40


def application(shelf: Shelf) -> Starlette:
    """Return the pages, unguarded; `Guard` goes around them."""
    pages = _Pages(shelf)
    routes = [
        Route("/", pages.shelf_page),
        Route("/favicon.ico", lambda _: Response(status_code=204)),
        Route("/static/{name}", pages.static),
        Route("/v/{visit}/", pages.visit),
        Route("/v/{visit}/save", pages.save, methods=["POST"]),
        Route("/v/{visit}/item/{id}", pages.item),
        Route("/v/{visit}/said", pages.said),
        Route("/v/{visit}/wave/{clip}", pages.wave),
        Route("/v/{visit}/sound/{name}", pages.sound),
    ]
    handlers: Any = {HTTPException: _http_error, DictateError: _our_error}
    return Starlette(routes=routes, exception_handlers=handlers)


def _render(name: str, status: int = 200, **given: Any) -> HTMLResponse:
    return HTMLResponse(views.environment().get_template(name).render(**given), status_code=status)


def _message(status: int, text: str, back: str = "/", typed: str = "") -> HTMLResponse:
    return _render("message.html", status, text=text, back=back, typed=typed)


def _http_error(_: Request, error: HTTPException) -> Response:
    text = "There is no such page." if error.status_code == 404 else "That cannot be done here."
    return _message(error.status_code, text)


def _our_error(_: Request, error: DictateError) -> Response:
    return _message(500, str(error))


class _Pages:
    """The handlers, over one shelf of visits."""

    def __init__(self, shelf: Shelf) -> None:
        self.of = shelf

    def _desk(self, request: Request) -> Desk:
        desk = self.of.desk(request.path_params["visit"])
        if desk is None:
            raise HTTPException(404)
        return desk

    def shelf_page(self, request: Request) -> Response:
        """List the visits, or go to the only one."""
        only = self.of.only()
        if only is not None:
            return RedirectResponse(f"/v/{only}/", status_code=303)
        want = request.query_params.get("show", "open")
        rows = self.of.rows()
        shown = [
            r
            for r in rows
            if want == "all" or (want == "return" and r.return_visit) or (want == "open" and r.open)
        ]
        return _render("shelf.html", rows=shown, want=want, total=len(rows), by=self.of.by)

    def static(self, request: Request) -> Response:
        """Send the style sheet or the script."""
        name = request.path_params["name"]
        if name not in STATIC:
            raise HTTPException(404)
        data = (resources.files("dictate.review") / "static" / name).read_bytes()
        return Response(data, media_type=STATIC[name])

    def visit(self, request: Request) -> Response:
        """Show a visit."""
        shown = views.view(self._desk(request), request.path_params["visit"])
        part = request.headers.get("x-part") == "1"
        saved = request.query_params.get("saved", "")
        entry = next((c for c in shown.record.corrections if c.id == saved), None)
        return _render(
            "parts.html" if part else "visit.html", v=shown, entry=entry, many=self.of.only() is None
        )

    async def save(self, request: Request) -> Response:
        """Take one answer: a form from the page, or the same form sent by its script."""
        desk = self._desk(request)
        form = await request.form(max_files=0, max_fields=_MOST_FIELDS, max_part_size=16 * 1024)
        given = {k: v for k, v in form.items() if isinstance(v, str)}
        # A button of a card says what to do and, after a colon, with which choice.
        go, _, choice = given.get("go", "").partition(":")
        reply = Reply(
            action=go or given.get("action", ""),
            key=given.get("key", ""),
            target=given.get("target", ""),
            choice=choice or given.get("choice", ""),
            text=given.get("text", ""),
            reason=given.get("reason", ""),
            equipment=given.get("equipment", ""),
            fields={k.removeprefix("f-"): v for k, v in given.items() if k.startswith("f-")},
        )
        scripted = request.headers.get("x-part") == "1"
        here = f"/v/{request.path_params['visit']}/"
        try:
            saved = await run_in_threadpool(desk.save, reply, given.get("shown", ""))
        except MovedOnError as error:
            return self._refused(409, error, scripted, here, reply)
        except NotUnderstoodError as error:
            return self._refused(422, error, scripted, here, reply)
        except OutputError as error:
            return self._refused(507, error, scripted, here, reply)
        if not scripted:
            return RedirectResponse(f"{here}?saved={saved.entry.id}#top", status_code=303)
        shown = await run_in_threadpool(views.view, desk, request.path_params["visit"])
        answer = _render("parts.html", v=shown, entry=None, many=self.of.only() is None)
        # The sentence for the status line travels beside the page; header values are ASCII.
        from urllib.parse import quote

        answer.headers["X-Said"] = quote(saved.words()[:600])
        return answer

    def _refused(self, status: int, error: DictateError, scripted: bool, here: str, reply: Reply) -> Response:
        if scripted:
            return PlainTextResponse(str(error), status_code=status)
        return _message(status, str(error), here, reply.text)

    def item(self, request: Request) -> Response:
        """Show one thing of the record, to change it."""
        desk, id = self._desk(request), request.path_params["id"]
        state = desk.now()
        found = ("visit", state.record.visit) if id == "visit" else item_by_id(state.record, id)
        if found is None:
            raise HTTPException(404)
        return _render(
            "item.html", kind=found[0], item=found[1], id=id, state=state, record=state.record, by=desk.by
        )

    def said(self, request: Request) -> Response:
        """Show the transcript, a page at a time."""
        record = self._desk(request).now().record
        start = request.query_params.get("from", "0")
        begin = min(int(start), len(record.transcript)) if start.isdigit() and len(start) < 9 else 0
        end = min(begin + views.SEGMENTS_A_PAGE, len(record.transcript))
        name = "said_part.html" if request.headers.get("x-part") == "1" else "said.html"
        rows = views.said(record, begin, end)
        return _render(
            name, rows=rows, begin=begin, end=end, total=len(record.transcript), step=views.SEGMENTS_A_PAGE,
            slug=request.path_params["visit"], record=record,
        )  # fmt: skip

    def wave(self, request: Request) -> Response:
        """Send the waveform of a clip."""
        desk = self._desk(request)
        record = desk.now().record
        clip = next((c for c in record.clips if c.id == request.path_params["clip"]), None)
        if clip is None:
            raise HTTPException(404)
        drawn = views.strip(desk.folder, record, clip, draw=True).wave
        return HTMLResponse(str(drawn or ""))

    def sound(self, request: Request) -> Response:
        """Send a clip's sound; a Range is answered with 206, without which a browser cannot seek."""
        desk = self._desk(request)
        clip, dot, ending = request.path_params["name"].rpartition(".")
        known = {c.id for c in desk.now().record.clips}
        path = sound_file(desk.folder, clip) if dot and ending == "wav" and clip in known else None
        if path is None:
            raise HTTPException(404)
        return FileResponse(path, media_type="audio/wav")


def serve(shelf: Shelf, *, port: int, browser: bool, announce: Any) -> None:
    """Listen until interrupted. `announce` is called with the start address. Raises OutputError."""
    import uvicorn

    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind(("127.0.0.1", port))
    except OSError as error:
        listening.close()
        raise UsageError(
            f"port {port} cannot be used: {error.strerror}.", "Name another with --port, or leave it out."
        ) from None
    guard = Guard(application(shelf), listening.getsockname()[1])
    only = shelf.only()
    desk = shelf.desk(only) if only is not None else None
    if desk is not None:
        views.view(desk, only or "")  # worked out before the browser asks
    announce(guard.address)
    config = uvicorn.Config(
        guard, log_level="error", access_log=False, server_header=False, date_header=False, lifespan="off",
        limit_concurrency=64, timeout_keep_alive=30,
    )  # fmt: skip
    if browser:
        webbrowser.open(guard.address)
    # Ctrl-C is how this command ends; every answer is on the disk already.
    with contextlib.suppress(KeyboardInterrupt), contextlib.closing(listening):
        uvicorn.Server(config).run(sockets=[listening])
