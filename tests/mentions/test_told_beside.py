"""What the words right beside a value say outright is asked about only on strong evidence; near misses are not."""

from __future__ import annotations

from typing import Any

import pytest

from dictate.mentions import doubts, find
from dictate.mentions.by_all_words.not_taken import NOT_TAKEN
from dictate.mentions.by_all_words.states import OTHER_TALK, STATE_NOT_TAKEN
from dictate.mentions.doubts import told_beside
from dictate.mentions.doubts.judges import Judge
from dictate.mentions.doubts.talk import Case, Talk, case_value
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import Told
from dictate.mentions.values.dead_told import is_proof_of_dead
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading


def case_of(text: str, words: str, **fields: Any) -> Case:
    """Return the value that was read at some words of a text."""
    narration = Narration(list(segments_of([text], "c1")))
    said = words.lower().split()
    start = next(i for i in range(len(narration.lowers)) if narration.lowers[i : i + len(said)] == said)
    end = start + len(said)
    reading = Reading(
        **{"quantity": "temperature", "unit": "degF", "value": 1.0, "heard": words, **fields},
        at=narration.at(start, end),
    )
    talk = Talk(narration, Mentions())
    low, high = narration.sentences[talk.sentence_of[start]]
    return Case(talk, reading, start, end, low, high, case_value(talk, reading, start, end), None)


def judging(share: float, quantity: str) -> Any:
    """Return judges who both give a number this share of being a measured value of a quantity."""
    judge = Judge({quantity: share}, {quantity: share}, {}, 0.1)

    class Both:
        def get(self, start: int) -> tuple[Judge, Judge]:
            return judge, judge

    return lambda narration: Both()


@pytest.mark.parametrize(
    ("text", "words", "share", "only"),
    [
        ("The chute filled in seven minutes and stopped.", "seven minutes", 0.99, True),
        ("The chute filled in seven minutes and stopped.", "seven minutes", 0.975, False),
        ("The probe says seven minutes nine.", "seven minutes", 0.99, False),  # it goes on
    ],
)
def test_what_only_the_encoder_took_is_weighed_where_it_is_nearly_certain(
    monkeypatch: pytest.MonkeyPatch, text: str, words: str, share: float, only: bool
) -> None:
    monkeypatch.setattr(told_beside, "judged", judging(share, "duration"))
    case = case_of(text, words, quantity="duration", unit="min", value=7.0, review=[NOT_TAKEN])
    assert told_beside.only_evidence(case, NOT_TAKEN) is only


@pytest.mark.parametrize(
    ("text", "words", "share", "only"),
    [
        ("Left element across its ends, open.", "open", 0.995, True),
        ("Left element across its ends, open.", "open", 0.97, False),
        ("Each pin to the shell, no.", "no", 0.999, False),  # of volts or of ohms
        ("The secondary shows twenty-six open.", "open", 0.999, False),  # with nothing connected
    ],
)
def test_a_state_that_only_the_encoder_took(
    monkeypatch: pytest.MonkeyPatch, text: str, words: str, share: float, only: bool
) -> None:
    case = case_of(
        text, words, quantity="resistance", unit="ohm", value=None, state="open", unit_assumed=True
    )
    read = Told(["open", ""], [share, 1 - share], 0)
    monkeypatch.setattr(
        "dictate.mentions.by_all_words.states.told_of_words",
        lambda narration: {"state": {(case.start, case.end): read}},
    )
    assert told_beside.only_evidence(case, STATE_NOT_TAKEN) is only


@pytest.mark.parametrize(
    ("text", "proved"),
    [
        ("Isolated it, proved dead with the tester.", True),
        ("Breaker off and tested dead across all three.", True),
        ("Disconnect pulled, meter on the lugs, dead.", True),
        ("Breaker off, tested the lines, dead as a doornail.", False),  # where and with what was not told
        ("Tested dead across all three.", False),  # nothing was switched off
        ("Breaker off. The fan is dead on the left.", False),
        ("Breaker off, ohmed the meter leads and tested dead at it.", False),  # no test of volts
    ],
)
def test_a_proof_of_dead_needs_a_test_and_a_place_or_a_meter(text: str, proved: bool) -> None:
    words = Narration(list(segments_of([text], "c1"))).lowers
    at = words.index("dead")
    assert is_proof_of_dead(words, at, at + 1) is proved
    case = case_of(text, "dead", quantity="voltage", unit="V", value=0.0, unit_assumed=True)
    assert told_beside.only_evidence(case, OTHER_TALK) is proved
    assert told_beside.surely_a_state(case) is proved


@pytest.mark.parametrize(
    ("text", "words", "fields", "named"),
    [
        ("The milk is at forty and the door shuts.", "forty", {}, True),
        ("The milk goes to forty in an hour.", "forty", {}, False),  # where it should go
        ("The milk, forty.", "forty", {}, False),  # a mark between them, and no unit
        ("The milk is forty bottles.", "forty", {}, False),  # counted
        ("Discharge is ninety.", "ninety", {"point": "discharge"}, False),  # pressure as well
        ("Fan two point five four.", "two point five four", {"quantity": "current", "unit": "A"}, False),
        ("Compressor, nine amps.", "nine amps", {"quantity": "current", "unit": "A", "unit_assumed": False}, True),
        (
            "Compressor, nine amps, I was on the wrong wire.", "nine amps",
            {"quantity": "current", "unit": "A", "unit_assumed": False}, False,
        ),
        (
            "The crankcase heater is two kilohms one.", "two kilohms",
            {"quantity": "resistance", "unit": "ohm", "unit_assumed": False}, False,
        ),
        (
            "It came down in an hour and ten.", "an hour and ten",
            {"quantity": "duration", "unit": "min", "unit_assumed": False}, True,
        ),
        (
            "It came down in an hour, ten.", "an hour",
            {"quantity": "duration", "unit": "h", "unit_assumed": False}, False,
        ),
    ],
)  # fmt: skip
def test_the_name_of_a_thing_right_in_front(
    monkeypatch: pytest.MonkeyPatch, text: str, words: str, fields: dict[str, Any], named: bool
) -> None:
    case = case_of(text, words, **{"unit_assumed": True, **fields})
    monkeypatch.setattr(told_beside, "judged", judging(0.9, case.reading.quantity))
    assert told_beside.named_beside(case) is named


def test_a_row_of_what_is_printed_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "Compressor is rated thirty volts, heater two volts."
    fields = {"quantity": "voltage", "unit": "V", "unit_assumed": False}
    case = case_of(text, "two volts", **fields)
    assert told_beside.named_beside(case)
    for role, named in (("rated", False), ("measured", True)):
        case.previous = case_of(text, "thirty volts", role=role, **fields)
        assert told_beside.named_beside(case) is named


def test_the_share_from_which_a_named_value_is_asked_about(monkeypatch: pytest.MonkeyPatch) -> None:
    text = (
        "Compressor is drawing nine amps. "
        + "Swept up round the machine and left it running well for them. " * 6
    )
    for share, asked in ((0.12, False), (0.14, True)):
        monkeypatch.setattr(doubts, "share_of_doubt", lambda seen, share=share: share)
        monkeypatch.setattr(doubts, "named_beside", lambda case: True)
        readings = find(list(segments_of([text], "c1"))).readings
        assert [bool(r.review) for r in readings if r.quantity == "current"] == [asked]
