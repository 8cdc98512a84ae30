"""What a family is told about times of its lessons: on its clock, in its language, and nothing of anybody else."""

from datetime import date, timedelta

import pytest
from support.studio import BRANDVOLD, OKONJO, STARTS_AT, TEODOR, booking

from cockpit.papers.mail.letters import letter_words
from cockpit.printing.phrase_files import phrases_of
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.post.letters import News, letter_on, news_of
from cockpit.studio.values import replace

HOUR = timedelta(hours=1)
MORNING = STARTS_AT - 6 * HOUR


def said(news, lessons, language="en", hours=12, now=MORNING, times=()):
    return letter_words(letter_on(news, lessons, now, times), hours, phrases_of(language, None))


@pytest.mark.parametrize(
    ("changed", "news"),
    [
        ({"outcome": Outcome.CALLED_OFF}, News.CALLED_OFF),
        ({"outcome": Outcome.CANCELLED}, News.CANCELED),
        ({"outcome": Outcome.CANCELLED_LATE}, News.CANCELED),
        ({"is_moved": True}, News.MOVED),
        ({"kind": Kind.MAKE_UP}, News.BOOKED),
        ({"kind": Kind.TRIAL}, News.BOOKED),
        ({"kind": Kind.EXTRA}, News.BOOKED),
        ({}, News.CHOICE),
    ],
)
def test_what_became_of_a_lesson_is_the_news(changed, news):
    each = booking()
    assert news_of(replace(each, lesson=replace(each.lesson, **changed))) is news


# The date and the times are those of the sample studio's first of December; the family lives an hour behind.
@pytest.mark.parametrize(
    ("news", "subject", "text"),
    [
        (
            News.CALLED_OFF,
            "No lesson on Tuesday, December 1, 2026: Ilse",
            "There is no lesson for Ilse today, Tuesday, December 1, 2026, at 3:00 pm (Phoenix time).\n\n"
            "I will write to you about another time.\n",
        ),
        (
            News.CANCELED,
            "Lesson canceled: Ilse, Tuesday, December 1, 2026",
            "The lesson for Ilse on Tuesday, December 1, 2026, at 3:00 pm (Phoenix time), is canceled.\n",
        ),
        (
            News.MOVED,
            "New lesson time: Ilse, Tuesday, December 1, 2026",
            "The lesson for Ilse is now on Tuesday, December 1, 2026, at 3:00 pm (Phoenix time).\n",
        ),
        (
            News.BOOKED,
            "Lesson: Ilse, Tuesday, December 1, 2026",
            "There is a lesson for Ilse on Tuesday, December 1, 2026, at 3:00 pm (Phoenix time).\n",
        ),
    ],
)
def test_a_letter_says_its_news_on_the_familys_clock(news, subject, text):
    assert said(news, [booking()]) == (subject, text)


def test_three_times_to_choose_from_stand_each_on_a_line_of_their_own():
    _, text = said(News.CHOICE, [booking()], times=[STARTS_AT + 2 * HOUR, STARTS_AT + 26 * HOUR])
    assert text.endswith(
        "Which of them would suit you?\n\n"
        "- Tuesday, December 1, 2026, 5:00 pm (Phoenix time)\n- Wednesday, December 2, 2026, 5:00 pm (Phoenix time)\n"
    )


@pytest.mark.parametrize(
    ("language", "today", "later"),
    [
        ("de", "Heute, Dienstag, 1. Dezember 2026, 15:00 Uhr", "Am Dienstag, 1. Dezember 2026, 15:00 Uhr"),
        (
            "fr",
            "pour Ilse aujourd’hui, mardi 1er décembre 2026, à 15:00",
            "pour Ilse le mardi 1er décembre 2026 à 15:00",
        ),
        (
            "es",
            "para Ilse hoy, martes 1 de diciembre de 2026, 15:00",
            "para Ilse el martes 1 de diciembre de 2026, 15:00",
        ),
    ],
)
def test_in_other_languages_too_and_today_is_called_so_on_that_day_alone(language, today, later):
    assert today in said(News.CALLED_OFF, [booking()], language, 24)[1]
    earlier = said(News.CALLED_OFF, [booking()], language, 24, now=STARTS_AT - 72 * HOUR)[1]
    assert later in earlier
    assert today not in earlier


def test_siblings_stand_in_one_letter_in_the_order_of_their_lessons():
    second = replace(booking(TEODOR, starts_at=STARTS_AT - HOUR), family=booking().family)
    letter = letter_on(News.CALLED_OFF, [booking(), second], MORNING)
    assert letter.students == ("Teodor", "Ilse")
    with pytest.raises(ValueError):
        letter_on(News.CALLED_OFF, [booking(), booking(TEODOR)], MORNING)


def test_her_reason_is_in_no_letter_and_a_name_cannot_break_a_line():
    each = booking()
    told = replace(each, lesson=replace(each.lesson, outcome=Outcome.CALLED_OFF, reason="quinsy"))
    told = replace(told, student=replace(told.student, name="Il\nse\r\nBcc: x"))
    subject, text = said(News.CALLED_OFF, [told])
    assert "quinsy" not in subject + text
    assert "\n" not in subject
    assert len(text.splitlines()) == 3


def test_a_family_with_24_hours_reads_them_and_its_own_place():
    other = replace(booking(TEODOR), family=replace(OKONJO, hours=24))
    assert "22:00 (London time)" in said(News.MOVED, [other])[1]


def test_each_time_of_a_family_that_moves_is_in_the_city_where_they_are_then():
    moves = Home(zone="America/Phoenix", stays=(Stay(zone="America/New_York", from_on=date(2026, 12, 3)),))
    there = replace(booking(), family=replace(BRANDVOLD, zone=moves))
    text = said(News.CHOICE, [there], times=(STARTS_AT + 24 * HOUR, STARTS_AT + 72 * HOUR))[1]
    assert "3:00 pm (Phoenix time)" in text.partition("\n")[0]
    assert "Wednesday, December 2, 2026, 3:00 pm (Phoenix time)" in text
    assert "Friday, December 4, 2026, 5:00 pm (New York time)" in text
