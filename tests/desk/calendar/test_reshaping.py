"""Weekly times that change or end from a date on, and breaks, in a real store."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Outcome


def on_day(arranged: Arranged, on: str):
    studio = arranged.studio
    return {
        b.student.name: b for b in bookings_on(studio.store.reading, date.fromisoformat(on), studio.preferences.home)
    }


def test_the_end_of_a_standing_time_names_the_notes_that_were_typed_ahead(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2027-02-02", "Ilse", "Scales: D major")
        arranged.write("2027-02-09", "Ilse", "")
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        assert proposal.troubles == (
            "You have already typed notes for Tue, February 2, 2027. They stay there, but there will be no lesson.",
        )


def test_a_lesson_after_the_end_of_its_standing_time_is_none_though_notes_were_typed_ahead(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2027-02-02", "Ilse", "Scales: D major")
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        studio = arranged.studio
        assert arranged.lessons("Ilse", "2026-12-09", "2027-03-01") == ["Tue 2026-12-15 16:00"]
        paper = studio.paper_making.paper(arranged.booking("2026-12-15", "Ilse"), "Scales: D major")
        assert paper.next_at is None
        assert {year.student.name: year.planned for year in studio.desk.ahead.year().students}["Ilse"] == 3


def test_notes_typed_ahead_are_found_on_their_day_after_the_standing_time_ended(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2027-02-02", "Ilse", "Scales: D major")
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        there = arranged.booking("2027-02-02", "Ilse")
        assert there.lesson.outcome is Outcome.CANCELLED
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"
        assert arranged.studio.desk.ahead.make_ups_owed() == {}
        arranged.write("2027-02-02", "Ilse", "")
        assert "Ilse" not in on_day(arranged, "2027-02-02")


def test_a_lesson_after_the_end_that_is_taught_all_the_same_is_a_lesson_again(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2027-02-02", "Ilse", "Scales: D major")
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.booking("2027-02-02", "Ilse")
        arranged.studio.desk.teaching.begin()
        assert arranged.lessons("Ilse", "2027-01-01", "2027-03-01") == ["Tue 2027-02-02 16:00"]


def test_a_change_is_undone_after_a_step_on_one_of_its_lessons_was_undone(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 12 jan 5 pm 45m")
        arranged.booking("2027-01-19", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        assert arranged.undo() == "Undone: Ilse marked canceled."
        assert arranged.undo() == "Undone: changing Ilse's weekly time."
        assert arranged.lessons("Ilse", "2027-01-11", "2027-01-22") == ["Tue 2027-01-12 16:00", "Tue 2027-01-19 16:00"]


@pytest.mark.parametrize("step", ["mark_cancelled", "mark_absent", "begin"])
def test_a_change_stays_while_something_is_done_to_one_of_its_lessons(tmp_path, step):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 12 jan 5 pm 45m")
        arranged.booking("2027-01-19", "Ilse")
        getattr(arranged.studio.desk.teaching, step)()
        steps = arranged.studio.desk.teaching._steps
        steps._taken = steps._taken[:-1]
        with pytest.raises(Refused, match="has lessons now"):
            arranged.undo()
        assert "Tue 2027-01-19 17:00" in arranged.lessons("Ilse", "2027-01-11", "2027-01-22")


@pytest.mark.parametrize(
    ("line", "days"),
    [
        ("dec 21 to jan 3 holidays", "Mon, December 21, through Sun, January 3, 2027. Reason: holidays."),
        ("3 sep", "Fri, September 3, 2027."),
        ("20 nov to 30 nov", "Fri, November 20, through Mon, November 30."),
        ("24 dec", "Thu, December 24."),
    ],
)
def test_a_break_says_its_year_where_that_is_not_this_one(tmp_path, line, days):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.studio.desk.arranging.propose(Purpose.BREAK, None, line)
        assert proposal.understood.startswith(f"No lessons for the whole studio: {days}")


NORA = "Nora,Thursday,17:00,30,Adeyemi,flute,Africa/Lagos,teacher,2027-01-20\n"


def test_a_change_of_a_standing_time_names_what_collides_weeks_after_its_first_lesson(tmp_path):
    roster = (
        ROSTER.replace("kept_in\n", "kept_in,from\n")
        .replace("teacher\n", "teacher,\n")
        .replace("family\n", "family,\n")
    )
    with arranged_studio(tmp_path, roster + NORA) as arranged:
        proposal = arranged.proposed(Purpose.CHANGE, "2027-01-12", "Ilse", "from thu 14 january 2027 5 pm")
        (told,) = proposal.troubles
        assert told.startswith("Thu, January 21, 2027 and 51 more times through ")
        assert "Ilse (5:00 pm to 5:30 pm" in told
        assert "Nora (5:00 pm to 5:30 pm" in told
        assert told.endswith("overlap by 30 minutes.")
        early = arranged.proposed(Purpose.CHANGE, "2027-01-12", "Ilse", "from thu 14 january 2027 4 pm")
        assert early.troubles == ()


def test_a_change_tells_what_the_clocks_of_a_year_do_to_it(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "from wed 9 december 1 pm")
        assert proposal.troubles == ()
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "from thu 10 december 9:30 am")
        (told,) = proposal.troubles
        assert told.startswith("Thu, March 18, 2027 and ")


def test_an_end_that_nothing_follows_is_moved_later_after_the_studio_was_opened_again(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
    with arranged_studio(tmp_path, "") as arranged:
        proposal = arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "until 29 dec")
        assert proposal.troubles == ()
        assert arranged.lessons("Ilse", "2026-12-09", "2027-02-01") == [
            "Tue 2026-12-15 16:00",
            "Tue 2026-12-22 16:00",
            "Tue 2026-12-29 16:00",
        ]


def test_a_standing_time_that_ended_goes_on_from_a_later_date_and_the_weeks_between_stay_free(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from 5 jan 4 pm")
        assert arranged.lessons("Ilse", "2026-12-09", "2027-01-15") == [
            "Tue 2026-12-15 16:00",
            "Tue 2027-01-05 16:00",
            "Tue 2027-01-12 16:00",
        ]


def test_an_end_is_moved_later_no_further_than_what_took_the_place_of_the_standing_time(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from 12 jan 4 pm")
        for line in ("until 12 jan", "until 26 jan", "from 5 jan 4 pm", "from 19 jan 5 pm"):
            with pytest.raises(Refused, match="ends on Friday, December 18, 2026"):
                arranged.proposed(Purpose.CHANGE, "2026-12-15", "Ilse", line)
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "until 29 dec")
        assert "Tue 2026-12-29 16:00" in arranged.lessons("Ilse", "2026-12-09", "2027-02-01")


def test_an_end_that_is_moved_later_names_what_collides_in_the_weeks_that_come_back(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.done(Purpose.EXTRA, "2026-12-09", "Mireille", "tue 22 dec 4 pm 20m")
        (told,) = arranged.proposed(Purpose.CHANGE, "2026-12-15", "Ilse", "until 29 dec").troubles
        assert told.startswith("Tue, December 22: Ilse (4:00 pm to 4:30 pm")


@pytest.mark.parametrize("step", ["begin", "mark_absent", "mark_cancelled"])
def test_undo_leaves_a_lesson_that_was_left_behind_as_it_was(tmp_path, step):
    with arranged_studio(tmp_path) as studio:
        studio.write("2027-02-02", "Ilse", "Scales: typed ahead")
        studio.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        shown = studio.booking("2027-02-02", "Ilse")
        at = shown.lesson.starts_at
        (before,) = studio.studio.store.reading.lessons_between(at, at, [shown.lesson.id])
        getattr(studio.studio.desk.teaching, step)()
        studio.undo()
        assert studio.studio.store.reading.lessons_between(at, at, [shown.lesson.id]) == (before,)
        studio.undo()
        assert [b.lesson.outcome for b in on_day(studio, "2027-02-02").values() if b.student.name == "Ilse"] == [None]


GOES_ON = (
    "Lessons continue from Tue, January 12, 2027, 5:00 pm · 4:00 pm Phoenix. To end those too, choose one of them."
)


def test_an_end_names_single_lessons_after_it_and_what_is_owed_on_both_clocks(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.EXTRA, "2026-12-08", "Ilse", "fri 8 jan 2027 4 pm")
        arranged.done(Purpose.EXTRA, "2026-12-08", "Ilse", "fri 4 dec 4 pm")
        arranged.booking("2026-12-01", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        assert arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until 15 dec").troubles == (
            "Lessons after it that you booked by themselves will still take place: "
            "extra, Fri, January 8, 2027, 4:00 pm · 3:00 pm Phoenix.",
            "1 make-up is still owed, for Tue, December 1, 4:00 pm · 3:00 pm Phoenix.",
        )
        assert arranged.proposed(Purpose.CHANGE, "2026-12-10", "Ishaan", "until 18 dec").troubles == ()


def test_an_end_before_a_change_to_come_says_that_lessons_go_on_from_then(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 12 jan 5 pm")
        assert arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec").troubles == (GOES_ON,)
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from mon 14 dec 3 pm")
        # This one did not take the other's place: both took that of the first.
        assert arranged.proposed(Purpose.CHANGE, "2026-12-14", "Ilse", "until 30 dec").troubles == (GOES_ON,)
        assert arranged.proposed(Purpose.CHANGE, "2027-01-12", "Ilse", "until 30 jan").troubles == ()


def test_an_end_names_the_next_lesson_that_is_held_and_no_lesson_of_another_standing_time(tmp_path):
    second = "Ilse,Saturday,10:00,30,Brandvold,cello,America/Phoenix,teacher\n"
    with arranged_studio(tmp_path, ROSTER + second) as arranged:
        arranged.studio.desk.arranging.do(
            arranged.studio.desk.arranging.propose(Purpose.BREAK, None, "4 jan 2027 to 13 jan 2027")
        )
        arranged.done(Purpose.CHANGE, "2027-01-16", "Ilse", "from 16 jan 11 am")
        assert arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec").troubles == ()
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from 12 jan 5 pm")
        (told,) = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec").troubles
        assert told.startswith("Lessons continue from Tue, January 19, 2027, 5:00 pm")


def test_a_change_after_an_end_is_not_held_up_by_another_lesson_of_the_student(tmp_path):
    second = "Ilse,Saturday,10:00,30,Brandvold,cello,America/Phoenix,teacher\n"
    with arranged_studio(tmp_path, ROSTER + second) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.done(Purpose.CHANGE, "2027-01-16", "Ilse", "from 16 jan 11 am")
        assert arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from 12 jan 4 pm").troubles == ()


def test_a_change_before_another_one_to_come_says_until_when_it_holds(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 12 jan 5 pm")
        assert arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "from 8 dec 3 pm").troubles == (
            "This applies through Mon, January 11, 2027. Lessons continue from Tue, January 12, 2027, 5:00 pm · 4:00 pm Phoenix. "
            "To change those too, choose one of them.",
        )
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "until 20 jun")
        assert arranged.proposed(Purpose.CHANGE, "2027-01-19", "Ilse", "from 19 jan 3 pm").troubles == ()


def test_a_change_that_stays_keeps_the_change_that_it_was_made_on(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.EXTRA, "2026-12-08", "Teodor", "thu 10 dec 9 am")
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 12 jan 5 pm")
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from 8 dec 3 pm")
        arranged.write("2026-12-15", "Ilse", "Scales: D major")
        before = arranged.lessons("Ilse", "2026-12-01", "2027-02-01")
        with pytest.raises(Refused, match="has lessons now"):
            arranged.undo()
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "until 1 jan")
        assert arranged.undo() == "Undone: ending a weekly time."
        assert arranged.undo() == "Undone: arranging Teodor's lesson."
        assert arranged.lessons("Ilse", "2026-12-01", "2027-02-01") == before


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("from 1 feb 5 pm", "Tue, February 2, 2027, 5:00 pm · 4:00 pm Phoenix, 30 minutes. 5:00 pm is your time. February 1, 2027 is a Monday; the first "
         "Tuesday from then on is February 2."),
        ("wed 5pm from 14 jan", "Wed, January 20, 2027, 5:00 pm · 4:00 pm Phoenix, 30 minutes. 5:00 pm is your time. The lessons move from Tuesdays to "
         "Wednesdays. January 14, 2027 is a Thursday; the first Wednesday from then on is January 20."),
        ("from 12 jan 5pm until 31 mar", "Tue, January 12, 2027, 5:00 pm · 4:00 pm Phoenix, 30 minutes. 5:00 pm is your time. The last lesson is Tue, "
         "March 30, 2027; there are no weekly lessons after it."),
        ("every other week", "Tue, December 8, 4:00 pm · 3:00 pm Phoenix, 30 minutes. 4:00 pm is your time. Every other week counts from Tue, December 8; "
         "the next is Tue, December 22."),
        ("until 18 dec", "Ilse's weekly time ends. The last lesson is Tuesday, December 15, 2026, 4:00 pm · 3:00 pm Phoenix. December 18 is a Friday."),
        ("until 15 dec", "Ilse's weekly time ends. The last lesson is Tuesday, December 15, 2026, 4:00 pm · 3:00 pm Phoenix."),
    ],
)  # fmt: skip
def test_the_dates_that_are_meant_are_told_before_it_is_done(tmp_path, line, told):
    with arranged_studio(tmp_path) as arranged:
        assert arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", line).understood.endswith(told)


def test_every_lesson_of_a_change_is_on_the_weekday_that_was_told(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from 1 feb 5 pm until 20 feb")
        assert arranged.lessons("Ilse", "2027-01-25", "2027-03-10") == [
            "Tue 2027-01-26 16:00", "Tue 2027-02-02 17:00", "Tue 2027-02-09 17:00", "Tue 2027-02-16 17:00",
        ]  # fmt: skip


def test_a_change_that_names_no_time_keeps_it_on_the_familys_clock(tmp_path):
    # From 14 March on Chicago is an hour nearer to Kolkata: 20:00 there is 9:30 in Chicago, not 8:30 as in winter.
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-03", "Ishaan", "from 18 mar every other week")
        assert arranged.lessons("Ishaan", "2027-03-10", "2027-04-05") == [
            "Thu 2027-03-11 08:30", "Thu 2027-03-18 09:30", "Thu 2027-04-01 09:30",
        ]  # fmt: skip
