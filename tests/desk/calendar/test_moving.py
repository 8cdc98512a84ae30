"""A family moves house: the line, what is told before it is done, and what goes by the date of the lesson from then on."""

from datetime import UTC, date, datetime

import pytest
from icalendar import Calendar
from support.arranged_studio import arranged_studio
from support.sample import sample_studio
from support.studio import home

from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between, bookings_on
from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moves import clock_text
from cockpit.studio.errors import BadInput, Refused

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def propose(studio, line, name="Ilse"):
    booking = next(each for each in studio.desk.day.bookings if each.student.name == name)
    return studio.desk.arranging.propose(Purpose.DETAILS, booking, line)


def do(studio, line, name="Ilse"):
    studio.desk.arranging.do(propose(studio, line, name))
    studio.desk.day.reload()


def clock_of(studio, name="Ilse"):
    people = studio.store.reading.people()
    student = next(each for each in people.students.values() if each.name == name)
    return clock_text(people.families[student.family_id].zone)


def shown_on(studio, on, name="Ilse"):
    """The lesson of a day on both clocks."""
    home_clock = studio.preferences.home
    (booking,) = [
        each
        for each in bookings_on(studio.store.reading, date.fromisoformat(on), home_clock)
        if each.student.name == name
    ]
    return home_clock.both(booking.lesson.starts_at, booking.family.zone)


def file_of(arranged):
    """The events of the calendar file by UID, without those of single lessons."""
    shared = HandingOut(arranged.studio.store.reading, arranged.clock, arranged.studio.preferences).calendar(
        None, "Banerjee"
    )
    events = Calendar.from_ical(calendar_file(shared)).walk("VEVENT")
    return {str(event["UID"]): event for event in events if "RRULE" in event}


def test_a_move_is_told_with_its_lessons_and_goes_by_the_date_of_each(studio):
    for line in ("zone denver from 1 march", "zone denver from mar 1", "they move to denver on march 1"):
        assert propose(studio, line).understood == (
            "Ilse, Brandvold family: zone: Phoenix; Denver from Mon, March 1, 2027. "
            "From Mon, March 1, 2027, in Denver: Ilse, cello: 3:00 pm stays 3:00 pm (4:00 pm for you)."
        )
    assert propose(studio, "zone denver from mar 1").troubles == ()
    do(studio, "zone denver from mar 1")
    assert clock_of(studio) == "America/Phoenix; America/Denver from 2027-03-01"
    assert [shown_on(studio, on) for on in ("2027-02-23", "2027-03-02", "2027-03-16")] == [
        "4:00 pm (3:00 pm Phoenix)",
        "4:00 pm (3:00 pm Denver)",
        "4:00 pm (3:00 pm Denver)",
    ]
    studio.desk.teaching.undo()
    assert clock_of(studio) == "America/Phoenix"
    assert shown_on(studio, "2027-03-16") == "4:00 pm (2:00 pm Phoenix)"


def test_a_place_without_a_day_is_a_correction_and_says_so(studio):
    said = propose(studio, "zone denver").understood
    assert "zone: Denver from the beginning, a correction and not a move (was Phoenix)" in said
    assert "The next lesson is Tue, December 1, 4:00 pm · 3:00 pm Denver." in said
    do(studio, "zone denver from mar 1")
    said = propose(studio, "zone boise").understood
    assert "Boise from the beginning" in said
    assert "(was Phoenix; Denver from Mon, March 1, 2027)" in said
    do(studio, "zone boise")
    assert clock_of(studio) == "America/Boise"


def test_a_move_to_come_can_be_changed_and_taken_away_and_there_can_be_a_second(studio):
    do(studio, "zone denver from mar 1")
    do(studio, "zone denver from mar 8")
    assert clock_of(studio) == "America/Phoenix; America/Denver from 2027-03-08"
    do(studio, "zone boise from june 1")
    assert clock_of(studio) == "America/Phoenix; America/Denver from 2027-03-08; America/Boise from 2027-06-01"
    assert "zone: Phoenix, no move (was Phoenix; Denver" in propose(studio, "no move").understood
    do(studio, "no move")
    assert clock_of(studio) == "America/Phoenix"
    for line in ("no move", "zone phoenix", "zone phoenix from mar 1"):
        with pytest.raises(Refused, match="That is so already"):
            propose(studio, line)
    for _ in range(4):
        studio.desk.teaching.undo()
    assert clock_of(studio) == "America/Phoenix"


