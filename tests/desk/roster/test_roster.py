"""The roster at the desk: the counts, and what is told of one student agrees with what the whole studio says."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, arranged_studio
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between, bookings_of
from cockpit.studio.clocks.horizons import EVER
from cockpit.studio.errors import BadInput, NotFound
from cockpit.studio.people.people import StudentId
from cockpit.studio.roster.entries import EntryGroup

WITH_SIBLING = ROSTER + "Runa,Tuesday,15:00,30,Brandvold,viola,America/Phoenix,teacher\n"


def detail(arranged, name):
    roster = arranged.studio.desk.roster()
    view = roster.view()
    return roster.detail(view, next(each for each in view.entries if each.student.name == name))


def test_the_counts_say_who_comes_who_pauses_and_who_ended(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.PAUSE, "2026-12-01", "Teodor", "nov 24 to dec 31")
        arranged.done(Purpose.CHANGE, "2026-11-25", "Mireille", "until nov 25")
        arranged.studio.desk.arranging.do(
            arranged.studio.desk.arranging.propose(Purpose.TRIAL, None, "nora bell thu 11am, cello")
        )
        arranged.clock.at = home("2026-11-27 09:00")
        view = arranged.studio.desk.roster().view()
        assert (view.students, view.trials, view.paused, view.ended) == (3, 1, 1, 1)
        assert [each.called for each in view.of(EntryGroup.TO_DO)] == ["Nora Bell"]
        assert [each.called for each in view.of(EntryGroup.OVER)] == ["Mireille"]
        arranged.clock.at = home("2027-09-01 09:00")
        later = arranged.studio.desk.roster().view()
        assert (later.ended, later.since) == (0, date(2027, 9, 1))
        with pytest.raises(NotFound):
            later.entry(StudentId(1234))


def test_what_is_told_of_one_student_is_what_the_whole_studio_says(tmp_path):
    with arranged_studio(tmp_path, WITH_SIBLING) as arranged:
        studio = arranged.studio
        arranged.booking("2026-12-01", "Ilse")
        studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "thu dec 10 4pm")
        arranged.done(Purpose.EXTRA, "2026-12-15", "Ilse", "sat dec 19 10am")
        arranged.done(Purpose.PAUSE, "2026-12-15", "Ilse", "jan 4 to jan 31: braces")
        told = detail(arranged, "Ilse")
        (of_year,) = [each for each in studio.desk.ahead.year().students if each.student.name == "Ilse"]
        assert told.year == of_year
        assert told.owed == studio.desk.ahead.make_ups_owed()[told.entry.student.id]
        assert told.following is not None
        assert told.following.lesson.starts_at == home("2026-12-10 16:00")
        assert [each.reason for each in told.pauses] == ["braces"]
        assert [each.student.name for each in told.siblings] == ["Runa"]
        assert detail(arranged, "Runa").owed == ()
        # What is read of one student alone is what is read of all, for that one.
        begins, ends, own = home("2026-09-01 00:00"), home("2027-03-01 00:00"), studio.preferences.home
        enrollments = studio.desk.roster().view().enrollments(told.entry, date(2026, 8, 30))
        assert bookings_of(studio.store.reading, enrollments, told.entry, begins, ends, own) == bookings_between(
            studio.store.reading, begins, ends, own, told.entry.student.id
        )


def test_enter_leads_to_the_next_lesson_and_of_one_who_ended_to_the_last_that_is_recorded(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        roster = arranged.studio.desk.roster()
        arranged.write("2026-12-01", "Ilse", "Scales: D major")
        assert roster.lesson_to_open(detail(arranged, "Ilse").entry) == arranged.booking("2026-12-01", "Ilse")
        arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "until dec 1")
        arranged.clock.at = home("2026-12-20 09:00")
        last = roster.lesson_to_open(detail(arranged, "Ilse").entry)
        assert last is not None
        assert last.lesson.starts_at == home("2026-12-01 16:00")
        arranged.done(Purpose.CHANGE, "2026-12-22", "Teodor", "until dec 21")
        nobody = detail(arranged, "Teodor").entry
        assert roster.lesson_to_open(nobody) is None
        assert (
            arranged.studio.store.reading.lessons_of(nobody.student.id, arranged.clock.at - EVER, arranged.clock.at)
            == ()
        )


def changed(arranged, name, line):
    roster = arranged.studio.desk.roster()
    proposal = roster.propose(Purpose.DETAILS, next(e for e in roster.view().entries if e.student.name == name), line)
    arranged.studio.desk.arranging.do(proposal)
    return proposal.understood


@pytest.mark.parametrize(
    ("line", "said", "minutes", "instrument", "starts"),
    [
        ("60m from 12 jan", "Tue, January 12, 2027, 4:00 pm · 3:00 pm Phoenix, 60 minutes", 60, "cello", "16:00"),
        ("tue 5pm from 12 jan", "Tue, January 12, 2027, 5:00 pm · 4:00 pm Phoenix, 30 minutes", 30, "cello", "17:00"),
        ("instrument guitar from 12 jan", "Cello ends, guitar begins at the same time.", 30, "guitar", "16:00"),
    ],
)
def test_a_line_of_details_changes_a_weekly_time_from_a_date_on(tmp_path, line, said, minutes, instrument, starts):
    with arranged_studio(tmp_path) as arranged:
        before = arranged.studio.store.reading.standing_times()
        assert said in changed(arranged, "Ilse", line)
        told = detail(arranged, "Ilse").entry
        assert [each.until_on for each in told.times] == [date(2027, 1, 11)]
        (new,) = told.later
        assert (new.minutes, new.instrument, new.from_on) == (minutes, instrument, date(2027, 1, 12))
        lessons = arranged.lessons("Ilse", "2027-01-04", "2027-01-14")
        assert lessons == ["Tue 2027-01-05 16:00", f"Tue 2027-01-12 {starts}"]
        arranged.undo()
        assert arranged.studio.store.reading.standing_times() == before


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("0m from jan 12", '"0m" is not the length of a lesson'),
        ("241m from jan 12", '"241m" is not the length of a lesson'),
        ("tue 5pm from feb 30", "February has no day 30"),
        ("zone atlantis from jan 12", "Zone: found atlantis"),
        ("favorite color blue", '"favorite color blue" is not understood'),
    ],
)
def test_the_fault_of_a_line_of_details_is_that_of_what_it_speaks_of(tmp_path, line, named):
    with arranged_studio(tmp_path) as arranged, pytest.raises(BadInput, match=named):
        changed(arranged, "Ilse", line)


def test_practice_days_stand_behind_the_minutes_a_day(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        assert "daily minutes: 25; practice days: Mon-Sat" in changed(arranged, "Ilse", "25 a day, mon-sat")
        student = detail(arranged, "Ilse").entry.student
        assert (student.daily_minutes, student.practice_days) == (25, frozenset(range(6)))


def test_of_several_weekly_times_a_line_begins_with_the_instrument(tmp_path):
    with arranged_studio(
        tmp_path, ROSTER + "Ilse,Thursday,18:00,30,Brandvold,viola,America/Phoenix,teacher\n"
    ) as arranged:
        roster = arranged.studio.desk.roster()
        ilse = detail(arranged, "Ilse").entry
        with pytest.raises(BadInput, match=r"Ilse has 2 weekly times: cello and viola\. Begin with the instrument"):
            roster.propose(Purpose.CHANGE, ilse, "60m from jan 12")
        said = roster.propose(Purpose.CHANGE, ilse, "viola 60m from jan 12").understood
        assert "Thu, January 14, 2027, 6:00 pm · 5:00 pm Phoenix, 60 minutes" in said
