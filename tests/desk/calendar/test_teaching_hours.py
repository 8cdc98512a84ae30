"""Her teaching hours bound whatever is called free, wherever it is said; a lesson outside them is allowed and told."""

from datetime import date, time, timedelta

from support.arranged_studio import arranged_studio

from cockpit.desk.calendar.proposals import Purpose

NOW = "2026-11-30 10:00"
ROSTER = """student,weekday,time,minutes,family,email,zone
Ilse,Tuesday,16:00,30,Brandvold,ilse@example.org,America/Chicago
Wren,Tuesday,16:15,30,Aldersgate,wren@example.org,America/Chicago
"""
HOURS = {1: (time(14), time(18)), 3: (time(9), time(12))}  # Tue and Thu
SETTINGS = 'home_zone = "America/Chicago"\n[teaching]\ntue = "14:00-18:00"\nthu = "9:00-12:00"\n'


def is_inside(at, minutes, her_clock) -> bool:
    begins = her_clock.local(at).replace(tzinfo=None)
    first, last = HOURS.get(begins.weekday(), (time.max, time.min))
    return first <= begins.time() and (begins + timedelta(minutes=minutes)).time() <= last


def test_every_place_that_says_free_keeps_to_her_teaching_hours(tmp_path):
    with arranged_studio(tmp_path, ROSTER, NOW, SETTINGS) as arranged:
        studio = arranged.studio
        desk, her_clock = studio.desk, studio.preferences.home
        ilse = arranged.booking("2026-12-01", "Ilse")
        inquiring = desk.inquiring()
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, "ana bell for nora 8, chicago, any day, 30m"))
        (asked,) = studio.store.reading.inquiries()
        inquiring.do(inquiring.propose(asked.id, Purpose.WAITING, "any day, 30m"))
        outlook = desk.ahead.outlook(12)
        said = {
            "to move a lesson to": desk.ahead.free_times(ilse, date(2026, 12, 1)),
            "in a letter": desk.ahead.times_for(ilse),
            "in an answer": inquiring.answering.free_times(asked),
            "coming up, for a conflict": [at for each in outlook.free for at in each],
            "for who waits": [fit.starts_at for each in inquiring.view().openings for _, fit in each.fits],
        }
        for place, times in said.items():
            assert times, place
            assert all(is_inside(at, 30, her_clock) for at in times), place
        stretches = {
            "in the week": [gap for day in desk.ahead.week(date(2026, 12, 1)) for gap in day.gaps],
            "as seats": [span for day in outlook.seats for span in day.spans],
        }
        for place, gaps in stretches.items():
            assert gaps, place
            assert all(
                is_inside(begins, (ends - begins) // timedelta(minutes=1), her_clock) for begins, ends in gaps
            ), place


def test_a_trial_outside_her_hours_is_booked_all_the_same_and_told(tmp_path):
    with arranged_studio(tmp_path, "", NOW, SETTINGS) as arranged:
        studio = arranged.studio
        inquiring = studio.desk.inquiring()
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, "ana bell for nora 8, chicago"))
        (asked,) = studio.store.reading.inquiries()
        proposal = inquiring.propose(asked.id, Purpose.TRIAL, "Nora Bell wed 3pm")
        assert any("outside your teaching hours" in each for each in proposal.troubles)
        inquiring.do(proposal)
        assert inquiring.course(asked.id).trial is not None
