"""How labels are spelled: a letter that nobody sees changes nothing, and what looks like a label and is none is found."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.notes.notes import Line, no_labels, read_line, read_notes

_LEADS = ("", "1) ", "iv. ", "- ", "(", "“", "**", "She is in ", "x", "\t", "12 > ")
_WORDS = (
    "private", "Private", "prıvate", "follow up", "Follow-Up", "follow–ups", "followup", "Next time", "next\u2212time", "next_time",
    "warm-up", "Warm\u00a0ups", "Scales", "étude", "method book", "review  pieces", "ear training", "sight-reading", "pieces",
    "Prviate", "priv", "nur für mich", "Mum",
)  # fmt: skip
_TAILS = ("", " ", "\u00a0", " note", "\tremarks", " (to her)", " [a]", ")", "**", "-", "x", "s")
_ENDINGS = (*":：﹕∶︓꞉", " -", " – x", "—", ": x", ":*_ x", "", ": ...", " : Private: y")
_labelled = st.tuples(*(st.sampled_from(parts) for parts in (_LEADS, _WORDS, _TAILS, _ENDINGS))).map("".join)
_UNSEEN_LETTERS = ("\u00ad", "\u061c", "\u180e", "\u200b", "\u200d", "\u202e", "\u2060", "\u2069", "\ufe0e", "\ufeff")


def without_unseen(text: str) -> str:
    return "".join(sign for sign in text if sign not in _UNSEEN_LETTERS)


@given(typed=st.lists(_labelled, max_size=3).map(" ".join), unseen=st.sampled_from(_UNSEEN_LETTERS), at=st.integers(0))
def test_a_line_with_unseen_letters_is_told_as_the_line_that_is_seen(typed: str, unseen: str, at: int) -> None:
    at %= len(typed) + 1

    told = read_notes(typed[:at] + unseen + typed[at:])

    assert [(line.line, line.area, without_unseen(line.text).strip()) for line in told] == [
        (line.line, line.area, line.text.strip()) for line in read_notes(typed)
    ]


@pytest.mark.parametrize("unseen", _UNSEEN_LETTERS)
@pytest.mark.parametrize(
    ("typed", "line"),
    [
        ("Private: x", Line.PRIVATE),
        ("Follow-up: x", Line.FOLLOW_UP),
        ("Next time: x", Line.NEXT_TIME),
        ("Prviate: x", Line.PRIVATE),
    ],
)
def test_an_unseen_letter_anywhere_in_a_label_leaves_it_one(unseen: str, typed: str, line: Line) -> None:
    for at in range(typed.index(":") + 1):
        read = read_line(typed[:at] + unseen + typed[at:])

        assert (read.line, read.text) == (line, "x")


@pytest.mark.parametrize("typed", ["", "Scales", "4:30 next week", "q = 72: too fast", "https://example.org"])
def test_other_lines_begin_with_no_label_and_look_like_none(typed: str) -> None:
    assert read_line(typed).line is Line.REMARK
    assert not no_labels(typed)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("Mum: she is tired", "Mum:"),
        ("- Mum : she is tired", "Mum:"),
        ("2. Dad: away", "Dad:"),
        ("Mum:she is tired", "Mum:"),
        ("Mum:", "Mum:"),
        ("Old-ish friends: Gavotte", "Old-ish friends:"),
        ("Money & dates: late", "Money & dates:"),
        ("Großmutter: krank", "Großmutter:"),
        ("Élodie’s mère : fatiguée", "Élodie’s mère:"),
        ("Lovely week. Mum: tired", "Mum:"),
        ("Scales: D major. Mum: tired", "Mum:"),
        ("Lovely week - Mum: tired", "Mum:"),
        ("Private mum is ill", "Private"),
        ("Priavte mum is ill", "Priavte"),
        ("Lovely week (private she cried)", "private"),
        ("Lovely week - private she cried", "private"),
        ("Lovely week * private * she cried", "private"),
        ("Lovely week, private, she cried", "private"),
        ("Lovely week Private she cried", "Private"),
        ("Piece: Gavotte - private she cried", "private"),
        ("Vertraulich die Eltern", "Vertraulich"),
        ("Follow-up send the file", "Follow-up"),
        ("follwup send the file", "follwup"),
        ("todo call", "todo"),
        ("Hanon 5: slowly", "Hanon 5:"),
        ("Mum 2: hello", "Mum 2:"),
        ("Mum #2: hello", "Mum #2:"),
        ("- Czerny no. 5b : slowly", "Czerny no. 5b:"),
        ("New Hanon book 12: slowly", "New Hanon book 12:"),
        ("Great week - Hanon 4: slowly", "Hanon 4:"),
        ("Élodie 2: fatiguée", "Élodie 2:"),
        ("Mum (home): hello", "Mum:"),
        ("Hanon 5 (slow): x", "Hanon 5:"),
        ("Mum, Dad: hello", "Mum, Dad:"),
        ("Mum + Dad: hello", "Mum + Dad:"),
        ("Obs.: rude today", "Obs:"),
        ("Dr. Wren: call her", "Wren:"),
        ("[P] he cried", "[P]"),
        ("(me) she cried", "(me)"),
        ("- [mum] she cried", "[mum]"),
        ("[not sent] she cried", "[not sent]"),
        ("Piece: Gavotte mm. 1-8, me: watch her", "me:"),
        ("Piece: Gavotte - me: watch her", "me:"),
        ("Piece: Gavotte; mum: she cried", "mum:"),
        ("Piece: Gavotte (mum: she cried)", "mum:"),
        ("Lovely week, mum: she cried", "Lovely week, mum:"),
        ("Lovely week – mum: she cried", "mum:"),
        ("Not to be sent: she cried", "Not to be sent:"),
        ("no decir a los padres: llora", "no decir a los padres:"),
        ("Ne pas dire aux parents : elle pleure", "Ne pas dire aux parents:"),
        ("à ne pas dire aux parents : elle pleure", "à ne pas dire aux parents:"),
        ("Bitte nicht den Eltern sagen: krank", "Bitte nicht den Eltern sagen:"),
        ("Lovely week. Never say this to mum: she cried", "Never say this to mum:"),
        ("$: she owes 40", "$"),
        ("!!: she owes 40", "!!"),
    ],
)
def test_what_looks_like_a_label_and_is_none_is_named(typed: str, words: str) -> None:
    assert no_labels(f"Elbow low.\n{typed}") == (words,)


@pytest.mark.parametrize(
    "typed",
    [
        "What we did with the bow today: long tones",  # a sentence of more than three words
        "See http://example.org/x: ok",
        "We start at 4:30 on Tuesday",
        "Great :-) and :D too",
        "Piece: Sonata in C: Allegro",
        "Private: Mum: tired",
        "Private:\nMum: tired",
        "mm. 17-32: slowly",
        "Lesson at 5: bring the stand",
        "Back by 6: soup",
        "Piece: Gavotte. Page 5: slowly",
        "John 3:16 sung",
        "Etude 5: slowly",
        "Next time we start with the coda",
        "Lovely week, at 5: bring the stand",
        "Piece: Gavotte, m. 5: slowly",
        "Piece: Gavotte, page 5: slowly",
        "(mm. 17-32) slowly",
        "[5] Gavotte",
        "We did not get to the coda this week: next time",
    ],
)
def test_what_is_no_label_is_not_named_where_it_does_not_look_like_one(typed: str) -> None:
    assert no_labels(typed) == ()
