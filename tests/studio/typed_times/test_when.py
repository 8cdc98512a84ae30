"""Typed lines that say when a lesson is to be; common practice, no source, but where one is named.

Unless told otherwise it is Wednesday 25 November 2026, 9:00 in Chicago, and the lesson that is meant is the one of
Tuesday 1 December at 16:00.
"""

import re
import string
import zoneinfo
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest
from babel import Locale
from hypothesis import assume, example, given
from hypothesis import strategies as st
from support.instants import readings, rfc_moment
from support.studio import HOME, home, utc

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import WEEKDAYS, local_time
from cockpit.studio.clocks.words import MONTHS, clock_time, long_date, near_date
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.places import LARGE_CITIES, place_key, spoken
from cockpit.studio.typed_times.when import Occurs, When, clock_note, read_when

NOW = home("2026-11-25 09:00")
ALSO = {"okonjo": "Europe/London", "teodor": "Europe/London", "van der berg": "Asia/Kolkata", "may": "Asia/Tokyo"}
ALSO |= {"sun li": "Asia/Shanghai", "su": "Asia/Seoul", "péréz": "America/Bogota"}
ZONES = sorted(
    zone
    for zone in zoneinfo.available_timezones()
    if zone != "Factory"
    and not any(letter.isdigit() for letter in zone)
    and (not zone.isupper() or len(zone) > 3 or zone in {"UTC", "GMT"})
)
# "Central" in speech is no clock of one country.
REGIONS = {"Eastern", "Central", "Mountain", "Pacific", "Atlantic", "Newfoundland"}
PLACES = [zone for zone in ZONES if "/" in zone and not zone.startswith("Etc/") and spoken(zone) not in REGIONS]


def read(text: str, **values: Any) -> When:
    defaults = {"now": NOW, "around": date(2026, 12, 1), "home_zone": HOME, "also": ALSO, "same": time(16)}
    return read_when(text, **defaults | values)


def refusal(text: str, **values: Any) -> str:
    with pytest.raises(BadInput) as caught:
        read(text, **values)
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("thu 4:30pm", "2026-11-26 16:30"), ("12/3 16:00", "2026-12-03 16:00"), ("next tue 5", "2026-12-01 17:00"),
        ("2026-12-03 16:30", "2026-12-03 16:30"), ("tomorrow 5:15", "2026-11-26 17:15"),
        ("today 18.00", "2026-11-25 18:00"), ("dec 3 4pm", "2026-12-03 16:00"), ("jan 5", "2027-01-05 16:00"),
        ("3 december 16h30", "2026-12-03 16:30"), ("Thursday the 3rd at 4:30 p.m.", "2026-12-03 16:30"),
        ("3rd of december, 4 p.m.", "2026-12-03 16:00"), ("dec 3rd, 2026, 4:30 pm", "2026-12-03 16:30"),
        ("12/3/26", "2026-12-03 16:00"), ("12/3/2026 4p", "2026-12-03 16:00"), ("3.12. 16:00", "2026-12-03 16:00"),
        ("3.12.2026 16:00", "2026-12-03 16:00"), ("3. december 4", "2026-12-03 16:00"), ("3.12", "2026-12-01 15:12"),
        ("2026-12-03T16:30", "2026-12-03 16:30"), ("2026/12/3 5", "2026-12-03 17:00"),
        ("the 31st 4pm", "2026-12-31 16:00"), ("the 25th 5", "2026-11-25 17:00"), ("24th 5", "2026-12-24 17:00"),
        ("29 feb 2028", "2028-02-29 16:00"), ("9/25", "2027-09-25 16:00"), ("11/25", "2026-11-25 16:00"),
        ("dec 3 1630", "2026-12-03 16:30"), ("tonight 7", "2026-11-25 19:00"), ("to thu 5", "2026-11-26 17:00"),
        ("tomorrow morning 9", "2026-11-26 09:00"), ("this afternoon at 12:30", "2026-11-25 12:30"),
        ("today wed 5", "2026-11-25 17:00"), ("12/3 16:00 12/3", "2026-12-03 16:00"),
        ("dec 21, 4", "2026-12-21 16:00"), ("dec 3, 5pm", "2026-12-03 17:00"), ("dec 3, 17:00", "2026-12-03 17:00"), ("5, dec 23", "2026-12-23 17:00"),
        ("dec 3, 5 o'clock", "2026-12-03 17:00"), ("dec 3, 2027 5pm", "2027-12-03 17:00"), ("dec 3, 30 min", "2026-12-03 16:00"),
    ],
)  # fmt: skip
def test_a_line_names_a_day_and_a_time(text: str, at: str) -> None:
    assert read(text).starts_at == home(at)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("16:30", "16:30"), ("1630", "16:30"), ("0930", "09:30"), ("at 430", "16:30"), ("430pm", "16:30"), ("5", "17:00"),
        ("4 30 pm", "16:30"), ("noon", "12:00"), ("12 noon", "12:00"), ("12am", "00:00"), ("12:30", "12:30"),
        ("half past 4", "16:30"), ("quarter to 5 pm", "16:45"), ("a quarter past four", "16:15"), ("@4", "16:00"),
        ("20 to 5", "16:40"), ("ten to five", "16:50"), ("10 minutes to 5", "16:50"), ("quarter to 1", "12:45"),
        ("five", "17:00"), ("5 o'clock", "17:00"), ("5 o clock", "17:00"), ("16h", "16:00"), ("16:30:00", "16:30"), ("4.30.", "16:30"),
        ("4:30\u202fPM", "16:30"), ("same time", "16:00"), ("9:15 at night", "21:15"), ("quarter to 17", "16:45"),
    ],
)  # fmt: skip
def test_a_time_without_a_day_is_on_the_day_of_the_lesson(text: str, at: str) -> None:
    assert read(text).starts_at == home(f"2026-12-01 {at}")


