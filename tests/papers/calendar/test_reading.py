"""Calendar files that are brought in: what becomes of each kind of event, and bounds for files that mean harm.

Sources: RFC 5545 3.3.10 (rules; UNTIL is a moment, and inclusive), 3.3.5 (floating times), 3.8.4.4 (RECURRENCE-ID),
3.8.5.1 (EXDATE), 3.8.2.2 and 3.8.2.5 (DTEND, DURATION); RFC 7986 5.11 (CONFERENCE). The names of zones in Windows are
those of the Unicode CLDR. The bounds are common practice, no source.
"""

import time as stopwatch
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import HOME, utc

from cockpit.papers.calendar.reading import MOST_BYTES, MOST_LINES, read_calendar
from cockpit.studio.calendar.events import EventsReading, MovedMeeting
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.values import replace

BEGINS = date(2026, 11, 25)
SINGLE = {
    "UID": "one@example.org",
    "SUMMARY": "Ilse",
    "DTSTART;TZID=America/Chicago": "20261201T160000",
    "DURATION": "PT30M",
}
WEEKLY = SINGLE | {"RRULE": "FREQ=WEEKLY"}


def event(values: dict[str, str | None], **more: str | None) -> str:
    lines = [f"{name.replace('_', '-')}:{value}" for name, value in (values | more).items() if value is not None]
    return "\r\n".join(("BEGIN:VEVENT", *lines, "END:VEVENT", ""))


def at(local: str, zone: str | None = "America/Chicago") -> dict[str, str | None]:
    """A start in place of the usual one."""
    start = {"DTSTART": local} if zone is None else {f"DTSTART;TZID={zone}": local}
    return {"DTSTART;TZID=America/Chicago": None} | start


def read(*events: str, begins: date = BEGINS, home_zone: str | Home = HOME) -> EventsReading:
    text = "".join(("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\n", *events, "END:VCALENDAR\r\n"))
    return read_calendar(text.encode(), home_zone=home_zone, begins=begins)


def row(*events: str, **values):
    reading = read(*events, **values)
    assert reading.left_out == ()
    (weekly,) = reading.weekly
    return weekly.row


def refused(*events: str) -> str:
    reading = read(*events)
    assert reading.weekly == ()
    assert reading.lessons == ()
    (said,) = reading.left_out
    return said


def test_a_weekly_event_becomes_a_standing_time():
    found = row(event(WEEKLY, URL="https://call.example.org/ilse"))
    assert (found.student, found.weekday, found.at, found.minutes) == ("Ilse", 1, time(16), 30)
    assert (found.from_on, found.until_on) == (date(2026, 12, 1), None)
    assert (found.kept_in, found.zone) == (KeptIn.TEACHER, None)
    assert found.call_link == "https://call.example.org/ilse"


def test_an_event_of_several_weekdays_becomes_as_many_standing_times():
    reading = read(event(WEEKLY, RRULE="FREQ=WEEKLY;BYDAY=TU,TH;COUNT=5"))
    rows = [each.row for each in reading.weekly]
    assert [(each.weekday, each.from_on, each.until_on) for each in rows] == [
        (1, date(2026, 12, 1), date(2026, 12, 15)),
        (3, date(2026, 12, 3), date(2026, 12, 15)),
    ]


def test_an_event_every_second_week_keeps_its_weeks():
    """RFC 5545 3.8.5.3: with weeks that begin on Sunday, Sunday comes before the Tuesday of its week."""
    weekly = read(event(WEEKLY, RRULE="FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=SU")).weekly
    assert [(each.every_weeks, each.row.from_on) for each in weekly] == [
        (2, date(2026, 12, 1)),
        (2, date(2026, 12, 13)),
    ]


@pytest.mark.parametrize(
    ("until", "last"),
    [
        ("20261222T220000Z", date(2026, 12, 22)),  # the start of the last meeting
        ("20261222T215959Z", date(2026, 12, 21)),  # a second before it
        ("20261222T000000Z", date(2026, 12, 21)),  # on her clock still the evening of the 21st, after four
        ("20261222", date(2026, 12, 22)),
        ("20261222T160000", date(2026, 12, 22)),
    ],
)
def test_the_end_of_a_rule_is_the_last_day_that_a_meeting_can_be_on(until, last):
    """RFC 5545 3.3.10; the rejected erratum 6212 asked for midnight to mean the day."""
    found = row(event(WEEKLY, RRULE=f"FREQ=WEEKLY;UNTIL={until}"))
    assert found.until_on == last


