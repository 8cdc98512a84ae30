"""The week's practice as a chart: what its rows, columns and cells say, and how a page and a Markdown table show it."""

import re
from datetime import date, timedelta
from html.parser import HTMLParser

import pytest
from hypothesis import given
from support.golden import assert_golden
from support.pages import STYLE
from support.papers import planned
from support.phrases import IN_ENGLISH, OTHERS, SPOKEN
from support.plans import LINES, RULES, WEEKS
from support.rendering import GFM

from cockpit.papers.notes.chart import chart_of as charted_once
from cockpit.papers.notes.chart import practice_chart
from cockpit.papers.notes.names import name_and_how
from cockpit.papers.notes.page import practice_notes_body, practice_notes_page
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_text
from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import read_line
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.plan import week_plan
from cockpit.studio.values import replace

WEEK = """\
Scales: D major 2 oct, q = 60 to 72, 5 min
Piece: Bourrée, mm. 1-32, q = 72 to 96, HS before HT
Etude: no. 7, e = 120, open-string drone, Mon Wed Fri
Ear: sing the first phrase, 3x a day
Theory: page 7, Tue only
Lovely tone today.
"""


def charted(body=WEEK, daily=30, next_on=date(2026, 12, 8)):
    return planned(body, daily, next_on=next_on, form=PlanForm.CHART)


def chart_of(body=WEEK, phrases=IN_ENGLISH, **values):
    notes = charted(body, **values)
    return practice_chart(notes.charted, [read_assignment(line) for line in notes.notes.assignments], phrases)


def test_a_row_names_an_assignment_and_a_cell_says_what_its_day_asks():
    chart = chart_of()
    assert [(row.area, row.minutes, row.name, row.how) for row in chart.rows] == [
        ("Scales", "5 min", "D major 2 oct", ""),
        # The goal that the week does not reach stays in her words; no cell says it.
        ("Piece", "", "Bourrée", "♩ = 72 to 96, HS before HT"),
        ("Etude", "8 min", "no. 7", "open-string drone"),
        ("Ear", "", "sing the first phrase", ""),
        ("Theory", "", "page 7", "Tue only"),
    ]
    assert [cell.lines for cell in chart.rows[0].cells] == [
        ("♩ = 60",), ("♩ = 60",), ("♩ = 63",), ("♩ = 66",), ("♩ = 69",), ("♩ = 72",),
    ]  # fmt: skip
    assert [cell and cell.lines for cell in chart.rows[1].cells][:2] == [
        ("1–8", "♩ = 72", "14 min"),
        ("8–16", "♩ = 72", "+ 1–8", "♩ = 80", "21 min"),
    ]
    assert [cell and cell.lines for cell in chart.rows[2].cells] == [
        ("♪ = 120",), None, ("♪ = 120",), None, None, ("♪ = 120",),
    ]  # fmt: skip
    assert chart.rows[3].cells[0].lines == ("3×", "3 min")
    assert set(chart.rows[4].cells) == {None}


def test_a_column_is_a_practice_day_with_its_minutes_and_names_the_month_where_it_begins():
    chart = chart_of()
    assert [(day.weekday, day.date, day.minutes) for day in chart.days] == [
        ("Wed", "Dec 2", "30"), ("Thu", "3", "30"), ("Fri", "4", "30"), ("Sat", "5", "30"), ("Sun", "6", "30"),
        ("Mon", "7", "30"),
    ]  # fmt: skip
    assert chart.days[0].whole == "Wednesday, December 2"
    assert not any(day.begins_week for day in chart.days)


def test_the_second_of_two_weeks_begins_on_the_weekday_of_the_lesson():
    chart = chart_of(next_on=date(2026, 12, 15))
    assert [day.number for day in chart.days if day.begins_week] == [8]
    assert len(chart.days) == 13


def test_the_legend_says_what_the_signs_of_this_chart_mean_and_of_no_other():
    assert chart_of().legend == (
        "♩ is the quarter note; ♩ = 60 is 60 of them a minute.",
        "♪ is the eighth note; ♪ = 120 is 120 of them a minute.",
        "Numbers such as 1–8 are measures.",
        "After a + is the section of the day before, once more.",
    )
    assert chart_of("Ear: sing").legend == ()
    assert chart_of("Piece: Gavotte, h = 60").legend == ()  # half = 60 needs none
    assert chart_of("Piece: Gavotte, h = 60").rows[0].cells[0].lines[0] == "half = 60"


def test_turns_are_told_in_the_row_and_their_lengths_in_the_cells():
    chart = chart_of("Piece: Bourrée, 6 min, in turns\nPiece: Minuet, 6 min, in turns", daily=None)
    assert [row.how for row in chart.rows] == ["alternating with Minuet", "alternating with Bourrée"]
    assert chart.rows[0].cells[0].lines == ("3+3 min",)


