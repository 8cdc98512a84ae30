"""A roster read again in a studio where lessons have changed since, in a real store."""

from datetime import date, timedelta

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio

from cockpit.desk.calendar.proposals import Purpose

DATED = (
    ROSTER.replace("kept_in\n", "kept_in,from,until,every_weeks\n")
    .replace("teacher\n", "teacher,,,\n")
    .replace("family\n", "family,,,\n")
)
WITH_DATES = pytest.mark.parametrize("roster", [ROSTER, DATED], ids=["without dates", "with blank dates"])


def read_again(arranged: Arranged, roster: str):
    plan = arranged.studio.enrolling.take_in(roster)
    arranged.studio.desk.day.reload()
    return plan


@WITH_DATES
@pytest.mark.parametrize("now", ["2026-11-25 10:00", "2027-02-10 10:00"])
@pytest.mark.parametrize("line", ["from 12 january 2027 5 pm 45m", "from 12 january 2027 every second week"])
def test_a_roster_does_not_take_back_a_change_from_a_date_on(tmp_path, roster, now, line):
    with arranged_studio(tmp_path, roster) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-05", "Ilse", line)
        before = arranged.lessons("Ilse", "2026-12-01", "2027-04-01")
    with arranged_studio(tmp_path, roster="", now=now) as arranged:
        plan = read_again(arranged, roster)
        assert plan.lines == ()
        if "5 pm" in line:
            assert "ended in the studio, not brought back: Ilse, Tuesday 4:00 pm" in plan.troubles[0]
        assert arranged.lessons("Ilse", "2026-12-01", "2027-04-01") == before


@WITH_DATES
@pytest.mark.parametrize("now", ["2026-11-25 10:00", "2027-02-10 10:00"])
def test_a_roster_does_not_take_back_an_end_and_says_that_it_is_there(tmp_path, roster, now):
    with arranged_studio(tmp_path, roster) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
    with arranged_studio(tmp_path, roster="", now=now) as arranged:
        plan = read_again(arranged, roster)
        assert plan.lines == ()
        assert arranged.lessons("Ilse", "2026-12-14", "2027-04-01") == ["Tue 2026-12-15 16:00"]
        said = "ended in the studio, not brought back: Ilse, Tuesday 4:00 pm, 30 minutes, cello, through 2026-12-18 (family Brandvold)"
        is_told = roster is DATED or now.startswith("2027")  # a file without the column lets nothing go on
        assert (said in plan.troubles) == is_told


@WITH_DATES
def test_a_row_that_changes_speaks_of_the_standing_time_that_still_holds(tmp_path, roster):
    with arranged_studio(tmp_path, roster) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from thu 14 january 2027 5 pm 45m")
    with arranged_studio(tmp_path, roster="", now="2027-02-10 09:00") as arranged:
        changed = roster.replace("Ilse,Tuesday,16:00,30", "Ilse,Friday,17:30,45")
        plan = read_again(arranged, changed)
        assert arranged.lessons("Ilse", "2027-01-04", "2027-01-13") == ["Tue 2027-01-05 16:00", "Tue 2027-01-12 16:00"]
        assert [said[:3] for said in arranged.lessons("Ilse", "2027-02-15", "2027-03-01")] == ["Fri", "Fri"]
        assert all("Tuesday" not in line for line in (*plan.lines, *plan.troubles) if "Ilse" in line)
        assert read_again(arranged, changed).lines == ()


