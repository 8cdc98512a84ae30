"""The preview: the family's sheet drawn for a width, and what stays with the teacher beside or below it."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.outbox_screens import on_sending_screen
from support.papers import TRICKY, USUAL, paper, planned
from support.phrases import IN_ENGLISH

from cockpit.desk.post.previewing import Preview
from cockpit.papers.notes.text import practice_notes_sheet
from cockpit.screens.post.sheet_rows import BOX, family_rows, kept_rows
from cockpit.studio.notes.notes import kept_lines
from cockpit.studio.people.people import PlanForm
from cockpit.studio.values import replace

WEEK = """\
Scales: D major 2 oct, q = 60 to 72, 5 min
Piece: Bourrée, mm. 1-32, q = 72 to 96, HS before HT
Etude: no. 7, e = 120, open-string drone, Mon Wed Fri
Lovely tone today.
"""


def preview(body=WEEK, next_on=date(2026, 12, 8), form=PlanForm.CHART, **values) -> Preview:
    notes = planned(body, 30, next_on=next_on, form=form)
    sheet = practice_notes_sheet(notes, IN_ENGLISH)
    return Preview(heading="", facts=(), text="", page="", sheet=sheet, kept=kept_lines(body), **values)


def drawn(of: Preview, width: int) -> list[str]:
    return [row.plain for row in family_rows(of, width)]


def test_the_days_lie_across_between_bar_lines_and_the_last_one_is_thin_and_thick():
    rows = drawn(preview(), 100)
    head = next(row for row in rows if "Wed" in row)
    assert head.split() == ["│", "Wed", "│", "Thu", "│", "Fri", "│", "Sat", "│", "Sun", "│", "Mon", "│┃"]
    piece = next(row for row in rows if row.startswith("Piece"))
    assert "1–" in piece
    assert sum(row.count(BOX) for row in rows) == 6 + 6 + 3  # the etude is for three days alone
    assert rows.index(next(row for row in rows if "Lovely tone" in row)) < rows.index(head)
    assert next(row for row in rows if row.startswith("minutes")).split().count("│") == 6


def test_a_thick_line_stands_between_two_weeks():
    rows = drawn(preview(next_on=date(2026, 12, 15)), 150)
    head = next(row for row in rows if "Wed" in row and "Mon" in row)
    assert head.count("┃") == 2
    assert head.index("┃") == next(row for row in rows if "╂" in row).index("╂")


@pytest.mark.parametrize("width", [30, 40, 57])
def test_a_narrow_screen_has_a_day_under_the_other(width):
    rows = drawn(preview(), width)
    assert not any("│┃" in row for row in rows)
    whole = [day.whole for day in preview().sheet.chart.days]
    assert [row for row in rows if any(row.startswith(day) for day in whole)] == [
        row for day in whole for row in rows if row.startswith(day)
    ]
    assert sum(row.count(BOX) for row in rows) == 15


def test_without_a_chart_the_lists_are_there_and_around_a_mail_its_words():
    rows = "\n".join(drawn(preview(form=PlanForm.LIST, around=("Dear family,", "Yours")), 80))
    assert rows.index("Dear family,") < rows.index("WHAT TO PRACTICE") < rows.index("Yours")
    assert BOX not in rows
    frozen = replace(preview(), sheet=None, text="The words\nas they went")
    assert drawn(frozen, 80)[2:] == ["The words", "as they went"]


@given(
    lines=st.lists(
        st.sampled_from(
            [*WEEK.splitlines(), *USUAL.splitlines(), *TRICKY.splitlines(), "玲奈 " * 30, "Piece: " + "w" * 90]
        ),
        max_size=12,
    ),
    width=st.integers(20, 160),
    weeks=st.sampled_from([date(2026, 12, 8), date(2026, 12, 15), date(2026, 12, 29)]),
    form=st.sampled_from(PlanForm),
)
def test_no_row_is_wider_than_its_part_and_no_private_word_is_on_the_family_s(lines, width, weeks, form):
    of = preview("\n".join([*lines, "", "Private: quokka " + "x" * 50]), weeks, form)
    rows, kept = drawn(of, width), [row.plain for row in kept_rows(of, width)]
    assert all(cell_len(row) <= width for row in [*rows, *kept])
    assert "quokka" not in "".join(rows)
    assert "quokka" in "".join(kept)


def test_nothing_that_stays_is_said_in_words():
    assert [row.plain for row in kept_rows(replace(preview(), kept=()), 44)][2:] == [
        "Nothing: the family reads every line."
    ]
    said = practice_notes_sheet(paper("Well done"), IN_ENGLISH)
    assert (said.chart, said.parts) == (None, ())


def test_both_lie_beside_each_other_from_110_columns_on_and_follow_a_change_of_size(tmp_path):
    async def steps(opened):
        opened.clock.at = opened.studio.desk.day.bookings[0].lesson.starts_at
        await opened.press("f2")
        await opened.type("Scales: D major")
        await opened.press("enter")
        await opened.type("Private: quokka")
        await opened.press("f11")
        for width, is_beside in ((110, True), (109, False), (44, False), (150, True)):
            await opened.pilot.resize_terminal(width, 60)
            await opened.pilot.pause()
            line = next(each for each in opened.drawn().splitlines() if "THE FAMILY READS" in each)
            assert ("STAYS WITH YOU" in line) == is_beside, width
            assert "▒ Private: quokka" in opened.drawn(), width

    on_sending_screen(tmp_path, None, steps, size=(110, 60))
