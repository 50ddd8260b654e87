"""The machine of a visit in which none is named."""

from dictate.pipeline import read_text


def test_a_visit_that_names_no_machine_has_one_of_no_kind() -> None:
    record = read_text("Compressor draws nine amps and the head is two ten.")
    assert [(e.type, e.model) for e in record.equipment] == [(None, None)]
    assert {r.equipment for r in record.readings} == {"e1"}
    assert read_text("Nobody was at home, I left a card.").equipment == []