@pytest.mark.parametrize(
    ("text", "hour"),
    [("1", 13), ("6:59", 18), ("9", 9), ("11", 11), ("12", 12), ("13", 13), ("05:00", 5), ("07:30", 7), ("0:30", 0),
     ("5 am", 5), ("7 in the morning", 7), ("quarter to 7", 18), ("quarter to 10", 9), ("6 in the morning", 6)],
)  # fmt: skip
def test_a_bare_hour_is_when_lessons_are_taught(text: str, hour: int) -> None:
    assert read(text).local.hour == hour


def test_seven_and_eight_are_in_the_evening_unless_the_lesson_is_in_the_morning() -> None:
    assert [read(text).local.hour for text in ("7", "8:30")] == [19, 20]
    assert [read(text, same=None).local.hour for text in ("7", "8:30")] == [19, 20]
    assert [read(text, same=time(10)).local.hour for text in ("7", "8:30", "7 pm")] == [7, 8, 19]
    assert read("7 london", same=time(10)).local.hour == 19


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("thu 4:30 for 45 minutes", 45), ("mon 9am 30 min", 30), ("1h", 60), ("1 hour", 60), ("60", 60), ("45m", 45),
        ("thu 4pm 45", 45), ("tue 5 60", 60), ("for 45", 45), ("90", 90), ("180", 180), ("1h30", 90), ("1.5h", 90),
        ("1 h 30 min", 90), ("an hour and a half", 90), ("half an hour", 30), ("45 thu 4pm", 45), ("two hours", 120), ("dec 24 at noon for 1 hour", 60), ("4pm (45 min)", 45), ("4pm - 45min", 45),
        ("45-minute lesson", 45), ("5 min", 5), ("240 mins", 240), ("thu 4", None), ("4h", 240), ("5h", None),
    ],
)  # fmt: skip
def test_a_length_is_read_and_is_none_where_the_line_says_nothing_of_it(text: str, minutes: int | None) -> None:
    assert read(text).minutes == minutes


def test_a_length_alone_keeps_day_and_time() -> None:
    assert read("60").starts_at == home("2026-12-01 16:00")
    assert "no time" in refusal("60", same=None)


@pytest.mark.parametrize(
    ("text", "on"),
    [
        ("wed", "11-25"), ("tue", "12-01"), ("this tue", "12-01"), ("next wed", "12-02"), ("next mon", "11-30"),
        ("next week", "12-08"), ("fri next week", "12-04"), ("thu this week", "11-26"), ("week after next", "12-08"),
        ("in 2 weeks", "12-09"), ("thu in 2 weeks", "12-10"), ("in 3 days", "11-28"), ("in a week", "12-02"),
        ("+1 week", "12-08"), ("+2w", "12-15"), ("+3 days", "12-04"), ("2 weeks later", "12-15"), ("weds", "11-25"),
        ("fri +1 week", "12-11"), ("same time next week", "12-08"), ("two weeks from today", "12-09"), ("su.", "11-29"),
    ],
)  # fmt: skip
def test_days_are_counted_from_today_and_those_with_a_plus_from_the_lesson(text: str, on: str) -> None:
    assert read(text, also={}).starts_at == home(f"2026-{on} 16:00")


def test_next_is_the_following_week_whatever_today_is() -> None:
    sunday, monday = home("2026-11-29 12:00"), home("2026-11-30 12:00")
    assert read("next mon", now=sunday).local.date() == date(2026, 11, 30)
    assert read("next mon", now=monday).local.date() == date(2026, 12, 7)
    assert read("mon", now=monday).local.date() == date(2026, 11, 30)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("Dienstag 17 Uhr", "12-01 17:00"), ("Di 17 Uhr", "12-01 17:00"), ("Mi., 17.30 Uhr", "11-25 17:30"), ("24. Dez", "12-24 16:00"),
        ("am Donnerstag um 17 Uhr", "11-26 17:00"), ("Do 17 Uhr", "11-26 17:00"), ("So 6.12. 10:00", "12-06 10:00"), ("sonnabend 10 uhr", "11-28 10:00"),
        ("3. Dezember 17 Uhr 30", "12-03 17:30"), ("17 Uhr 45 min", "12-01 17:00"), ("den 3. Dezember, 17 Uhr", "12-03 17:00"),
        ("heute 17 Uhr", "11-25 17:00"), ("morgen 17 Uhr", "11-26 17:00"), ("übermorgen 10 Uhr", "11-27 10:00"),
        ("Do 16:30 Uhr", "11-26 16:30"), ("Mo 16.30 Uhr", "11-30 16:30"), ("jeudi 16h30", "11-26 16:30"), ("jeu 16 h 30", "11-26 16:30"),
        ("le jeudi 3 décembre à 16h30", "12-03 16:30"), ("ven. 4 déc. 9h", "12-04 09:00"), ("1er décembre 17 heures", "12-01 17:00"),
        ("mercredi 18 heures 15", "11-25 18:15"), ("SAMEDI 10H", "11-28 10:00"), ("mer 2 déc 17h", "12-02 17:00"), ("dimanche 11:00", "11-29 11:00"),
        ("demain 17h", "11-26 17:00"), ("aujourd'hui 17h", "11-25 17:00"), ("après-demain 17h", "11-27 17:00"), ("lun 14 h", "11-30 14:00"),
        ("jue 16:30", "11-26 16:30"), ("jueves 3 de diciembre a las 16:30", "12-03 16:30"), ("el lunes a las 5 pm", "11-30 17:00"),
        ("mié 17:00", "11-25 17:00"), ("sábado 10h", "11-28 10:00"), ("sab 5 dic 10:00", "12-05 10:00"), ("domingo 11:00", "11-29 11:00"),
        ("hoy 17:00", "11-25 17:00"), ("mañana 17:00", "11-26 17:00"), ("pasado mañana 17:00", "11-27 17:00"), ("vie 17 horas", "11-27 17:00"),
        ("3 de diciembre de 2026 17:00", "12-03 17:00"), ("mardi 45 min", "12-01 16:00"), ("jeudi 15 h 45 min", "11-26 15:00"),
    ],
)  # fmt: skip
def test_the_days_and_months_of_german_french_and_spanish_are_read(text: str, at: str) -> None:
    assert read(text).starts_at == home(f"2026-{at}")


