"""The command line, as a script calls it."""

import io
import json
import subprocess
import sys
from datetime import UTC, date, datetime
from pathlib import Path

import icalendar
import pytest

from cockpit.cli.main import main
from cockpit.clock import SystemClock, zone_data_version
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.screens.commands.commands import COMMANDS
from cockpit.settings.settings import parse_settings
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import BadSettings
from cockpit.wiring import studio_at

ROSTER = str(Path(__file__).parents[1] / "cockpit" / "sample" / "roster.csv")
NOW = datetime(2026, 11, 25, 16, tzinfo=UTC)


@pytest.fixture(autouse=True)
def a_day_before_those_in_the_files(monkeypatch):
    """The computer's clock is set, since the lessons of a calendar that are over are not brought in."""
    monkeypatch.setattr(SystemClock, "now", lambda _: NOW)


@pytest.fixture
def folder(tmp_path, capsys):
    (tmp_path / "settings.toml").write_text('home_zone = "America/Chicago"\n', encoding="utf-8")
    assert main(["roster", ROSTER, "--folder", str(tmp_path)]) == 0
    capsys.readouterr()
    return tmp_path


def said(capsys, *arguments) -> tuple[int, str, str]:
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


def test_the_same_roster_twice_changes_nothing(folder, capsys):
    status, out, _ = said(capsys, "roster", ROSTER, "--folder", folder)
    assert (status, out.splitlines()[-1]) == (0, "Already up to date.")


def test_a_dry_run_shows_the_change_and_makes_no_studio(tmp_path, capsys):
    status, out, _ = said(capsys, "roster", ROSTER, "--dry-run", "--folder", tmp_path / "new")
    assert status == 0
    assert "This would change:" in out
    assert "Ilse, Tuesday 4:00 pm" in out
    assert not (tmp_path / "new" / "studio.db").exists()


def test_a_dry_run_says_what_would_clash_and_changes_nothing(folder, tmp_path, capsys):
    file = tmp_path / "more.csv"
    file.write_text("student,weekday,time,minutes\nBo,Tuesday,16:10,30\n", encoding="utf-8")
    before = said(capsys, "queue", "--json", "--on", "2026-12-08", "--folder", folder)
    _, dry, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
    assert "overlap by" in dry
    assert "Bo" not in said(capsys, "queue", "--on", "2026-12-08", "--folder", folder)[1]
    assert said(capsys, "queue", "--json", "--on", "2026-12-08", "--folder", folder) == before
    _, done, _ = said(capsys, "roster", file, "--folder", folder)
    assert done.splitlines()[1:] == dry.splitlines()[1:], "the deed says what the dry run said"


def test_every_fault_is_told_at_once_and_nothing_is_imported(folder, tmp_path, capsys):
    bad = tmp_path / "bad.csv"
    bad.write_text("student,weekday,time,minutes\nZoë,Tue,4:30 pm,45\nBo,Blursday,25:00,0\n", encoding="utf-8")
    status, _, err = said(capsys, "roster", bad, "--folder", folder)
    assert status == 1
    for word in ("Line 3, weekday", "Line 3, time", "Line 3, minutes", "Nothing was imported"):
        assert word in err
    assert "Zoë" not in said(capsys, "queue", "--on", "2026-12-01", "--folder", folder)[1]


ROWS = "student,weekday,time,minutes\nBo,Mon,4 pm,30\nÉric,Tue,4 pm,30\n"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "cp1252", "utf-8-sig"])
def test_a_roster_is_read_in_the_encodings_of_spreadsheets_and_what_was_assumed_is_told(tmp_path, capsys, encoding):
    (tmp_path / "old.csv").write_bytes(ROWS.encode(encoding))
    status, out, _ = said(capsys, "roster", tmp_path / "old.csv", "--folder", tmp_path)
    assert status == 0
    assert "new: Éric, Tuesday 4:00 pm" in out
    told = {"cp1252": 'The file is not UTF-8, so it was read as Windows-1252: "Éric".', "utf-8-sig": ""}
    assert told.get(encoding, "The file was read as UTF-16.") in out