def test_a_family_in_another_zone_keeps_the_time_on_its_own_clock():
    found = row(event(WEEKLY | at("20261201T220000", "Europe/London")))
    assert (found.kept_in, found.zone, found.at) == (KeptIn.FAMILY, "Europe/London", time(22))


@pytest.mark.parametrize(
    "zone", ["US/Central", "Central Standard Time", "/vendor.example/America/Chicago", "america/chicago"]
)
def test_a_zone_is_known_by_its_other_names(zone):
    found = row(event(WEEKLY | at("20261201T160000", zone)))
    assert (found.kept_in, found.zone) == (KeptIn.TEACHER, None)


def test_a_time_without_a_zone_is_on_the_teachers_clock():
    """RFC 5545 3.3.5: the time of whoever reads it."""
    assert row(event(WEEKLY | at("20261201T160000", None))).kept_in is KeptIn.TEACHER
    (single,) = read(event(SINGLE | at("20261201T160000", None))).lessons
    assert single.starts_at == utc("2026-12-01 22:00")


def test_the_teachers_clock_is_the_one_of_the_time_that_is_brought_in():
    moved = Home(zone="Europe/London", stays=(Stay(zone=HOME, from_on=date(2026, 11, 30)),))
    assert row(event(WEEKLY), home_zone=moved).kept_in is KeptIn.TEACHER


def test_a_single_event_becomes_a_lesson():
    (single,) = read(event(SINGLE, LOCATION="https://call.example.org/a")).lessons
    assert (single.uid, single.title, single.starts_at) == ("one@example.org", "Ilse", utc("2026-12-01 22:00"))
    assert (single.minutes, single.call_link) == (30, "https://call.example.org/a")


def test_the_length_is_exact_across_a_clock_change():
    """RFC 5545 3.8.2.2: DTEND is a moment. Chicago turns back at 2026-11-01 02:00."""
    late = SINGLE | at("20261101T003000") | {"DTEND;TZID=America/Chicago": "20261101T023000", "DURATION": None}
    (single,) = read(event(late), begins=date(2026, 10, 1)).lessons
    assert single.minutes == 180


@pytest.mark.parametrize(
    "place",
    [
        {"CONFERENCE;VALUE=URI;FEATURE=AUDIO,VIDEO;LABEL=Lesson": "https://call.example.org/a,b;c"},
        {"URL": "https://call.example.org/a,b;c"},
        {"LOCATION": "https://call.example.org/a\\,b\\;c"},
        {"LOCATION": "upstairs", "URL": "https://call.example.org/a,b;c"},
    ],
)
def test_the_call_link_is_the_first_web_address(place):
    assert row(event(WEEKLY | place)).call_link == "https://call.example.org/a,b;c"


def test_dates_that_a_rule_leaves_out_are_cancelled():
    left_out = {
        "EXDATE;TZID=America/Chicago": "20261208T160000,20261215T160000,20261216T160000,20261222T170000,20261103T160000",
        "EXDATE;VALUE=DATE": "20270105",
        "EXDATE": "20270112T220000Z",
    }
    (weekly,) = read(event(WEEKLY | at("20261103T160000") | left_out)).weekly
    # Not the Wednesday, not the hour later, not the one that is over.
    assert weekly.cancelled == (date(2026, 12, 8), date(2026, 12, 15), date(2027, 1, 5), date(2027, 1, 12))


def test_a_date_between_the_weeks_of_a_rule_is_no_meeting_of_it():
    rule = {"RRULE": "FREQ=WEEKLY;INTERVAL=2", "EXDATE": "20261208T220000Z,20261215T220000Z"}
    (weekly,) = read(event(WEEKLY | rule)).weekly
    assert weekly.cancelled == (date(2026, 12, 15),)