def test_a_row_that_changes_speaks_of_what_lasts_where_another_one_is_to_follow(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from thu 14 january 2027 5 pm 45m")
        plan = read_again(arranged, ROSTER.replace("Ilse,Tuesday,16:00,30", "Ilse,Friday,17:30,45"))
        assert plan.troubles == (
            "not in the file, kept: Ilse, Tuesday 4:00 pm, 30 minutes, cello, through 2027-01-13 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2027-01-04", "2027-01-23") == [
            "Tue 2027-01-05 16:00", "Tue 2027-01-12 16:00", "Fri 2027-01-15 17:30", "Fri 2027-01-22 17:30",
        ]  # fmt: skip


def test_a_student_comes_back_by_a_row_with_a_date(tmp_path):
    with arranged_studio(tmp_path, DATED) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
    with arranged_studio(tmp_path, roster="", now="2027-02-10 09:00") as arranged:
        again = DATED.replace("Phoenix,teacher,,", "Phoenix,teacher,2027-03-02,")
        assert read_again(arranged, again).lines == (
            "new: Ilse, Tuesday 4:00 pm, 30 minutes, cello, from 2027-03-02 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2026-12-14", "2027-03-10") == [
            "Tue 2026-12-15 16:00", "Tue 2027-03-02 16:00", "Tue 2027-03-09 16:00",
        ]  # fmt: skip
        assert read_again(arranged, again).lines == ()


THURSDAYS = ROSTER.replace("Ilse,Tuesday,16:00", "Ilse,Thursday,17:00")


def body(arranged: Arranged, on: str) -> str:
    return arranged.studio.desk.notes.sheet(arranged.booking(on, "Ilse")).body


def test_a_row_with_another_time_leaves_the_past_alone_and_takes_notes_along(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major\nFollow-up: the fingering")
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-16 10:00")
        plan = read_again(arranged, THURSDAYS)
        assert plan.lines == (
            "changed: Ilse, Tuesday: through - -> 2026-11-29",
            "new: Ilse, Thursday 5:00 pm, 30 minutes, cello, from 2026-11-30 (family Brandvold)",
        )
        assert plan.troubles == (
            "Ilse: Lessons that you arranged yourself were not changed: moved to Wed, December 16, 10:00 am. Check whether each still fits.",
        )
        assert arranged.lessons("Ilse", "2026-11-16", "2026-12-20") == [
            "Tue 2026-11-17 16:00", "Tue 2026-11-24 16:00", "Thu 2026-12-03 17:00", "Thu 2026-12-10 17:00",
            "Wed 2026-12-16 10:00", "Thu 2026-12-17 17:00",
        ]  # fmt: skip
        assert body(arranged, "2026-12-10").startswith("Scales: D major")
        arranged.studio.desk.day.open(date(2026, 12, 8))
        assert [booking.student.name for booking in arranged.studio.desk.day.bookings] == ["Teodor"]
        ((owed, _),) = arranged.studio.store.reading.open_follow_ups()
        assert owed.lesson_id == arranged.booking("2026-12-10", "Ilse").lesson.id
        assert read_again(arranged, THURSDAYS).lines == ()


def test_a_look_at_a_row_with_another_time_changes_nothing(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        look = arranged.studio.enrolling.look_at(THURSDAYS)
        assert body(arranged, "2026-12-08") == "Scales: D major"
        assert look.lines == read_again(arranged, THURSDAYS).lines


@pytest.mark.parametrize(
    ("now", "row", "lessons"),
    [
        pytest.param("2026-11-24 10:00", "Thursday,17:00", ["Thu 26 17:00"], id="no lesson yet this week"),
        pytest.param("2026-11-24 16:10", "Thursday,17:00", ["Tue 24 16:00"], id="has had this week's"),
        pytest.param("2026-11-24 10:00", "Monday,17:00", ["Tue 24 16:00"], id="the new day is over this week"),
        pytest.param("2026-11-24 10:00", "Tuesday,17:00", ["Tue 24 17:00"], id="later today"),
        pytest.param("2026-11-24 17:30", "Tuesday,17:00", ["Tue 24 16:00"], id="earlier today"),
        pytest.param("2026-11-24 10:00", "Tuesday,09:00", ["Tue 24 16:00"], id="too late for the new time today"),
    ],
)  # fmt: skip
def test_each_week_has_its_one_lesson_when_a_row_gets_another_time(tmp_path, now, row, lessons):
    with arranged_studio(tmp_path, now=now) as arranged:
        read_again(arranged, ROSTER.replace("Ilse,Tuesday,16:00", f"Ilse,{row}"))
        this_week = arranged.lessons("Ilse", "2026-11-23", "2026-11-30")
        assert [said.replace("2026-11-", "") for said in this_week] == lessons
        for monday in ("2026-11-16", "2026-11-30", "2026-12-07"):
            sunday = (date.fromisoformat(monday) + timedelta(days=7)).isoformat()
            assert len(arranged.lessons("Ilse", monday, sunday)) == 1


def test_a_row_with_another_time_from_a_date_to_come_changes_nothing_before_it(tmp_path):
    with arranged_studio(tmp_path, DATED) as arranged:
        arranged.write("2027-01-19", "Ilse", "Scales: D major")
        changed = DATED.replace("Ilse,Tuesday,16:00", "Ilse,Friday,17:00").replace(
            "Phoenix,teacher,,", "Phoenix,teacher,2027-01-13,"
        )
        read_again(arranged, changed)
        assert arranged.lessons("Ilse", "2027-01-04", "2027-01-25") == [
            "Tue 2027-01-05 16:00", "Tue 2027-01-12 16:00", "Fri 2027-01-15 17:00", "Fri 2027-01-22 17:00",
        ]  # fmt: skip
        assert body(arranged, "2027-01-22") == "Scales: D major"
        assert read_again(arranged, changed).lines == ()


def test_a_standing_time_that_has_not_begun_is_changed_itself_and_keeps_its_notes(tmp_path):
    begins = DATED.replace("Phoenix,teacher,,", "Phoenix,teacher,2027-01-05,")
    with arranged_studio(tmp_path, begins) as arranged:
        arranged.write("2027-01-12", "Ilse", "Scales: D major")
        arranged.write("2027-01-19", "Ilse", "Theory: intervals")
        plan = read_again(arranged, begins.replace("Ilse,Tuesday,16:00", "Ilse,Thursday,17:00"))
        assert plan.lines == ("changed: Ilse, Tuesday: weekday Tuesday -> Thursday, time 4:00 pm -> 5:00 pm",)
        assert body(arranged, "2027-01-14") == "Scales: D major"
        assert body(arranged, "2027-01-21") == "Theory: intervals"
        assert arranged.lessons("Ilse", "2026-12-01", "2027-01-13") == ["Thu 2027-01-07 17:00"]


def test_a_change_to_every_second_week_leaves_notes_in_the_weeks_that_stay(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        for on in ("2026-12-08", "2026-12-15", "2026-12-22"):
            arranged.write(on, "Ilse", f"Theory: {on}")
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from 8 dec every second week")
        found = {on: body(arranged, on) for on in ("2026-12-08", "2026-12-22", "2027-01-05")}
        assert found == {
            "2026-12-08": "Theory: 2026-12-08", "2026-12-22": "Theory: 2026-12-22", "2027-01-05": "Theory: 2026-12-15",
        }  # fmt: skip


def test_a_later_end_in_the_file_does_not_bring_back_what_another_one_follows(tmp_path):
    lasting = DATED.replace("Phoenix,teacher,,", "Phoenix,teacher,,2027-06-30")
    with arranged_studio(tmp_path, lasting) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-05", "Ilse", "from 12 january 2027 5 pm 45m")
        before = arranged.lessons("Ilse", "2026-12-01", "2027-08-01")
        assert read_again(arranged, lasting).lines == ()
        assert arranged.lessons("Ilse", "2026-12-01", "2027-08-01") == before


def test_a_row_with_another_time_for_a_student_whose_lessons_have_ended_begins_now(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
    with arranged_studio(tmp_path, roster="", now="2027-02-10 09:00") as arranged:
        again = ROSTER.replace("Ilse,Tuesday,16:00", "Ilse,Friday,17:00")
        assert read_again(arranged, again).lines == (
            "new: Ilse, Friday 5:00 pm, 30 minutes, cello, from 2027-02-10 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2026-12-07", "2027-02-20") == [
            "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00", "Fri 2027-02-12 17:00", "Fri 2027-02-19 17:00",
        ]  # fmt: skip
        assert read_again(arranged, again).lines == ()


def test_one_more_lesson_of_a_student_begins_now(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        more = ROSTER + "Ilse,Friday,17:00,30,Brandvold,cello,America/Phoenix,teacher\n"
        read_again(arranged, more)
        assert arranged.lessons("Ilse", "2026-11-16", "2026-11-28") == [
            "Tue 2026-11-17 16:00", "Tue 2026-11-24 16:00", "Fri 2026-11-27 17:00",
        ]  # fmt: skip
        assert read_again(arranged, more).lines == ()