@pytest.mark.parametrize(
    ("rows", "where"),
    [
        (b"Bo,Mon,4 pm,30\r\n\x81ric,Tue,4 pm,30\n", "line 3, byte 46 is 0x81"),
        (b"\x81ric,Tue,4 pm,30\n", "line 2, byte 30 is 0x81"),
        (b"Bo \x81,Tue,4 pm,30\n", "line 2, byte 33 is 0x81"),
    ],
)
def test_a_roster_in_another_encoding_is_told_with_the_line(folder, tmp_path, capsys, rows, where):
    (tmp_path / "old.csv").write_bytes(b"student,weekday,time,minutes\n" + rows)
    status, _, err = said(capsys, "roster", tmp_path / "old.csv", "--folder", folder)
    assert status == 1
    assert where in err
    assert "Nothing was imported" in err


def test_the_queue_as_json_has_both_clocks_with_their_offsets(folder, capsys):
    _, out, _ = said(capsys, "queue", "--on", "2026-12-01", "--json", "--folder", folder)
    lessons = {lesson["student"]: lesson for lesson in json.loads(out)}
    assert lessons["Ilse"]["starts_at"] == "2026-12-01T16:00:00-06:00"
    assert lessons["Ilse"]["family_starts_at"] == "2026-12-01T15:00:00-07:00"
    assert lessons["Ishaan"]["family_starts_at"] == "2026-12-02T06:30:00+05:30"
    assert {name: lessons["Ilse"][name] for name in ("minutes", "kind", "state")} == {
        "minutes": 45,
        "kind": "weekly",
        "state": "booked",
    }


def test_the_keys_as_json_list_every_command_once(capsys):
    _, out, _ = said(capsys, "keys", "--json")
    table = json.loads(out)
    assert [entry["id"] for entry in table] == [command.id for command in COMMANDS]
    assert all(set(entry) == {"id", "keys", "label", "help"} and entry["label"] and entry["help"] for entry in table)
    wanted = {"lesson.begin", "lesson.finish", "lesson.mark_absent", "app.undo", "app.show_review"}
    assert wanted <= {entry["id"] for entry in table}


@pytest.mark.parametrize("command", [[], ["queue"], ["review"], ["notes", "Ilse"], ["family", "Brandvold"]])
def test_without_a_studio_a_sentence_says_how_to_get_one(tmp_path, capsys, command):
    status, _, err = said(capsys, *command, "--folder", tmp_path / "none")
    assert status == 1
    assert "cockpit roster FILE.csv" in err
    assert "cockpit demo" in err


def test_a_zone_taken_from_the_computer_is_told_beside_what_a_program_reads(folder, capsys):
    (folder / "settings.toml").unlink()
    status, out, err = said(capsys, "queue", "--on", "2026-12-01", "--json", "--folder", folder)
    assert status == 0
    assert json.loads(out)
    assert err.startswith("Your time zone, ")
    assert "was taken from this computer" in err
    assert said(capsys, "queue", "--on", "2026-12-01", "--folder", folder)[2] == ""


def test_settings_without_a_zone_say_that_a_zone_is_wanted(folder, capsys):
    (folder / "settings.toml").write_text("hours = 24\n", encoding="utf-8")
    _, _, err = said(capsys, "queue", "--folder", folder)
    assert 'home_zone: found nothing. Use an IANA zone such as "America/Chicago".' in err


def test_a_rehearsal_needs_a_folder_of_its_own(folder, capsys, monkeypatch):
    monkeypatch.setenv("COCKPIT_FOLDER", str(folder))
    status, _, err = said(capsys, "--at", "16:05")
    assert status == 1
    assert "--folder" in err


def test_an_unknown_student_and_missing_notes_are_told_by_name(folder, capsys):
    assert "Close matches: Ilse" in said(capsys, "notes", "Ilze", "--folder", folder)[2]
    assert "no notes for Ilse" in said(capsys, "notes", "Ilse", "--folder", folder)[2]


