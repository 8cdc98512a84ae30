"""Calendar files as programs of every kind write them: what is read, what is said, and what is asked about.

Sources: RFC 5545 3.1 (folding), 3.3.10 (DAILY), 3.6.5 (rules of zones), 3.2.12 (PARTSTAT), 3.8.2.7 (TRANSP).
X-WR-TIMEZONE and titles such as "Lesson with Ilse" are common practice, no source.
"""

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Timezone
from support.calendars import SINGLE, WEEKLY, at, event
from support.studio import HOME, utc

from cockpit.papers.calendar.own_rules import zone_of_rules
from cockpit.papers.calendar.reading import read_calendar
from cockpit.papers.calendar.zones import zone_component
from cockpit.studio.calendar.events import EventsReading
from cockpit.studio.calendar.titles import name_in, students_near

BEGINS = date(2026, 11, 25)
FLOATING = {"DTSTART;TZID=America/Chicago": None, "DTSTART": "20260901T160000"}
BERLIN = (
    "BEGIN:VTIMEZONE\r\nTZID:{name}\r\n"
    "BEGIN:STANDARD\r\nDTSTART:16010101T030000\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0100\r\n"
    "RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=-1SU;BYMONTH=10\r\nEND:STANDARD\r\n"
    "BEGIN:DAYLIGHT\r\nDTSTART:16010101T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\n"
    "RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=-1SU;BYMONTH=3\r\nEND:DAYLIGHT\r\nEND:VTIMEZONE\r\n"
)


def file(*parts: str) -> bytes:
    return "".join(("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\n", *parts, "END:VCALENDAR\r\n")).encode()


def read(*parts: str, data: bytes | None = None) -> EventsReading:
    return read_calendar(file(*parts) if data is None else data, home_zone=HOME, begins=BEGINS)


def folded(data: bytes, width: int, end: bytes) -> bytes:
    """The lines cut after so many bytes, inside letters too."""
    lines = data.split(b"\r\n")
    cut = ([line[place : place + width] for place in range(0, len(line), width)] or [b""] for line in lines)
    return end.join((end + b" ").join(pieces) for pieces in cut)


@pytest.mark.parametrize("end", [b"\r\n", b"\n"])
@given(width=st.integers(1, 30), name=st.sampled_from(["Zoë Åkesson", "小春", "🎻 Iggy", "Ilse"]))
def test_a_line_folded_inside_a_letter_is_read(end, width, name):
    reading = read(data=folded(file(event(WEEKLY | {"SUMMARY": name})), width, end))
    assert [(each.row.student, each.row.at) for each in reading.weekly] == [(name, time(16))]


def test_times_without_a_zone_are_on_the_clock_of_their_calendar_and_that_is_said():
    reading = read("X-WR-TIMEZONE:Europe/Berlin\r\n", event(WEEKLY | FLOATING, EXDATE="20261201T160000"))
    (weekly,) = reading.weekly
    assert (weekly.row.zone, weekly.row.at, weekly.cancelled) == ("Europe/Berlin", time(16), (date(2026, 12, 1),))
    assert reading.notices == ("Times without a time zone are on the calendar's clock, Europe/Berlin.",)
    assert read("X-WR-TIMEZONE:Europe/Berlin\r\n", event(WEEKLY)).notices == ()


def test_a_calendars_clock_that_is_not_known_is_said():
    reading = read("X-WR-TIMEZONE:Mars/Olympus\r\n", event(WEEKLY | FLOATING))
    assert reading.weekly[0].row.zone is None
    assert reading.notices == (
        'Times without a time zone are on your clock: the calendar\'s zone "Mars/Olympus" is not known.',
    )


@pytest.mark.parametrize("name", ["Berlin clock", "(UTC+01:00) Berlin, Rome", "Custom 1", "/x.example/Berlin time"])
def test_a_zone_of_a_files_own_is_read_by_its_rules_and_that_is_said(name):
    quoted = f'"{name}"' if set(name) & set(":,;") else name
    start = {"DTSTART;TZID=America/Chicago": None, f"DTSTART;TZID={quoted}": "20260901T160000"}
    reading = read(BERLIN.format(name=name), event(WEEKLY | start))
    assert reading.left_out == ()
    (weekly,) = reading.weekly
    assert (weekly.row.zone, weekly.row.at) == ("Europe/Berlin", time(16))
    assert reading.notices == (f'The time zone "{name}" was read by its rules: those of Europe/Berlin.',)


