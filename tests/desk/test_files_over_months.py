"""Files that go on being read while months pass: what they take back, split, hand on and join again."""

from support.arranged_studio import ROSTER, arranged_studio
from support.calendars import WEEKLY, at, brought, event

from cockpit.desk.proposals import Purpose


def test_a_split_series_is_two_though_both_parts_are_at_one_time(tmp_path):
    first = event(WEEKLY, RRULE="FREQ=WEEKLY;UNTIL=20261214T000000Z")
    longer = WEEKLY | at("20261215T160000") | {"UID": "rest@example.org", "DURATION": "PT45M"}
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        found = brought(arranged, first, event(longer))
        assert found.lines == (
            "new: Ilse, Tuesday 4:00 pm, 45 minutes, from 2026-12-15 (family Ilse)",
            "changed: Ilse, Tuesday: until - -> 2026-12-13",
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
        assert arranged.studio.enrolling.take_in(later).left_alone == ()
