"""A comma before the year belongs to the date, wherever a date can be typed."""

from datetime import date

import pytest
from support.arranged_studio import arranged_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.changes.duties import DutyId
from cockpit.studio.day.duty_line import read_duty
from cockpit.studio.roster.dates import DateOrder, read_shown_date

LINES = [
    (Purpose.MOVE, "dec 3, 2026 4pm"),
    (Purpose.EXTRA, "sat, december 5, 2026, 10am"),
    (Purpose.TRIAL, "nora bell dec 3, 2026 11am, cello"),
    (Purpose.CHANGE, "from january 12, 2027 5pm until june 8, 2027"),
    (Purpose.BREAK, "dec 21, 2026 to jan 3, 2027: snow"),
    (Purpose.CALL_OFF, "until dec 3, 2026, ill"),
    (Purpose.PAUSE, "from june 1, 2027 to august 31, 2027, frees the time"),
    (Purpose.STUDENT, "nora bell, cello, fri 2pm 45m from dec 11, 2026 until june 4, 2027, ana@example.org"),
    (Purpose.DETAILS, "zone denver from march 1, 2027, language es"),
    (Purpose.DETAILS, "they move to denver on march 1, 2027"),
    (Purpose.DETAILS, "may be recorded until june 30, 2027, may be named"),
    (Purpose.DETAILS, "zone denver from Mon, March 1, 2027, language es"),
    (Purpose.STUDENT, "nora bell, cello, 2pm 45m from Fri, December 11, 2026, ana@example.org"),
    (Purpose.END, "after december 18, 2026, moved away"),
    (Purpose.END, "after Fri, December 18, 2026, moved away"),
]


def without_commas_in_dates(line):
    plain = line.replace(", 2026", " 2026").replace(", 2027", " 2027")
    return plain.replace("Fri, ", "Fri ").replace("Mon, ", "Mon ")


@pytest.mark.parametrize(("purpose", "line"), LINES)
def test_a_line_means_the_same_with_the_comma_and_without(tmp_path, purpose, line):
    with arranged_studio(tmp_path) as arranged:
        ilse = arranged.booking("2026-12-01", "Ilse")
        roster = arranged.studio.desk.roster()
        entry = next(each for each in roster.view().entries if each.student.name == "Ilse")

        def understood(text):
            if purpose is Purpose.END:
                return roster.propose(purpose, entry, text).understood
            return arranged.studio.desk.arranging.propose(purpose, ilse, text).understood

        assert understood(line) == understood(without_commas_in_dates(line))


@pytest.mark.parametrize(
    ("purpose", "line"),
    [
        (Purpose.INQUIRY, "ana bell for nora 8, cello, came nov 24, 2026 3pm, tue after 4pm from june 1, 2027"),
        (Purpose.WAITING, "tue after 4pm, from june 1, 2027"),
    ],
)
def test_so_does_a_line_about_an_inquiry(tmp_path, purpose, line):
    with arranged_studio(tmp_path) as arranged:
        inquiring = arranged.studio.desk.inquiring()
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, "jo amsel for piet 6, piano, london"))
        (asked,) = arranged.studio.store.reading.inquiries()
        number = asked.id if purpose is Purpose.WAITING else None
        said = inquiring.propose(number, purpose, line).understood
        assert said == inquiring.propose(number, purpose, without_commas_in_dates(line)).understood
        assert "June 1, 2027" in said


def test_so_do_what_is_owed_and_a_cell_of_a_table():
    today = date(2026, 12, 1)
    line = "order strings by december 12, 2026"
    assert read_duty(line, DutyId(1), today) == read_duty(without_commas_in_dates(line), DutyId(1), today)
    assert read_duty(line, DutyId(1), today).by_on == date(2026, 12, 12)
    assert read_shown_date("December 12, 2026", DateOrder.NOT_SHOWN) == date(2026, 12, 12)
