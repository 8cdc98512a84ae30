"""What would collide and is left as it is: accepted for what it was, in a real store."""

import pytest
from support.arranged_studio import HEADER, Arranged, arranged_studio
from support.studio import CLOCK

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.studio.calendar.collisions import Group, parts_of

ILSE = "Ilse,Tuesday,16:00,30,Brandvold,cello,America/Phoenix,teacher\n"
NEARLY = "Nora,Tuesday,16:28,30,Bell,flute,America/Chicago,teacher\n"
LONDON = "Teodor,Tuesday,16:30,30,Okonjo,guitar,Europe/London,teacher\n"


def accept(arranged: Arranged, group: Group) -> None:
    arranged.studio.desk.arranging.accept(group, is_accepted=True)


def told(arranged: Arranged) -> list[tuple[str, int]]:
    return [(str(group.first.trouble), group.first.minutes) for group in arranged.studio.desk.ahead.troubles()[0]]


def test_an_accepted_overlap_is_told_again_when_it_is_longer(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY) as arranged:
        accept(arranged, arranged.studio.desk.ahead.troubles()[0][0])
        assert told(arranged) == []
        arranged.studio.enrolling.take_in(HEADER + ILSE + NEARLY.replace("16:28", "16:00"))
        assert told(arranged) == [("overlap", 30)]


def test_an_accepted_overlap_is_told_again_when_the_lessons_are_longer_or_later(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY) as arranged:
        accept(arranged, arranged.studio.desk.ahead.troubles()[0][0])
        arranged.studio.enrolling.take_in(HEADER + ILSE.replace("16:00", "20:00") + NEARLY.replace("16:28", "20:28"))
        assert told(arranged) == [("overlap", 2)]


def test_a_family_s_night_that_was_accepted_is_told_again_at_another_hour(tmp_path):
    with arranged_studio(tmp_path, HEADER + LONDON) as arranged:
        accept(arranged, arranged.studio.desk.ahead.troubles()[0][0])
        assert told(arranged) == []
        arranged.studio.enrolling.take_in(HEADER + LONDON.replace("16:30", "20:30"))
        assert told(arranged) == [("night", 0)]


@pytest.mark.long
def test_what_was_accepted_stays_so_week_after_week_for_two_years(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + LONDON + NEARLY) as arranged:
        for group in arranged.studio.desk.ahead.troubles()[0]:
            accept(arranged, group)
        for _ in range(104):
            arranged.clock.wind(minutes=7 * 24 * 60)
            assert told(arranged) == []


def test_a_collision_of_a_few_weeks_that_was_accepted_is_told_again_when_it_comes_every_week(tmp_path):
    kept_there = "Teodor,Tuesday,15:00,30,Okonjo,guitar,Europe/London,family\n"
    early = ILSE.replace("16:00", "10:00")
    with arranged_studio(tmp_path, HEADER + early + kept_there) as arranged:
        (group,) = arranged.studio.desk.ahead.troubles()[0]
        assert len(group.findings) < 6
        accept(arranged, group)
        assert told(arranged) == []
        arranged.studio.enrolling.take_in(
            HEADER + early + "Teodor,Tuesday,10:00,30,Okonjo,guitar,Europe/London,teacher\n"
        )
        assert told(arranged) == [("overlap", 30)]


def test_a_moved_lesson_that_is_moved_again_is_told_of_again(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY.replace("16:28", "17:00")) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-08 17:00")
        accept(arranged, arranged.studio.desk.ahead.troubles()[0][0])
        assert told(arranged) == []
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-15 17:00")
        assert ("overlap", 30) in told(arranged)


def test_what_was_accepted_is_taken_back_and_accepted_again(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY) as arranged:
        ahead, arranging = arranged.studio.desk.ahead, arranged.studio.desk.arranging
        accept(arranged, ahead.troubles()[0][0])
        (accepted,) = ahead.troubles()[1]
        arranging.accept(accepted, is_accepted=False)
        assert arranged.studio.store.reading.accepted() == frozenset()
        assert told(arranged) == [("overlap", 2)]
        arranged.undo()
        assert told(arranged) == []
        arranged.undo()
        assert arranged.studio.store.reading.accepted() == frozenset()


def test_what_is_accepted_names_its_standing_times_and_lessons_so_that_they_can_be_forgotten(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY.replace("16:28", "17:00")) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-08 17:00")
        moved = arranged.booking("2026-12-08", "Ilse").lesson.id
        hers = arranged.booking("2026-12-08", "Nora").lesson.standing_time_id
        accept(arranged, arranged.studio.desk.ahead.troubles()[0][0])
        (key,) = arranged.studio.store.reading.accepted()
        assert parts_of(key) == {moved, str(hers)}


def test_of_hundreds_of_collisions_the_nearest_are_shown_and_the_others_counted(tmp_path):
    rows = "".join(f"Student {n},Tuesday,15:00,30,Family {n},cello,America/Chicago,teacher\n" for n in range(40))
    with arranged_studio(tmp_path, HEADER + rows) as arranged:
        ahead = arranged.studio.desk.ahead
        outlook = ahead.outlook(4)
        assert (len(outlook.troubles), len(outlook.free)) == (100, 100)
        assert outlook.later == len(ahead.troubles()[0]) - 100
        said = [str(option.prompt) for option in ahead_options(outlook, CLOCK, 77)]
        heading = next(
            place for place, row in enumerate(said) if row.startswith("SCHEDULING PROBLEMS IN THE NEXT YEAR")
        )
        assert said[heading].endswith(f" {outlook.later + 100}")
        assert said[heading + 101].strip() == f"and {outlook.later} more later"
