"""The mix at the desk: what is mentioned, what is left for a season, and the studio as a whole."""

import shutil
from datetime import UTC, datetime

import pytest
from support.sample import taught

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.pieces.mix_rows import studio_options
from cockpit.studio.errors import Refused
from cockpit.studio.pieces.mix import to_mention
from cockpit.wiring import studio_at

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def studio(tmp_path):
    shutil.copytree(taught(TEN), tmp_path, dirs_exist_ok=True)
    settings = tmp_path / "settings.toml"
    settings.write_text(f"{settings.read_text(encoding='utf-8')}\n[mix.limits]\ntheory = 1\n", encoding="utf-8")
    with studio_at(tmp_path, SetClock(TEN), to_write=True) as studio:
        studio.desk.day.open()
        yield studio


def student(studio, name="Ilse"):
    return next(each.student for each in studio.desk.day.bookings if each.student.name == name)


def test_the_mix_of_a_student_has_areas_with_their_minutes_and_all_strands(studio):
    shown = studio.desk.mixing().of(student(studio).id)
    areas = {each.name: each for each in shown.mix.areas}
    assert areas["piece"].touched
    assert areas["piece"].minutes
    assert [each.name for each in shown.mix.strands] == list(studio.preferences.pieces.mix.strands)


def mentioned(studio):
    looked = studio.desk.mixing().at_lesson(student(studio))
    return [each.name for each in to_mention(looked.mix, studio.preferences.pieces.mix)]


def test_what_is_left_for_the_season_is_not_mentioned_through_the_last_day_of_the_term(studio):
    before = mentioned(studio)
    assert before
    said = studio.desk.mixing().leave(student(studio).id, before[0])
    assert said.endswith("is not mentioned for Ilse through Thursday, December 31, 2026.")
    assert mentioned(studio) == before[1:]
    (left,) = studio.desk.mixing().of(student(studio).id).left
    assert str(left.until_on) == "2026-12-31"
    with pytest.raises(Refused, match="That is so already"):
        studio.desk.mixing().leave(student(studio).id, before[0])
    studio.desk.teaching.undo()
    assert mentioned(studio) == before


def test_the_studio_counts_every_student_who_has_a_weekly_time(studio):
    shown = studio.desk.mixing().studio()
    assert shown.students >= 6
    assert {each.count for each in shown.strands} == {shown.students}
    others = next(each.others for each in shown.strands if each.name == "music of the world")
    assert [line.weeks_since for _, line in others] == sorted((line.weeks_since for _, line in others), reverse=True)


def test_the_mix_of_the_studio_says_so_where_earlier_notes_may_be_missing(studio):
    shown = studio.desk.mixing().studio()
    whole, partial = (studio_options(shown, 78, may_miss=may_miss) for may_miss in (False, True))
    assert str(partial[-1].prompt).strip().startswith("Earlier notes are still being read")
    assert len(partial) == len(whole) + 1


def test_what_a_student_is_not_taught_stays_so(studio):
    whose = next(each for each in studio.desk.day.bookings if each.student.name == "Ilse")
    studio.desk.arranging.do(studio.desk.arranging.propose(Purpose.DETAILS, whose, "without theory"))
    assert mentioned(studio) == []
    with pytest.raises(Refused, match='"with theory" in the details'):
        studio.desk.mixing().leave(whose.student.id, "theory")
