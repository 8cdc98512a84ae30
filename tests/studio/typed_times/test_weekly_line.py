"""Typed lines on a weekly time; common practice, no source.

It is Wednesday 25 November 2026, 9:00 in Chicago; the weekly time is Tuesdays at 16:00, next on 1 December.
"""

import re
from collections.abc import Callable
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
        ("bis Ende Mai", (None, "2027-05-31", None, None)), ("jusqu'à fin mai", (None, "2027-05-31", None, None)), ("hasta finales de mayo", (None, "2027-05-31", None, None)),
        ("jusqu'au 18 décembre", (None, "2026-12-18", None, None)), ("hasta el 18 de diciembre", (None, "2026-12-18", None, None)),
        ("à partir du 12 janvier 17h", ("Tue 2027-01-12 17:00", None, None, None)), ("los miércoles 17h desde enero", ("Wed 2027-01-06 17:00", None, None, None)),
        ("les mercredis 17h à partir du 13 janvier", ("Wed 2027-01-13 17:00", None, None, None)), ("ab dem 12. Januar 17:00 Uhr", ("Tue 2027-01-12 17:00", None, None, None)),
        ("lunes 17h desde el 12 de enero hasta fin de mayo", ("Mon 2027-01-18 17:00", "2027-05-31", None, None)),
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
        ("until march", '"march" needs a day. Type "end of march" for its last day, or a day such as "march 1".'), ("bis Mai", 'Type "end of mai"'),
        ("fin mai 17h", '"fin mai" could be the first day or the last'), ("bis Anfang Mai", '"anfang" is not understood'), ("from 12 jan 5pm?", "has a question mark"),
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


@pytest.mark.parametrize(
    ("line", "first", "until"),
    [
        ("wed 5pm starting next month", "Wed 2026-12-02 17:00", None), ("wed 5pm next month", "Wed 2026-12-02 17:00", None),
        ("wed 5pm till end of march", "Wed 2026-11-25 17:00", "2027-03-31"), ("through the end of february", None, "2027-02-28"),
        ("wed 5pm until the end of the month", "Wed 2026-11-25 17:00", "2026-11-30"), ("ends end of january", None, "2027-01-31"),
        ("from jan 12 5pm to the end of the month", "Tue 2027-01-12 17:00", "2027-01-31"), ("last lesson end of january", None, "2027-01-31"),
        ("until the end of next month", None, "2026-12-31"), ("stop at the end of the year", None, "2026-12-31"),
        ("through the end of february 2028", None, "2028-02-29"), ("from the beginning of february 5pm", "Tue 2027-02-02 17:00", None),
        ("every wed 5pm beginning of next month", "Wed 2026-12-02 17:00", None), ("5pm from the first of next month", "Tue 2026-12-01 17:00", None),
        ("wed 5pm starting in the new year", "Wed 2027-01-06 17:00", None), ("5pm from the last day of february", "Tue 2027-03-02 17:00", None),
        ("from feb 1 5pm till end of february", "Tue 2027-02-02 17:00", "2027-02-28"), ("until beginning of february", None, "2027-02-01"),
        ("from apr 6 5pm through the end of march", "Tue 2027-04-06 17:00", "2028-03-31"),
        ("thu same time from next month", "Thu 2026-12-03 16:00", None), ("same day 5pm", "Tue 2026-12-01 17:00", None),
        ("same day same time every other week", "Tue 2026-12-01 16:00", None), ("5pm my time", "Tue 2026-12-01 17:00", None),
    ],
)  # fmt: skip
def test_a_month_may_be_named_by_its_first_or_its_last_day(line, first, until):
    assert said(line)[:2] == (first, until)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("end of january", '"end of january" could be the first day or the last. Type "from" or "through" before it.'),
        ("until next month", 'Type "through the end of next month", or a date.'), ("wed 5pm through this month", '"this month" could be'),
        ("until end of term", 'no date for "term"'), ("5pm until the end of the school year", 'no date for "school"'),
        ("wed 5pm until easter", 'no date for "easter"'), ("5pm after christmas", 'no date for "christmas"'),
        ("thu 5pm same day", '"same day" is Tuesday, and the line has another day'), ("a day earlier", '"a day earlier" is not understood'),
        ("from nov 27 5pm until end of november", "There is no Tuesday from Friday, November 27"), ("5pm mid january", '"mid" is not understood'), ("wed 5pm in spring", 'no date for "spring"'),
    ],
)  # fmt: skip
def test_days_that_have_no_date_are_named(line, words):
    assert words in refusal(line)


