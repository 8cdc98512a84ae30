"""Typed lines on a weekly time; common practice, no source.

It is Wednesday 25 November 2026, 9:00 in Chicago; the weekly time is Tuesdays at 16:00, next on 1 December.
"""

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import HOME, home

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.weekly_line import WeeklyLine, read_weekly
from cockpit.studio.typed_times.when import Reference

USUAL = home("2026-12-01 16:00")
REFERENCE = Reference(now=home("2026-11-25 09:00"), around=date(2026, 12, 1), home_zone=HOME, same=time(16))


def read(text: str) -> WeeklyLine:
    return read_weekly(text, REFERENCE, usual=USUAL, also={"okonjo": "Europe/London"})


def refusal(text: str) -> str:
    with pytest.raises(BadInput) as refused:
        read(text)
    return str(refused.value)


def said(text: str) -> tuple[str | None, str | None, int | None, int | None]:
    found = read(text)
    if found.when is None:
        return None, str(found.until_on), found.every, None
    at = f"{local_time(found.when.starts_at, HOME):%a %Y-%m-%d %H:%M}"
    return at, None if found.until_on is None else str(found.until_on), found.every, found.when.minutes


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("from 1 feb 5 pm", "Tue 2027-02-02 17:00"), ("from 2 feb 5 pm", "Tue 2027-02-02 17:00"), ("2 feb 5pm", "Tue 2027-02-02 17:00"),
        ("from 3 feb 5 pm", "Tue 2027-02-09 17:00"), ("from wed 3 feb 5 pm", "Wed 2027-02-03 17:00"),
        ("from 1 feb 5pm on wednesdays", "Wed 2027-02-03 17:00"), ("wed 5pm from 14 jan", "Wed 2027-01-20 17:00"),
        ("wednesdays 5pm from january", "Wed 2027-01-06 17:00"), ("from january on fridays 5pm", "Fri 2027-01-01 17:00"),
        ("starting in february thursdays 5pm", "Thu 2027-02-04 17:00"), ("from 12.1. 17:00", "Tue 2027-01-12 17:00"),
        ("ab 13.1. 17:00", "Tue 2027-01-19 17:00"), ("from 1/13 5pm", "Tue 2027-01-19 17:00"), ("from 13/1 5pm", "Tue 2027-01-19 17:00"),
        ("from tomorrow 5pm", "Tue 2026-12-01 17:00"), ("from next week 5pm", "Tue 2026-12-01 17:00"), ("5pm", "Tue 2026-12-01 17:00"),
        ("from next wed 5", "Wed 2026-12-02 17:00"), ("from wed 5pm", "Wed 2026-11-25 17:00"), ("thu 5pm", "Thu 2026-11-26 17:00"),
        ("change to thu 5pm from 7 jan", "Thu 2027-01-07 17:00"), ("to 5pm", "Tue 2026-12-01 17:00"), ("45m", "Tue 2026-12-01 16:00"),
        ("from 12 jan onwards 5pm", "Tue 2027-01-12 17:00"), ("from 12 jan 4pm phoenix", "Tue 2027-01-12 17:00"),
        ("from 12 jan 45 min", "Tue 2027-01-12 16:00"),
    ],
)  # fmt: skip
def test_the_first_lesson_is_on_the_first_such_weekday_from_the_day_on(line, first):
    assert said(line)[0] == first


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("from 12 jan 5pm until 30 mar", ("Tue 2027-01-12 17:00", "2027-03-30", None, None)),
        ("from 12 jan until 30 june 5pm", ("Tue 2027-01-12 17:00", "2027-06-30", None, None)),
        ("from 12 jan to 30 mar 5pm 45m", ("Tue 2027-01-12 17:00", "2027-03-30", None, 45)),
        ("from 12 jan 5 to 5:45pm every other week", ("Tue 2027-01-12 17:00", None, 2, 45)),
        ("every other wed 5pm from 13 jan", ("Wed 2027-01-13 17:00", None, 2, None)),
        ("from 5 jan until 22 dec 2027", ("Tue 2027-01-05 16:00", "2027-12-22", None, None)),
        ("from 8 sep until 15 jun", ("Tue 2027-09-14 16:00", "2028-06-15", None, None)),
        ("from 12 jan until 30 mar 2028", ("Tue 2028-01-18 16:00", "2028-03-30", None, None)),
        ("bis 3. Januar", (None, "2027-01-03", None, None)), ("ab 12. Januar 17 Uhr", ("Tue 2027-01-12 17:00", None, None, None)),
        ("mittwochs 17 Uhr ab 13. Januar bis 30. März", ("Wed 2027-01-13 17:00", "2027-03-30", None, None)),
        ("weekly from 5 jan", ("Tue 2027-01-05 16:00", None, 1, None)), ("biweekly", ("Tue 2026-12-01 16:00", None, 2, None)),
        ("stop after 15 dec", (None, "2026-12-15", None, None)), ("ends 18 dec", (None, "2026-12-18", None, None)),
        ("last lesson 15 dec", (None, "2026-12-15", None, None)), ("through dec 18", (None, "2026-12-18", None, None)),
        ("no lessons after 15 dec", (None, "2026-12-15", None, None)), ("till 12/18", (None, "2026-12-18", None, None)),
    ],
)  # fmt: skip
def test_a_first_day_a_last_one_and_what_is_said_of_each_lesson_are_told_apart(line, found):
    assert said(line) == found