def test_two_students_of_one_name_are_told_apart_by_their_families(folder, tmp_path, capsys):
    twice = tmp_path / "twice.csv"
    rows = "Anna,Wed,4 pm,45,North\nAnna,Wed,5 pm,30,South\n"
    twice.write_text("student,weekday,time,minutes,family\n" + rows, encoding="utf-8")
    said(capsys, "roster", twice, "--folder", folder)
    _, _, err = said(capsys, "notes", "Anna", "--folder", folder)
    assert "Anna (family North), Anna (family South). Type one exactly as shown here." in err
    for name in ("Anna (family South)", "anna south"):
        assert "no notes for Anna" in said(capsys, "notes", name, "--folder", folder)[2]


@pytest.mark.parametrize("part", ["mi", "il"])
def test_a_part_of_a_name_is_not_looked_for_in_the_word_family(folder, capsys, part):
    with studio_at(folder, SystemClock(), to_write=False) as studio:
        found = [hit.student.name for hit in studio.desk.finding.search(part)]
        assert found
        assert all(part in f"{hit.student.name} {hit.family.name}".lower() for hit in studio.desk.finding.search(part))
        full = "Mireille (family Perreault)"
        assert all(
            studio.desk.finding.search(full[:typed])[0].student.name == "Mireille" for typed in range(3, len(full))
        )


def test_a_bad_date_says_what_would_work(folder, capsys):
    with pytest.raises(SystemExit):
        main(["queue", "--on", "1.12.2026", "--folder", str(folder)])
    assert "write a date such as 2026-12-01" in capsys.readouterr().err


@pytest.mark.parametrize("on", ["0001-01-01", "9999-12-31"])
def test_a_date_at_the_end_of_the_calendar_says_what_would_work(folder, capsys, on):
    with pytest.raises(SystemExit):
        main(["review", "--on", on, "--folder", str(folder)])
    assert "1901 to 2199" in capsys.readouterr().err
    assert said(capsys, "--at", f"{on} 10:00", "--folder", folder)[0] == 1


def test_settings_that_are_not_utf_8_are_told_by_their_byte(folder, capsys):
    (folder / "settings.toml").write_bytes(b'home_zone = "\xff"')
    status, _, err = said(capsys, "queue", "--folder", folder)
    assert status == 1
    assert "settings.toml is not UTF-8 (byte 14)" in err


def test_a_mark_may_have_a_letter_as_its_key():
    assert parse_settings('home_zone = "UTC"\n[keys]\n"assignment.mark_done" = "x"', "settings.toml").keys == {
        "assignment.mark_done": "x"
    }


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("home_zone = ", ["could not be read as TOML"]),
        ("hours = 12", ["home_zone", "found nothing"]),
        ('home_zone = "Chicago"', ["home_zone", '"Chicago"', "America/Chicago"]),
        ('home_zone = "../../etc/passwd"', ["home_zone", "IANA"]),
        ('home_zone = "UTC"\nhours = 13', ["hours", "13", "12 or 24"]),
        ('home_zone = "UTC"\nhours = true', ["hours", "True", "12 or 24"]),
        ('home_zone = "UTC"\nwait_minutes = -1', ["wait_minutes", "-1"]),
        ('home_zone = "UTC"\ncolour = "x"', ["colour", "an unknown key", "theme"]),
        ('home_zone = "UTC"\n[wrap_up_minutes]\n30 = 30', ["wrap_up_minutes.30", "30"]),
        ('home_zone = "UTC"\n[keys]\n"lesson.begin" = 2', ["keys.lesson.begin", "2"]),
        ('home_zone = "UTC"\n[keys]\n"lesson.begin" = ""', ["keys.lesson.begin", "f9,ctrl+s"]),
        ('home_zone = "UTC"\n[keys]\n"lesson.begin" = "hello world"', ["keys.lesson.begin", "hello world"]),
    ],
)
def test_a_fault_in_the_settings_names_file_key_found_and_expected(text, words):
    with pytest.raises(BadSettings) as told:
        parse_settings(text, "settings.toml")
    for word in ("settings.toml", *words):
        assert word in str(told.value)


