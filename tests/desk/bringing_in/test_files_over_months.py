"""Files that go on being read while months pass: what they take back, split, hand on and join again."""

from support.arranged_studio import ROSTER, arranged_studio
from support.calendars import WEEKLY, at, brought, event
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose

OFF = {"STATUS": "CANCELLED"}


def test_a_series_that_the_file_cancels_and_takes_up_again_goes_on(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | OFF))
        brought(arranged, event(WEEKLY))
        assert arranged.lessons("Ilse", "2026-11-23", "2026-12-09") == [
            "Tue 2026-11-24 16:00", "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00",
        ]  # fmt: skip
        again = brought(arranged, event(WEEKLY))
        assert (again.lines, again.troubles) == ((), ())


def test_a_series_that_ended_here_stays_so_though_the_file_cancels_it_and_takes_it_up_again(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "until 3 dec")
        arranged.clock.at = home("2026-12-10 10:00")
        brought(arranged, event(WEEKLY | OFF))
        assert brought(arranged, event(WEEKLY)).lines == ()
        assert arranged.lessons("Ilse", "2026-11-23", "2027-01-09") == [
            "Tue 2026-11-24 16:00", "Tue 2026-12-01 16:00",
        ]  # fmt: skip


def test_a_split_series_is_two_though_both_parts_are_at_one_time(tmp_path):
    first = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261214T000000Z")
    longer = WEEKLY | at("20261215T160000") | {"UID": "rest@example.org", "DURATION": "PT45M"}
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        found = brought(arranged, first, event(longer))
        assert found.lines == (
            "new: Ilse, Tuesday 4:00 pm, 45 minutes, from 2026-12-15 (family Ilse)",
            "changed: Ilse, Tuesday: through - -> 2026-12-13",
        )
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261207T000000Z"), event(longer))
        assert arranged.lessons("Ilse", "2026-11-30", "2026-12-24") == [
            "Tue 2026-12-01 16:00", "Tue 2026-12-15 16:00", "Tue 2026-12-22 16:00",
        ]  # fmt: skip


def test_a_weekday_that_one_event_hands_to_another_keeps_its_lessons(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;BYDAY=TU,TH"))
        thursday = WEEKLY | at("20260903T160000") | {"UID": "thursday@example.org"}
        files = event(WEEKLY), event(thursday)
        for _ in range(2):
            brought(arranged, *files)
            assert arranged.lessons("Ilse", "2026-11-25", "2026-12-05") == [
                "Thu 2026-11-26 16:00", "Tue 2026-12-01 16:00", "Thu 2026-12-03 16:00",
            ]  # fmt: skip


def test_a_weekday_that_an_event_does_not_name_any_more_ends_with_all_that_was_changed_of_it_here(tmp_path):
    both, one = "FREQ=WEEKLY;BYDAY=TU,TH", "FREQ=WEEKLY;BYDAY=TU"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=both))
        arranged.done(Purpose.CHANGE, "2026-12-10", "Ilse", "from fri 11 dec 5 pm")
        brought(arranged, event(WEEKLY, RRULE=one))
        assert arranged.lessons("Ilse", "2026-11-25", "2026-12-20") == [
            "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00",
        ]  # fmt: skip


def test_what_a_row_spoke_of_before_its_change_has_met_is_not_told_as_missing(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        later = ROSTER.replace("Ilse,Tuesday,16:00", "Ilse,Thursday,17:00")
        arranged.studio.enrolling.take_in(later)
        assert arranged.studio.enrolling.take_in(later).troubles == ()


def test_another_turn_of_every_second_week_holds_from_now_on_and_notes_go_along(tmp_path):
    second = {"RRULE": "FREQ=WEEKLY;INTERVAL=2"}
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY | second))
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        brought(arranged, event(WEEKLY | second | at("20260908T160000")))
        assert arranged.lessons("Ilse", "2026-11-02", "2026-12-30") == [
            "Tue 2026-11-10 16:00", "Tue 2026-11-24 16:00", "Tue 2026-12-01 16:00", "Tue 2026-12-15 16:00",
            "Tue 2026-12-29 16:00",
        ]  # fmt: skip
        assert arranged.studio.desk.notes.sheet(arranged.booking("2026-12-15", "Ilse")).body == "Scales: D major"


def test_notes_go_along_where_lessons_to_come_begin_later(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY | at("20261208T160000")))
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        brought(arranged, event(WEEKLY | at("20261215T160000")))
        assert arranged.studio.desk.notes.sheet(arranged.booking("2026-12-15", "Ilse")).body == "Scales: D major"


def test_every_second_week_goes_on_in_its_turn(tmp_path):
    with arranged_studio(tmp_path, roster="", now="2026-12-02 10:00") as arranged:
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;INTERVAL=2;UNTIL=20261209T000000Z"))
        arranged.clock.at = home("2027-01-20 10:00")
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;INTERVAL=2;UNTIL=20270603T000000Z"))
        assert arranged.lessons("Ilse", "2026-12-01", "2027-02-20") == [
            "Tue 2026-12-08 16:00", "Tue 2027-02-02 16:00", "Tue 2027-02-16 16:00",
        ]  # fmt: skip


