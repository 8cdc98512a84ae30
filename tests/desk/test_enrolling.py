"""A roster read again in a studio where lessons have changed since, in a real store."""

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio

from cockpit.desk.proposals import Purpose

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
        assert read_again(arranged, roster).lines == ()
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
        said = "ended in the studio, left so: Ilse, Tuesday 4:00 pm, 30 minutes, cello, until 2026-12-18 (family Brandvold)"
        is_told = roster is DATED or now.startswith("2027")  # a file without the column lets nothing go on
        assert (said in plan.left_alone) == is_told


@WITH_DATES
def test_a_row_that_changes_speaks_of_the_standing_time_that_still_holds(tmp_path, roster):
    with arranged_studio(tmp_path, roster) as arranged:
        arranged.done(Purpose.CHANGE, "2027-01-12", "Ilse", "from 14 january 2027 5 pm 45m")
    with arranged_studio(tmp_path, roster="", now="2027-02-10 09:00") as arranged:
        changed = roster.replace("Ilse,Tuesday,16:00,30", "Ilse,Friday,17:30,45")
        plan = read_again(arranged, changed)
        assert arranged.lessons("Ilse", "2027-01-04", "2027-01-13") == ["Tue 2027-01-05 16:00", "Tue 2027-01-12 16:00"]
        assert [said[:3] for said in arranged.lessons("Ilse", "2027-02-15", "2027-03-01")] == ["Fri", "Fri"]
        assert all("Tuesday" not in line for line in (*plan.lines, *plan.left_alone) if "Ilse" in line)
        assert read_again(arranged, changed).lines == ()


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