def test_every_month_and_weekday_is_read_in_four_languages() -> None:
    for language in ("en", "de", "fr", "es"):
        locale = Locale(language)
        for number, name in locale.months["format"]["wide"].items():
            assert read(f"28. {name} 2027 17:00").local.date() == date(2027, number, 28)
        for number, name in locale.days["format"]["wide"].items():
            assert read(f"{name} 17:00").local.weekday() == number
    for number, names in enumerate(zip(MONTHS, Locale("de").months["format"]["wide"].values(), strict=True), 1):
        for name in names:
            assert read(f"28. {name[:3]} 2027 17:00").local.month == number


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("Do 16:30", "thu"), ("So 11:00", "sun"), ("mar 16:30", "tue"), ("mar 16h", "tue"), ("Sam 10h", "sat"), ("sam. 10h", "sat"), ("Do. 16:30", "thu"), ("mar. 16:30", "tue"), ("dom 11:00", "sun"), ("3 ago 17h", "aug"),
    ],
)  # fmt: skip
def test_a_short_form_that_may_be_another_word_is_named_with_what_to_type(text: str, word: str) -> None:
    assert f'type "{word}"' in refusal(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("in two weeks", '"in two weeks" counts from today (Wed, November 25).'), ("+1 week", '"+1 week" counts from the lesson (Tue, December 1).'),
        ("a week later 5pm", '"a week later" counts from the lesson (Tue, December 1).'), ("thu in 2 weeks", '"in 2 weeks" counts from today (Wed, November 25).'),
        ("tomorrow", ""), ("next week", ""), ("dec 3", ""),
    ],
)  # fmt: skip
def test_it_is_told_which_day_is_counted_from(text: str, said: str) -> None:
    assert read(text).counted == said


def test_a_time_of_today_that_is_over_is_told_and_not_refused() -> None:
    assert read("wed 08:00").is_past
    assert not read("wed 10am").is_past


def test_the_habit_of_the_day_first_reads_slashes_but_not_dots() -> None:
    assert read("12/3", month_first=False).local.date() == date(2027, 3, 12)
    assert read("3.12.", month_first=False).local.date() == date(2026, 12, 3)
    assert read("13/4", month_first=False).local.date() == date(2027, 4, 13)


@pytest.mark.parametrize("month_first", [True, False])
def test_a_date_that_is_one_in_one_order_only_is_read_in_that(month_first: bool) -> None:
    for text in ("13/4", "4/13"):
        assert read(text, month_first=month_first).local.date() == date(2027, 4, 13)


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("4 pm phoenix", "America/Phoenix"), ("16:00 st. john's", "America/St_Johns"), ("phoenix 4pm", "America/Phoenix"),
        ("4pm kolkata time", "Asia/Kolkata"), ("4 pm America/Chicago", HOME), ("4pm in london", "Europe/London"),
        ("4pm port of spain", "America/Port_of_Spain"), ("4pm são paulo", "America/Sao_Paulo"), ("4pm GMT", "GMT"),
        ("4pm New_York", "America/New_York"), ("4pm okonjo", "Europe/London"), ("4 pm Teodor's time", "Europe/London"),
        ("4pm van der Berg", "Asia/Kolkata"), ("4pm perez", "America/Bogota"), ("4pm sun li", "Asia/Shanghai"),
        ("4pm may", "Asia/Tokyo"), ("may 4 pm", "Asia/Tokyo"), ("4pm su", "Asia/Seoul"), ("4pm est", "America/New_York"),
        ("4pm central time", HOME), ("4pm phoenix arizona", "America/Phoenix"), ("4pm, London.", "Europe/London"),
    ],
)  # fmt: skip
def test_a_city_or_a_name_puts_the_line_on_its_clock(text: str, zone: str) -> None:
    found = read(text)
    assert (found.zone, found.local.time()) == (zone, time(16))
    assert found.starts_at == rfc_moment(found.local, zone)


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("4pm boston", "America/New_York"), ("4 pm Seattle", "America/Los_Angeles"), ("4pm in mumbai", "Asia/Kolkata"),
        ("san francisco 4pm", "America/Los_Angeles"), ("4pm St. Louis time", HOME), ("4pm cape town", "Africa/Johannesburg"),
    ],
)  # fmt: skip
def test_a_large_city_that_no_zone_is_named_after_is_known(text: str, zone: str) -> None:
    assert (read(text).zone, read(text).local.time()) == (zone, time(16))


def test_every_large_city_is_named_by_its_own_key_and_is_no_zones_name() -> None:
    zones = zoneinfo.available_timezones()
    for city, zone in LARGE_CITIES.items():
        assert (place_key(city), zone in zones) == (city, True)
        assert city.replace(" ", "_") not in {each.rsplit("/", 1)[-1].casefold() for each in zones if "/" in each}


def test_a_time_in_a_city_stays_on_the_teachers_day() -> None:
    assert read("8:30am kolkata").starts_at == home("2026-12-01 21:00")
    assert read("4pm kolkata").starts_at == home("2026-12-01 04:30")
    assert read("20:00 honolulu", around=date(2026, 12, 2)).starts_at == home("2026-12-02 00:00")


def test_today_is_that_of_the_city_which_is_named() -> None:
    evening = home("2026-11-25 20:00")  # Thursday 7:30 in Kolkata
    assert read("today 4pm kolkata", now=evening).local.date() == date(2026, 11, 26)
    assert read("wed 4pm kolkata", now=evening).local.date() == date(2026, 12, 2)
    assert read("wed 9pm", now=evening).local.date() == date(2026, 11, 25)


def test_words_of_the_calendar_go_before_names_of_one_word() -> None:
    assert read("may 4 4pm").starts_at == home("2027-05-04 16:00")
    assert read("sun 4pm", also={"sun": "Asia/Seoul"}).zone == HOME


def test_a_name_goes_before_a_city() -> None:
    assert read("4pm paris", also={"paris": "America/Denver"}).zone == "America/Denver"