def test_a_zone_whose_rules_are_no_zones_is_left_out():
    rules = BERLIN.format(name="Mine").replace("-1SU;BYMONTH=10", "2TU;BYMONTH=10")
    start = {"DTSTART;TZID=America/Chicago": None, "DTSTART;TZID=Mine": "20260901T160000"}
    assert 'its time zone "Mine" is not known' in read(rules, event(WEEKLY | start)).left_out[0]
    assert 'its time zone "Mine" is not known' in read(event(WEEKLY | start)).left_out[0]


@pytest.mark.parametrize(
    "zone",
    [
        "America/New_York",
        "Europe/Berlin",
        "Africa/Casablanca",
        "Asia/Kolkata",
        "Asia/Gaza",
        "Africa/Cairo",
        "Pacific/Chatham",
    ],
)
def test_every_zone_that_is_explained_is_found_by_its_rules(zone):
    text = zone_component(zone, 2026, 2027).to_ical().decode().replace(f"TZID:{zone}", "TZID:of its own")
    assert zone_of_rules(Timezone.from_ical(text), BEGINS, "America/Chicago") == zone


@pytest.mark.parametrize(
    "damage",
    ["", "FREQ=SECONDLY", "FREQ=YEARLY;BYDAY=SU,MO;BYMONTH=3", "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", "FREQ=YEARLY;BYDAY=9SU;BYMONTH=3",
     "FREQ=YEARLY;BYSETPOS=1", "FREQ=YEARLY;BYDAY=SU;BYMONTH=3"],
)  # fmt: skip
def test_rules_of_another_form_are_no_zones(damage):
    text = BERLIN.format(name="x").replace("FREQ=YEARLY;INTERVAL=1;BYDAY=-1SU;BYMONTH=3", damage)
    if damage:
        assert zone_of_rules(Timezone.from_ical(text), BEGINS, HOME) is None


@pytest.mark.parametrize(
    ("rule", "weekdays", "every_weeks"),
    [
        ("FREQ=DAILY;INTERVAL=7", [1], 1), ("FREQ=DAILY;INTERVAL=14", [1], 2), ("FREQ=DAILY;BYDAY=TU,TH", [1, 3], 1),
        ("FREQ=DAILY;INTERVAL=7;COUNT=40", [1], 1),
    ],
)  # fmt: skip
def test_a_rule_of_days_that_is_one_of_weeks_is_read(rule, weekdays, every_weeks):
    found = read(event(WEEKLY, RRULE=rule)).weekly
    assert [(each.row.weekday, each.every_weeks) for each in found] == [(day, every_weeks) for day in weekdays]


@pytest.mark.parametrize(
    "rule",
    [
        "FREQ=DAILY",
        "FREQ=DAILY;INTERVAL=3",
        "FREQ=DAILY;INTERVAL=2;BYDAY=TU",
        "FREQ=DAILY;INTERVAL=21",
        "FREQ=DAILY;INTERVAL=7;BYDAY=TU",
    ],
)
def test_another_rule_of_days_is_left_out_with_the_reason(rule):
    reading = read(event(WEEKLY, RRULE=rule))
    assert (reading.weekly, reading.is_whole) == ((), False)
    assert "it repeats" in reading.left_out[0]


def test_what_is_free_or_declined_is_read_and_marked():
    free = event(WEEKLY, TRANSP="TRANSPARENT")
    declined = event(SINGLE, **{"ATTENDEE;PARTSTAT=DECLINED": "mailto:a@example.org"})
    accepted = event(
        SINGLE | at("20261211T100000"), UID="x@y", **{"ATTENDEE;PARTSTAT=ACCEPTED": "mailto:a@example.org"}
    )
    reading = read(free, declined, accepted)
    assert (len(reading.weekly), len(reading.lessons)) == (1, 2)
    assert reading.notices == (
        '"Ilse" of 2026-09-01: the calendar shows this time as free. It is a lesson all the same.',
        '"Ilse" of 2026-12-10: somebody who was invited has declined. It is a lesson all the same.',
    )