def test_the_clock_changes_are_told_with_what_they_shift_and_the_version_of_the_zone_data(folder, capsys):
    status, out, _ = said(capsys, "clockchanges", "--weeks", "60", "--folder", folder)
    assert status == 0
    assert "Chicago (you)" in out
    assert out.rstrip().splitlines()[-1] == f"Time zone data {zone_data_version()}."
    assert said(capsys, "clockchanges", "--weeks", "1", "--folder", folder)[0] == 0
    with pytest.raises(SystemExit):
        main(["clockchanges", "--weeks", "0", "--folder", str(folder)])
    assert "write a number of weeks" in capsys.readouterr().err


def test_the_calendar_is_written_for_her_alone_and_a_familys_holds_its_own_lessons_only(folder, tmp_path, capsys):
    file = tmp_path / "lessons.ics"
    status, out, _ = said(capsys, "calendar", "--out", file, "--folder", folder)
    assert (status, out) == (0, f"Saved 12 weekly lessons and 0 single lessons in {file}.\n")
    assert file.stat().st_mode & 0o777 == 0o600
    events = icalendar.Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    assert len(events) == 12
    _, theirs, _ = said(capsys, "calendar", "--family", "OKONJO", "--folder", folder)
    assert theirs.endswith("END:VCALENDAR\r\n")
    (lesson,) = icalendar.Calendar.from_ical(theirs).walk("VEVENT")
    assert "Teodor" in lesson["SUMMARY"]
    assert said(capsys, "calendar", "--family", "Nobody", "--folder", folder)[0] == 1
    assert said(capsys, "calendar", "--out", tmp_path / "no" / "x.ics", "--folder", folder)[0] == 1


def test_a_roster_says_that_a_lesson_is_every_second_week(folder, tmp_path, capsys):
    file = tmp_path / "every.csv"
    file.write_text(
        "student,weekday,time,minutes,from,every_weeks\nBo,Mon,10:00,45,2026-12-07,2\nUma,Mon,11:00,45,,\n",
        encoding="utf-8",
    )
    _, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert "Bo, Monday 10:00 am, 45 minutes, every other week, from 2026-12-07" in out
    assert "Bo" in said(capsys, "queue", "--on", "2026-12-07", "--folder", folder)[1]
    assert "Bo" not in said(capsys, "queue", "--on", "2026-12-14", "--folder", folder)[1]
    assert "Uma" in said(capsys, "queue", "--on", "2026-12-14", "--folder", folder)[1]
    assert "Bo" in said(capsys, "queue", "--on", "2026-12-21", "--folder", folder)[1]
    assert "Already up to date" in said(capsys, "roster", file, "--folder", folder)[1]
    file.write_text("student,weekday,time,minutes,every_weeks\nBo,Mon,10:00,45,3\n", encoding="utf-8")
    status, _, err = said(capsys, "roster", file, "--folder", folder)
    assert (status, "Write 1 for every week or 2" in err) == (1, True)


