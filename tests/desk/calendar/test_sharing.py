"""Two in one lesson: siblings, or two who rehearse a duet. Two notes, one time, and no conflict between the two."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, arranged_studio
from support.studio import home

from cockpit.cli.main import main
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.calendar.collisions import Trouble
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.countdown import names_on, read_clock
from cockpit.studio.lessons.lesson import Outcome, State, state_of

SIBLINGS = """Wren,Wednesday,15:30,45,Aldersgate,cello,America/Chicago,teacher
Tobin,Thursday,16:00,30,Aldersgate,guitar,America/Chicago,teacher
"""
SPAN = ("2027-01-04", "2027-01-25")
LINE = "with tobin from jan 12"


def share(arranged, line=LINE, on="2026-12-09", student="Wren"):
    return arranged.done(Purpose.CHANGE, on, student, line)


def shared_day(arranged):
    """Opens the day of the first shared lesson, at the minute at which it is to begin; Tobin's is shown."""
    arranged.clock.at = home("2027-01-13 15:30")
    for student in ("Wren", "Tobin"):
        arranged.booking("2027-01-13", student)


def lesson(arranged, student):
    return next(b.lesson for b in arranged.studio.desk.day.bookings if b.student.name == student)


def troubles(arranged):
    return [each.first.trouble for each in arranged.studio.desk.ahead.troubles()[0]]


def test_a_line_brings_a_sibling_into_the_lesson_from_a_date_on_and_one_step_takes_it_back(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged:
        none = troubles(arranged)
        before = arranged.studio.store.reading.standing_times()
        proposal = share(arranged)
        assert proposal.understood == (
            "Tobin shares the lessons of Wren, Wed, January 13, 2027, 3:30 pm, 45 minutes. "
            "Tobin's own weekly time ends the day before."
        )
        assert proposal.troubles == ()
        assert troubles(arranged) == none, "no conflict between the two"
        assert arranged.lessons("Tobin", *SPAN) == [
            "Thu 2027-01-07 16:00", "Wed 2027-01-13 15:30", "Wed 2027-01-20 15:30",
        ]  # fmt: skip
        assert arranged.lessons("Wren", *SPAN)[1:] == arranged.lessons("Tobin", *SPAN)[1:]
        assert arranged.undo() == "Undone: Wren and Tobin share their lessons."
        assert arranged.studio.store.reading.standing_times() == before


def test_two_who_have_the_same_time_by_now_share_it_and_no_longer_conflict(tmp_path):
    same = SIBLINGS.replace("Thursday,16:00,30", "Wednesday,15:30,45")
    with arranged_studio(tmp_path, ROSTER + same) as arranged:
        assert Trouble.OVERLAP in troubles(arranged)
        assert share(arranged, "with tobin").understood == "Wren and Tobin share their lessons."
        assert Trouble.OVERLAP not in troubles(arranged)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("with nobody from jan 12", 'No student is called "nobody"'),
        ("with wren", 'No student is called "wren"'),
        ("with tobin from jan 12 5pm", "only a first day works"),
        ("with tobin from jan 12 every other week", "only a first day works"),
    ],
)
def test_what_is_not_understood_is_named(tmp_path, line, said):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged, pytest.raises(BadInput, match=said):
        arranged.proposed(Purpose.CHANGE, "2026-12-09", "Wren", line)