def occurrence(title: str, start: str = "20261208T160000") -> str:
    return event(
        WEEKLY | at(start), SUMMARY=title, RRULE=None, **{"RECURRENCE-ID;TZID=America/Chicago": "20261208T160000"}
    )


@pytest.mark.parametrize("start", ["20261208T160000", "20261210T170000"])
def test_a_lesson_of_a_series_under_another_title_is_asked_about(start):
    reading = read(event(WEEKLY), occurrence("Teodor", start))
    assert list(map(str, reading.titles)) == ["Ilse", "Teodor (in place of Ilse)"]
    somebody = reading.named({"Teodor (in place of Ilse)": "Teodor"})
    assert [each.title for each in somebody.lessons] == ["Teodor"]
    assert (somebody.weekly[0].cancelled, somebody.weekly[0].moved) == ((date(2026, 12, 8),), ())
    the_same = reading.named({"Teodor (in place of Ilse)": "Ilse"})
    assert (the_same.lessons, the_same.weekly[0].cancelled) == ((), ())
    assert [each.starts_at for each in the_same.weekly[0].moved] == (
        [utc("2026-12-10 23:00")] if "10" in start[6:8] else []
    )
    nobody = reading.named({"Teodor (in place of Ilse)": None})
    assert (nobody.lessons, nobody.weekly[0].cancelled, nobody.weekly[0].moved) == ((), (), ())
    assert nobody.left_out == ('"Teodor (in place of Ilse)": you did not say which student this is.',)
    assert not nobody.is_whole


def test_a_title_in_other_capitals_is_the_same_title():
    assert list(map(str, read(event(WEEKLY), occurrence("ILSE")).titles)) == ["Ilse"]


STUDENTS = ("Anna Berg", "Ilse", "Otto Berg", "Teodor Okonjo")


@pytest.mark.parametrize(
    ("title", "near"),
    [
        ("Lesson with Ilse", ("Ilse",)), ("Ilse's lesson", ("Ilse",)), ("ilse cello", ("Ilse",)), ("Berg, Anna", ("Anna Berg",)),
        ("Anna", ("Anna Berg",)), ("Lesson with Teodor", ("Teodor Okonjo",)), ("Berg", ("Anna Berg", "Otto Berg")),
        ("Okonjo", ("Teodor Okonjo",)), ("Mira Berg", ()), ("Dentist", ()), ("Annabel", ()), ("ANNA BERG piano", ("Anna Berg",)),
        ("Berg Anna / Ilse", ("Ilse", "Anna Berg")), ("Tedoor", ("Teodor Okonjo",)), ("Ana Berg", ("Anna Berg",)), ("Isle's lesson", ("Ilse",)),
        ("Okonyo", ("Teodor Okonjo",)), ("Anne", ("Anna Berg",)), ("\u00c5nna Berg", ("Anna Berg",)), ("Otto", ("Otto Berg",)),
    ],
)  # fmt: skip
def test_a_title_is_near_the_students_whose_names_it_has(title, near):
    assert students_near(title, STUDENTS) == near


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Lesson with Mira", "Mira"), ("Trial: Mira", "Mira"), ("Mira (trial)", "Mira"), ("Ilse, cello (trial)", "Ilse"), ("Mira 4 pm", "Mira"), ("Cello lesson with Mira Holm", "Mira Holm"), ("Mira's lesson", "Mira"), ("Lesson: Mira", "Mira"),
        ("Mira cello lesson", "Mira"), ("Mira - lesson", "Mira"), ("Holm, Mira", "Mira Holm"), ("Mira", None), ("Mira Holm", None), ("Ilse, cello", None), ("Ilse, trial", "Ilse"), ("Student 12", None),
        ("Mira de la Cruz", None), ("O'Neill-Berg, M.", "O'Neill-Berg"), ("\u5c0f\u6625", None), ("staff meeting", "staff meeting"), ("MIRA", None), ("J. R. Holm", None), ("Zoë", None), ("Lessons for Mira", "Mira"),
        ("Piano: Mira Holm", "Mira Holm"), ("Mira Holm Piano", "Mira Holm"), ("Piano Mira", "Mira"), ("Klavier - Mira Holm", "Mira Holm"), ("Mira Holm, Piano", "Mira Holm"),
        ("Mira: violon", "Mira"), ("Cours de violon Mira", "Mira"), ("Clase de piano: Mira", "Mira"), ("Klavierunterricht Mira Holm", "Mira Holm"), ("Geigenstunde Mira", "Mira"),
        ("French horn: Mira", "Mira"), ("Mira Holm, alto sax", None), ("Mira Holm (alto sax)", "Mira Holm"), ("Ilse, flu", "Ilse"), ("Viola: Mira", "Mira"), ("Mira Holm Viola", "Mira Holm"), ("PIANO MIRA", "MIRA"), ("Holm, Mira - Piano", "Mira Holm"),
        ("Mira Holm lesson", "Mira Holm"), ("Thursday lesson: Mira", "Mira"), ("Mira Holm 45 min", "Mira Holm"), ("Online: Mira", "Mira"), ("Weekly Mira", "Mira"), ("Piano with Mira Holm", "Mira Holm"),
        ("Viola Holm", "Viola Holm"), ("Mira Horn", "Mira Horn"), ("Bass", "Bass"), ("Piano", ""), ("Piano lesson", ""), ("Music lesson", ""), ("Klavierunterricht", ""), ("Piano recital", "Piano recital"),
    ],
)  # fmt: skip
def test_a_name_among_other_words_is_found_so_that_it_can_be_asked_about(title, name):
    assert name_in(title) == name