def test_an_exception_moves_a_meeting_or_cancels_it():
    moved = event(SINGLE | at("20261210T170000", "Europe/London"), RECURRENCE_ID="20261208T220000Z", DURATION="PT45M")
    called_off = event(SINGLE | at("20261215T160000"), RECURRENCE_ID="20261215T220000Z", STATUS="CANCELLED")
    same = event(SINGLE | at("20261222T160000"), RECURRENCE_ID="20261222T220000Z", SUMMARY="Ilse (room 2)")
    (weekly,) = read(moved, event(WEEKLY), called_off, same).weekly
    assert weekly.cancelled == (date(2026, 12, 15),)
    to_london = MovedMeeting(taught_on=date(2026, 12, 8), starts_at=utc("2026-12-10 17:00"), minutes=45)
    other = replace(to_london, taught_on=date(2026, 12, 22), starts_at=utc("2026-12-22 22:00"), minutes=30)
    assert weekly.moved == (to_london, replace(other, title="Ilse (room 2)", is_at_its_time=True))


def test_the_exceptions_of_several_weekdays_are_each_their_own():
    moved = event(SINGLE | at("20261211T160000"), RECURRENCE_ID="20261210T220000Z")
    two = event(WEEKLY, RRULE="FREQ=WEEKLY;BYDAY=TU,TH", EXDATE="20261208T220000Z")
    tuesday, thursday = read(two, moved).weekly
    assert (tuesday.cancelled, tuesday.moved) == ((date(2026, 12, 8),), ())
    assert [each.taught_on for each in thursday.moved] == [date(2026, 12, 10)]
    assert thursday.cancelled == ()


def test_what_is_marked_as_cancelled_is_read_apart_since_the_studio_may_have_it():
    off = read(
        event(WEEKLY, STATUS="CANCELLED", RRULE="FREQ=WEEKLY;BYDAY=TU,TH"),
        event(SINGLE, UID="two@example.org", STATUS="cancelled"),
        event(SINGLE, UID="three@example.org", RECURRENCE_ID="20261201T220000Z", STATUS="CANCELLED"),
        event(SINGLE | at("20261124T160000"), UID="over@example.org", STATUS="CANCELLED"),
        event(WEEKLY, UID="again@example.org"),
    )
    assert [each.uid for each in off.called_off] == [
        "one@example.org", "one@example.org", "two@example.org", "three@example.org/2026-12-01T22:00:00",
    ]  # fmt: skip
    assert [each.uid for each in off.weekly] == ["again@example.org"]
    assert off.lessons == ()
    assert off.left_out == ("1 event before Wednesday, November 25, 2026 skipped.",)


def test_an_exception_whose_rule_is_not_there_is_a_lesson_by_itself():
    (single,) = read(event(SINGLE, RECURRENCE_ID="20261201T220000Z")).lessons
    assert single.starts_at == utc("2026-12-01 22:00")
    assert single.uid == "one@example.org/2026-12-01T22:00:00"


def test_an_exception_that_cannot_be_taken_leaves_its_meeting_as_the_rule_has_it_and_is_told():
    whole_day = event(SINGLE | at("20261209", None), RECURRENCE_ID="20261208T220000Z").replace(
        "DTSTART:", "DTSTART;VALUE=DATE:"
    )
    reading = read(event(WEEKLY), whole_day)
    (weekly,), (said,) = reading.weekly, reading.left_out
    assert (weekly.cancelled, weekly.moved) == ((), ())
    assert "Tuesday, December 8, 2026 cannot be imported: it is an all-day event. That lesson stays as the rule" in said
    following = event(SINGLE | {"RECURRENCE-ID;RANGE=THISANDFUTURE": "20261208T220000Z"})
    assert "one change in it is for all lessons from Tuesday, December 8" in refused(event(WEEKLY), following)


