"""The bill as an OASIS UBL Invoice (only elements of 2.1), type 130: an invoicing data sheet.

It is not an invoice: number, tax and due date are the billing system's. `cbc:ID` is the visit's id with its
revision, so that a second delivery of the same visit can be refused. A line without a price carries the
amount 0.00, as the schema demands an amount, and a note that no price is known.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from xml.sax.saxutils import escape

from dictate.errors import ExportRefusedError
from dictate.export import bill
from dictate.export.csv_file import OVERRIDES, fragment
from dictate.record.visit import Record

INVOICE = "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"
CAC = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
CBC = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"
TYPE_CODE = "130"
"""UNCL 1001: invoicing data sheet."""


def invoice(record: Record, made: list[bill.Line], *, draft: bool, currency: str, shop: str | None) -> str:
    """Return the UBL document as text. Raises ExportRefusedError when the visit has no date."""
    visit = record.visit
    if visit.date is None:
        raise ExportRefusedError(
            f"visit {visit.id} has no date, and UBL demands one.", "Name it with --date."
        )
    out = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<Invoice xmlns="{INVOICE}" xmlns:cac="{CAC}" xmlns:cbc="{CBC}">',
        "<cbc:UBLVersionID>2.1</cbc:UBLVersionID>",
        _text("ID", f"{visit.id}-r{visit.revision}"),
        _text("IssueDate", visit.date[:10]),
        _text("InvoiceTypeCode", TYPE_CODE),
        *_notes(record, draft),
        _text("DocumentCurrencyCode", currency),
        *_supersedes(record),
        _party("AccountingSupplierParty", shop or "not stated"),
        _party("AccountingCustomerParty", visit.customer or visit.site or "not stated"),
        "<cac:LegalMonetaryTotal>"
        + _money("LineExtensionAmount", bill.total(made), currency)
        + _money("PayableAmount", bill.total(made), currency)
        + "</cac:LegalMonetaryTotal>",
        *(_line(record, line, currency) for line in made),
        "</Invoice>",
    ]
    return "\n".join(out) + "\n"


def clean(text: str) -> str:
    """Escape a text for XML 1.0, without the characters that XML 1.0 cannot hold."""
    text = "".join(c for c in text if c not in OVERRIDES)
    kept = "".join(c for c in text if c in "\t\n\r" or 0x20 <= ord(c) <= 0xD7FF or 0xE000 <= ord(c) <= 0xFFFD
                   or ord(c) >= 0x10000)  # fmt: skip
    return escape(kept)


def _text(name: str, value: str) -> str:
    return f"<cbc:{name}>{clean(value)}</cbc:{name}>"


def _money(name: str, value: Decimal, currency: str) -> str:
    return f'<cbc:{name} currencyID="{clean(currency)}">{value:.2f}</cbc:{name}>'


def _party(role: str, name: str) -> str:
    inner = f"<cac:PartyName>{_text('Name', name)}</cac:PartyName>"
    return f"<cac:{role}><cac:Party>{inner}</cac:Party></cac:{role}>"


def _notes(record: Record, draft: bool) -> Iterable[str]:
    if draft:
        yield _text("Note", "DRAFT: questions are open; not for billing.")
    if record.visit.revision > 1:
        yield _text("Note", f"Revision {record.visit.revision} supersedes {record.visit.revision - 1}.")


def _supersedes(record: Record) -> Iterable[str]:
    if record.visit.revision > 1:
        former = f"{record.visit.id}-r{record.visit.revision - 1}"
        yield (
            "<cac:BillingReference><cac:InvoiceDocumentReference>"
            + _text("ID", former)
            + "</cac:InvoiceDocumentReference></cac:BillingReference>"
        )


def _line(record: Record, line: bill.Line, currency: str) -> str:
    known = line.amount is not None and line.billable
    notes = [f"place in the sound: {fragment(record, at)}" for at in line.at if at.clip]
    notes += [f"to confirm: {reason}" for reason in line.review]
    if not line.billable:
        notes.append("not billable")
    elif line.amount is None:
        notes.append("no price known")
    item = _text("Description", line.description) + _text("Name", line.description[:100])
    if line.code:
        item += f"<cac:SellersItemIdentification>{_text('ID', line.code)}</cac:SellersItemIdentification>"
    out = (
        "<cac:InvoiceLine>"
        + _text("ID", str(line.number))
        + "".join(_text("Note", note) for note in notes)
        + f'<cbc:InvoicedQuantity unitCode="{line.unit}">{line.quantity:f}</cbc:InvoicedQuantity>'
        + _money("LineExtensionAmount", line.amount if known and line.amount else Decimal(0), currency)
        + f"<cac:Item>{item}</cac:Item>"
    )
    if line.price is not None:
        price = f'<cbc:PriceAmount currencyID="{clean(currency)}">{line.price:f}</cbc:PriceAmount>'
        out += f"<cac:Price>{price}</cac:Price>"
    return out + "</cac:InvoiceLine>"
