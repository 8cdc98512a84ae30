"""What is owed that comes from no lesson, against an independent expansion of the same rules."""

from datetime import date, datetime, timedelta

import pytest
from dateutil.rrule import DAILY, FR, MO, MONTHLY, TH, WEEKLY, YEARLY, rrule
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.changes.duties import Cycle, Duty, DutyId
from cockpit.studio.day.duty_line import often_words, read_duty
from cockpit.studio.errors import BadInput
from cockpit.studio.values import replace

TODAY = date(2026, 12, 1)  # a Tuesday
DAY = timedelta(days=1)


def read(line, today=TODAY):
    return read_duty(line, DutyId(1), today)


@pytest.mark.parametrize(
    ("line", "words", "first", "then"),
    [
        ("order strings every first monday", "order strings", date(2026, 12, 7), date(2027, 1, 4)),
        ("Order strings, every last Friday of the month", "Order strings", date(2026, 12, 25), date(2027, 1, 29)),
        ("statements on the 1st", "statements", date(2026, 12, 1), date(2027, 1, 1)),
        ("send the summary every 31st", "send the summary", date(2026, 12, 31), date(2027, 1, 31)),
        ("back up every week", "back up", date(2026, 12, 1), date(2026, 12, 8)),
        ("tune every thursday", "tune", date(2026, 12, 3), date(2026, 12, 10)),
        ("tune every montag", "tune", date(2026, 12, 7), date(2026, 12, 14)),
        ("tune every first Lunes of the month", "tune", date(2026, 12, 7), date(2027, 1, 4)),
        ("tune each mercredis", "tune", date(2026, 12, 2), date(2026, 12, 9)),
        ("renew the hall every märz 1", "renew the hall", date(2027, 3, 1), date(2028, 3, 1)),
        ("tune every other thursday", "tune", date(2026, 12, 3), date(2026, 12, 17)),
        ("water the plants daily", "water the plants", date(2026, 12, 1), date(2026, 12, 2)),
        ("review every month", "review", date(2026, 12, 1), date(2027, 1, 1)),
        ("renew the hall each sep 1", "renew the hall", date(2027, 9, 1), date(2028, 9, 1)),
    ],
)
def test_a_line_says_what_is_owed_and_after_what_it_is_owed_again(line, words, first, then):
    duty = read(line)
    assert duty.words == words
    days = [TODAY + number * DAY for number in range(800)]
    assert [on for on in days if duty.falls_on(on)][:2] == [first, then]


def test_without_a_day_it_is_owed_from_now_on_and_with_one_until_then():
    once, by = read("order strings"), read("order strings by dec 12")
    assert (once.words, once.by_on, once.every) == ("order strings", None, None)
    assert (by.words, by.by_on, by.every) == ("order strings", date(2026, 12, 12), None)
    for duty in (once, by):
        assert duty.open_since(TODAY + 30 * DAY) == TODAY
        assert replace(duty, ticked_on=TODAY).open_since(TODAY + 30 * DAY) is None


@pytest.mark.parametrize("line", ["stand by me poster", "ask by whom it was written", "wait until they call"])
def test_words_that_only_sound_like_a_day_are_words(line):
    assert read(line).words == line


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("order strings every blue moon", "every blue moon"),
        ("tune every third week", "every third week"),
        ("be there each time", "each time"),
        ("dust every so", "every so"),
        ("pay every 32nd", "every 32nd"),
        ("every monday", "does not say what you owe"),
        ("", "order strings every first monday"),
        ("call " + "x" * 300, "too long"),
        ("renew every feb 30", "every feb 30"),
    ],
)
def test_what_is_not_understood_is_named(line, named):
    with pytest.raises(BadInput, match=named):
        read(line)


def test_what_was_missed_does_not_pile_up():
    duty = replace(read("tune every thursday"), made_on=date(2026, 11, 1))
    assert duty.open_since(TODAY) == date(2026, 11, 5)
    assert replace(duty, ticked_on=date(2026, 11, 19)).open_since(TODAY) == date(2026, 11, 26)
    assert replace(duty, ticked_on=date(2026, 11, 26)).open_since(TODAY) is None
    assert replace(duty, ticked_on=date(2026, 11, 26)).open_since(date(2026, 12, 3)) == date(2026, 12, 3)


AS_RRULE = {
    "order every first monday": {"freq": MONTHLY, "byweekday": MO(1)},
    "order every last friday": {"freq": MONTHLY, "byweekday": FR(-1)},
    "order every other thursday": {"freq": WEEKLY, "interval": 2, "byweekday": TH},
    "order every thursday": {"freq": WEEKLY, "byweekday": TH},
    "order daily": {"freq": DAILY},
    "order on the 15th": {"freq": MONTHLY, "bymonthday": 15},
    # The last of the days that the month has, up to the 31st.
    "order on the 31st": {"freq": MONTHLY, "bymonthday": [28, 29, 30, 31], "bysetpos": -1},
    "order every sep 1": {"freq": YEARLY, "bymonth": 9, "bymonthday": 1},
}


@given(st.sampled_from(sorted(AS_RRULE)), st.dates(date(2020, 1, 1), date(2035, 1, 1)))
def test_the_days_are_those_of_an_independent_expansion(line, made_on):
    duty = read(line, made_on)
    begins = datetime.combine(made_on - made_on.weekday() * DAY, datetime.min.time())  # its weeks begin on Mondays
    rule = rrule(dtstart=begins, until=begins + timedelta(days=800), wkst=MO, **AS_RRULE[line])
    expected = [each.date() for each in rule if each.date() >= made_on]
    days = (made_on + number * DAY for number in range((begins.date() + timedelta(days=801) - made_on).days))
    assert [on for on in days if duty.falls_on(on)] == expected


@given(st.sampled_from(sorted(AS_RRULE)), st.integers(0, 500), st.integers(0, 500))
def test_it_is_owed_from_the_first_day_that_was_not_checked_off(line, ticked, later):
    duty = replace(read(line), ticked_on=TODAY + ticked * DAY)
    today = TODAY + (ticked + later) * DAY
    missed = [TODAY + number * DAY for number in range(ticked + 1, ticked + later + 1)]
    assert duty.open_since(today) == next((on for on in missed if duty.falls_on(on)), None)


def test_a_duty_is_a_record_of_plain_values():
    assert read("order every first monday") == Duty(
        id=DutyId(1), words="order", made_on=TODAY, every=Cycle.MONTH, nth=1, weekday=0
    )


@pytest.mark.parametrize("line", sorted(AS_RRULE))
def test_when_it_is_owed_again_is_said_in_words_that_are_read_back(line):
    duty = read(line)
    said = (
        often_words(duty)
        .replace("on day 15 of each month", "on the 15th")
        .replace("on day 31 of each month", "on the 31st")
    )
    assert read(f"{duty.words} {said}") == duty
