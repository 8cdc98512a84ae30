"""A `Goal:` line: what is one, the day that it is to be met by, and that another day makes no other goal of it."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.assignments.goals import TypedOn, goal_day, without_day
from cockpit.studio.assignments.telling import goal_phrases
from cockpit.studio.notes.notes import Line, for_family, read_line
from cockpit.studio.notes.vocabulary import Labels, Meaning

TYPED = TypedOn(on=date(2026, 12, 1))
THE_19TH = date(2026, 12, 19)


@pytest.mark.parametrize(
    "label",
    ["Goal:", "Goals:", "GOAL -", "Our goal:", "Long-term goal:", "- Aim:", "Ziel:", "Lernziele:", "Objectif :", "Meta:", "Objetivos:"],
)  # fmt: skip
def test_the_label_is_read_in_four_languages_and_the_family_reads_a_heading_for_it(label: str) -> None:
    line = read_line(f"{label} play The Old Mill")
    assert (line.line, line.text) == (Line.GOAL, "play The Old Mill")
    assert line.own_label is None or line.own_label in label


def test_what_a_label_says_beside_it_is_shown_and_one_of_hers_can_mean_it() -> None:
    assert read_line("Goal for the recital: play by heart").own_label == "Goal for the recital"
    labels = Labels(own={"dream": Meaning(None, is_goal=True), "goal": Meaning(None)}, names=("dream",))
    assert read_line("Dream: a duet with Wren", labels).own_label == "Dream"
    assert read_line("Goal: a duet", labels).line is Line.REMARK


@pytest.mark.parametrize(
    "line", ["Goal:", "Goal", "The goal is clear", "Goal tempo: q=88", "Private: Goal: wrzl", "Next time: goal: x"]
)
def test_other_lines_are_no_goals(line: str) -> None:
    assert for_family(line).goals == ()


def test_a_private_end_of_the_line_is_kept_back() -> None:
    (goal,) = for_family("Goal: play it in public, by dec 19. Private: wrzl").goals
    assert (goal.text, goal.typed) == ("play it in public, by dec 19.", "Goal: play it in public, by dec 19. ")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("play The Old Mill at the recital, by 19 dec", "play The Old Mill at the recital"),
        ("by dec 19, play it by heart", "play it by heart"),
        ("by dec 19: play it by heart", "play it by heart"),
        ("The Old Mill (by dec 19) with repeats", "The Old Mill, with repeats"),
        ("know it by heart by dec 19, 2026", "know it by heart"),
        ("reach 88 by 12/19", "reach 88"),
        ("auswendig bis zum 19. Dezember", "auswendig"),
        ("jouer en public avant le 19 décembre", "jouer en public"),
        ("tocar de memoria para el 19 de diciembre", "tocar de memoria"),
    ],
)
def test_the_day_is_read_where_a_teacher_writes_it_and_is_no_part_of_the_goal(text: str, words: str) -> None:
    assert goal_day(text, TYPED).by_on == THE_19TH
    assert without_day(text) == words


def test_another_day_makes_no_other_goal_and_another_aim_does() -> None:
    first, moved, other = (
        thread_of(read_line(f"Goal: {text}"))
        for text in ("the Mill by heart, by dec 19", "The Mill by heart by jan 9", "the Mill in public, by dec 19")
    )
    assert first == moved != other
    assert thread_of(read_line("Get: the mill by heart")) != first


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("the Mill, by dec 19", "by Saturday, December 19, 2026"),
        ("the Mill, by friday", "by Friday, December 4, 2026"),
        ("play the Mill by heart", "no day"),
        ("sit well by the piano", "no day"),
        ("the Mill by the recital", 'The studio has no date for "recital". Type the day, such as "dec 18".'),
        ("the Mill by 19 dec 3026", '"19 dec 3026" is no day. Type the day, such as "by dec 19".'),
        ("the Mill by dec 19 1926.", '"dec 19 1926" is no day. Type the day, such as "by dec 19".'),
        ("the Mill by 2030", '"2030" is no day. Type the day, such as "by dec 19".'),
        ("the Mill by 2031-12-19", '"2031-12-19" is Friday, December 19, 2031, more than two years from now. Type a date such as "dec 3" or "2026-12-03".'),
        ("the Mill by 19 decc", '"decc" is not understood. Type the day, such as "by dec 19".'),
        ("the Mill by nov 19", '"nov 19" is Thursday, November 19, 2026, which has passed. Type December 1, 2026 or a later day, or add the year.'),
    ],
)  # fmt: skip
def test_the_teacher_is_told_the_day_or_why_there_is_none(text: str, said: str) -> None:
    assert goal_phrases(read_line(f"Goal: {text}"), TYPED) == (said,)
    assert goal_phrases(read_line(f"Piece: {text}"), TYPED) == ()


_PARTS = st.sampled_from(
    ["by ", "bis ", "dec 19", "19", ", ", "(", ")", ": ", "the Mill ", "heart", "12/19", "é", "fri", "by by "]
)


@given(st.lists(_PARTS, max_size=9).map("".join))
def test_no_words_are_lost_but_those_of_the_day_and_the_rest_has_none_that_counts_twice(text: str) -> None:
    left = without_day(text)
    assert left.count("é") + left.count("Mill") <= text.count("é") + text.count("Mill")
    if goal_day(text, TYPED).by_on is None and not goal_day(text, TYPED).fault:
        assert without_day(text) == text


def test_a_line_of_a_hundred_pages_is_read_at_once() -> None:
    assert goal_day("by dec 19 and by, " * 10_000, TYPED).by_on is None
