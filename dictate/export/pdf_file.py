"""A paper as PDF. The same paper gives the same bytes: no clock and no random id goes in."""

from __future__ import annotations

import io
import unicodedata
from typing import Any
from xml.sax.saxutils import escape

from dictate.export.papers import Paper


def pdf(paper: Paper) -> bytes:
    """Return the paper as PDF bytes, A4, with page numbers.

    The built-in fonts of PDF hold Latin letters only: a character that they lack is written without its
    accent where that is possible, else as a question mark. The HTML page holds every character.
    """
    from reportlab.lib import colors
    from reportlab.lib.pagesizes import A4
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.lib.units import mm
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Spacer, Table, TableStyle

    body = ParagraphStyle("body", fontName="Times-Roman", fontSize=10.5, leading=14, splitLongWords=True)
    small = ParagraphStyle("small", parent=body, fontSize=9, leading=11)
    bold = ParagraphStyle("bold", parent=body, fontName="Times-Bold")
    title = ParagraphStyle("title", parent=bold, fontSize=18, leading=24)
    head = ParagraphStyle("head", parent=bold, fontSize=12, leading=16, spaceBefore=8, keepWithNext=1)

    story: list[Any] = []
    if paper.draft:
        story.append(Paragraph("DRAFT: questions are open; not for billing, claim or log.", bold))
    story.append(Paragraph(_fit(paper.title), title))
    story += [Paragraph(f"<b>{_fit(name)}:</b> {_fit(value)}", body) for name, value in paper.facts]
    for block in paper.blocks:
        story.append(Paragraph(_fit(block.heading), head))
        story += [Paragraph(f"• {_fit(line)}", body) for line in block.lines]
        if block.table:
            cells = [[Paragraph(_fit(c), small) for c in row] for row in block.table]
            width = (A4[0] - 36 * mm) / len(block.table[0])
            style = TableStyle(
                [("LINEBELOW", (0, 0), (-1, -1), 0.4, colors.grey), ("VALIGN", (0, 0), (-1, -1), "TOP")]
            )
            story.append(Table(cells, colWidths=[width] * len(block.table[0]), repeatRows=1, style=style))
    story += [Spacer(1, 10), Paragraph(_fit(paper.footer), small)]

    out = io.BytesIO()
    document = SimpleDocTemplate(
        out, pagesize=A4, leftMargin=18 * mm, rightMargin=18 * mm, topMargin=16 * mm, bottomMargin=16 * mm,
        title=paper.title, author="", invariant=1,
    )  # fmt: skip

    def number_page(canvas: Any, made: Any) -> None:
        canvas.setFont("Times-Roman", 8)
        mark = "DRAFT  " if paper.draft else ""
        canvas.drawRightString(A4[0] - 18 * mm, 9 * mm, f"{mark}page {made.page}")

    document.build(story, onFirstPage=number_page, onLaterPages=number_page)
    return out.getvalue()


def _fit(text: str) -> str:
    out = []
    for char in text:
        if _latin(char) or char in "\n\t":
            out.append(char)
        else:
            plain = "".join(c for c in unicodedata.normalize("NFKD", char) if _latin(c))
            out.append(plain or ("" if unicodedata.category(char) in ("Cf", "Cc", "Mn") else "?"))
    return escape("".join(out))


def _latin(char: str) -> bool:
    try:
        char.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return char.isprintable()
