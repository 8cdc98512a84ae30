"""Typed lines for a purpose: what is refused is told with what was found and with what would work there."""

from datetime import timedelta

import pytest
from support.arranged_studio import arranged_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.errors import BadInput


def refusal(folder, purpose: Purpose, line: str) -> str:
    with arranged_studio(folder) as arranged, pytest.raises(BadInput) as refused:
        arranged.proposed(purpose, "2026-12-01", "Ilse", line)
    return str(refused.value)


@pytest.mark.parametrize("line", ["stop", "from now on 5pm", "from 12 jan unless 30 june 5pm"])
def test_a_line_on_a_standing_time_that_is_not_understood_names_lines_that_are(tmp_path, line):
    said = refusal(tmp_path, Purpose.CHANGE, line)
    assert " is not understood." in said
    assert "from jan 12 5 pm 45m" in said
    assert "through dec 18" in said


@pytest.mark.parametrize("line", ["okonyo 24 dec", "all of december"])
def test_a_line_on_a_break_that_is_not_understood_names_lines_that_are(tmp_path, line):
    said = refusal(tmp_path, Purpose.BREAK, line)
    assert said.startswith(f'"{line.split()[0]}" is not understood.')
    assert "dec 21 to jan 3 holidays" in said
    assert "family okonjo dec 24" in said
    assert "4:30 pm" not in said


@pytest.mark.parametrize(
    ("purpose", "line", "month"),
    [
        (Purpose.CHANGE, "from january 5pm", "january"),
        (Purpose.MOVE, "jan 5pm", "jan"),
        (Purpose.BREAK, "december", "december"),
    ],
)
def test_a_month_without_its_day_is_told_as_such(tmp_path, purpose, line, month):
    assert refusal(tmp_path, purpose, line) == f'"{month}" needs a day. Type both, such as "{month} 12".'


def test_a_break_of_a_family_without_a_day_asks_for_the_day_and_not_for_the_family(tmp_path):
    said = refusal(tmp_path, Purpose.BREAK, "family okonjo")
    assert said.startswith("The line has no day.")


@pytest.mark.parametrize("line", ["thu 4pm", "tomorrow 5:15", "on thu 4pm", "12/3 16:00"])
def test_a_trial_for_nobody_is_no_trial_for_somebody_called_thursday(tmp_path, line):
    said = refusal(tmp_path, Purpose.TRIAL, line)
    assert said.startswith("The line has a time but no name.")
    assert "nora bell thu 4pm" in said


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("sydney thu 4pm", "Sydney (new student, family Sydney)"), ("sun li thu 4pm", "Sun Li (new student, last name Li)"),
        ("may 3 dec 4pm", "May (new student, family May)"), ("ilse thu 4pm", "Ilse"),
        ("otto waiting-list thu 4pm", "Otto Waiting-List (new student, last name Waiting-List)"),
        ("nora bell, family brandvold thu 4pm", "Nora Bell (new student, last name Bell, family Brandvold)"),
    ],
)  # fmt: skip
def test_somebody_may_be_called_like_a_city_or_a_month_and_the_last_name_is_told(tmp_path, line, name):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.TRIAL, "2026-12-01", "Ilse", line)
        assert proposal.understood.startswith(f"Trial lesson for {name}, ")


@pytest.mark.parametrize("purpose", [Purpose.TRIAL, Purpose.EXTRA, Purpose.MOVE])
def test_the_hour_of_a_number_behind_a_date_is_told(tmp_path, purpose):
    with arranged_studio(tmp_path) as arranged:
        who = "otto " if purpose is Purpose.TRIAL else ""
        proposal = arranged.proposed(purpose, "2026-12-01", "Ilse", f"{who}12/3 16")
        assert "Thu, December 3, 4:00 pm" in proposal.understood


@pytest.mark.parametrize(
    ("line", "weeks"),
    [
        ("wednesdays 5pm from 13 jan", "every week"),
        ("from 13 jan on Wednesdays at 5", "every week"),
        ("weekly from wed 13 jan 5pm", "every week"),
        ("every wednesday 5pm from 13 jan", "every week"),
        ("every other wed 5pm from 13 jan", "every other week"),
    ],
)
def test_a_standing_time_may_be_said_by_the_days_that_it_is_on(tmp_path, line, weeks):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-01", "Ilse", line)
        assert proposal.understood.startswith(f"New weekly time for Ilse, {weeks}, Wed, January 13, 2027, 5:00 pm")


def test_a_trial_of_a_student_is_asked_about_and_adds_nobody(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.TRIAL, "2026-12-01", "Ilse", "ilse brandvold thu 4pm")
        assert proposal.troubles[0].startswith("Ilse of the Brandvold family is already your student")
        arranged.done(Purpose.TRIAL, "2026-12-01", "Ilse", "ilse brandvold thu 4pm")
        people = arranged.studio.store.reading.people()
        assert [student.name for student in people.students.values()].count("Ilse") == 1