def test_an_abbreviation_is_taken_where_its_cities_agree_at_that_moment() -> None:
    # British Columbia keeps UTC-7 from 2026 on: IANA tzdata 2026b, NEWS.
    assert "Los Angeles or Vancouver" in refusal("4pm pst")
    assert read("2027-07-01 4pm pacific").starts_at == utc("2027-07-01 23:00")
    assert read("4pm mst").starts_at == utc("2026-12-01 23:00")
    assert "Phoenix or Denver" in refusal("2027-07-01 4pm mst")


def test_of_cities_that_differ_the_one_where_somebody_lives_is_meant() -> None:
    assert read("4pm pst", also={"ilse": "America/Vancouver"}).zone == "America/Vancouver"
    assert read("4pm central").zone == HOME
    assert "Chicago or Winnipeg" in refusal("4pm central", also={"ilse": "America/Winnipeg"})
    assert "Chicago or Winnipeg" in refusal("4pm ct", home_zone="America/New_York")


def test_the_teachers_own_clock_may_move() -> None:
    travels = Home(
        zone=HOME, stays=(Stay(zone="Europe/London", from_on=date(2026, 12, 2), until_on=date(2026, 12, 9)),)
    )
    found = read("dec 3 4pm", home_zone=travels)
    assert (found.zone, found.starts_at) == ("Europe/London", utc("2026-12-03 16:00"))
    assert read("dec 10 4pm", home_zone=travels).starts_at == home("2026-12-10 16:00")


# RFC 5545 3.3.5: the first of two, and the offset before the gap; the instants are those of IANA tzdata 2026f.
@pytest.mark.parametrize(
    ("text", "at", "occurs"),
    [
        ("2027-03-14 2:30am new york", "2027-03-14 07:30", Occurs.NEVER),
        ("2027-11-07 1:30am new york", "2027-11-07 05:30", Occurs.TWICE),
        ("2027-03-28 1:30am london", "2027-03-28 01:30", Occurs.NEVER),
        ("2027-10-31 1:30am london", "2027-10-31 00:30", Occurs.TWICE),
        ("2027-03-14 3:00am new york", "2027-03-14 07:00", Occurs.ONCE),
    ],
)
def test_a_time_that_a_clock_change_skips_or_repeats_is_told(text: str, at: str, occurs: Occurs) -> None:
    found = read(text)
    assert (found.starts_at, found.occurs) == (utc(at), occurs)
    assert (clock_note(found, 12) is None) == (occurs is Occurs.ONCE)