def test_a_series_that_ended_in_the_file_before_it_was_read_again_ends(tmp_path):
    ended = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261202T000000Z")
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY"))
        arranged.clock.at = home("2026-12-10 10:00")
        rest = event(WEEKLY | at("20261203T170000") | {"UID": "rest@example.org"})
        assert "changed: Ilse, Tuesday: through - -> 2026-12-09" in brought(arranged, ended, rest).lines
        assert brought(arranged, ended, rest).lines == ()
        assert arranged.lessons("Ilse", "2026-12-09", "2026-12-20") == ["Thu 2026-12-10 17:00", "Thu 2026-12-17 17:00"]
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261231T000000Z"), rest)
        assert arranged.lessons("Ilse", "2026-12-14", "2027-01-04") == [
            "Tue 2026-12-15 16:00", "Thu 2026-12-17 17:00", "Tue 2026-12-22 16:00", "Thu 2026-12-24 17:00",
            "Tue 2026-12-29 16:00", "Thu 2026-12-31 17:00",
        ]  # fmt: skip


def test_a_series_that_ended_in_the_file_and_whose_time_another_event_took_goes_on(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.clock.at = home("2026-12-10 10:00")
        ended = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261202T000000Z")
        rest = event(WEEKLY | at("20261208T160000") | {"UID": "rest@example.org"})
        for _ in range(2):
            brought(arranged, ended, rest)
            assert arranged.lessons("Ilse", "2026-11-23", "2026-12-24") == [
                "Tue 2026-11-24 16:00", "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00",
                "Tue 2026-12-22 16:00",
            ]  # fmt: skip


def test_what_an_end_made_here_left_stays_where_the_file_had_the_series_end_later_and_that_is_past(tmp_path):
    series = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261209T000000Z")
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, series)
        arranged.clock.at = home("2026-12-10 10:00")
        found = brought(arranged, series)
        assert found.lines == ()
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-24") == ["Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00"]


def test_an_event_that_takes_the_place_of_a_cancelled_one_is_another_lesson(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | OFF))
        new = event(WEEKLY, UID="new@example.org")
        for _ in range(2):
            brought(arranged, event(WEEKLY | OFF), new)
            assert arranged.lessons("Ilse", "2026-11-25", "2026-12-09") == [
                "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00",
            ]  # fmt: skip


def test_every_second_week_is_that_of_the_file_after_its_time_was_changed_there(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | at("20260903T160000")))
        arranged.clock.at = home("2026-12-05 10:00")
        brought(arranged, event(WEEKLY | at("20260903T160000"), RRULE="FREQ=WEEKLY;INTERVAL=2"))
        assert arranged.lessons("Ilse", "2026-12-14", "2027-01-14") == ["Thu 2026-12-24 16:00", "Thu 2027-01-07 16:00"]


def test_a_weekday_that_an_event_does_not_name_any_more_is_ended_once(tmp_path):
    both, one = "FREQ=WEEKLY;BYDAY=TU,TH", "FREQ=WEEKLY;BYDAY=TU"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=both))
        arranged.done(Purpose.CHANGE, "2026-11-26", "Ilse", "from fri 27 nov 5 pm")
        arranged.clock.at = home("2026-11-26 18:00")
        brought(arranged, event(WEEKLY, RRULE=one))
        rows = arranged.studio.store.reading.imported_times()
        assert brought(arranged, event(WEEKLY, RRULE=one)).lines == ()
        assert arranged.studio.store.reading.imported_times() == rows


def test_a_time_that_a_file_gave_a_series_too_late_counts_where_the_series_goes_on(tmp_path):
    short, longer = "FREQ=WEEKLY;UNTIL=20261128T000000Z", "FREQ=WEEKLY"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=short))
        brought(arranged, event(WEEKLY | at("20260901T173000"), RRULE=short))
        brought(arranged, event(WEEKLY | at("20260901T173000"), RRULE=longer))
        assert arranged.lessons("Ilse", "2026-11-23", "2026-12-09") == [
            "Tue 2026-11-24 16:00", "Tue 2026-12-01 17:30", "Tue 2026-12-08 17:30",
        ]  # fmt: skip


def test_a_series_that_is_left_without_a_meeting_ends(tmp_path):
    later = WEEKLY | at("20261208T160000")
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(later))
        brought(arranged, event(later, RRULE="FREQ=WEEKLY;UNTIL=20261207T000000Z"))
        assert arranged.lessons("Ilse", "2026-11-23", "2027-01-09") == []


def test_an_event_that_took_the_place_of_another_can_be_cancelled_and_the_other_can_come_back(tmp_path):
    ended = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261202T000000Z")
    rest = WEEKLY | at("20261208T160000") | {"UID": "rest@example.org"}
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.clock.at = home("2026-12-10 10:00")
        brought(arranged, ended, event(rest))
        brought(arranged, event(WEEKLY | at("20260903T170000")), event(rest))
        assert arranged.lessons("Ilse", "2026-12-14", "2026-12-21") == ["Tue 2026-12-15 16:00", "Thu 2026-12-17 17:00"]
        brought(arranged, event(WEEKLY | at("20260903T170000")), event(rest | OFF))
        assert arranged.lessons("Ilse", "2026-12-14", "2026-12-21") == ["Thu 2026-12-17 17:00"]