def test_somebody_new_is_added_to_a_family_that_is_named_with_the_instrument(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.done(Purpose.TRIAL, "2026-12-01", "Ilse", "runa, family brandvold thu 4pm viola")
        assert proposal.understood.startswith("Trial lesson for Runa, viola (new student, family Brandvold), Thu, ")
        people = arranged.studio.store.reading.people()
        (runa,) = (student for student in people.students.values() if student.name == "Runa")
        assert people.families[runa.family_id].name == "Brandvold"
        assert len(people.families) == 4


@pytest.mark.parametrize(
    "line",
    [
        *(
            "2pm her time thu",
            "thu 2pm ilse's time",
            "3pm my time thu",
            "2 pm family time thu",
            "thu 2pm the family's clock",
        ),
        *("thu 2pm there", "2pm their local time thu", "thu 2pm in ilse's time zone", "thu 2 pm the student's time"),
    ],
)
def test_whose_time_is_meant_can_be_said(tmp_path, line):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.MOVE, "2026-12-01", "Ilse", line)
        assert "Thu, November 26, 3:00 pm · 2:00 pm Phoenix" in proposal.understood


@pytest.mark.parametrize("purpose", [Purpose.MOVE, Purpose.EXTRA, Purpose.CHANGE])
@pytest.mark.parametrize(
    ("line", "clocks"),
    [
        ("thu 2pm her time", "3:00 pm · 2:00 pm Phoenix, 30 minutes. 2:00 pm is Phoenix time."),
        ("thu 2pm family time", "3:00 pm · 2:00 pm Phoenix, 30 minutes. 2:00 pm is Phoenix time."),
        ("thu 5pm london", "11:00 am · 10:00 am Phoenix, 30 minutes. 5:00 pm is London time."),
        ("thu 5pm chicago", "5:00 pm · 4:00 pm Phoenix, 30 minutes. 5:00 pm is Chicago time."),
        ("thu 5pm", "5:00 pm · 4:00 pm Phoenix, 30 minutes. 5:00 pm is your time."),
        ("thu same time", "4:00 pm · 3:00 pm Phoenix, 30 minutes. 4:00 pm is your time."),
    ],
)
def test_whose_clock_the_time_is_on_is_told_before_anything_is_done(tmp_path, purpose, line, clocks):
    with arranged_studio(tmp_path) as arranged:
        assert clocks in arranged.proposed(purpose, "2026-12-01", "Ilse", line).understood


@pytest.mark.parametrize(
    ("student", "on", "line", "told"),
    [
        (
            "Ilse",
            "2026-12-01",
            "2pm her time",
            "2:00 pm is Phoenix time. The weekly time stays on your clock, Chicago.",
        ),
        ("Ishaan", "2026-12-03", "9pm", "9:00 pm is your time. The weekly time stays on the family's clock, Kolkata."),
    ],
)
def test_the_clock_that_a_weekly_time_goes_on_by_is_told_where_the_line_is_read_on_another(
    tmp_path, student, on, line, told
):
    with arranged_studio(tmp_path) as arranged:
        assert told in arranged.proposed(Purpose.CHANGE, on, student, line).understood


@pytest.mark.parametrize("purpose", [Purpose.MOVE, Purpose.EXTRA, Purpose.MAKE_UP])
@pytest.mark.parametrize("line", ["12/3 16", "3.12. 16", "dec 3 16"])
def test_a_day_and_an_hour_in_numbers_are_told_in_words(tmp_path, purpose, line):
    with arranged_studio(tmp_path) as arranged:
        if purpose is Purpose.MAKE_UP:
            arranged.booking("2026-12-01", "Ilse")
            arranged.studio.desk.teaching.mark_cancelled()
        proposal = arranged.proposed(purpose, "2026-12-01", "Ilse", line)
        assert "Thu, December 3, 4:00 pm · 3:00 pm Phoenix, 30 minutes." in proposal.understood


@pytest.mark.parametrize("line", ["4:45pm", "4:15 pm 45m", "4:00 pm 45m", "3:45pm"])
def test_the_time_at_which_a_lesson_is_now_is_never_offered_for_its_move(tmp_path, line):
    with arranged_studio(tmp_path) as arranged:
        at = arranged.booking("2026-12-01", "Ilse").lesson.starts_at
        for on in ("2026-12-01", "2026-12-08"):
            proposal = arranged.proposed(Purpose.MOVE, on, "Ilse", line)
            offered = arranged.studio.desk.arranging.free_times(proposal)
            assert len(offered) == 5
            assert not {at, at + timedelta(days=7)}.intersection(offered)