def test_a_time_on_the_clock_of_one_family_is_not_shared_with_another_that_lives_elsewhere(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged, pytest.raises(Refused, match="lives by another"):
        arranged.proposed(Purpose.CHANGE, "2026-12-02", "Mireille", LINE)


def test_both_are_moved_and_called_off_together_and_one_alone_leaves_the_other_where_it_is(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged:
        share(arranged)
        none = troubles(arranged)
        proposal = arranged.done(Purpose.MOVE, "2027-01-13", "Tobin", "jan 14 5pm")
        assert "Wren goes along" in proposal.understood
        for student in ("Wren", "Tobin"):
            assert "Thu 2027-01-14 17:00" in arranged.lessons(student, *SPAN)
        assert troubles(arranged) == none
        assert arranged.undo().startswith("Undone: ")
        arranged.done(Purpose.MOVE, "2027-01-13", "Tobin", "jan 14 5pm alone")
        assert "Thu 2027-01-14 17:00" in arranged.lessons("Tobin", *SPAN)
        assert "Wed 2027-01-13 15:30" in arranged.lessons("Wren", *SPAN)
        arranged.undo()
        arranged.done(Purpose.CALL_OFF, "2027-01-13", "Wren", "sick")
        assert [lesson(arranged, name).outcome for name in ("Wren", "Tobin")] == [Outcome.CALLED_OFF] * 2
        arranged.undo()
        arranged.booking("2027-01-13", "Tobin")
        arranged.studio.desk.teaching.mark_cancelled()
        assert lesson(arranged, "Wren").outcome is None


def test_one_begin_begins_both_with_one_countdown_and_each_is_finished_by_itself(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged:
        share(arranged)
        shared_day(arranged)
        day, teaching = arranged.studio.desk.day, arranged.studio.desk.teaching
        arranged.booking("2027-01-13", "Wren")
        assert teaching.begin() == "Wren and Tobin's lesson has begun. F5 shows the notes of the other."
        face = read_clock(day.bookings_going_on, arranged.clock.at, {45: 4})
        assert (names_on(face), face.seconds, face.late) in {
            (names, 45 * 60, ()) for names in ("Tobin and Wren", "Wren and Tobin")
        }
        for shown in ("Tobin", "Wren", "Tobin"):
            day.go_next()
            assert day.shown.student.name == shown
            assert day.running.student.name == shown
        arranged.clock.wind(minutes=44)
        teaching.finish()
        assert (day.shown.student.name, state_of(lesson(arranged, "Tobin"), arranged.clock.at)) == (
            "Wren",
            State.FINISHED,
        )
        assert lesson(arranged, "Wren").is_live
        teaching.finish()
        assert day.running is None
        for name, live in (("Wren", True), ("Tobin", True)):
            teaching.undo()
            assert lesson(arranged, name).is_live is live
        teaching.undo()
        assert [lesson(arranged, name).began_at for name in ("Wren", "Tobin")] == [None, None]


def test_one_is_absent_alone_and_the_other_goes_on_and_can_come_later(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged:
        share(arranged)
        shared_day(arranged)
        teaching = arranged.studio.desk.teaching
        teaching.begin()
        arranged.booking("2027-01-13", "Tobin")
        teaching.mark_absent()
        assert lesson(arranged, "Tobin").is_live, "asked first: the lesson runs"
        teaching.mark_absent()
        assert lesson(arranged, "Tobin").outcome is Outcome.ABSENT
        assert lesson(arranged, "Wren").is_live
        arranged.studio.desk.day.go_to(lesson(arranged, "Tobin").id)
        teaching.begin()  # absent is taken back
        teaching.begin()
        assert lesson(arranged, "Tobin").is_live


def test_more_minutes_and_a_lost_call_are_of_both(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS) as arranged:
        share(arranged)
        shared_day(arranged)
        arranged.clock.wind(minutes=5)
        desk = arranged.studio.desk
        desk.teaching.begin()
        desk.teaching.give_full_length()
        desk.calls.note_lost()
        arranged.clock.wind(minutes=7)
        desk.calls.note_back()
        assert {lesson(arranged, name).ends_at for name in ("Wren", "Tobin")} == {home("2027-01-13 16:20")}
        desk.teaching.give_full_length()
        assert {lesson(arranged, name).ends_at for name in ("Wren", "Tobin")} == {home("2027-01-13 16:27")}
        desk.teaching.finish()
        desk.teaching.finish()
        assert desk.ahead.outlook(12).owed_minutes == ()
        for _ in range(3):
            desk.teaching.undo()
        desk.teaching.finish()
        desk.teaching.finish()
        assert {(each.student.name, each.minutes) for each in desk.ahead.outlook(12).owed_minutes} == {
            ("Wren", 7), ("Tobin", 7),
        }  # fmt: skip


def test_seats_and_free_times_count_one_lesson(tmp_path):
    settings = 'home_zone = "America/Chicago"\n[teaching]\nwed = "14:00-18:00"\n'
    with arranged_studio(tmp_path, ROSTER + SIBLINGS, settings=settings) as arranged:
        seats = arranged.studio.desk.ahead.seats(date(2027, 2, 1))
        share(arranged)
        assert arranged.studio.desk.ahead.seats(date(2027, 2, 1)) == seats


def test_a_family_never_reads_the_name_of_the_other_who_shares_the_lesson(tmp_path):
    """A duet of two families: Teodor comes into the lessons of Ilse."""
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "with teodor from jan 12")
        studio = arranged.studio
        handed_out = HandingOut(studio.store.reading, arranged.clock, studio.preferences)
        text = calendar_file(handed_out.calendar(None, "Brandvold"))
        assert "Ilse" in text
        assert "Teodor" not in text
        arranged.clock.at = home("2027-01-12 16:00")
        arranged.booking("2027-01-12", "Ilse")
        studio.desk.teaching.begin()
        studio.desk.notes.write(lesson(arranged, "Ilse").id, "Piece: Duet, the upper part")
        studio.desk.day.go_next()
        studio.desk.notes.write(lesson(arranged, "Teodor").id, "Piece: Duet, the lower part")
        papers = [studio.desk.teaching.finish().path.read_text() for _ in range(2)]
        assert ["lower" in each for each in papers] == [True, False]
        assert ["Ilse" in each for each in papers] == [False, True]
        assert ["Teodor" in each for each in papers] == [True, False]


def test_the_roster_that_is_written_is_read_as_nothing_new(tmp_path, capsys):
    with arranged_studio(tmp_path, ROSTER + SIBLINGS, now="2026-11-25 10:00") as arranged:
        share(arranged, on="2026-12-09")
        kept = arranged.studio.store.reading.standing_times()
        assert sum(each.shares is not None for each in kept) == 2
    out = tmp_path / "mine.csv"
    assert main(["roster", "--export", str(out), "--folder", str(tmp_path)]) == 0
    capsys.readouterr()
    for more in (["--dry-run"], []):
        assert main(["roster", str(out), *more, "--folder", str(tmp_path)]) == 0
        assert capsys.readouterr().out == "Already up to date.\n"
    with arranged_studio(tmp_path, "") as arranged:
        assert arranged.studio.store.reading.standing_times() == kept
    # A new studio that reads it has the same lessons shared.
    new = tmp_path / "new"
    new.mkdir()
    (new / "settings.toml").write_text('home_zone = "America/Chicago"\n')
    assert main(["roster", str(out), "--folder", str(new)]) == 0
    assert "Tuesday 4:00 pm" in capsys.readouterr().out
    assert main(["roster", str(out), "--folder", str(new)]) == 0
    assert capsys.readouterr().out == "Already up to date.\n"
    with arranged_studio(new, "") as arranged:
        times = arranged.studio.store.reading.standing_times()
        assert len({each.shares for each in times if each.shares is not None}) == 1
        shared = [each for each in times if each.shares is not None]
        assert {(each.weekday, each.at, each.minutes) for each in shared} == {
            (each.weekday, each.at, each.minutes) for each in kept if each.shares is not None
        }
        assert len(shared) == 2