def test_two_events_under_one_uid_are_told_unless_one_is_a_newer_version_or_the_same():
    """RFC 5545 3.8.4.7 and 3.8.7.4: a UID names one event, and SEQUENCE its versions."""
    bob = event(WEEKLY | at("20260902T170000"), SUMMARY="Bob")
    reading = read(event(WEEKLY), bob)
    assert [each.row.student for each in reading.weekly] == ["Bob"]
    assert reading.left_out == (
        '"Ilse" of 2026-09-01: the file gives another event the same UID, "Bob" of 2026-09-02. Only that one is imported.',
    )
    assert not reading.is_whole
    one, other = occurrence("Ilse", "20261209T160000"), occurrence("Ilse", "20261210T160000")
    assert read(event(WEEKLY), one, other).left_out[0].startswith('"Ilse" of 2026-12-09: the file gives another')
    for same in (event(WEEKLY, DTSTAMP="20261001T000000Z"), event(WEEKLY, SEQUENCE="1", SUMMARY="Mira")):
        assert read(event(WEEKLY), same).left_out == ()


@pytest.mark.parametrize(
    ("left_out", "said"),
    [
        ("20261209T160000", "Wednesday, December 9, 2026"),  # another weekday
        ("20261208T170000", "Tuesday, December 8, 2026"),  # another hour
        ("20260908T170000", None),  # over
        ("20261208T160000", None),
    ],
)
def test_a_date_left_out_on_which_there_is_no_lesson_is_told(left_out, said):
    reading = read(event(WEEKLY | {"EXDATE;TZID=America/Chicago": left_out}))
    told = () if said is None else (f'"Ilse" of 2026-09-01: it leaves out {said}, but it has no lesson then.',)
    assert (reading.notices, reading.is_whole) == (told, True)


def test_an_occurrence_of_no_lesson_of_its_series_is_told():
    stray = event(WEEKLY | at("20261208T160000"), RRULE=None, **{"RECURRENCE-ID": "20261209T220000Z"})
    told = (
        '"Ilse" of 2026-12-08: it stands for a lesson of a series, but the file has none that it could replace. '
        "It is read as a single lesson.",
    )
    for events in ((event(WEEKLY), stray), (stray,)):
        reading = read(*events)
        assert (len(reading.lessons), reading.notices) == (1, told)