def test_a_series_that_was_ended_before_a_change_of_it_had_met_goes_on_once(tmp_path):
    short, longer = "FREQ=WEEKLY;UNTIL=20261231T000000Z", "FREQ=WEEKLY"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | at("20260903T170000")))
        brought(arranged, event(WEEKLY | at("20260903T170000") | OFF))
        brought(arranged, event(WEEKLY | at("20260903T170000"), RRULE=short))
        brought(arranged, event(WEEKLY | at("20260903T170000"), RRULE=longer))
        assert arranged.lessons("Ilse", "2026-11-30", "2026-12-15") == ["Thu 2026-12-03 17:00", "Thu 2026-12-10 17:00"]


def test_an_event_that_ends_before_what_it_was_begins_is_no_longer_what_it_was(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY | at("20270107T160000")))
        brought(arranged, event(WEEKLY | at("20261130T160000"), RRULE="FREQ=WEEKLY;UNTIL=20261208T000000Z"))
        assert arranged.lessons("Ilse", "2026-11-25", "2027-02-01") == ["Mon 2026-11-30 16:00", "Mon 2026-12-07 16:00"]


def test_a_turn_that_a_file_gave_a_series_too_late_counts_where_the_series_goes_on(tmp_path):
    short, longer = "FREQ=WEEKLY;INTERVAL=2;UNTIL=20261202T000000Z", "FREQ=WEEKLY;INTERVAL=2"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=short))
        brought(arranged, event(WEEKLY | at("20260908T160000"), RRULE="FREQ=WEEKLY;INTERVAL=2;UNTIL=20261130T000000Z"))
        brought(arranged, event(WEEKLY | at("20260908T160000"), RRULE=longer))
        assert arranged.lessons("Ilse", "2026-12-07", "2027-01-07") == ["Tue 2026-12-15 16:00", "Tue 2026-12-29 16:00"]


def test_a_series_that_becomes_another_students_is_no_more_the_first_ones_and_can_go_back(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        noras = event(WEEKLY, SUMMARY="Nora")
        assert "changed: Ilse, Tuesday: through - -> 2026-11-24" in brought(arranged, noras).lines
        assert brought(arranged, noras).lines == ()
        assert arranged.lessons("Ilse", "2026-11-23", "2027-01-01") == ["Tue 2026-11-24 16:00"]
        assert arranged.lessons("Nora", "2026-12-01", "2026-12-10") == ["Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00"]
        arranged.clock.at = home("2026-12-10 10:00")
        brought(arranged, event(WEEKLY))
        assert arranged.lessons("Nora", "2026-12-07", "2027-01-01") == ["Tue 2026-12-08 16:00"]
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-23") == ["Tue 2026-12-15 16:00", "Tue 2026-12-22 16:00"]


def test_an_event_at_the_time_of_one_that_was_cancelled_today_goes_on_from_there(tmp_path):
    with arranged_studio(tmp_path, roster="", now="2026-12-01 18:00") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | OFF))
        brought(arranged, event(WEEKLY | OFF), event(WEEKLY, UID="again@example.org"))
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-16") == [
            "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00",
        ]  # fmt: skip


def test_a_series_that_gets_another_time_and_an_end_before_it_ends_with_its_last_lesson_once(tmp_path):
    short = event(WEEKLY | at("20260901T093000"), RRULE="FREQ=WEEKLY;UNTIL=20261125T180000Z")
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, short)
        assert brought(arranged, short).lines == ()
        assert arranged.lessons("Ilse", "2026-11-23", "2027-01-01") == ["Tue 2026-11-24 16:00"]


def test_a_series_that_is_split_anew_at_a_time_that_it_has_had_has_the_weeks_of_the_new_one(tmp_path):
    with arranged_studio(tmp_path, roster="", now="2026-12-05 18:00") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;INTERVAL=2"))
        ended = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261127T180000Z")
        brought(arranged, ended, event(WEEKLY | at("20261201T160000"), UID="second@example.org"))
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-30") == [
            "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00", "Tue 2026-12-22 16:00", "Tue 2026-12-29 16:00",
        ]  # fmt: skip


def test_an_event_at_a_time_that_another_one_has_left_is_a_new_one(tmp_path):
    with arranged_studio(tmp_path, roster="", now="2026-12-03 22:00") as arranged:
        brought(arranged, event(WEEKLY | at("20260904T123000")))
        brought(arranged, event(WEEKLY | at("20260914T123000")))
        arranged.clock.at = home("2026-12-09 14:00")
        ended = event(WEEKLY | at("20260914T123000"), RRULE="FREQ=WEEKLY;UNTIL=20261129T180000Z")
        brought(arranged, ended, event(WEEKLY | at("20261204T123000"), UID="new@example.org"))
        assert arranged.lessons("Ilse", "2026-12-10", "2026-12-20") == ["Fri 2026-12-11 12:30", "Fri 2026-12-18 12:30"]