def test_the_note_on_a_clock_change_says_what_is_taken() -> None:
    skipped, twice = read("2027-03-14 2:30am"), read("2027-11-07 1:30am")
    assert (
        clock_note(skipped, 12)
        == "2:30 am on Sunday, March 14, 2027 does not exist in Chicago, because the clock changes. Using 3:30 am."
    )
    assert (
        clock_note(twice, 24)
        == "1:30 on Sunday, November 7, 2027 comes twice in Chicago, because the clock changes. Using the first."
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no day or time yet"), ("  ,. ", "no day or time yet"), ("on the", "no day or time yet"),
        ("25:00", '"25:00" is not a time of day'), ("16:30 pm", '"16:30 pm" is not a time of day'), ("4:75", '"4:75" is not a time'),
        ("christmas 5pm", 'no date for "christmas". Type the day, such as "dec 18".'),
        ("thu easter 5pm", 'no date for "easter"'), ("thanksgiving", 'no date for "thanksgiving"'),
        ("0 pm", '"0 pm" is not a time'), ("feb 30", "February has no day 30"), ("29 feb 2027", "February 2027 has no day 29"),
        ("feb 29", "is in 2028"), ("13/40", "There is no month 13"), ("31.4. 5pm", "April has no day 31"),
        ("2026-13-01", "There is no month 13"), ("the 32nd", "No month has a day 32"), ("12/0", "December has no day 0"),
        ("4pm 3m", '"3m" is not the length'), ("4pm 241 min", '"241 min" is not the length'), ("4h30", '"4h30" is not the'),
        ("4pm 5pm", 'two times: "4pm" and "5pm"'), ("12/3 12/4", "two days"), ("mon tue 4", 'two days: "mon" and "tue"'),
        ("4pm 30 45", "two lengths"), ("fri 12/3", '"fri" and "12/3" do not match: December 3, 2026 is a Thursday'),
        ("tomorrow fri 5", "November 26, 2026 is a Thursday"), ("thursday the 4th", "December 4, 2026 is a Friday"),
        ("2020-01-01 4pm", "which has passed"), ("yesterday 4", "which has passed"), ("12/3/25", "which has passed"),
        ("2026-11-24", "which has passed"), ("mon this week", "which has passed"), ("2036-12-03", "more than two years"),
        ("dec 3 2030", '"20:30"'), ("dec 3 2019", "which has passed"), ("9999-12-31", "more than two years"),
        ("0000-01-01", "There is no year 0"), ("7 tonight in the morning", "two times of day"),
        ("4 pm in the morning", "do not match"), ("16:00 this morning", "do not match"), ("12 tonight", "do not match"),
        ("same time tomorrow morning", "do not match"), ("tomorrow morning", '"tomorrow morning" is not a complete time'),
        ("3. Dzember", 'Did you mean "december"'), ("thrusday 4", '"thrusday" is not understood. Did you mean "thursday"'),
        ("4pm blorp", '"blorp" is not understood. Type a day, a time, and a length, such as "thu 4:30 pm 45 min"'),
        ("4 pm kolkatta", "Kolkata"), ("4pm new yrok", "New York"), ("4pm okonjjo", "Okonjo"), ("next month", '"next" is not'),
        ("4pm ?", "has a question mark"), ("dec 3?", "has a question mark"), ("dec 3 4pm?", "has a question mark"),
        ("thu? 4pm", "has a question mark"), ("dec 21, 23", '"dec 21, 23" could be two days, or a day and a time'), ("12/3, 5", "two days, or"),
        ("21, 23 dec", '"21, 23 dec" could be two days'), ("3. Dez, 5", "could be two days"), ("dec 3rd, 17, 24", "could be two days"),
        ("dec 21 23", '"23" is not clear by itself. Try "23:00" for a time or "dec 23" for a day.'), ("22", '"22" is not clear by itself'),
        ("push 15", '"push" is not understood'), ("shift it 30", '"it" is not understood'), ("push 15 please", '"push" is not understood'), ("tue am", "is not understood"), ("do 5pm", '"do" is not understood'), ("so 5pm", '"so" is not understood'), ("am 5", '"am" is not understood'),
        ("-1 week", '"-1" is not understood'), ("4 - 5", "two times"), ("5 to 6", "two times"), ("3.12 16:00", '"3.12."'),
        ("4 30", 'Type "4:30" or "4:00 30 min"'), ("120", 'Type "1:20 pm" or "120 min"'), ("0", "neither a time nor"),
        ("thu 17 4pm", '"17" is not clear by itself'), ("4pm 17", '"17" is not clear by itself'), ("4pm 3", '"dec 3"'),
        ("24", '"24 min"'), ("12345", '"12345" is not understood'), ("4pm utc+5", "is an offset"), ("midnight", "the start or the end"),
        ("4pm Etc/GMT+5", "is an offset"), ("phoenix london 4pm", "Phoenix or London"), ("tue phoenix", "no time there"),
        ("same time phoenix", "no time there"), ("x" * 121, "at most 120 characters"), ("٤pm", "is not understood"),
        ("half to 5", "is not understood"), ("halb fünf", '"halb fünf" is not understood. Type the time in digits'), ("jueves halb 5", '"halb 5" is not'),
        ("Viertel nach vier", '"viertel nach vier" is not understood'), ("jeudi prochain 16h", '"prochain" is not understood'),
        ("lunes 5 de la tarde", '"de" is not understood'), ("jueves mañana 10:00", '"mañana" is not understood'), ("le 17h chat", '"chat" is not'),
        ("jeudi lundi 17h", 'two days: "jeudi" and "lundi"'), ("4 pm el paso", '"el" is not understood'),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_with_a_sentence(text: str, said: str) -> None:
    sentence = refusal(text)
    assert said in sentence
    assert sentence[-1] in '."?'


@pytest.mark.parametrize("text", ["4 pm kolkatta", "4pm new yrok", "4pm sidney", "4pm bucharrest", "4pm tokio"])
def test_an_unknown_city_names_at_most_three_that_come_near(text: str) -> None:
    near = refusal(text).split("matches: ")[1].rstrip(".").split(", ")
    assert 1 <= len(near) <= 3
    for name in near:
        assert read(f"4pm {name}").zone in ZONES


@pytest.mark.parametrize("every_so_many", [5, pytest.param(1, marks=pytest.mark.long)])
def test_every_place_of_the_zone_database_is_found_by_its_city_or_asked_about(every_so_many: int) -> None:
    asked = []
    for zone in list(PLACES)[::every_so_many]:
        try:
            found = read(f"16:00 {spoken(zone)}")
        except BadInput as fault:
            asked.append((zone, str(fault)))
        else:
            assert readings(found.local, zone) == [found.starts_at]
    islands = {"Indian/Christmas", "Pacific/Easter"}
    for zone, sentence in asked:  # of an island that is named after a holiday, the day is meant
        assert "no date for" in sentence if zone in islands else "could mean places with different times" in sentence
    assert {zone for zone, _ in asked} <= {"Australia/West", "Brazil/West", *islands}


MOMENTS = st.datetimes(min_value=datetime(2026, 11, 27), max_value=datetime(2028, 11, 20)).map(
    lambda local: local.replace(second=0, microsecond=0)
)
DATES = (
    lambda at: f"{at:%Y-%m-%d}",
    lambda at: f"{at.day}.{at.month}.{at.year}",
    lambda at: f"{at.month}/{at.day}/{at.year}",
    lambda at: f"{MONTHS[at.month - 1]} {at.day}, {at.year}",
    lambda at: f"{WEEKDAYS[at.weekday()][:3]} {at.day} {MONTHS[at.month - 1][:3]} {at.year}",
    long_date,
    lambda at: near_date(at, date(2026, 11, 25)),  # as it is shown back to her
)
TIMES = (
    lambda at: f"{at:%H:%M}",
    lambda at: f"at {at:%H%M}",
    lambda at: f"{at:%H.%M}",
    lambda at: f"{at:%H}h{at:%M}",
    lambda at: clock_time(at, 12),
    lambda at: clock_time(at, 12).replace("am", "A.M.").replace("pm", "p.m."),
    lambda at: f"{at.hour % 12 or 12}{at:%M}{'a' if at.hour < 12 else 'p'}",
)
LENGTHS = st.none() | st.integers(5, 240)


@given(MOMENTS, st.sampled_from(ZONES), st.sampled_from(DATES), st.sampled_from(TIMES), LENGTHS)
def test_a_local_time_reads_back_in_every_zone_however_it_is_written(local, zone, as_date, as_time, minutes) -> None:
    line = f"{as_date(local)} {as_time(local)}"
    line += f" {minutes} min" if minutes else ""
    for found in (read(line, home_zone=zone), read(f"{line} {zone}"), read(f"{zone} {line}")):
        assert (found.local, found.minutes) == (local, minutes)
        assert found.starts_at == rfc_moment(local, zone)
        assert found.occurs == (Occurs.NEVER, Occurs.ONCE, Occurs.TWICE)[len(readings(local, zone))]


@given(MOMENTS, st.dates(min_value=date(2026, 1, 1), max_value=date(2030, 1, 1)), st.sampled_from(TIMES))
def test_a_date_without_a_year_is_the_next_one_unless_it_has_just_passed(at, today, as_time) -> None:
    assume((at.month, at.day) != (2, 29))
    now = datetime(today.year, today.month, today.day, 18, tzinfo=UTC)
    days = [date(year, at.month, at.day) for year in range(today.year - 1, today.year + 2)]
    meant = next(on for on in days if on >= today - timedelta(days=60))
    for text in (f"{at.month}/{at.day}", f"{at.day}.{at.month}.", f"{MONTHS[at.month - 1]} {at.day}"):
        line = f"{text} {as_time(at)}"
        if meant >= today:
            assert read(line, now=now).local.date() == meant
        else:
            assert f"is {long_date(meant)}, which has passed" in refusal(line, now=now)


@given(st.integers(0, 6), st.dates(min_value=date(2026, 1, 1), max_value=date(2030, 1, 1)))
def test_a_weekday_is_the_first_on_or_after_today_and_next_lies_in_the_following_week(weekday, today) -> None:
    now = datetime(today.year, today.month, today.day, 18, tzinfo=UTC)
    on, following = (read(f"{word}{WEEKDAYS[weekday]}", now=now).local.date() for word in ("", "next "))
    assert on.weekday() == following.weekday() == weekday
    assert 0 <= (on - today).days <= 6
    assert following.isocalendar()[:2] == (today + timedelta(weeks=1)).isocalendar()[:2]


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("half an hour later", "12-01 16:30"), ("push it to 5", "12-01 17:00"), ("push 15 min later", "12-01 16:15"), ("move to thu 5", "11-26 17:00"), ("15 min earlier", "12-01 15:45"), ("an hour later", "12-01 17:00"),
        ("1.5 hours later", "12-01 17:30"), ("thu half an hour later", "11-26 16:30"), ("in 2 hours", "11-25 11:00"),
        ("in half an hour", "11-25 09:30"), ("in 30 minutes", "11-25 09:30"), ("day after tomorrow", "11-27 16:00"),
        ("a week from thursday", "12-03 16:00"), ("two weeks from tomorrow 5pm", "12-10 17:00"), ("a week from dec 3", "12-10 16:00"),
        ("sat 8", "11-28 20:00"), ("sat 9", "11-28 09:00"), ("3pm my time", "12-01 15:00"), ("thu 5pm instead, please", "11-26 17:00"),
    ],
)  # fmt: skip
def test_times_are_counted_from_the_lesson_and_from_now(text: str, at: str) -> None:
    assert read(text).starts_at == home(f"2026-{at}")


