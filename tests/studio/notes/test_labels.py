"""How labels are spelled: a line without unseen letters means the same to patterns that know of none."""

from collections.abc import Callable
from re import Pattern

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.notes import labels

_LEADS = ("", "1) ", "iv. ", "- ", "(", "“", "**", "She is in ", "x", "\t", "12 > ")
_WORDS = (
    "private", "Private", "prıvate", "follow up", "Follow-Up", "follow–ups", "followup", "Next time", "next\u2212time", "next_time",
    "warm-up", "Warm\u00a0ups", "Scales", "étude", "method book", "review  pieces", "ear training", "sight-reading", "pieces",
)  # fmt: skip
_TAILS = ("", " ", "\u00a0", " note", "\tremarks", " (to her)", " [a]", ")", "**", "-", "x", "s")
_ENDINGS = (*":：﹕∶︓꞉", " -", " – x", "—", ": x", ":*_ x", "", ": ...", " : Private: y")
_labelled = st.tuples(*(st.sampled_from(parts) for parts in (_LEADS, _WORDS, _TAILS, _ENDINGS))).map("".join)
_UNSEEN_LETTERS = ("\u00ad", "\u061c", "\u180e", "\u200b", "\u200d", "\u202e", "\u2060", "\u2069", "\ufe0e", "\ufeff")
_PATTERNS = (labels._kept_back, labels._within, labels._private_word, labels._area)


@pytest.mark.parametrize("pattern", _PATTERNS)
@given(typed=st.lists(_labelled, max_size=3).map(" ".join))
def test_a_line_without_unseen_letters_is_told_alike_by_both_patterns(
    pattern: Callable[[str], Pattern[str]], typed: str
) -> None:
    passing_over, knowing_none = pattern(labels._UNSEEN), pattern("")

    found = [(label.span(), label.lastgroup) for label in knowing_none.finditer(typed)]

    assert found == [(label.span(), label.lastgroup) for label in passing_over.finditer(typed)]
    begins = knowing_none.match(typed), passing_over.match(typed)
    assert len({(label.span(), label.lastgroup) if label else None for label in begins}) == 1


@pytest.mark.parametrize("unseen", _UNSEEN_LETTERS)
@pytest.mark.parametrize(
    ("typed", "name"), [("Private: x", "PRIVATE"), ("Follow-up: x", "FOLLOW_UP"), ("Next time: x", "NEXT_TIME")]
)
def test_an_unseen_letter_anywhere_in_a_label_leaves_it_one(unseen: str, typed: str, name: str) -> None:
    for at in range(typed.index(":") + 1):
        label = labels.kept_back_label(typed[:at] + unseen + typed[at:])

        assert label == (name, typed.index(":") + 2)


@pytest.mark.parametrize("typed", ["", "Private", "Scales", "She plays: well", "xprivate: x", "Prelude: slowly"])
def test_other_lines_begin_with_no_label(typed: str) -> None:
    assert labels.kept_back_label(typed) is None
    assert labels.area_label(typed) is None
