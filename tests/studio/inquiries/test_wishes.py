"""Times that would suit somebody: typed, said back, and held against a weekly time on both sides of each clock change."""

from datetime import date, time

import pytest
from support.studio import CLOCK

from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.wishes import Fit, WeeklyGap, Wishes, fit_of, is_wish, read_wishes, wishes_words

TODAY = date(2026, 11, 30)
FIVE = WeeklyGap(first=date(2026, 12, 1), at=time(17), minutes=45, zone="America/Chicago")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("tue or thu after 4pm", "Tue or Thu after 4:00 pm"),
        ("tue or thu after 4pm, 30m, from june", "Tue or Thu after 4:00 pm, 30 min, from Tue, June 1, 2027"),
        ("tue/thu", "Tue or Thu"),
        ("tuesdays and thursdays", "Tue or Thu"),
        ("mon-thu 4-6pm", "Mon, Tue, Wed, or Thu from 4:00 pm to 6:00 pm"),
        ("tue from 4 to 6 pm", "Tue from 4:00 pm to 6:00 pm"),
        ("between 4 and 6 pm", "any day from 4:00 pm to 6:00 pm"),
        ("weekends", "Sat or Sun"),
        ("weekdays after 3:30", "Mon, Tue, Wed, Thu, or Fri after 3:30 pm"),
        ("any day after 16:00", "any day after 4:00 pm"),
        ("tue afternoon", "Tue from 12:00 pm to 6:00 pm"),
        ("sat morning", "Sat from 7:00 am to 12:00 pm"),
        ("tue & thu before 6", "Tue or Thu before 6:00 pm"),
        ("tue 4pm", "Tue at 4:00 pm"),
        ("tue 4pm or later", "Tue after 4:00 pm"),
        ("tue after 4pm or thu after 5pm", "Tue after 4:00 pm, Thu after 5:00 pm"),
        ("mon, wed, fri after 5 pm", "Mon, Wed, or Fri after 5:00 pm"),
        ("mon 4-6pm 45m", "Mon from 4:00 pm to 6:00 pm, 45 min"),
        ("after 4", "any day after 4:00 pm"),
        ("from jan 12", "from Tue, January 12, 2027"),
        ("45 min", "45 min"),
    ],
)
def test_typed_times_are_said_back(typed, said):
    assert wishes_words(read_wishes(typed, TODAY), 12, TODAY) == said
    assert is_wish(typed, TODAY)


@pytest.mark.parametrize(
    "typed",
    [
        "8",
        "june",
        "may",
        "12/3",
        "a friend",
        "from a friend",
        "phoenix",
        "may bell",
        "nora 8",
        "not mondays",
        "",
        "cello",
        "tue or thu after 4pm phoenix",
    ],
)
def test_what_says_more_or_nothing_of_times_is_none(typed):
    assert not is_wish(typed, TODAY)


def test_a_word_that_is_not_understood_is_named():
    with pytest.raises(BadInput, match='"blursday" is not understood'):
        read_wishes("tue or blursday", TODAY)


def test_a_weekly_time_fits_until_a_clock_moves_it_out_of_the_wish():
    """Computed with tzdata 2026f: Tue 5:00 pm in Chicago is 4:00 pm in Phoenix in winter, 3:00 pm from March 14, 2027 on."""
    found = fit_of(FIVE, read_wishes("tue after 4 pm, 45m", TODAY), "America/Phoenix", CLOCK.date_of)
    assert found == Fit(from_on=date(2026, 12, 1), until_on=date(2027, 3, 9))


@pytest.mark.parametrize(
    ("typed", "zone", "fit"),
    [
        ("tue after 3 pm", "America/Phoenix", Fit(from_on=date(2026, 12, 1), until_on=None)),
        ("tue after 5 pm", "America/Phoenix", None),
        ("tue before 4 pm", "America/Phoenix", Fit(from_on=date(2027, 3, 16), until_on=date(2027, 11, 2))),
        ("wed", "America/Phoenix", None),
        ("wed before 9 am", "Asia/Kolkata", Fit(from_on=date(2026, 12, 1), until_on=None)),
        ("tue, 60m", "America/Chicago", None),
        ("tue, 30m", "America/Chicago", Fit(from_on=date(2026, 12, 1), until_on=None)),
        ("tue, from june", "America/Chicago", Fit(from_on=date(2027, 6, 1), until_on=None)),
        ("tue 5pm", "America/Chicago", Fit(from_on=date(2026, 12, 1), until_on=None)),
        ("30m", "America/Chicago", Fit(from_on=date(2026, 12, 1), until_on=None)),
    ],
)
def test_a_wish_is_held_against_every_week_on_their_clock(typed, zone, fit):
    assert fit_of(FIVE, read_wishes(typed, TODAY), zone, CLOCK.date_of) == fit


def test_without_wishes_any_time_suits():
    assert fit_of(FIVE, Wishes(), "America/Phoenix", CLOCK.date_of) == Fit(from_on=date(2026, 12, 1), until_on=None)