@pytest.mark.parametrize(
    ("text", "at", "minutes"),
    [
        ("thu 5 to 5:45 pm", "11-26 17:00", 45), ("4-5pm", "12-01 16:00", 60), ("16:00-16:45", "12-01 16:00", 45),
        ("11 to 12:30 pm", "12-01 11:00", 90), ("5pm to 5:45", "12-01 17:00", 45), ("5-17:45", "12-01 17:00", 45),
        ("from 4 to 4:45pm thu", "11-26 16:00", 45), ("fri at 5 till 5:45", "11-27 17:00", 45), ("3.12. 17 Uhr", "12-03 17:00", None), ("3.12. 16.00-16.45", "12-03 16:00", 45), ("10am - 2pm", "12-01 10:00", 240),
    ],
)  # fmt: skip
def test_a_start_and_an_end_are_a_time_and_a_length(text: str, at: str, minutes: int | None) -> None:
    found = read(text)
    assert (found.starts_at, found.minutes) == (home(f"2026-{at}"), minutes)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("20 hours later", "another day"), ("15 min earlier phoenix", "no time there"), ("in 2 hours thu", "two times"),
        ("half an hour later 5pm", "two times"), ("5pm to 5pm", "is not the length"), ("thu not 5", '"not" is not understood. Type'),
        ("from 5pm", '"from" is not understood. Type'), ("thu 5pm after", '"after" is not understood. Type'),
    ],
)  # fmt: skip
def test_what_is_counted_wrong_or_is_no_city_is_named(text: str, said: str) -> None:
    assert said in refusal(text)


def test_next_week_is_not_the_lesson_itself() -> None:
    assert read("same time next week").local == datetime(2026, 12, 8, 16)
    assert read("next week 5pm").local == datetime(2026, 12, 1, 17)
    assert read("same time next week", around=date(2026, 11, 26)).local == datetime(2026, 12, 3, 16)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("a day earlier", "2026-11-30 16:00"), ("one day early", "2026-11-30 16:00"), ("the day before", "2026-11-30 16:00"),
        ("2 days earlier", "2026-11-29 16:00"), ("3 days before at 5", "2026-11-28 17:00"), ("two days later", "2026-12-03 16:00"),
        ("a day sooner", "2026-11-30 16:00"), ("3 days on", "2026-12-04 16:00"), ("one week on, 5pm", "2026-12-08 17:00"), ("the day after, same time", "2026-12-02 16:00"), ("next day 5pm", "2026-12-02 17:00"),
        ("the following day", "2026-12-02 16:00"), ("the previous day at 9", "2026-11-30 09:00"), ("the next day", "2026-12-02 16:00"),
        ("the following week", "2026-12-08 16:00"), ("the week after", "2026-12-08 16:00"), ("a fortnight later", "2026-12-15 16:00"),
        ("in a fortnight", "2026-12-09 16:00"), ("by a week later", "2026-12-08 16:00"), ("a week later thu", "2026-12-10 16:00"),
        ("same day 5pm", "2026-12-01 17:00"), ("on the same day at 9", "2026-12-01 09:00"), ("next week same day 5pm", "2026-12-01 17:00"),
        ("same day next week", "2026-12-08 16:00"), ("same weekday in 2 weeks", "2026-12-08 16:00"), ("thu 2 weeks later", "2026-12-17 16:00"),
        ("same day, same time, next week", "2026-12-08 16:00"), ("same day a week later", "2026-12-08 16:00"),
        ("a day after thu", "2026-11-27 16:00"), ("a week from thu 5pm", "2026-12-03 17:00"), ("day after tomorrow 5pm", "2026-11-27 17:00"),
        ("5pm my clock", "2026-12-01 17:00"), ("5pm our local time", "2026-12-01 17:00"),
    ],
)  # fmt: skip
def test_a_day_may_be_counted_from_that_of_the_lesson(text: str, at: str) -> None:
    assert read(text).starts_at == home(at)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a week earlier", '"a week earlier" is Tuesday, November 24, 2026, which has passed'), ("thu same day", '"thu" and "same day" do not match'),
        ("next week same day thu", 'two days: "same day" and "thu"'),
        ("dec 3 same day", 'two days: "dec 3" (Thursday, December 3, 2026) and "same day"'), ("same day tomorrow", "two days"),
        ("push it a week", '"a week" could be earlier or later. Type "a week earlier" or "a week later".'),
        ("move back 2 days", 'Type "2 days earlier" or "2 days later"'), ("up an hour", 'Type "an hour earlier" or "an hour later"'),
        ("back half an hour", 'Type "half an hour earlier"'), ("forward 15 min", 'Type "15 min earlier" or "15 min later"'),
        ("a day forward", '"a day forward" could be'), ("30 min back", '"30 min back" could be'), ("two weeks thu", '"two weeks" could be'),
        ("later", '"later" is not understood'), ("a month later", '"a month later" is not understood'),
        ("the day before thanksgiving", 'no date for "thanksgiving"'), ("5pm day", "such as"),
        ("same time next month", "is not understood"), ("after the recital 5pm", 'no date for "recital"'),
    ],
)  # fmt: skip
def test_a_day_that_could_be_counted_both_ways_or_from_nothing_is_named(text: str, said: str) -> None:
    assert said in refusal(text)


