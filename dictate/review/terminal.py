"""The same questions in a terminal, one after the other, for where there is no browser."""

from __future__ import annotations

from pathlib import Path

import click

from dictate.errors import UsageError
from dictate.review.answers import NotUnderstoodError, Reply
from dictate.review.desk import Desk, MovedOnError, State
from dictate.review.questions import Question, reasons
from dictate.review.shelf import Shelf
from dictate.review.sound import sound_file
from dictate.review.view import src

_LABELS = {
    "confirm": ("c", "right as read"),
    "so": ("c", "it is so, as measured"),
    "done": ("d", "done, just not said"),
    "not_done": ("n", "not done"),
    "not_apply": ("x", "does not apply"),
    "strike": ("s", "not meant, strike it"),
    "take_back": ("b", "take the answer back"),
    "waive": ("u", "set aside, with a reason"),
    "note": ("m", "note"),
}


def walk(shelf: Shelf) -> None:
    """Go through the open questions of every visit on the shelf; `q` leaves."""
    rows = [r for r in shelf.rows() if shelf.only() is not None or r.open]
    if not rows:
        click.echo("Nothing is open.")
    for row in rows:
        desk = shelf.desk(row.slug)
        if desk is not None and not _visit(desk):
            return


def _visit(desk: Desk) -> bool:
    """Walk through one visit; false when the person left."""
    skipped: set[str] = set()
    state = desk.now()
    visit = state.record.visit
    click.echo("\n" + _plain(f"Visit {visit.id}: {visit.site or visit.customer or ''} {visit.date or ''}"))
    while True:
        state = desk.now()
        question = next((q for q in state.questions if q.key not in skipped), None)
        if question is None:
            left = len(state.questions)
            click.echo(f"{left} left open." if left else "Nothing is open.")
            return True
        go_on = _ask(desk, state, question)
        if go_on is None:
            return False
        if not go_on:
            skipped.add(question.key)


def _ask(desk: Desk, state: State, question: Question) -> bool | None:
    """Ask one question: true when something was saved, false to skip it, null to leave."""
    left = len(state.questions)
    _show(desk.folder, question, left)
    given = click.prompt("Answer", default="", show_default=False, prompt_suffix="> ").strip()
    if given in ("q", "quit"):
        return None
    if given in ("", "k"):
        return False
    reply = _reply(question, given)
    try:
        saved = desk.save(reply, state.hash)
    except (NotUnderstoodError, MovedOnError, UsageError) as error:
        click.echo(f"Not saved: {error}")
        return True
    click.echo(saved.words())
    return reply.action != "note"


def _show(folder: Path, question: Question, left: int) -> None:
    click.echo(f"\n[{left} open] {question.heading}" + (" (stops the bill)" if question.blocking else ""))
    name = f"{question.machine}: " if question.machine else ""
    click.echo(f"{name}{_plain(question.ask or question.text)}")
    if question.ask:
        click.echo(f"  {_plain(question.text)}")
    if question.heard:
        click.echo(f'  heard: "{_plain(question.heard)}"')
    for at in question.at[:3]:
        if src(at) and sound_file(folder, at.clip or "") is not None:
            click.echo(f"  sound: {folder / src(at)}")
    if question.caution:
        click.echo(f"  Caution: {question.caution}")
    for n, choice in enumerate(question.choices, start=1):
        click.echo(f"  {n}  {_plain(choice.label)}")
    for action, (key, words) in _LABELS.items():
        if action in question.can:
            click.echo(f"  {key}  {words}")
    if "type" in question.can:
        click.echo("  or type the value or the answer; Enter skips, q leaves")
    else:
        click.echo("  Enter skips, q leaves")


def _reply(question: Question, given: str) -> Reply:
    if given.isdigit() and 1 <= int(given) <= len(question.choices):
        action = "machine" if "machine" in question.can else "choose"
        return Reply(action, question.key, choice=question.choices[int(given) - 1].value)
    for action, (key, _) in _LABELS.items():
        if given == key and action in question.can:
            if action == "waive":
                return Reply(action, question.key, reason=_reason())
            if action == "note":
                return Reply(action, question.key, text=click.prompt("Note", default="", show_default=False))
            return Reply(action, question.key)
    return Reply("type", question.key, text=given)


def _reason() -> str:
    ready = reasons()
    for n, reason in enumerate(ready, start=1):
        click.echo(f"    {n}  {reason}")
    given: str = click.prompt("Reason", default="", show_default=False).strip()
    return ready[int(given) - 1] if given.isdigit() and 1 <= int(given) <= len(ready) else given


def _plain(text: str) -> str:
    """Return a text without the characters that steer a terminal, in one line and not endless."""
    flat = "".join(c if c.isprintable() else " " for c in " ".join(text.split()))
    return flat if len(flat) <= 600 else flat[:600] + " …"