def test_a_stay_for_a_while_ends_and_lessons_on_their_clock_keep_their_moment(studio):
    proposal = propose(studio, "zone denver from june 1 to june 30", "Teodor")
    assert "Denver from Tue, June 1, 2027, through Wed, June 30, 2027" in proposal.understood
    assert "in Denver: Teodor, guitar: 9:15 pm becomes 2:15 pm (3:15 pm for you)" in proposal.understood
    assert "From Thu, July 1, 2027, in London: Teodor, guitar: 2:15 pm becomes 9:15 pm" in proposal.understood
    assert proposal.troubles == ()


def test_lessons_on_their_clock_go_along_and_what_comes_into_their_way_is_told(studio):
    proposal = propose(studio, "zone paris from jan 5", "Teodor")
    assert "in Paris: Teodor, guitar: 9:15 pm stays 9:15 pm (3:15 pm becomes 2:15 pm for you)." in proposal.understood
    assert any(
        "Teodor (2:15 pm to 2:45 pm; 9:15 pm Paris) and Eilidh" in each and "overlap" in each
        for each in proposal.troubles
    )
    assert shown_on(studio, "2027-01-05", "Teodor") == "3:15 pm (9:15 pm London)"
    do(studio, "zone paris from jan 5", "Teodor")
    assert shown_on(studio, "2026-12-29", "Teodor") == "3:15 pm (9:15 pm London)"
    # The day of the move is a day of his lesson.
    assert shown_on(studio, "2027-01-05", "Teodor") == "2:15 pm (9:15 pm Paris)"


def test_a_night_there_is_told_and_a_letter_where_their_time_is_another(studio):
    proposal = propose(studio, "zone kolkata from jan 5")
    assert (
        "Tue 3:00 pm becomes Wed 3:30 am (Tue 4:00 pm for you). Coming up can write to the family"
        in proposal.understood
    )
    assert any("during the night for the family" in each for each in proposal.troubles)
    # One that was night before is told again at its new hour.
    assert any("Wed 1:00 am London" in each for each in propose(studio, "zone london from dec 10", "Ishaan").troubles)


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("zone atlantis from june 1", "found atlantis from june 1"),
        ("zone denver from hello", '"hello" is not understood'),
        ("zone denver from june 1 to may 31", "Type a later day"),
        ("zone denver from feb 30", "feb 30"),
        ("they move to denver", "first day of the move"),
        ("zone denver from mar 1, zone boise", "says zone twice"),
        ("zone denver from mar 1, no move", "says zone twice"),
        ("zone -", "Zone of what"),
    ],
)
def test_what_cannot_be_used_is_named_and_nothing_changes(studio, line, named):
    before = studio.store.reading.people()
    with pytest.raises(BadInput, match=named):
        propose(studio, line)
    assert studio.store.reading.people() == before


def test_coming_up_tells_the_move_and_writes_to_the_family_alone(studio):
    do(studio, "zone new york from jan 5")
    (ahead,) = [each for each in studio.desk.ahead.clock_changes(8) if each.moves]
    (move,) = ahead.moves
    assert (ahead.changed_on, move.family.name, move.change.zone) == (date(2027, 1, 5), "Brandvold", "America/New_York")
    assert [shift.student.name for shift in ahead.shifts] == ["Ilse"]
    (path,) = studio.desk.ahead.write_messages(8)
    text = path.read_text()
    assert "This lesson will be at a different time for you:" in text
    assert "at 5:00 pm New York time (UTC−05:00) instead of 3:00 pm (UTC−07:00)" in text