@pytest.mark.parametrize("text", ["later", "5pm day", "a month later", "after lunch"])
def test_lines_that_count_from_the_lesson_are_named_where_one_is_not_understood(text: str) -> None:
    assert 'such as "thu 4:30 pm 45 min". A day can count from the lesson: "a day earlier"' in refusal(text)


VOCABULARY = """
    thu next tue 4:30pm 5 60 45 12/3 3.12. 3.12 2026-12-03 dec 3 the 3rd noon half past quarter to in 2 weeks +1 week
    same time for min minutes 1h 16h30 an hour and a phoenix st. john's kolkata new york est pst okonjo's may sun li at
    @ on tomorrow tonight morning this , . ; : / - + 0 00 24 25:00 99 1630 999 a.m. p m midnight utc+5 later from today
    feb 29 30 2027 2030 london, America/Chicago etc/gmt-3 ' é ß İ ٤ one twelve o'clock blorp
"""
WORDS = st.sampled_from(VOCABULARY.split())
LINES = st.lists(WORDS, max_size=8).map(" ".join)
ANYTHING = st.one_of(
    LINES,
    st.lists(WORDS, max_size=6).map("".join),
    st.text(max_size=130),
    st.text(alphabet=string.digits + ":./-+ apmhdw", max_size=14),
)


def outcome(text: str, **values: Any) -> When | None:
    try:
        return read(text, **values)
    except BadInput as fault:
        assert str(fault)  # noqa: PT017 what is refused is told
        return None


@given(ANYTHING, st.sampled_from([None, time(16), time(9, 30)]), st.booleans())
@example("9999-99-99", None, True)
@example("\ud800 4pm", None, True)
@example("\0", None, True)
@example("+99w", time(16), True)
@example("99/99/9999", None, True)
@example("²:³⁰", None, True)
def test_no_text_raises_anything_but_a_sentence(text, same, month_first) -> None:
    found = outcome(text, same=same, month_first=month_first)
    if found is not None:
        assert found.starts_at.tzinfo is UTC
        assert found.minutes is None or 5 <= found.minutes <= 240
        shown = local_time(found.starts_at, found.zone).replace(tzinfo=None)
        assert (shown == found.local) == (found.occurs is not Occurs.NEVER)


@given(
    st.lists(WORDS.filter(str.isascii), max_size=8), st.lists(st.sampled_from([" ", "  ", "\t", " \n "]), min_size=9)
)
def test_case_and_extra_spaces_change_nothing(words, spaces) -> None:
    found = outcome(" ".join(words))
    spread = "".join(space + word for word, space in zip(words, spaces, strict=False)) + spaces[-1]
    assert outcome(spread) == found
    assert outcome(spread.upper()) == found
    assert outcome(spread.title().swapcase()) == found


@given(LINES, st.sampled_from(["zzyzx", "qwop", "#", "?", "wwww"]), st.integers(0, 8))
def test_a_word_that_means_nothing_is_never_passed_over(line, word, place) -> None:
    words = line.split()
    assert outcome(" ".join([*words[:place], word, *words[place:]])) is None


# What each of these words must have made of a moment, or the line is refused and names some of its words.
_MEANINGS: dict[str, Callable[[When], bool]] = {
    "5pm": lambda when: when.local.time() == time(17),
    "16:30": lambda when: when.local.time() == time(16, 30),
    "at noon": lambda when: when.local.time() == time(12),
    "an hour later": lambda when: when.local.time() == time(17),
    "15 min earlier": lambda when: when.local.time() == time(15, 45),
    "same time": lambda when: when.local.time() == time(16),
    "in the evening": lambda when: when.local.hour >= 12,
    "45m": lambda when: when.minutes == 45,
    "for 60 min": lambda when: when.minutes == 60,
    "phoenix": lambda when: when.zone == "America/Phoenix",
    "okonjo's time": lambda when: when.zone == "Europe/London",
    "thu": lambda when: when.local.weekday() == 3,
    "jeudi": lambda when: when.local.weekday() == 3,
    "mié": lambda when: when.local.weekday() == 2,
    "3 de diciembre": lambda when: when.local.date() == date(2026, 12, 3),
    "à 17h": lambda when: when.local.time() == time(17),
    "a las 5 pm": lambda when: when.local.time() == time(17),
    "16 h 30": lambda when: when.local.time() == time(16, 30),
    "demain": lambda when: when.local.date() in {date(2026, 11, 26), date(2026, 11, 27)},
    "halb fünf": lambda _: False,
    "mar": lambda when: when.local.month == 3,
    "do": lambda _: False,
    "next tue": lambda when: when.local.date() == date(2026, 12, 1),
    "dec 3": lambda when: when.local.date() == date(2026, 12, 3),
    "12/8": lambda when: when.local.date() == date(2026, 12, 8),
    "tomorrow": lambda when: when.local.date() in {date(2026, 11, 26), date(2026, 11, 27)},
    "a day earlier": lambda when: when.local.date() == date(2026, 11, 30),
    "the following day": lambda when: when.local.date() == date(2026, 12, 2),
    "2 weeks later": lambda when: date(2026, 12, 14) <= when.local.date() <= date(2026, 12, 20),
    "next week": lambda when: date(2026, 11, 30) <= when.local.date() <= date(2026, 12, 13),
    "same day": lambda when: when.local.weekday() == 1,
    "not": lambda _: False,
    "or": lambda _: False,
    "zzyzx": lambda _: False,
    "without": lambda _: False,
    "a week": lambda _: False,
    "starting": lambda _: False,
}