@pytest.mark.parametrize(
    ("line", "name", "how"),
    [
        ("Piece: Gavotte mm. 17-32 q = 72 HS", "Gavotte", "HS"),
        ("Piece: Gavotte, mm. 17-32, q = 72, HS", "Gavotte", "HS"),
        ("Ear: sing the first phrase, then play it, slowly", "sing the first phrase, then play it", "slowly"),
        ("Technique: left-hand fourths, thumb soft, 5 min, then rest", "left-hand fourths", "thumb soft, 5 min, then rest"),
        ("Piece: Bourrée, mm. 1-8 slowly, then 9-16", "Bourrée", "mm. 1-8 slowly, then 9-16"),
        ("Scales: 5 min", "", ""),
        ("Piece: Gavotte 10 min Mon Wed", "Gavotte", ""),
    ],
)  # fmt: skip
def test_a_line_becomes_a_name_and_how_it_is_done(line, name, how):
    told = frozenset({Part.MEASURES, Part.TEMPO, Part.MINUTES, Part.DAYS})
    assignment = read_assignment(read_line(line))
    if assignment.has_other_numbers:
        told -= {Part.MEASURES, Part.TEMPO}
    assert name_and_how(assignment, told, lambda _tempo: "♩") == (name, how)


WORDS = re.compile(r"[^\W\d_]{3,}")


@given(LINES, WEEKS, RULES)
def test_every_assignment_has_a_row_and_every_item_a_cell(lines, week, rules):
    plan = week_plan(lines, week, rules)
    practice = [day for day in plan.days if day.items]
    if not practice:
        return
    chart = practice_chart(plan, lines, IN_ENGLISH)
    assert len(chart.rows) == len(lines)
    assert len(chart.days) == len(practice)
    for place, day in enumerate(practice):
        assert sum(row.cells[place] is not None for row in chart.rows) == len(day.items)


@pytest.mark.parametrize(
    "line",
    [
        "Piece: Berceuse, from letter B to the end, memory, see the recording",
        "Scales: G minor mel. 2 oct, slurred by four, q = 60",
        "Method book: pp. 12-13, count aloud, 4 min",
        "Piece: Bourrée, mm. 1-8 slowly, then 9-16, q = 72 -> 96, HS before HT",
    ],
)
def test_no_word_of_a_line_is_lost_in_a_chart(line):
    (row,) = chart_of(line).rows
    said = " ".join((row.area, row.name, row.how, *(line for cell in row.cells for line in cell.lines)))
    left = set(WORDS.findall(line.lower())) - set(WORDS.findall(said.lower()))
    assert left <= {"min"}


class Table(HTMLParser):
    """The rows of the table of a page, and the days that fold: their headings, identifiers, boxes, and which are open."""

    def __init__(self, page):
        super().__init__()
        self.rows, self.days, self.boxes = [], [], 0
        self._cell = None
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        said = dict(attrs)
        if tag == "tr":
            self.rows.append([])
        elif tag in {"td", "th"}:
            self._cell = []
        elif tag == "details":
            self.days.append(["open" in said, None, 0])
        elif tag == "ul" and self.days:
            self.days[-1][1] = said.get("id")
        elif tag == "input" and self.days:
            self.days[-1][2] += 1
        elif tag == "input":
            self.boxes += 1

    def handle_endtag(self, tag):
        if tag in {"td", "th"}:
            self.rows[-1].append(" ".join("".join(self._cell).split()))
            self._cell = None

    def handle_data(self, data):
        if self._cell is not None:
            self._cell.append(f" {data}")


def test_the_page_has_the_chart_and_a_box_for_each_thing_that_a_day_asks():
    page = Table(practice_notes_page(charted(), STYLE, IN_ENGLISH))
    assert page.rows[0] == ["", "Wed Dec 2", "Thu 3", "Fri 4", "Sat 5", "Sun 6", "Mon 7"]
    assert page.rows[1] == ["Scales 5 min D major 2 oct", *(f"♩ = {tempo} ☐" for tempo in (60, 60, 63, 66, 69, 72))]
    assert page.rows[5] == ["Theory page 7 Tue only", *[""] * 6]
    assert page.rows[6] == ["minutes", *["30"] * 6]
    assert page.boxes == 21


def test_on_a_phone_the_days_fold_the_first_is_open_and_a_link_can_open_each():
    page = Table(practice_notes_page(charted(), STYLE, IN_ENGLISH))
    lesson = "ilse-1201-1502"
    assert page.days == [
        [True, f"d2-{lesson}", 4], [False, f"d3-{lesson}", 3], [False, f"d4-{lesson}", 4],
        [False, f"d5-{lesson}", 3], [False, f"d6-{lesson}", 3], [False, f"d7-{lesson}", 4],
    ]  # fmt: skip


def test_the_days_of_several_sheets_in_one_mail_are_told_apart():
    ilse = charted()
    sheets = [
        ilse,
        replace(ilse, student="Ilse Marie"),
        replace(ilse, student='Þóra "&" <b>'),
        replace(ilse, taught_at=ilse.taught_at + timedelta(minutes=45)),
    ]
    bodies = "".join(practice_notes_body(sheet, IN_ENGLISH) for sheet in sheets)
    ids = re.findall(r'<ul id="([^"]*)"', bodies)
    assert len(set(ids)) == len(ids) == 4 * 6
    assert not [each for each in ids if set(each) & set(" <>&")]
    assert len(set(re.findall(r'<details name="([^"]*)"', bodies))) == 4


