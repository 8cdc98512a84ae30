"""Students who come without a file: told on both clocks before, taken back in one step."""

from datetime import UTC, date, datetime, time

import pytest
from support.sample import sample_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import addresses_for, bookings_on
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.lesson import State, state_of
from cockpit.studio.lessons.weekly_times import KeptIn

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def propose(studio, line, booking=None):
    return studio.desk.arranging.propose(Purpose.STUDENT, booking, line)


def do(studio, line, booking=None):
    proposal = propose(studio, line, booking)
    studio.desk.arranging.do(proposal)
    studio.desk.day.reload()
    return proposal


def everything(studio):
    reading = studio.store.reading
    people = reading.people()
    return people.students, people.families, reading.guardians(), reading.standing_times()


def named(studio, name):
    people = studio.store.reading.people()
    student = next(each for each in people.students.values() if each.name == name)
    return student, people.families[student.family_id]


def test_somebody_new_is_added_by_a_line_and_one_undo_takes_all_of_it_back(studio):
    before = everything(studio)
    proposal = do(studio, "nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana.bell@example.org")
    assert proposal.understood == (
        "New: Nora, family Bell (Phoenix), cello, Friday 2:00 pm on the family's clock, 45 minutes, "
        "from Friday, December 11, 2026 (3:00 pm yours), notes to ana.bell@example.org."
    )
    student, family = named(studio, "Nora")
    assert (family.name, family.zone, addresses_for(studio.store.reading, family.id)) == (
        "Bell",
        "America/Phoenix",
        ("ana.bell@example.org",),
    )
    standing = studio.store.reading.standing_times()[-1]
    assert (standing.weekday, standing.at, standing.minutes, standing.kept_in) == (4, time(14), 45, KeptIn.FAMILY)
    assert (standing.from_on, standing.student_id, standing.instrument) == (date(2026, 12, 11), student.id, "cello")
    home = studio.preferences.home
    assert [b.student.name for b in bookings_on(studio.store.reading, date(2026, 12, 11), home)].count("Nora") == 1
    # In the summer Phoenix is two hours behind Chicago, in the winter one.
    summer = next(b for b in bookings_on(studio.store.reading, date(2027, 7, 2), home) if b.student.name == "Nora")
    assert home.time(summer.lesson.starts_at) == "4:00 pm"
    studio.desk.teaching.undo()
    assert everything(studio) == before


def test_a_sibling_shares_family_zone_and_addresses(studio):
    do(studio, "Arlo, guitar, wed 6pm 30m, with wren")
    student, family = named(studio, "Arlo")
    assert family.name == "Aldersgate"
    assert addresses_for(studio.store.reading, family.id) == ("aldersgate@example.org",)
    standing = studio.store.reading.standing_times()[-1]
    assert (standing.student_id, standing.kept_in) == (student.id, KeptIn.TEACHER)


def test_a_siblings_other_address_is_another_guardian_and_the_first_stays_as_it_is(studio):
    before = studio.store.reading.guardians()
    do(studio, "Arlo, guitar, wed 6pm 30m, with wren, aldersgate@example.org, gran@example.org")
    _, family = named(studio, "Arlo")
    assert addresses_for(studio.store.reading, family.id) == ("aldersgate@example.org", "gran@example.org")
    assert set(before) < set(studio.store.reading.guardians())
    studio.desk.teaching.undo()
    assert studio.store.reading.guardians() == before


def test_an_adult_is_the_guardian_of_that_same_name_also_without_an_address(studio):
    do(studio, "hedda quist, adult, voice, sat 9am, hedda@example.org")
    do(studio, "otto lund, adult, voice, sat 10am")
    guardians = [(each.name, each.email, sorted(each.gets)) for each in studio.store.reading.guardians()[-2:]]
    assert guardians == [
        ("Hedda Quist", "hedda@example.org", ["news", "notes"]),
        ("Otto Lund", None, ["news", "notes"]),
    ]


def test_a_single_name_names_the_family_and_says_so(studio):
    said = propose(studio, "Marta, voice, sat 10am").understood
    assert "family Marta (Chicago)" in said
    assert said.endswith('Type "family" and a name to call the family otherwise than Marta.')
    assert "no email address yet" in said


def test_a_name_twice_in_a_family_is_refused_and_another_families_address_is_told(studio):
    with pytest.raises(BadInput, match=r'The Aldersgate family has a student called Wren already\. Type "Wren 2nd" or'):
        propose(studio, "wren, cello, sat 10am, family aldersgate")
    troubles = propose(studio, "marta, voice, sat 10am, macaskill@example.org").troubles
    assert "macaskill@example.org is an address of the MacAskill family, too." in troubles
    shouted = propose(studio, "marta, voice, sat 9am, MacAskill@Example.org").troubles
    assert "MacAskill@Example.org is an address of the MacAskill family, too." in shouted
    with pytest.raises(BadInput, match="lives in Halifax, not in Phoenix"):
        propose(studio, "lewis, fri 3pm phoenix, family macaskill")


