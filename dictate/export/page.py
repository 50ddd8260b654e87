"""The printable page of a visit: one self-contained HTML file, no network, no script."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from dictate.export import wording
from dictate.export.digest import digest
from dictate.export.summary import HEADINGS
from dictate.record.visit import Record

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def environment() -> Environment:
    """Return the template environment: everything that is not markup of ours is escaped."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("dictate.export", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["say"] = wording
    return made


def page(record: Record, *, draft: bool = False) -> str:
    """Return the page as HTML text."""
    view = digest(record)
    return environment().get_template("record.html").render(
        view=view, record=record, headings=HEADINGS, draft=draft
    )  # fmt: skip
