"""What a line is, who reads it, and which label a remark would take that looks like an assignment."""

import pytest

from cockpit.studio.assignments.telling import label_offer, sentence_of, warning_of
from cockpit.studio.notes.notes import read_line


@pytest.mark.parametrize(
    ("typed", "labeled"),
    [
        ("Gavotte mm. 1-8 q=72", "Piece: Gavotte mm. 1-8 q=72"),
        ("Scales D major q=72 2 oct", "Scales: D major q=72 2 oct"),
        ("arpeggios in C 60 bpm", "Arpeggios: in C 60 bpm"),
        ("D major 2 octaves 5 min", "Scales: D major 2 octaves 5 min"),
        ("Sonata: mm. 1-8", "Piece: Sonata: mm. 1-8"),
        ("p. 12 10 min", "Method book: p. 12 10 min"),
        ("Song of the wind mm. 3-4", "Song: Song of the wind mm. 3-4"),
        ("Etude 5 mm. 1-8", "Etude: Etude 5 mm. 1-8"),
        ("Bow hold 5 min a day", "Bow hold: 5 min a day"),
        ("Tonleiter G-Dur q=60", "Tonleiter: G-Dur q=60"),
        ("slow practice 10 min", "Piece: slow practice 10 min"),
        ("Lovely tone today", None),
        ("Piece: Gavotte mm. 1-8", None),
        ("Private: mm. 1-8", None),
        ("Remark: mm. 1-8 were lovely", None),
        ("", None),
    ],
)
def test_a_remark_that_looks_like_an_assignment_would_take_a_label(typed: str, labeled: str | None) -> None:
    offer = label_offer(read_line(typed))
    assert (offer.line if offer is not None else None) == labeled
    if labeled is not None:
        assert offer is not None
        assert read_line(labeled).label == offer.label.rstrip(":")


@pytest.mark.parametrize(
    ("typed", "sentence", "warning"),
    [
        ("Piece: Gavotte mm. 17-32", "assignment: piece · for the family · measures 17–32 (16)", None),
        ("Homework: p. 3", "assignment · for the family · page 3", None),
        ("Lovely tone", "remark · for the family", None),
        ("Private: tired", "private · for you alone", None),
        ("Next time: coda", "next time · for you alone", None),
        ("Prviate: x", "private · for you alone", '"Prviate" is taken for Private: this line is kept back.'),
        ("Old-ish friends: x", "remark · for the family",
         '"Old-ish friends:" is no label yet: the family will read this line as a remark. See settings, [labels].'),
        ("Private she cried", "remark · for the family", '"Private" has no colon: the family will read this line.'),
        ("// she cried", "remark · for the family", '"//" keeps nothing back: the family will read this line.'),
        ("Piece: Gavotte. Etude: no. 5", "assignment: piece · for the family · no. 5",
         '"Etude:" does not begin its line: the family will read this line.'),
        ("Gavotte mm. 1-8", "remark · for the family", 'This looks like an assignment: it would take the label "Piece:".'),
    ],
)  # fmt: skip
def test_it_is_said_what_a_line_is_and_who_reads_it(typed: str, sentence: str, warning: str | None) -> None:
    line = read_line(typed)
    assert (sentence_of(line), warning_of(line, label_offer(line))) == (sentence, warning)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Piece: Gavotte mm. 1-8 in private: x", '"private:" does not begin its line: the family will read this line.'),
        ("Piece: Gavotte pp. 2-3 todo: x", '"todo:" does not begin its line: the family will read this line.'),
        ("Lovely. Etude 5: x", '"Etude 5:" does not begin its line: the family will read this line.'),
        ("Hanon 5: x", '"Hanon 5:" is no label yet: the family will read this line as a remark. See settings, [labels].'),
        ("Privately, x", '"Privately" has no colon: the family will read this line.'),
    ],
)  # fmt: skip
def test_why_words_keep_nothing_back_is_said(typed: str, said: str) -> None:
    assert warning_of(read_line(typed), None) == said