def test_what_was_arranged_keeps_its_time_and_is_named_where_it_reads_otherwise(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-10", "Ishaan", "Scales: D major")
        booking = arranged.booking("2026-12-17", "Ishaan")
        arranged.studio.desk.arranging.do(arranged.studio.desk.arranging.propose(Purpose.MOVE, booking, "dec 18 9 am"))
        booking = arranged.booking("2026-12-10", "Ishaan")
        line = "zone honolulu from dec 9"
        proposal = arranged.studio.desk.arranging.propose(Purpose.DETAILS, booking, line)
        assert any(
            "Lessons that you arranged yourself keep your time: Ishaan, Fri, December 18, 9:00 am · 5:00 am Honolulu"
            in each
            for each in proposal.troubles
        )
        arranged.studio.desk.arranging.do(proposal)
        # Notes typed ahead go along to the other day of her clock.
        reading, clock = arranged.studio.store.reading, arranged.studio.preferences.home
        found = bookings_between(reading, home("2026-12-07 00:00"), home("2026-12-14 00:00"), clock)[0]
        (there,) = [each for each in found if each.student.name == "Ishaan"]
        assert clock.date_of(there.lesson.starts_at) == date(2026, 12, 11)
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"


def test_a_family_calendar_has_a_series_on_each_side_of_a_move_and_grows_its_number(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        studio = arranged.studio
        before = studio.store.reading.calendar_edition()[1]
        booking = arranged.booking("2026-12-10", "Ishaan")
        studio.desk.arranging.do(studio.desk.arranging.propose(Purpose.DETAILS, booking, "zone honolulu from jan 4"))
        assert studio.store.reading.calendar_edition()[1] > before
        shared = HandingOut(studio.store.reading, arranged.clock, studio.preferences).calendar(None, "Banerjee")
        assert [(each.zone, each.first.time()) for each in shared.series] == [
            ("Asia/Kolkata", shared.series[0].first.time()),
            ("Pacific/Honolulu", shared.series[0].first.time()),
        ]
        assert shared.series[0].last is not None
        assert shared.series[1].first.date() == date(2027, 1, 7)
        series = file_of(arranged)
        (moved,) = [name for name in series if name.endswith(f"-1@{studio.store.reading.calendar_edition()[0]}")]
        arranged.undo()
        assert studio.store.reading.calendar_edition()[1] > before + 1
        # A program that took the file in is told that the series behind the move is no more, until a year is over.
        assert file_of(arranged)[moved]["STATUS"] == "CANCELLED"
        assert "STATUS" not in file_of(arranged)[moved.replace("-1@", "@")]
        studio.desk.arranging.do(studio.desk.arranging.propose(Purpose.DETAILS, booking, "zone boise from jan 4"))
        assert "STATUS" not in file_of(arranged)[moved]
        arranged.undo()
        assert studio.store.writing is not None
        studio.store.writing.clear_withdrawn(arranged.clock.now())
        assert moved in file_of(arranged)
        arranged.clock.wind(days=420)
        assert moved not in file_of(arranged)
        studio.store.writing.clear_withdrawn(arranged.clock.now())
        assert studio.store.reading.withdrawn_clocks() == ()


def test_a_student_who_comes_into_a_family_that_moves_has_its_clock(studio):
    do(studio, "zone denver from mar 1")
    line = "jory, guitar, wed 2pm phoenix 30m from feb 3 2027, with ilse"
    proposal = studio.desk.arranging.propose(Purpose.STUDENT, None, line)
    studio.desk.arranging.do(proposal)
    assert clock_of(studio, "Jory") == "America/Phoenix; America/Denver from 2027-03-01"
    assert shown_on(studio, "2027-02-24", "Jory") == "3:00 pm (2:00 pm Phoenix)"
    assert shown_on(studio, "2027-03-24", "Jory") == "3:00 pm (2:00 pm Denver)"
    with pytest.raises(BadInput, match="The Brandvold family lives in Phoenix, not in London"):
        studio.desk.arranging.propose(
            Purpose.STUDENT, None, "tove, guitar, wed 2pm london 30m from feb 3 2027, with ilse"
        )


def test_a_line_on_their_clock_is_read_in_the_city_of_its_day(studio):
    do(studio, "zone london from mar 1")
    booking = next(each for each in studio.desk.day.bookings if each.student.name == "Ilse")
    for line, said in (
        ("feb 24 2027 5 pm her time", "5:00 pm is Phoenix time"),
        ("mar 3 2027 5 pm her time", "5:00 pm is London time"),
        ("mar 3 2027 5 pm brandvold", "5:00 pm is London time"),
    ):
        assert said in studio.desk.arranging.propose(Purpose.EXTRA, booking, line).understood


def test_a_family_for_a_while_away_keeps_its_stay_as_a_value(studio):
    do(studio, "zone denver from june 1 to june 30")
    family = next(each for each in studio.store.reading.people().families.values() if each.name == "Brandvold")
    stay = Stay(zone="America/Denver", from_on=date(2027, 6, 1), until_on=date(2027, 6, 30))
    assert family.zone == Home(zone="America/Phoenix", stays=(stay,))
