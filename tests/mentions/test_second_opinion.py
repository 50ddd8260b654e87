"""The second opinion on what a number is: how it is asked, and that its weights fit the code."""

from __future__ import annotations

import json
from importlib import resources

import numpy as np
import pytest

from dictate.errors import RecordError
from dictate.mentions.doubts.judges import Judge
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import Opinion, encoder, features, opinions
from dictate.mentions.second_opinion.encoder import model
from dictate.mentions.second_opinion.encoder.windows import KINDS, Row, laid_out, windows
from dictate.mentions.second_opinion.encoder.word_pieces import WordPieces
from dictate.mentions.second_opinion.net import Net, trained
from dictate.mentions.second_opinion.opinion import Classes, mixed
from dictate.pipeline import read_text
from tests.narrations.labels import all_of


def test_the_weights_were_made_from_the_features_of_this_code() -> None:
    """Renamed features would leave the opinion without grounds, and silently so."""
    known = trained().rows
    seen = [
        name
        for labelled in all_of("develop")[::12]
        for _, one in features(Narration.from_text(labelled.text))
        for name in one
    ]
    assert sum(name in known for name in seen) > 0.85 * len(seen)


def test_chances_add_up() -> None:
    for opinion in opinions(
        Narration.from_text("Suction 68, head 210. Box at thirty eight, two fans.")
    ).values():
        assert sum(opinion.quantities.values()) == pytest.approx(1)
        assert 0 <= sum(opinion.now.values()) <= 1 + 1e-6
        assert all(opinion.of(q) <= opinion.quantities[q] + 1e-6 for q in opinion.now)


def test_weights_that_do_not_fit_are_refused() -> None:
    names = np.frombuffer(b"a\nb", dtype=np.uint8)
    classes = np.frombuffer(b"pressure|measured\nnone|none", dtype=np.uint8)
    data = {
        "features": names, "classes": classes, "hidden": np.zeros((2, 3), np.int8),
        "scale": np.ones(3, np.float32), "hidden_bias": np.zeros(3, np.float32),
        "out": np.zeros((4, 2), np.float32), "out_bias": np.zeros(2, np.float32),
    }  # fmt: skip
    with pytest.raises(RecordError, match="not fit"):
        Net(data)


def test_words_come_apart_as_in_the_published_model() -> None:
    """The reference is the tokenizers library: BertNormalizer, BertPreTokenizer and WordPiece."""
    from tokenizers import Tokenizer, models, normalizers, pre_tokenizers

    pieces = encoder.trained().pieces
    reference = Tokenizer(
        models.WordPiece(pieces.number, unk_token="[UNK]", continuing_subword_prefix="##")
    )  # fmt: skip
    reference.normalizer = normalizers.BertNormalizer(lowercase=True)
    reference.pre_tokenizer = pre_tokenizers.BertPreTokenizer()
    words = {t for labelled in all_of("develop")[::40] for t in Narration.from_text(labelled.text).lowers}
    for word in sorted(words | {"unaffable", "café", "r-404a", "p.s.i.", "22.5", "½", "µf", "don't", "漢"}):
        wanted = reference.encode(word, add_special_tokens=False).ids
        assert pieces.of(word) == wanted, word


def test_a_word_is_cut_greedily() -> None:
    """The example of the BERT paper's code: "unaffable" is "un", "##aff", "##able"."""
    known = ["[UNK]", "[CLS]", "[SEP]", ".", "un", "##aff", "##able", "want", "##want", "##ed"]
    pieces = WordPieces(known)
    assert [known[i] for i in pieces.of("unaffable")] == ["un", "##aff", "##able"]
    assert [known[i] for i in pieces.of("unwanted")] == ["un", "##want", "##ed"]
    assert [known[i] for i in pieces.of("unwantedx")] == ["[UNK]"]