def test_the_latest_version_of_an_event_counts():
    old, new = event(WEEKLY, SEQUENCE="2"), event(WEEKLY | at("20261201T170000"), SEQUENCE="10")
    assert row(old, new).at == row(new, old).at == time(17)


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"SUMMARY": None}, "it has no title"),
        ({"SUMMARY": "  "}, "it has no title"),
        ({"SUMMARY": "Il\x07se"}, "its title is not a name"),
        ({"SUMMARY": "x" * 201}, "its title is not a name"),
        ({"DURATION": None}, "it lasts 0 minutes"),
        ({"DURATION": "PT241M"}, "it lasts 241 minutes, but a lesson lasts 5 to 240"),
        ({"DURATION": "PT4M"}, "it lasts 4 minutes"),
        ({"DURATION": "PT30M30S"}, "it lasts 30.5 minutes"),
        ({"DURATION": "-PT30M"}, "it lasts -30 minutes"),
        ({"DURATION": "P3D"}, "it lasts 3 days"),
        ({"DURATION": "half an hour"}, "its DURATION could not be read"),
        (at("2026-12-01 16:00"), "its DTSTART could not be read"),
        ({"DTSTART;TZID=America/Chicago": None}, "its time could not be read"),
        (at("20261201T160000", "Chicgo"), "such as America/Chicago"),
        (at("20261201T160000", "EST"), "such as America/New_York or America/Toronto"),
        (at("22610101T160000"), "its year is 2261"),
    ],
)
def test_an_event_that_is_no_lesson_is_left_out_with_the_reason(values, why):
    assert why in refused(event(SINGLE | values))


@pytest.mark.parametrize(
    ("rule", "why"),
    [
        ("FREQ=DAILY", "it repeats daily, not weekly"),
        ("FREQ=MONTHLY;BYDAY=1TU", "it repeats monthly, not weekly"),
        ("FREQ=SECONDLY", "it repeats secondly, not weekly"),
        ("FREQ=SOMETIMES", "its RRULE could not be read"),
        ("FREQ=WEEKLY;INTERVAL=3", "it repeats every 3 weeks"),
        ("FREQ=WEEKLY;BYMONTH=9,10", "its rule uses BYMONTH"),
        ("FREQ=WEEKLY;BYDAY=WE", "its first day is not one of its weekdays"),
        ("FREQ=WEEKLY;BYDAY=1TU", "its rule uses 1TU"),
        ("FREQ=WEEKLY;COUNT=4;UNTIL=20270101T000000Z", "its rule has two ends"),
        ("FREQ=WEEKLY;COUNT=0", "the COUNT of its rule is not a number"),
    ],
)
def test_a_rule_that_no_standing_time_has_is_left_out_with_the_reason(rule, why):
    assert why in refused(event(SINGLE, RRULE=rule))


def test_dates_beside_a_rule_and_two_rules_are_left_out():
    assert "separate dates" in refused(event(WEEKLY, RDATE="20261203T220000Z"))
    assert "separate dates" in refused(event(SINGLE, RDATE="20261203T220000Z"))
    assert "its RRULE could not be read" in refused(event(WEEKLY).replace("RRULE", "RRULE:FREQ=WEEKLY\r\nRRULE"))


def test_a_whole_day_is_no_lesson():
    birthday = SINGLE | {"DTSTART;TZID=America/Chicago": None, "DTSTART;VALUE=DATE": "20261201", "DURATION": None}
    assert refused(event(birthday)) == '"Ilse" of 2026-12-01: it is an all-day event.'


def test_a_rule_on_the_clock_of_utc_is_nobodys():
    assert "repeats in UTC" in refused(event(WEEKLY | at("20261201T220000Z", None)))
    (single,) = read(event(SINGLE | at("20261201T220000Z", None))).lessons
    assert single.starts_at == utc("2026-12-01 22:00")


def test_what_is_over_is_counted_and_nothing_else():
    over = event(WEEKLY | at("20260901T160000"), RRULE="FREQ=WEEKLY;COUNT=3")
    before = event(SINGLE | at("20261124T160000"), UID="two@example.org")
    today = event(SINGLE | at("20261125T001500"), UID="three@example.org")
    reading = read(over, before, today)
    assert [each.uid for each in reading.lessons] == ["three@example.org"]
    assert reading.left_out == ("2 events before Wednesday, November 25, 2026 skipped.",)


