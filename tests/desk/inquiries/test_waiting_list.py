"""The waiting list: who fits what ends, what is paused, and what her teaching hours leave free."""

from contextlib import contextmanager

import pytest
from support.arranged_studio import arranged_studio
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.wording.inquiries import fit_words, opening_words

NOW = "2026-11-30 10:00"
ROSTER = """student,weekday,time,minutes,family,email,zone,from,until,every_weeks
Ilse,Tuesday,16:00,60,Brandvold,brandvold@example.org,America/Phoenix,,,
Wren,Tuesday,17:00,45,Aldersgate,,America/Chicago,,{until},{every}
"""
ANA = "ana bell for nora 8, cello, phoenix, ana@example.org, tue after 4 pm, 45m"
JO = "jo amsel for piet 6, piano, london, any day"
TUESDAYS = '[teaching]\ntue = "14:00-20:00"\n'


@contextmanager
def waiting(folder, *lines, settings="", until="", every="", more=""):
    """A studio whose inquiries wait since an hour after each other."""
    folder.mkdir(exist_ok=True)
    roster, settings = ROSTER.format(until=until, every=every) + more, f'home_zone = "America/Chicago"\n{settings}'
    with arranged_studio(folder, roster, NOW, settings) as arranged:
        studio, desk = arranged.studio, arranged.studio.desk.inquiring()
        for line in lines:
            desk.do(desk.propose(None, Purpose.INQUIRY, line))
            number = max(each.id for each in studio.store.reading.inquiries())
            desk.do(desk.propose(number, Purpose.WAITING, desk.line(number, Purpose.WAITING)))
            arranged.clock.wind(hours=1)
        yield studio, desk


def told(desk) -> list[str]:
    """What the list and the end of the day say."""
    view, her_clock = desk.view(), desk.preferences.home
    today = her_clock.date_of(view.now)
    return [
        f"{opening_words(opening, her_clock, today)}: "
        + ", ".join(f"{each.learner} {fit_words(fit, opening, her_clock, today)}" for each, fit in opening.fits)
        for opening in view.openings
    ]


def test_who_waits_longest_is_told_first_when_a_weekly_time_ends(tmp_path):
    """Wren's Tuesdays at 5:00 pm end: in Phoenix that is 4:00 pm until the clocks of Chicago change on March 14, 2027."""
    with waiting(tmp_path, ANA, JO, until="2026-12-08") as (studio, desk):
        assert [each.course.inquiry.child for each in desk.view().waiting] == ["Nora", "Piet"]
        # In London it would be night: from 11:00 pm on nobody has a lesson there.
        assert told(desk) == ["Tue 5:00 pm from December 15, 45 min (was Wren's): Nora fits until Tue, March 9, 2027"]
        studio.enrolling.take_in(
            ROSTER.format(until="2026-12-08", every="") + "Oda,Tuesday,17:15,30,Quist,,America/Chicago,,,\n"
        )
        assert told(desk) == [], "somebody else has it"


def test_the_two_who_fit_are_told_in_the_order_in_which_they_wait(tmp_path):
    with waiting(tmp_path, JO.replace("london", "denver"), ANA, until="2026-12-08") as (_, desk):
        assert told(desk) == [
            "Tue 5:00 pm from December 15, 45 min (was Wren's): Piet fits, Nora fits until Tue, March 9, 2027"
        ]


def test_a_time_that_is_promised_to_somebody_ends_what_fits(tmp_path):
    with waiting(tmp_path, ANA, until="2026-12-08") as (studio, desk):
        studio.enrolling.take_in(
            ROSTER.format(until="2026-12-08", every="") + "Oda,Tuesday,17:15,30,Quist,,America/Chicago,2027-02-02,,\n"
        )
        assert told(desk) == [
            "Tue 5:00 pm from December 15, 45 min (was Wren's): Nora fits until Tue, January 26, 2027"
        ]


@pytest.mark.parametrize(("frees", "fits"), [("", False), (", frees the time", True)])
def test_a_pause_is_told_where_it_gives_the_time_away_and_until_the_return(tmp_path, frees, fits):
    with waiting(tmp_path, ANA) as (studio, desk):
        assert told(desk) == []
        studio.desk.day.open(home("2026-12-01 10:00").date())
        wren = next(each for each in studio.desk.day.bookings if each.student.name == "Wren")
        arranging = studio.desk.arranging
        arranging.do(arranging.propose(Purpose.PAUSE, wren, f"jan 4 to jan 31{frees}"))
        assert told(desk) == (
            [
                "Tue 5:00 pm from Tue, January 5, 2027, 45 min (while Wren is paused): Nora fits until Tue, January 26, 2027"
            ]
            if fits
            else []
        )


def test_when_her_teaching_hours_change_what_is_free_in_them_is_told(tmp_path):
    with waiting(tmp_path, ANA) as (_, desk):
        assert told(desk) == []
    with waiting(tmp_path / "a", ANA, settings=TUESDAYS) as (_, desk):
        # At 5:45 pm it would fit until March alone: in summer that is 3:45 pm in Phoenix.
        assert told(desk) == ["Tue 5:45 pm to 8:00 pm: Nora fits at 6:00 pm"]
    with waiting(tmp_path / "b", ANA, settings=TUESDAYS.replace("20:00", "18:15")) as (_, desk):
        assert told(desk) == [], "half an hour is left"
    with waiting(tmp_path / "c", ANA, settings=TUESDAYS.replace("20:00", "17:30"), until="2026-12-08") as (_, desk):
        assert told(desk) == [], "what becomes free lies outside her hours"


def test_what_has_become_free_in_her_hours_is_told_once(tmp_path):
    with waiting(tmp_path, ANA, settings=TUESDAYS, until="2026-11-24") as (_, desk):
        assert told(desk) == ["Tue 5:00 pm to 8:00 pm: Nora fits at 6:00 pm"]


ODA = "Oda,Tuesday,17:00,45,Quist,,America/Chicago,2026-12-08,,2\n"


def test_the_place_of_a_time_of_every_other_week_that_ends_is_told_as_any_other(tmp_path):
    """Wren comes on December 1, 15, and so on; nobody has the weeks between."""
    with waiting(tmp_path, ANA, until="2026-12-08", every="2") as (_, desk):
        assert told(desk) == ["Tue 5:00 pm from December 15, 45 min (was Wren's): Nora fits until Tue, March 9, 2027"]
    # Oda has the other weeks: no lesson of every week fits, and one of every other week does in Wren's.
    with waiting(tmp_path / "a", ANA, until="2026-12-08", every="2", more=ODA) as (_, desk):
        assert told(desk) == [
            "Tue 5:00 pm every other week from December 1, 45 min: Nora fits from Tue, December 15 until Tue, March 9, 2027"
        ]


def test_the_weeks_between_those_of_a_time_of_every_other_week_are_free_unless_somebody_has_them(tmp_path):
    with waiting(tmp_path, ANA.replace("phoenix", "chicago"), more=ODA.replace("17:00", "17:45")) as (studio, desk):
        assert told(desk) == ["Tue 5:45 pm every other week from December 1, 45 min: Nora fits"]
        studio.enrolling.take_in(
            "student,weekday,time,minutes,family,from,every_weeks\nPia,Tuesday,18:00,30,Lund,2026-12-15,2\n"
        )
        assert told(desk) == ["Tue 5:45 pm every other week from December 1, 45 min: Nora fits until Tue, December 1"]