@pytest.mark.parametrize("long", [1, 10, 190, 254, 255, 700])
def test_every_number_is_judged_in_one_window_with_its_pieces(long: int) -> None:
    pieces = encoder.trained().pieces
    words = [w for i in range(long) for w in ("suction", "is", f"{i % 97 + 11}", "now")]
    spans = [(i * 4 + 2, i * 4 + 3) for i in range(long)]
    row = laid_out(words, [len(words)], spans, [KINDS[1 + i % 16] for i in range(long)], pieces)
    assert len(row.pieces) == len(row.types)
    assert row.pieces[-1] == pieces.full_stop
    told = [n for w in windows(row) for n in range(w.begin, w.end)]
    assert told == list(range(long))
    for w in windows(row):
        assert w.last - w.first <= 254
        read = [0, *row.pieces[w.first : w.last], 0]
        for n in range(w.begin, w.end):
            first, last = w.place(row.numbers[n])
            assert read[first:last] == pieces.of(words[spans[n][0]])
            assert row.types[row.numbers[n][0]] == 2 + n % 16


@pytest.mark.parametrize("long", [3, 200, 700])
def test_every_stretch_of_talk_is_judged_in_one_window(long: int) -> None:
    """With numbers in it or without: steps of the work are told where none is said."""
    words = ["valve", "went", "in"] * long
    row = laid_out(words, [len(words)], [], [], encoder.trained().pieces)
    stretches = [(row.tokens[i], row.tokens[i + 3]) for i in range(0, len(words), 3)]
    for place in stretches:
        (window,) = [w for w in windows(row) if w.judges(place)]
        first, last = window.place(place)
        assert 1 <= first < last <= window.last - window.first + 1


def test_a_number_is_judged_alike_whatever_is_read_beside_it() -> None:
    """The windows of a long visit are read together; their number and lengths must not show."""
    talk = "Suction at sixty eight, head two ten. Box is thirty eight, and the fan draws 1.2. "
    behind = "Set the timer to four defrosts. Old contactor was 24 volts. "
    long = Narration.from_text(talk * 12 + behind * 40)
    of = encoder.trained()
    row, known = encoder.row_of(long), encoder.known(long)
    read = of.read(row, [1.0] * len(known))
    whole = of.judge(row, read, known)
    for window, said in read:
        alone = of.judge(row, of._windows_read(row, [window]), known)
        here = slice(window.begin, window.end)
        for head, shares in alone.items():
            # Bytes are rounded, on some processors by another kernel for another number of rows.
            most = 3e-2
            assert np.exp(shares[here]) == pytest.approx(np.exp(whole[head][here]), abs=most)
            assert np.isnan(np.delete(shares, here, axis=0)).all() or len(windows(row)) == 1
        assert len(said) >= window.last - window.first


def test_the_encoder_reads_the_words_in_their_order() -> None:
    """The net beside it sees the same words on both sides of the value."""
    for text, quantity in (
        ("Sixty eight on the suction gauge, and the box, that was thirty eight.", ["pressure", "temperature"]),
        ("The box was sixty eight, and on the suction gauge, that was thirty eight.", ["temperature", "pressure"]),
    ):  # fmt: skip
        assert [o.best for o in opinions(Narration.from_text(text)).values()] == quantity


def test_two_judges_come_to_one_opinion() -> None:
    names = ["pressure|measured", "none|none"]
    net = np.log(np.array([[0.8, 0.2], [0.8, 0.2]]))
    other = np.array([[np.log(0.2), np.log(0.8)], [np.nan, np.nan]])
    both = np.exp(mixed(names, net, ["none|none", "pressure|measured"], other, 0.5))
    assert both[0] == pytest.approx([0.8, 0.2])
    assert both[1] == pytest.approx([0.8, 0.2])  # the other has not said anything of it
    both = np.exp(mixed(names, net, names, other, 0.5))
    assert both[0] == pytest.approx([0.5, 0.5])
    assert Classes(names).opinions(np.log(both))[0].of("pressure") == pytest.approx(0.5)


def test_a_text_without_numbers_asks_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    assert opinions(Narration.from_text("Cleaned the coil and the drain.")) == {}
    (window,) = windows(Row([5, 6, 7], [0, 0, 0], [], [0, 1, 2, 3]))
    assert window.begin == window.end