@pytest.mark.parametrize(
    ("marks", "said"),
    [
        ({"STATUS": "TENTATIVE"}, "the calendar marks it as tentative"),
        ({"ATTENDEE;PARTSTAT=TENTATIVE": "mailto:a@example.org"}, "somebody who was invited may not come"),
        ({"ATTENDEE;PARTSTAT=DECLINED": "mailto:a@example.org"}, "somebody who was invited has declined"),
        ({"TRANSP": "TRANSPARENT"}, "the calendar shows this time as free"),
    ],
)
def test_what_is_marked_is_told_of_series_lessons_and_occurrences_alike(marks, said):
    moved = event(
        WEEKLY | at("20261209T160000") | marks,
        RRULE=None,
        **{"RECURRENCE-ID;TZID=America/Chicago": "20261208T160000"},
    )
    for events, on in (((event(WEEKLY | marks),), "2026-09-01"), ((event(SINGLE | marks),), "2026-12-10"),
                       ((event(WEEKLY), moved), "2026-12-09")):  # fmt: skip
        assert read(*events).notices == (f'"Ilse" of {on}: {said}. It is a lesson all the same.',)
    alone = f'"Ilse" of 2026-12-09: {said}. It is a lesson all the same.'
    assert alone in read(moved).notices


@pytest.mark.parametrize(
    ("title", "word"),
    [
        ("Canceled: Ann", "Canceled"), ("CANCELLED - Ilse", "CANCELLED"), ("NO LESSON Bob", "NO LESSON"), ("No lessons (Ilse)", "No lessons"),
        ("Ann (called off)", "called off"), ("Ilse postponed", "postponed"), ("Abgesagt: Ilse", "Abgesagt"), ("Annulé : Ilse", "Annulé"),
        ("Cancelada: Ilse", "Cancelada"), ("Ilse fällt aus", "fällt aus"), ("no class ilse", "no class"), ("Cancellation Ann", "Cancellation"),
    ],
)  # fmt: skip
def test_a_title_that_says_there_is_no_lesson_is_left_out_with_its_word(title, word):
    why = f'its title says "{word}"'
    for values in (WEEKLY, SINGLE):
        reading = read(event(values, SUMMARY=title))
        assert (reading.weekly, reading.lessons, reading.is_whole) == ((), (), False)
        assert f'"{title}" of ' in reading.left_out[0]
        assert why in reading.left_out[0]
    reading = read(event(WEEKLY), occurrence(title))
    assert (list(map(str, reading.titles)), reading.weekly[0].moved) == (["Ilse"], ())
    assert why in reading.left_out[0]
    assert "That lesson stays as the rule has it" in reading.left_out[0]
    assert [each.uid for each in read(event(SINGLE, SUMMARY=title, STATUS="CANCELLED")).called_off] == [SINGLE["UID"]]


def test_a_change_of_all_later_lessons_is_left_out_with_what_would_work():
    following = event(
        WEEKLY | at("20261208T170000"),
        RRULE=None,
        **{"RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=America/Chicago": "20261208T160000"},
    )
    reading = read(event(WEEKLY), following)
    assert reading.weekly == ()
    assert reading.left_out == (
        '"Ilse" of 2026-09-01: one change in it is for all lessons from Tuesday, December 8, 2026 on. '
        "In your calendar, end the series before that day, make a new one from then on, and export it again.",
    )


def test_rules_of_a_known_zone_that_are_not_those_of_the_zone_data_are_told():
    told = (
        'The file\'s own rules for the time zone "{}" differ from the time zone data, first on Sunday, {}. '
        "The time zone data was used. Check the times after that day.",
    )
    old = BERLIN.format(name="America/Chicago").replace("+0200", "-0500").replace("+0100", "-0600")
    for name in ("America/Chicago", "Central Standard Time"):
        rules = old.replace("TZID:America/Chicago", f"TZID:{name}")
        start = {"DTSTART;TZID=America/Chicago": None, f"DTSTART;TZID={name}": "20260901T160000"}
        reading = read(rules, event(WEEKLY | start))
        assert (len(reading.weekly), reading.notices) == (1, (told[0].format(name, "March 14, 2027"),))


@pytest.mark.parametrize("years", [(2026, 2027), (2026, 2030)])
@pytest.mark.parametrize(
    "zone", ["America/New_York", "Africa/Casablanca", "Asia/Kolkata", "Asia/Gaza", "Europe/Dublin"]
)
def test_rules_of_a_known_zone_that_are_those_of_the_zone_data_are_not_told(zone, years):
    rules = zone_component(zone, *years).to_ical().decode()
    start = {"DTSTART;TZID=America/Chicago": None, f"DTSTART;TZID={zone}": "20260901T160000"}
    assert read(rules, event(WEEKLY | start)).notices == ()