# What each of these words must have made of a weekly time, or the line is refused and names some of its words.
_MEANINGS: dict[str, Callable[[WeeklyLine], bool]] = {
    "wed": lambda read: any(on.weekday() == 2 for on in (read.since, read.when and read.when.local) if on),
    "thursdays": lambda read: read.when is not None and read.when.local.weekday() == 3,
    "same day": lambda read: read.keeps_weekday,
    "5pm": lambda read: read.when is not None and read.when.local.time() == time(17),
    "an hour later": lambda read: read.when is not None and read.when.local.time() == time(17),
    "45m": lambda read: read.when is not None and read.when.minutes == 45,
    "phoenix": lambda read: read.when is not None and read.when.zone == "America/Phoenix",
    "okonjo": lambda read: read.when is not None and read.when.zone == "Europe/London",
    "every other week": lambda read: read.every == 2,
    "weekly": lambda read: read.every == 1,
    "from jan 12": lambda read: read.since == date(2027, 1, 12),
    "starting next month": lambda read: read.since == date(2026, 12, 1),
    "in the new year": lambda read: date(2027, 1, 1) in {read.since, read.until_on},
    "from next week": lambda read: read.since is not None and date(2026, 11, 30) <= read.since <= date(2026, 12, 6),
    "until mar 30": lambda read: read.until_on == date(2027, 3, 30),
    "till end of march": lambda read: read.until_on == date(2027, 3, 31),
    "through the end of the year": lambda read: read.until_on is not None and read.until_on.month == 12,
    "not": lambda _: False,
    "or": lambda _: False,
    "zzyzx": lambda _: False,
    "mercredi": lambda read: any(on.weekday() == 2 for on in (read.since, read.when and read.when.local) if on),
    "jueves": lambda read: any(on.weekday() == 3 for on in (read.since, read.when and read.when.local) if on),
    "desde el 12 de enero": lambda read: read.since == date(2027, 1, 12),
    "jusqu'à fin mars": lambda read: read.until_on == date(2027, 3, 31),
    "bis Ende März": lambda read: read.until_on == date(2027, 3, 31),
    "mid": lambda _: False,
    "a day earlier": lambda _: False,
}


@given(st.lists(st.sampled_from(sorted(_MEANINGS)), min_size=1, max_size=4))
def test_every_word_of_a_line_is_in_the_weekly_time_or_the_line_is_refused_and_names_one(words):
    line = " ".join(words)
    try:
        found = read(line)
    except BadInput as fault:
        refused = str(fault)
    else:
        assert not [word for word in words if not _MEANINGS[word](found)]
        return
    assert any(named in line for named in re.findall('"([^"]+)"', refused)) or refused.startswith("There is no ")


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


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("5 lessons from jan 5", "5 lessons"), ("two lessons from jan 5", "two lessons"), ("8 tuesdays from jan 5", "8 tuesdays"),
        ("eight lessons starting jan 5", "eight lessons"), ("6 lessons wed", "6 lessons"), ("5 lessons", "5 lessons"),
        ("every week 5 lessons", "5 lessons"), ("4 more lessons", "4 more lessons"), ("5 lessons until mar 30", "5 lessons"),
    ],
)  # fmt: skip
def test_a_number_of_lessons_is_no_hour(line, named):
    assert refusal(line).startswith(f'"{named}" could be a time or a number of lessons. ')


@pytest.mark.parametrize(
    ("line", "named", "works"),
    [
        ("6 weeks from jan 5", "6 weeks from", ("from january 5 until february 15", "from february 16")),
        ("6 weeks from jan 5 5pm", "6 weeks from", ("from january 5 until february 15", "from february 16")),
        ("two days from jan 5", "two days from", ("from january 5 until january 6", "from january 7")),
        ("a week from tuesday", "a week from", ("from december 1 until december 7", "from december 8")),
    ],
)
def test_so_many_weeks_from_a_day_are_how_long_or_when_it_begins(line, named, works):
    lasts, begins = works
    assert (
        refusal(line)
        == f'"{named}" could be how long the weekly time lasts or when it begins. Type "{lasts}" or "{begins}".'
    )
    assert (read(lasts).until_on, read(begins).until_on is None) != (None, False)


@pytest.mark.parametrize("line", ["a day later", "2 days later 5pm", "a week later", "+1 week"])
def test_days_that_are_counted_from_one_lesson_are_no_first_day_of_all(line):
    assert "counts from one lesson" in refusal(line)


@pytest.mark.parametrize(
    "line", ["from 4pm to 5pm", "4pm to 5pm from jan 5", "from jan 5 from 4 pm to 5 pm", "tuesdays 4 to 5pm from jan 5"]
)
def test_from_the_usual_time_to_another_is_a_new_time_or_a_length(line):
    assert refusal(line).endswith('could be a new time or a length. Type "5 pm" or "4 pm 60 min" instead.')


def test_a_span_from_another_time_or_weekday_says_how_long():
    assert [said(line)[3] for line in ("from jan 5 5 to 6pm", "wed 4 to 5pm from jan 6", "from jan 5 4-5pm")] == [
        60
    ] * 3