@given(st.lists(st.sampled_from(sorted(_MEANINGS)), min_size=1, max_size=6))
def test_every_word_of_a_line_is_in_its_moment_or_the_line_is_refused_and_names_one(words: list[str]) -> None:
    line = " ".join(words)
    try:
        when = read(line)
    except BadInput as fault:
        refused = str(fault)
    else:
        assert not [word for word in words if not _MEANINGS[word](when)]
        return
    assert any(named in line for named in re.findall('"([^"]+)"', refused))


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("3 at night", '"3" and "at night" do not match'), ("thu 2 in the night", '"2" and "in the night" do not match'),
        ("tomorrow night 1", '"1" and "tomorrow night" do not match'), ("2 tonight", '"2" and "tonight" do not match'),
        ("thu afternoon 10", '"10" and "afternoon" do not match'), ("thu evening 3", '"3" and "evening" do not match'),
        ("thu 11 in the afternoon", '"11" and "in the afternoon" do not match'),
    ],
)  # fmt: skip
def test_an_hour_that_no_such_part_of_the_day_has_is_named(text: str, named: str) -> None:
    assert refusal(text).startswith(named)


@pytest.mark.parametrize(
    ("text", "hour"),
    [("thu afternoon 1", 13), ("thu 6 in the afternoon", 18), ("thu evening 5", 17), ("thu evening 10", 22), ("tonight 5", 17), ("11 at night", 23), ("3 pm at night", 15)],
)  # fmt: skip
def test_an_hour_lies_in_the_part_of_the_day_that_is_named(text: str, hour: int) -> None:
    assert read(text).local.hour == hour


@pytest.mark.parametrize("span", ["30 min", "15 minutes", "an hour", "1h", "half an hour", "half hour"])
@pytest.mark.parametrize("verb", ["move", "push", "shift", "move it", "push it by", "shift by"])
def test_a_lesson_that_is_moved_by_a_span_says_which_way_and_never_how_long_it_lasts(verb: str, span: str) -> None:
    assert refusal(f"{verb} {span}") == (
        f'"{verb} {span}" could be earlier or later. Type "{span} earlier" or "{span} later".'
    )


def test_a_span_that_says_which_way_and_a_length_beside_a_time_are_read_as_before() -> None:
    assert read("move 30 min later").starts_at == home("2026-12-01 16:30")
    assert read("push it an hour earlier").starts_at == home("2026-12-01 15:00")
    assert read("2 weeks from thursday 5pm").starts_at == home("2026-12-10 17:00")
    assert (read("move to thu 5pm 30 min").starts_at, read("move to thu 5pm 30 min").minutes) == (
        home("2026-11-26 17:00"),
        30,
    )


@pytest.mark.parametrize(
    "text", ["from 4pm to 5pm", "4 to 5pm", "move from 4 pm to 5 pm", "4:00 to 5:00", "tue dec 1 4pm to 5pm"]
)
def test_from_the_lessons_own_time_to_another_is_a_new_time_or_a_length(text: str) -> None:
    said = refusal(text)
    assert said.endswith('could be a new time or a length. Type "5 pm" or "4 pm 60 min" instead.')


def test_the_lessons_own_time_is_known_on_the_familys_clock() -> None:
    said = refusal("10 to 11 pm london")
    assert said == '"10 to 11 pm" could be a new time or a length. Type "11 pm" or "10 pm 60 min" instead.'
    assert read("11 pm london").starts_at == home("2026-12-01 17:00")


def test_a_span_from_another_time_or_on_another_day_says_how_long() -> None:
    assert [read(text).minutes for text in ("5 to 6pm", "thu 4 to 5pm", "4-5pm", "from 3:30 pm to 4:30 pm")] == [60] * 4


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("one lesson thu", "one lesson"),
        ("1 lesson thu", "1 lesson"),
        ("5 lessons thu", "5 lessons"),
        ("thu 5 lesson", "5 lesson"),
    ],
)
def test_a_number_of_lessons_is_no_hour(text: str, named: str) -> None:
    assert refusal(text).startswith(f'"{named}" could be a time or a number of lessons. Type a time such as')


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("3rd thu 5pm", "3rd thu"),
        ("the 3rd thursday 5pm", "the 3rd thursday"),
        ("1st tue 5pm", "1st tue"),
        ("2nd wed in jan 5pm", "2nd wed"),
    ],
)
def test_a_numbered_weekday_is_that_date_or_that_weekday_of_a_month(text: str, named: str) -> None:
    assert refusal(text).startswith(f'"{named}" could be a date, or a weekday counted in a month. Type a date such as')


def test_a_weekday_before_its_number_is_that_date() -> None:
    assert (
        read("thu the 3rd 5pm").starts_at
        == read("thu 3rd 5pm").starts_at
        == read("the 3rd, thu 5pm").starts_at
        == home("2026-12-03 17:00")
    )


@pytest.mark.parametrize("text", ["a day after 5pm", "2 weeks from 5pm", "a week after 5", "a week from 17:00"])
def test_days_that_are_counted_from_no_day_are_never_dropped(text: str) -> None:
    named = text.rpartition(" ")[0]
    span = named.rpartition(" ")[0]
    assert refusal(text) == f'"{named}" needs a day. Type one behind it, or "in {span}".'
    assert read(f"in {span} 5pm")
    assert read(f"{named} thu 5pm")