def test_her_remarks_come_first_and_the_sums_are_nowhere():
    for form in (charted(), planned(WEEK)):
        for text in (practice_notes_page(form, STYLE, IN_ENGLISH), practice_notes_markdown(form, IN_ENGLISH)):
            assert text.index("Lovely tone today.") < text.index("D major 2 oct")
            assert "promise" not in text
            assert "Stop if it hurts" in text
            assert "Stop if it hurts" not in practice_notes_markdown(replace(form, has_health_line=False), IN_ENGLISH)
        assert "Stop if it hurts" not in practice_notes_page(replace(form, has_health_line=False), STYLE, IN_ENGLISH)
        assert "Stop if it hurts" not in practice_notes_text(replace(form, has_health_line=False), IN_ENGLISH)


SHORT = "Scales: D major, q = 60 to 72, 5 min\nPiece: Bourrée | a *b*, mm. 1-8\nEar: sing"


def test_the_markdown_has_it_as_a_table_where_that_fits():
    text = practice_notes_markdown(charted(SHORT, daily=None), IN_ENGLISH)
    assert "## Day by day\n\n|  " in text
    rows = GFM.render(text)
    assert "<td>♩ = 72 ☐</td>" in rows
    assert "Bourrée | a *b*" in rows
    wide = practice_notes_markdown(charted(), IN_ENGLISH)
    assert "|" not in wide
    assert "## Day by day" in wide
    assert max(len(line) for line in text.split("\n") if line.startswith("|")) <= 120


@pytest.mark.parametrize("form", ["md", "html", "txt"])
def test_the_chart_is_the_golden_one(form):
    notes = charted(SHORT, daily=None)
    made = {
        "md": practice_notes_markdown(notes, IN_ENGLISH),
        "html": practice_notes_page(notes, STYLE, IN_ENGLISH),
        "txt": practice_notes_text(notes, IN_ENGLISH),
    }
    assert_golden(made[form], f"chart.{form}")


@pytest.mark.parametrize("language", OTHERS)
def test_a_chart_in_every_language_is_the_golden_one(language):
    assert_golden(practice_notes_page(charted(), STYLE, SPOKEN[language]), f"chart-{language}.html")


@pytest.mark.parametrize(
    ("line", "name", "how"),
    [
        ("Gavotte mm. 1-8 at q = 60, hands separately", "Gavotte", "hands separately"),
        ("Minuet, mm. 17-32 slowly, q=60, 10 min a day", "Minuet", "slowly"),
        ("Minuet, q=60 mm. 17-32 slowly", "Minuet", "slowly"),
        ("Kayser 3, m. 1-16 hands separately, then together", "Kayser 3", "hands separately, then together"),
        ("The Old Mill, from m. 17 to the end, at 80", "The Old Mill", ""),
        ("Gavotte, mm. 1-8 only, q=60", "Gavotte", "mm. 1-8 only"),
        ("Gavotte, mm. 1-8 of the second part", "Gavotte", "mm. 1-8 of the second part"),
        ("Gavotte, mm. 1-8, then faster", "Gavotte", "mm. 1-8, then faster"),
        ("Gavotte, (mm. 1-8 slowly)", "Gavotte", "(mm. 1-8 slowly)"),
        ("Gavotte, play mm. 1-8", "Gavotte", "play mm. 1-8"),
    ],
)
def test_beside_a_row_is_only_what_the_row_does_not_say_yet(line, name, how):
    (row,) = chart_of(f"Piece: {line}").rows
    assert (row.name, row.how) == (name, how)


def test_the_plan_has_one_heading_on_the_page_and_in_every_text():
    """On the screen she reads the text of what the family sees as a page."""
    for notes, heading in ((charted(), "Day by day"), (planned(WEEK, 30), "Practice plan")):
        assert f"\n{heading}\n" in practice_notes_text(notes, IN_ENGLISH)
        assert f"## {heading}\n" in practice_notes_markdown(notes, IN_ENGLISH)
        assert f"<h2>{heading}</h2>" in practice_notes_page(notes, STYLE, IN_ENGLISH)
    wide = charted(
        "\n".join(f"Piece: a title as long as that of number {n}, q = 60 to 120, mm. 1-64" for n in range(12))
    )
    assert "Practice plan" not in practice_notes_markdown(wide, IN_ENGLISH)


def test_the_forms_of_a_sheet_share_one_chart_and_other_words_have_another():
    notes = charted()
    first = charted_once(notes, IN_ENGLISH)
    assert charted_once(notes, IN_ENGLISH) is first
    others = replace(IN_ENGLISH, by_key={**IN_ENGLISH.by_key, "areas.piece": "Stück"})
    other = charted_once(notes, others)
    assert first is not None
    assert other is not None
    assert ([row.area for row in first.rows][1], [row.area for row in other.rows][1]) == ("Piece", "Stück")