def test_a_line_says_which_day_it_is_counted_from():
    found = read("5pm in 2 weeks").when
    assert found is not None
    assert found.counted == '"in 2 weeks" counts from today (Wed, November 25).'


def test_a_line_says_whether_it_keeps_the_weekday_and_the_time():
    assert (read("from 1 feb 45m").keeps_time, read("from 1 feb 5pm").keeps_time) == (True, False)
    assert (read("from 1 feb 5pm").keeps_weekday, read("fri 5pm from 1 feb").keeps_weekday) == (True, False)
    assert (read("from 1 feb 5pm").since, read("every other week").since) == (date(2027, 2, 1), None)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("from wed 14 jan 5pm", "January 14, 2027 is a Thursday"), ("from january 5pm", '"january" needs a day'),
        ("from 13 jan until 18 jan 5pm", "There is no Tuesday from Wednesday, January 13, 2027 through Monday, January 18, 2027. "
         "The first one is Tuesday, January 19, 2027."),
        ("until 15 dec 5pm", '"5pm" says nothing about an end'), ("through dec 18 45m", '"45m" says nothing about an end'),
        ("every 3 weeks from 5 jan", '"every 3 weeks" cannot be planned'), ("every other week weekly", "do not match"),
        ("from 12 jan 5pm except feb", '"except" is not understood'), ("from 12 jan 5pm for 6 weeks", '"weeks" is not understood'),
        ("from 12 jan 19 jan 5pm", "two days"), ("wed thu 5pm from 12 jan", "two days"), ("from 12 jan 5pm 6pm", "two times"),
        ("stop", '"stop" is not understood'), ("from 12 jan 5pm or 6pm", '"or" is not understood'), ("", "no day or time yet"),
        ("until march", '"march" needs a day'), ("from 12 jan 5pm?", "has a question mark"),
        ("from jan 12, 14", "could be two days"), ("until dec 15, 22", "could be two days"),
        ("until 15 nov 2026", "has passed"),
        ("until 20 nov", '"20 nov" is Friday, November 20, 2026, which has passed. Type November 25, 2026 or a later day, or add the year'),
        ("from 20 nov 5pm", "November 20, 2026, which has passed"), ("from nov 5pm", '"nov" needs a day'),
        ("until dec 22 from jan 5", '"dec 22" is Tuesday, December 22, 2026, before Tuesday, January 5, 2027'),
        ("from jan 5 until jan 1", '"jan 1" is Friday, January 1, 2027, before Tuesday, January 5, 2027. Type a later day, or add the year.'),
    ],
)  # fmt: skip
def test_what_is_not_understood_is_named(line, words):
    assert words in refusal(line)


VOCABULARY = """
    from until through to 12 jan 30 mar 15 dec wed tue fridays 5pm 17:00 45m every other week weekly biweekly january next tomorrow
    phoenix okonjo same time at on the stop after or except not half zzyzx 1/12 and for lesson in
"""
SAYS_NOTHING = {"at", "on", "the", "lesson", "to", "in", "and", "same", "time", "for", "from"}
LINES = st.lists(st.sampled_from(VOCABULARY.split()), min_size=1, max_size=8).map(" ".join)


@given(LINES)
def test_of_a_weekly_time_no_word_is_lost(line):
    try:
        found = read(line)
    except BadInput:
        return
    words = line.split()
    assert not {"or", "except", "not", "half", "zzyzx"}.intersection(words)
    assert ("45m" in words) == (found.when is not None and found.when.minutes == 45)
    assert bool({"5pm", "17:00"}.intersection(words)) == (
        found.when is not None and found.when.local.time() == time(17)
    )
    assert bool({"phoenix", "okonjo"}.intersection(words)) == (found.when is not None and found.when.zone != HOME)
    assert not {"weekly", "biweekly", "every"}.intersection(words) or found.every in {1, 2}
    assert not {"until", "through"}.intersection(words) or found.until_on is not None
    assert (
        "wed" not in words or (found.when is not None and found.when.local.weekday() == 2) or found.until_on is not None
    )