def test_a_second_one_of_a_name_in_a_family_is_numbered(studio):
    do(studio, "wren 2nd, cello, sat 10am, family aldersgate")
    assert named(studio, "Wren 2nd")[1].name == "Aldersgate"
    with pytest.raises(BadInput, match='Type "Wren 3rd" or'):
        propose(studio, "wren, cello, sat 11am, family aldersgate")
    with pytest.raises(BadInput, match='Type "Wren 3rd" or'):
        propose(studio, "wren 2nd, cello, sat 11am, family aldersgate")


@pytest.mark.parametrize("line", ["nora bell, cello, fri 2pm", "nora, cello, fri 2pm, family bell"])
def test_a_new_student_with_both_names_of_one_who_had_a_trial_is_asked_about(studio, line):
    arranging = studio.desk.arranging
    arranging.do(arranging.propose(Purpose.TRIAL, None, "nora bell thu 5pm phoenix"))
    (told,) = propose(studio, line).troubles
    assert told.startswith("Nora Bell is in your studio already. For the same student, choose Nora Bell in the roster")
    assert propose(studio, "nora, cello, fri 2pm, family quist").troubles == ()


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("nora bell, cello, fri 2pm 0m", '"0m" is not the length of a lesson'),
        ("nora bell, cello, fri 2pm 241m", '"241m" is not the length of a lesson'),
        ("nora bell, cello, fri 2pm atlantis", '"atlantis" is not understood'),
        ("nora bell, cello, ana.bell.example.org", '"ana.bell.example.org" is not understood'),
        ("nora bell, cello, fri 2pm from dec 11 until dec 4", "before Friday, December 11, 2026"),
    ],
)
def test_a_part_that_cannot_be_is_named_and_two_lines_that_work_or_what_would_work(studio, line, named):
    with pytest.raises(BadInput, match=named) as refused:
        propose(studio, line)
    assert refused.match("Type |Close matches")


def test_an_end_that_a_new_weekly_time_has_from_the_beginning_is_told(studio):
    said = do(studio, "nora bell, cello, fri 2pm from december 11, 2026 until june 4, 2027").understood
    assert "from Friday, December 11, 2026, through Friday, June 4, 2027" in said
    assert studio.store.reading.standing_times()[-1].until_on == date(2027, 6, 4)


def test_what_would_collide_is_told_before(studio):
    troubles = propose(studio, "marta, voice, tue 4pm 30m").troubles
    assert any("Ilse" in each for each in troubles)


def test_a_first_day_in_the_past_is_taken_and_its_lessons_are_counted_before_and_stand_unmarked(studio):
    proposal = do(studio, "marta, voice, sat 10am 30m from nov 7")
    assert "from Saturday, November 7, 2026" in proposal.understood
    assert proposal.troubles[0] == "4 lessons are over already and will be there, not marked."
    for day in (7, 14, 21, 28):
        studio.desk.day.open(date(2026, 11, day))
        (marta,) = [each for each in studio.desk.day.bookings if each.student.name == "Marta"]
        assert state_of(marta.lesson, studio.desk.clock.now()) is State.NOT_MARKED
    later = propose(studio, "pia, voice, tue 4pm 30m from nov 3").troubles
    assert later[1].startswith("Tue, December 1 and 48 more times"), "what is over clashes with nothing"
    with pytest.raises(BadInput, match="more than two years"):
        propose(studio, "pia, voice, sat 10am from 2020-11-07")


def test_a_student_without_a_time_waits_for_one(studio):
    assert "no weekly time yet" in do(studio, "marta, voice").understood
    assert named(studio, "Marta")[1].name == "Marta"


def test_a_trial_student_stays_the_same_person_with_the_trials_notes(studio):
    arranging, day = studio.desk.arranging, studio.desk.day
    arranging.do(arranging.propose(Purpose.TRIAL, None, "nora bell thu 5pm phoenix"))
    day.open(date(2026, 12, 3))
    trial = next(each for each in day.bookings if each.student.name == "Nora Bell")
    studio.desk.notes.write(trial.lesson.id, "Piece: first song")
    before = everything(studio)
    proposal = do(studio, "fri 2pm 45m from 11 dec, family bell", trial)
    assert "Nora becomes a student, with the trial's notes, family Bell (Phoenix)" in proposal.understood
    student, family = named(studio, "Nora")
    assert (student.id, family.name) == (trial.student.id, "Bell")
    assert studio.store.reading.notes([trial.lesson.id])[trial.lesson.id].body == "Piece: first song"
    assert sum(each.name.startswith("Nora") for each in studio.store.reading.people().students.values()) == 1
    studio.desk.teaching.undo()
    assert everything(studio) == before


def test_somebody_else_can_be_added_while_a_trial_is_chosen(studio):
    arranging, day = studio.desk.arranging, studio.desk.day
    arranging.do(arranging.propose(Purpose.TRIAL, None, "nora bell thu 5pm phoenix"))
    day.open(date(2026, 12, 3))
    trial = next(each for each in day.bookings if each.student.name == "Nora Bell")
    assert propose(studio, "marta, voice, sat 10am", trial).understood.startswith("New: Marta")