CALENDAR = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//somebody//lessons//EN
BEGIN:VEVENT
UID:one@example.org
DTSTAMP:20261101T000000Z
SUMMARY:Ilse cello
DTSTART;TZID=America/Chicago:20270105T100000
DURATION:PT30M
RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=20270331T000000Z
EXDATE;TZID=America/Chicago:20270119T100000
END:VEVENT
BEGIN:VEVENT
UID:one@example.org
DTSTAMP:20261101T000000Z
SUMMARY:Ilse cello
RECURRENCE-ID;TZID=America/Chicago:20270202T100000
DTSTART;TZID=America/Chicago:20270203T113000
DURATION:PT45M
END:VEVENT
BEGIN:VEVENT
UID:two@example.org
DTSTAMP:20261101T000000Z
SUMMARY:Zoë
DTSTART:20270109T160000Z
DTEND:20270109T170000Z
END:VEVENT
BEGIN:VEVENT
UID:three@example.org
DTSTAMP:20261101T000000Z
SUMMARY:Tidy up
DTSTART;VALUE=DATE:20270109
END:VEVENT
END:VCALENDAR
"""


@pytest.fixture
def answers(monkeypatch):
    """Gives the lines that she answers with; after them, and without any, her end of the pipe is closed."""

    def give(*lines: str) -> None:
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))

    give()
    return give


def test_a_calendar_file_is_brought_in_once_with_its_exceptions_and_what_was_left_out(
    folder, tmp_path, capsys, answers
):
    file = tmp_path / "lessons.ics"
    answers("", "")
    file.write_bytes(CALENDAR.replace("\n", "\r\n").encode())
    status, out, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
    assert status == 0
    assert "This would change:" in out
    status, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert (
        "new: Ilse, Tuesday 10:00 am, 30 minutes, cello, every other week, from 2027-01-05, through 2027-03-30" in out
    )
    assert "Ilse, canceled: Tuesday, January 19, 2027, 10:00 am, 30 minutes" in out
    assert "Ilse, moved to: Wednesday, February 3, 2027, 11:30 am, 45 minutes" in out
    assert "Zoë, lesson: Saturday, January 9, 2027, 10:00 am, 60 minutes" in out
    assert "left out: " in out
    assert "Tidy up" in out
    queues = {
        on: said(capsys, "queue", "--on", on, "--folder", folder)[1]
        for on in ("2027-01-05", "2027-01-12", "2027-01-19", "2027-02-02", "2027-02-03", "2027-01-09")
    }
    # Beside her own lesson on Tuesdays.
    assert [queues[tuesday].count("Ilse") for tuesday in ("2027-01-05", "2027-01-12", "2027-01-19")] == [2, 1, 2]
    assert "10:00 am" in next(line for line in queues["2027-01-05"].splitlines() if "Ilse" in line)
    assert "canceled" in queues["2027-01-19"]
    assert queues["2027-02-02"].count("Ilse") == 1
    assert "Ilse" in queues["2027-02-03"]
    assert "Zoë" in queues["2027-01-09"]
    _, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert out.splitlines()[0] == "Nothing changed."  # it has events that are left out
    bad = tmp_path / "bad.ics"
    bad.write_bytes(CALENDAR.encode()[:300])
    status, _, err = said(capsys, "roster", bad, "--folder", folder)
    assert status == 1
    assert "Nothing was imported" in err


def test_a_title_is_left_out_where_nobody_can_say_whose_it_is_and_asked_for_again(folder, tmp_path, capsys, answers):
    file = tmp_path / "lessons.ics"
    file.write_bytes(CALENDAR.replace("Ilse cello", "Coffee with Ilse").replace("\n", "\r\n").encode())
    _, out, err = said(capsys, "roster", file, "--folder", folder)
    assert 'Which student is "Coffee with Ilse" in the calendar?' in err
    assert 'left out: "Coffee with Ilse": you did not say which student this is.' in out
    assert said(capsys, "queue", "--on", "2027-01-05", "--folder", folder)[1].count("Ilse") == 1
    answers("=")
    _, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert "new: Coffee with Ilse, Tuesday 10:00 am" in out
    _, out, err = said(capsys, "roster", file, "--folder", folder)
    assert (out.splitlines()[0], err) == ("Nothing changed.", "")  # it has events that are left out


def test_an_instrument_in_a_title_is_the_instrument_and_a_title_of_one_alone_is_left_out(
    folder, tmp_path, capsys, answers
):
    file = tmp_path / "lessons.ics"
    for title in ("Piano: Hugo Stein", "Hugo Stein Piano", "Piano Hugo Stein", "Hugo Stein, piano"):
        text = CALENDAR.replace("Ilse cello", title.replace(", ", "\\, "))
        file.write_bytes(text.replace("\n", "\r\n").encode())
        answers("")
        _, out, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
        assert "new: Hugo Stein, Tuesday 10:00 am, 30 minutes, piano, every other week" in out, title
    file.write_bytes(CALENDAR.replace("Ilse cello", "Piano lesson").replace("\n", "\r\n").encode())
    answers("")
    _, out, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
    assert 'left out: "Piano lesson": you did not say which student this is.' in out
    answers("Hugo Stein")
    _, out, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
    assert "new: Hugo Stein, Tuesday 10:00 am, 30 minutes, piano, every other week" in out


def test_our_own_calendar_brought_into_an_empty_studio_is_the_same_queue(folder, tmp_path, capsys):
    file, other = tmp_path / "ours.ics", tmp_path / "other"
    said(capsys, "calendar", "--out", file, "--folder", folder)
    other.mkdir()
    (other / "settings.toml").write_text('home_zone = "America/Chicago"\n', encoding="utf-8")
    status, _, err = said(capsys, "roster", file, "--folder", other)
    assert (status, err) == (0, "")
    for on in ("2027-03-09", "2027-03-16", "2027-11-04"):  # around clock changes of Chicago and London
        ours, theirs = (
            [
                (lesson["starts_at"], lesson["minutes"])
                for lesson in json.loads(said(capsys, "queue", "--on", on, "--json", "--folder", f)[1])
            ]
            for f in (folder, other)
        )
        assert ours == theirs
        assert ours


def test_a_roster_that_will_collide_says_so_when_it_is_brought_in(tmp_path, capsys):
    (tmp_path / "settings.toml").write_text('home_zone = "America/Chicago"\n', encoding="utf-8")
    _, out, _ = said(capsys, "roster", ROSTER, "--folder", tmp_path)
    told = out.split("Scheduling problems in the next year:\n", 1)[1]
    assert "Ilse" in told
    assert "Teodor" in told
    assert "overlap by 30 minutes" in told
    assert "To settle" not in said(capsys, "roster", ROSTER, "--folder", tmp_path)[1]


def test_a_studios_own_calendar_brought_back_changes_nothing(folder, tmp_path, capsys):
    file = tmp_path / "own.ics"
    said(capsys, "calendar", "--out", file, "--folder", folder)
    before = said(capsys, "queue", "--on", "2026-12-01", "--folder", folder)
    status, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert status == 0
    assert "Already up to date" in out
    assert "12 events of this studio's own calendar" in out
    assert said(capsys, "queue", "--on", "2026-12-01", "--folder", folder) == before


def arranged(folder, student: str, on: str, purpose: Purpose, line: str) -> None:
    with studio_at(folder, SystemClock(), to_write=True) as studio:
        zone, day = studio.preferences.home.zone, date.fromisoformat(on)
        booking = next(
            b for b in bookings_on(studio.store.reading, day, TeacherClock(zone=zone)) if b.student.name == student
        )
        studio.desk.arranging.do(studio.desk.arranging.propose(purpose, booking, line))


def test_what_was_arranged_here_is_not_taken_back_when_a_calendar_is_read_again(folder, tmp_path, capsys, answers):
    file = tmp_path / "lessons.ics"
    answers("Ilse Brand")
    file.write_bytes(CALENDAR.replace("\n", "\r\n").encode())
    said(capsys, "roster", file, "--folder", folder)
    arranged(folder, "Zoë", "2027-01-09", Purpose.MOVE, "2027-01-10 11:00")
    arranged(folder, "Ilse Brand", "2027-01-05", Purpose.CHANGE, "from wed 2027-01-13 at 9 am")
    _, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert out.splitlines()[0] == "Nothing changed."
    assert (
        "kept as in the studio; the file differs: Zoë, moved to: Sunday, January 10, 2027, 11:00 am, 60 minutes "
        "(in the file, lesson: Saturday, January 9, 2027, 10:00 am, 60 minutes)"
    ) in out
    assert (
        "ended in the studio, not brought back: Ilse Brand, Tuesday 10:00 am, 30 minutes, cello, every other week, from"
        in out
    )
    assert "Zoë" in said(capsys, "queue", "--on", "2027-01-10", "--folder", folder)[1]
    assert "Zoë" not in said(capsys, "queue", "--on", "2027-01-09", "--folder", folder)[1]
    for tuesday in ("2027-01-26", "2027-02-09"):
        assert "Ilse Brand" not in said(capsys, "queue", "--on", tuesday, "--folder", folder)[1]
    assert "Ilse Brand" in said(capsys, "queue", "--on", "2027-01-27", "--folder", folder)[1]


def test_a_lesson_that_its_standing_time_left_behind_is_not_handed_out(folder, tmp_path, capsys):
    with studio_at(folder, SystemClock(), to_write=True) as studio:
        day = studio.desk.day
        there = next(
            b
            for b in bookings_on(studio.store.reading, date(2027, 1, 12), studio.preferences.home)
            if b.student.name == "Ilse"
        )
        day.open(date(2027, 1, 12), there.lesson.id)
        studio.desk.notes.write(there.lesson.id, "")
    arranged(folder, "Ilse", "2027-01-05", Purpose.CHANGE, "from wed 2027-01-06 at 9 am")
    _, theirs, _ = said(capsys, "calendar", "--family", "Brandvold", "--folder", folder)
    starts = {event["DTSTART"].dt.date() for event in icalendar.Calendar.from_ical(theirs).walk("VEVENT")}
    assert date(2027, 1, 12) not in starts
    assert date(2027, 1, 6) in starts


def test_the_screen_is_not_opened_without_a_terminal():
    command = [sys.executable, "-m", "cockpit", "demo"]
    done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout) == (1, "")
    assert "needs a terminal" in done.stderr
    assert "cockpit queue" in done.stderr


def test_a_calendar_of_many_lessons_at_once_tells_the_first_collisions_and_counts_the_others(tmp_path, capsys):
    (tmp_path / "settings.toml").write_text('home_zone = "America/Chicago"\n', encoding="utf-8")
    event = (
        "BEGIN:VEVENT\nUID:{0}\nDTSTAMP:20260101T000000Z\nDTSTART;TZID=America/Chicago:20270105T150000\n"
        "DURATION:PT30M\nSUMMARY:Student {0}\nEND:VEVENT\n"
    )
    file = tmp_path / "many.ics"
    events = "".join(event.format(number) for number in range(40))
    file.write_text(f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//x//y//EN\n{events}END:VCALENDAR\n", encoding="utf-8")
    _, out, _ = said(capsys, "roster", file, "--folder", tmp_path)
    told = out.split("Scheduling problems in the next year:\n", 1)[1].splitlines()
    assert len(told) == 101
    assert told[-1] == "  and 184 more. Coming up in the cockpit lists the nearest ones."


def test_without_the_zone_data_the_package_is_named_and_not_the_settings(folder):
    program = "import sys; sys.modules['tzdata'] = None; from cockpit.cli.main import main; sys.exit(main())"
    done = subprocess.run(
        [sys.executable, "-c", program, "queue", "--folder", str(folder)], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "The time zones are missing: the Python package tzdata is not installed beside the cockpit. "
        f"To install it: {sys.executable} -m pip install tzdata\n"
    )


def test_a_folder_with_backups_and_no_database_is_told_of_its_way_back(tmp_path, capsys):
    (tmp_path / "backups").mkdir()
    (tmp_path / "backups" / "studio-2026-12-01.db").touch()
    assert main(["queue", "--folder", str(tmp_path)]) == 1
    assert f"cockpit restore --folder {tmp_path}" in capsys.readouterr().err


def test_a_name_with_a_letter_wrong_is_asked_about_before_a_table_is_imported(folder, tmp_path, capsys, answers):
    file = tmp_path / "more.csv"
    file.write_text("student,weekday,time,minutes\nIlsa,Fri,11:00,30\n", encoding="utf-8")
    status, _, err = said(capsys, "roster", file, "--folder", folder)
    assert status == 1
    assert 'Which student is "Ilsa" in the table? Press enter for Ilse, type another name, or type = for a new' in err
    assert (
        'The student "Ilsa" in the table is not in the studio, but Ilse is. Write that name, or import the file where you '
        "can answer whether this is a new student.\nNothing was imported"
    ) in err
    answers("")
    _, out, _ = said(capsys, "roster", file, "--dry-run", "--folder", folder)
    assert "new: Ilse, Friday 11:00 am" in out
    answers("=")
    _, out, _ = said(capsys, "roster", file, "--folder", folder)
    assert "new: Ilsa, Friday 11:00 am" in out
    status, out, err = said(capsys, "roster", file, "--folder", folder)
    assert (status, err) == (0, "")
    assert "Already up to date." in out


def test_a_saved_email_becomes_an_inquiry_and_one_without_a_date_is_asked_about(tmp_path, capsys):
    studio = tmp_path / "studio"
    roster = tmp_path / "roster.csv"
    roster.write_text("student,weekday,time,minutes\nBo,Mon,10:00,30\n", encoding="utf-8")
    file = tmp_path / "ana.eml"
    file.write_text("From: Ana Bell <ana@example.org>\nDate: Sat, 31 Oct 2020 10:00:00 -0500\n\nHello \x1b]2;x\x07\n")
    where = ("--folder", str(studio))
    assert main(["inquiry", str(file), *where]) == 1
    assert "no studio" in capsys.readouterr().err
    assert main(["roster", str(roster), *where]) == 0
    capsys.readouterr()
    assert main(["inquiry", str(file), *where]) == 0
    assert "New inquiry: Ana Bell; ana@example.org; answer by " in capsys.readouterr().out
    assert main(["inquiry", str(file), *where]) == 1
    assert "is an inquiry already" in capsys.readouterr().err
    file.write_text("From: Ana Bell <ana@example.org>\n\nHello\n")
    assert main(["inquiry", str(file), "--came", "tomorrow 10am", *where]) == 1
    assert "still to come" in capsys.readouterr().err
    assert main(["inquiry", str(file), "--came", "yesterday 10am", *where]) == 0
    assert "Ana Bell" in capsys.readouterr().out
    assert main(["inquiry", str(tmp_path), *where]) == 1
    assert "is not a file" in capsys.readouterr().err
    assert main(["inquiry", "--counts", "2020-10-01", "2020-10-31", *where]) == 0
    assert capsys.readouterr().out.startswith("0 of 1 answered within 48 hours (0.0 %)\n1 came, 0 answered")
    assert main(["inquiry", "--counts", "2019-10-01", "2019-10-31", *where]) == 0
    assert capsys.readouterr().out == "No inquiries came on these days.\n"
    assert main(["inquiry", "--counts", "2020-10-31", "2020-10-01", *where]) == 1
    assert "2020-10-01 is before 2020-10-31. Write the first date first." in capsys.readouterr().err


def test_a_saved_roster_is_read_as_already_up_to_date(tmp_path, capsys):
    home, out = tmp_path / "studio", tmp_path / "mine.csv"
    said(capsys, "roster", ROSTER, "--folder", home)
    status, told, _ = said(capsys, "roster", "--export", out, "--folder", home)
    assert (status, told) == (
        0,
        f"Saved 12 weekly times in {out}. It has remarks and phone numbers that are for you alone.\n",
    )
    assert out.stat().st_mode & 0o777 == 0o600
    assert said(capsys, "roster", out, "--dry-run", "--folder", home)[1] == "Already up to date.\n"
    status, _, err = said(capsys, "roster", "--export", out, "--folder", home)
    assert (status, "already exists and was not changed. Choose another name." in err) == (1, True)
    with pytest.raises(SystemExit, match="2"):
        said(capsys, "roster", "--folder", home)