def test_two_zones_or_one_time_twice_are_left_out_and_not_guessed():
    one, other = WEEKLY | at("20261201T160000", "Europe/London"), WEEKLY | at("20261202T160000", "Asia/Kolkata")
    reading = read(event(one), event(other, UID="b"))
    assert [each.row.zone for each in reading.weekly] == ["Europe/London"]
    assert "Asia/Kolkata" in reading.left_out[0]
    twice = read(event(WEEKLY), event(WEEKLY, UID="b"))
    assert len(twice.weekly) == 1
    assert twice.left_out == ('"Ilse": another event with this title has the same weekday and time.',)


def test_a_standing_time_that_changed_at_a_date_is_two():
    before = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261222T220000Z")
    after = event(WEEKLY | at("20261229T160000"), UID="b", DURATION="PT45M")
    assert [each.row.minutes for each in read(before, after).weekly] == [30, 45]


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "not a calendar file"),
        (b"student,weekday\nIlse,Tue\n", "not a calendar file"),
        (b"\x89PNG\r\n\x1a\n\0\0\0", "not UTF-8"),
        (b"BEGIN:VCARD\r\nFN:Ilse\r\nEND:VCARD\r\n", "not a calendar file"),
        (b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nSUMMARY:Il", "is cut off"),
        (b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n", "could not be read"),
        ("BEGIN:VCALENDAR\r\nNAME:Zoë\r\nEND:VCALENDAR\r\n".encode("latin-1"), "not UTF-8"),
        ("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n".encode("utf-16"), "not UTF-8"),
    ],
)
def test_what_is_no_whole_calendar_is_refused_with_a_sentence(data, why):
    with pytest.raises(BadInput, match=why):
        read_calendar(data, home_zone=HOME, begins=BEGINS)


def test_a_calendar_with_a_mark_other_line_ends_and_several_parts_is_read():
    part = "BEGIN:VCALENDAR\nVERSION:2.0\n" + event(SINGLE).replace("\r\n", "\n") + "END:VCALENDAR\n"
    data = ("\ufeff" + part + part.replace("one@", "two@")).encode()
    assert len(read_calendar(data, home_zone=HOME, begins=BEGINS).lessons) == 2


def _whole(inner: str) -> bytes:
    return f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n{inner}END:VCALENDAR\r\n".encode()


OWN_ZONE = (
    "BEGIN:VTIMEZONE\r\nTZID:Endless\r\nBEGIN:STANDARD\r\nDTSTART:19000101T000000\r\nRRULE:FREQ=SECONDLY\r\n"
    "TZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n"
)