def test_missing_weights_of_the_encoder_are_one_clear_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(model, "HEAD", "nowhere.npz")
    model.trained.cache_clear()
    try:
        with pytest.raises(RecordError, match="encoder are missing"):
            model.trained()
    finally:
        model.trained.cache_clear()


@pytest.mark.parametrize("name", ["first.bin", "second.bin", "vocabulary.json", "head.npz"])
def test_weights_of_the_encoder_that_do_not_fit_are_refused(name: str) -> None:
    folder = resources.files(encoder.__name__) / "weights"
    files = {n: (folder / n).read_bytes() for n in (*model.FILES, *model.NETS, model.HEAD)}
    broken = json.dumps(["[UNK]", "[CLS]", "[SEP]", "."]).encode() if name == "vocabulary.json" else b"broken"
    with pytest.raises(RecordError, match="not fit"):
        model.Encoder({**files, name: broken})


def _say(monkeypatch: pytest.MonkeyPatch, shares: dict[str, float]) -> None:
    """Put an opinion of one's own in the place of the trained one: what is asked of it is under test here."""
    opinion = Opinion(shares, {q: 0.97 * share for q, share in shares.items() if q != "none"})

    def all_alike(narration: Narration) -> dict[int, Opinion]:
        return dict.fromkeys(range(len(narration.tokens)), opinion)

    monkeypatch.setattr("dictate.mentions.weighing.net_opinions", all_alike)
    monkeypatch.setattr("dictate.mentions.doubts.second_look.opinions", all_alike)
    monkeypatch.setattr("dictate.mentions.doubts.trust.opinions", all_alike)
    monkeypatch.setattr("dictate.mentions.doubts.trust_evidence.opinions", all_alike)
    judge = Judge(opinion.now, opinion.quantities, {"not now": 0.02, "retracted": 0.01}, 0.5)

    def both_alike(narration: Narration) -> dict[int, tuple[Judge, Judge | None]]:
        return dict.fromkeys(range(len(narration.tokens)), (judge, judge))

    monkeypatch.setattr("dictate.mentions.doubts.trust_evidence.judged", both_alike)


def test_a_number_carried_to_what_it_cannot_be_is_taken_for_what_the_words_say(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """No motor of such a machine draws 160 A; a person is asked, and the first reading of it is kept."""
    _say(monkeypatch, {"temperature": 0.8, "current": 0.2})
    text = "I watched the compressor try. Seventy one amps, maybe four seconds, off. One sixty before."
    last = read_text(text).readings[-1]
    assert (last.value, last.unit) == (160, "degF")
    assert "it may be a current" in last.review[0]
    assert (last.candidates[0].value, last.candidates[0].unit) == (160, "A")


@pytest.mark.parametrize(("share", "values"), [(0.94, [119.0]), (0.5, [])])
def test_a_number_that_nothing_ties_is_taken_only_where_there_is_little_doubt(
    monkeypatch: pytest.MonkeyPatch, share: float, values: list[float]
) -> None:
    _say(monkeypatch, {"voltage": share, "none": 1 - share})
    readings = read_text("Then one nineteen over there.").readings
    assert [r.value for r in readings] == values
    assert all("because of the words around it" in r.review[0] for r in readings)


def test_a_bare_value_that_sounds_like_something_else_gets_a_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    _say(monkeypatch, {"none": 0.98, "temperature": 0.02})
    assert "do not sound like a value" in read_text("Box is at thirty eight.").readings[0].review[0]
    _say(monkeypatch, {"pressure": 0.01, "temperature": 0.99})
    assert read_text("Box is at thirty eight.").readings[0].review == []


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Locked in, eleven amps then three point four. Supply one sixteen.", True),
        ("Gas heat on, supply air one sixteen.", False),
        ("Return seventy six, supply fifty five.", False),
    ],
)
def test_a_supply_of_the_size_of_mains_is_asked_about(text: str, asked: bool) -> None:
    """Warm supply air and a supply voltage are said alike (mains of 105 to 127 V: ANSI C84.1)."""
    assert bool(read_text(text).readings[-1].review) == asked
