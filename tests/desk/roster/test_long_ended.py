"""A family that ended long ago is asked about once: kept, or saved and deleted."""

from datetime import date

import pytest
from support.arranged_studio import HEADER, arranged_studio
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.studio.leaving.family_record import accepted_of

ROSTER = f"""{HEADER}Ilse,Tuesday,16:00,30,Brandvold,cello,America/Phoenix,teacher
Runa,Tuesday,15:00,30,Brandvold,viola,America/Phoenix,teacher
Teodor,Tuesday,17:30,30,Okonjo,guitar,Europe/London,teacher
"""
SETTINGS = 'home_zone = "America/Chicago"\n'


def end(arranged, name, line="after dec 18"):
    roster = arranged.studio.desk.roster()
    entry = next(each for each in roster.view().entries if each.student.name == name)
    arranged.studio.desk.arranging.do(roster.propose(Purpose.END, entry, line))


def asked(arranged):
    return [each.family.name for each in arranged.studio.desk.ahead.outlook(12).ended]


def row_of(arranged, width=80):
    outlook, clock = arranged.studio.desk.ahead.outlook(12), arranged.studio.preferences.home
    (row,) = [str(each.prompt) for each in ahead_options(outlook, clock, width) if (each.id or "").startswith("ended")]
    return " ".join(row.split())


@pytest.mark.parametrize(("months", "day"), [(24, "2028-12-18"), (6, "2027-06-18"), (14, "2028-02-18")])
def test_a_family_is_asked_about_when_its_last_student_ended_longer_ago_than_the_setting_says(tmp_path, months, day):
    settings = f"{SETTINGS}keep_months = {months}\n" if months != 24 else SETTINGS
    with arranged_studio(tmp_path, ROSTER, settings=settings) as arranged:
        end(arranged, "Ilse")
        arranged.clock.at = home(f"{day} 09:00")
        assert asked(arranged) == []  # Runa still comes
        arranged.clock.at = home("2026-11-25 10:00")
        end(arranged, "Runa", "after dec 11")
        arranged.clock.at = home(f"{day} 23:59")
        assert asked(arranged) == []  # Ilse's last day was the 18th
        before = arranged.studio.desk.ahead.to_settle()
        arranged.clock.wind(hours=1)
        assert asked(arranged) == ["Brandvold"]
        ahead = arranged.studio.desk.ahead
        assert ahead.to_settle() == ahead.outlook(12).to_settle == before + 1


def test_none_is_asked_about_where_the_setting_is_nothing(tmp_path):
    with arranged_studio(tmp_path, ROSTER, settings=f"{SETTINGS}keep_months = 0\n") as arranged:
        end(arranged, "Teodor")
        arranged.clock.at = home("2046-12-01 09:00")
        assert asked(arranged) == []


def test_the_line_says_who_when_and_the_commands_and_is_kept_once(tmp_path):
    with arranged_studio(tmp_path, ROSTER) as arranged:
        end(arranged, "Teodor")
        arranged.clock.at = home("2029-03-01 09:00")
        assert row_of(arranged) == (
            '○ Teodor ended Friday, December 18, 2026 2 years ago cockpit family "Okonjo" --export FILE.zip saves all of it '
            'cockpit family "Okonjo" --forget deletes it'
        )
        (ended,) = arranged.studio.desk.ahead.outlook(12).ended
        said = arranged.studio.desk.arranging.keep_ended(ended)
        assert said == "You will not be asked about the Okonjo family again."
        arranged.clock.at = home("2035-03-01 09:00")
        assert asked(arranged) == []
        # What was said of it goes with the family.
        keys = arranged.studio.store.reading.accepted()
        ids = [str(each.id) for each in arranged.studio.store.reading.standing_times() if each.until_on]
        assert accepted_of(keys, ids) == [ended.key]
        assert arranged.undo() == "Undone: keeping the Okonjo family."
        assert asked(arranged) == ["Okonjo"]


def test_who_still_comes_for_a_lesson_now_and_then_or_came_back_is_not_asked_about(tmp_path):
    with arranged_studio(tmp_path, ROSTER) as arranged:
        end(arranged, "Teodor")
        arranged.clock.at = home("2027-11-20 10:00")
        last = arranged.studio.desk.roster().view()
        teodor = next(each for each in last.entries if each.student.name == "Teodor")
        arranging = arranged.studio.desk.arranging
        arranging.do(arranging.propose(Purpose.TRIAL, None, "teodor sat nov 27 10am"))
        arranged.clock.at = home("2029-03-01 09:00")
        assert asked(arranged) == []
        arranged.undo()
        (ended,) = arranged.studio.desk.ahead.outlook(12).ended
        arranging.keep_ended(ended)
        arranging.do(arranging.propose(Purpose.STUDENT, None, "olu, guitar, sat 10am, with teodor"))
        assert asked(arranged) == []
        end(arranged, "Olu", "after jun 29")
        arranged.clock.at = home("2031-08-01 09:00")
        (again,) = arranged.studio.desk.ahead.outlook(12).ended  # she is asked again
        assert (again.family, again.ended_on) == (teodor.family, date(2029, 6, 29))
        assert [each.name for each in again.students] == ["Teodor", "Olu"]