def _heavy(part: int) -> dict[str, str]:
    """What takes seconds to read because there is so much of it; or one part of that."""
    count, many = 10_000 // part, 49_000 // part
    return {
        "10,000 events": "".join(event(SINGLE, UID=str(number)) for number in range(count)),
        "10,000 weekly events": "".join(event(WEEKLY, UID=str(number)) for number in range(count)),
        "100,000 dates left out": event(WEEKLY, EXDATE=",".join(["20261208T220000Z"] * (100_000 // part))),
        "90,000 rules of one event": event(SINGLE, X="y").replace(
            "X:y\r\n", "RRULE:FREQ=WEEKLY;BYDAY=MO,TU\r\n" * (90_000 // part)
        ),
        "events without anything": "BEGIN:VEVENT\r\nEND:VEVENT\r\n" * many,
        "events in events": "BEGIN:VEVENT\r\n" * many + "END:VEVENT\r\n" * many,
    }


HARMFUL = {
    "more than 5 MB": event(SINGLE, DESCRIPTION="x" * MOST_BYTES),
    "too many lines": event(SINGLE) * (MOST_LINES // 6 + 1),
    "5 MB in one line": event(SINGLE, DESCRIPTION="x" * (MOST_BYTES - 1000)),
    "5 MB folded": event(SINGLE, DESCRIPTION="\r\n ".join(["xxxxxxxxxx"] * 350_000)),
    "1,000 weekly events": "".join(event(WEEKLY, UID=str(number), SUMMARY=str(number)) for number in range(1000)),
    "1,100 weekly events": "".join(event(WEEKLY, UID=str(number)) for number in range(1100)),
    "rules that never end": "".join(event(SINGLE, UID=str(n), RRULE="FREQ=SECONDLY") for n in range(1000)),
    "a count without measure": event(WEEKLY, RRULE=f"FREQ=WEEKLY;COUNT={10**40}"),
    "a zone of its own that never ends": OWN_ZONE
    + event(WEEKLY | at("20261201T160000", "Endless"), EXDATE="20261208T220000Z"),
    "exceptions in such a zone": OWN_ZONE
    + event(WEEKLY)
    + event(SINGLE | at("20261201T160000", "Endless") | {"RECURRENCE-ID;TZID=Endless": "20261208T160000"}),
    "a title that is a time in such a zone": OWN_ZONE
    + event(SINGLE | {"SUMMARY": None, "SUMMARY;VALUE=DATE-TIME;TZID=Endless": "20261208T160000"}),
}


@pytest.mark.parametrize(
    "inner",
    [
        *(
            pytest.param(inner, id=name, marks=pytest.mark.long if name == "5 MB folded" else ())
            for name, inner in HARMFUL.items()
        ),
        *(pytest.param(inner, id=f"a hundredth of {name}") for name, inner in _heavy(100).items()),
        *(pytest.param(inner, id=f"a fifth of {name}", marks=pytest.mark.long) for name, inner in _heavy(5).items()),
    ],
)
def test_a_file_that_means_harm_is_answered_within_seconds(inner):
    begins = stopwatch.process_time()
    _answer(_whole(inner))
    assert stopwatch.process_time() - begins < 6  # of this process alone, so that a busy machine changes nothing


def _answer(data: bytes) -> EventsReading | None:
    """What a file comes to, which is bounded, or nothing where it is refused with a sentence."""
    try:
        answer = read_calendar(data, home_zone=HOME, begins=BEGINS)
    except BadInput as refusal:
        said = str(refusal)
        if not said.endswith("."):
            pytest.fail(said)
        return None
    assert len(answer.left_out) <= 502
    assert len(answer.weekly) <= 1000
    return answer


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("more than 5 MB", "is 5.0 MB. The limit is 5 MB"),
        ("too many lines", "100,005 lines. The limit is 100,000"),
        ("1,100 weekly events", "1,100 weekly lessons. The limit is 1,000"),
    ],
)
def test_a_file_that_is_too_large_is_refused_with_what_to_do(name, why):
    with pytest.raises(BadInput, match=f"{why}.* Export only the calendar"):
        read_calendar(_whole(HARMFUL[name]), home_zone=HOME, begins=BEGINS)


@pytest.mark.long
def test_ten_thousand_events_are_read():
    lessons = read_calendar(_whole(_heavy(1)["10,000 events"]), home_zone=HOME, begins=BEGINS).lessons
    assert len(lessons) == 10_000


PIECES = st.sampled_from(
    [
        "BEGIN:VEVENT", "END:VEVENT", "BEGIN:VALARM", "END:VALARM", "DTSTART:", "DTSTART;TZID=", "DTSTART;VALUE=DATE:",
        "DTEND:", "RRULE:", "FREQ=WEEKLY", "UNTIL=", "COUNT=", "BYDAY=", "INTERVAL=", "20261201", "T160000", "Z", "TU",
        "EXDATE:", "RECURRENCE-ID:", "SUMMARY:", "UID:", "\r\n", "\r\n", "\r\n ", ";", ",", ":", "=", '"', "-1", "99",
        "DURATION:PT", "M", "America/Chicago", "Ilse", "\\", "é", "STATUS:CANCELLED", "SEQUENCE:", "RDATE:", "/", "P1W",
    ]
)  # fmt: skip


@examples(80, long=400)
@given(pieces=st.lists(PIECES, max_size=40), place=st.integers(0, 400))
def test_no_file_breaks_the_reading(pieces, place):
    whole = event(WEEKLY, EXDATE="20261208T220000Z") + event(SINGLE, RECURRENCE_ID="20261208T220000Z")
    place = min(place, len(whole))
    for inner in (
        "\r\n".join(["BEGIN:VEVENT", "".join(pieces), "END:VEVENT", ""]),
        whole[:place] + "".join(pieces) + whole[place:],
    ):
        answer = _answer(_whole(inner))
        if answer is not None:
            assert all(5 <= each.row.minutes <= 240 for each in answer.weekly)
            assert all(5 <= each.minutes <= 240 for each in answer.lessons)
