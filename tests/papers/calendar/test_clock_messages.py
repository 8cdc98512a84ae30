"""What families are told about clock changes, in their language; who is told, and in English: tests/studio."""

import re
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.phrases import OTHERS, SPOKEN, english_left
from support.studio import HOME, TEODOR, enrollment, family, standing, student, utc

from cockpit.papers.calendar.clock_messages import clock_message
from cockpit.studio.calendar.clock_changes import changes_ahead, concerned, reach
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import StandingTimeId
from cockpit.studio.people.people import StudentId

AUTUMN = utc("2026-10-12"), utc("2026-11-30")
SPRING = utc("2027-03-01"), utc("2027-04-15")
MOVE = Home(zone=HOME, stays=(Stay(zone="Europe/London", from_on=date(2026, 12, 7)),))
MADE_UP = "Qqq"


def message(language, enrollments, window=AUTUMN, home_zone=HOME):
    lessons = planned(enrollments, TeacherClock(zone=home_zone), *reach(*window))
    (told,) = concerned(changes_ahead(lessons, TeacherClock(zone=home_zone), *window))
    return clock_message(told, 12, SPOKEN[language])


def kept(zone, weekday=1, at=time(16), number=1, instrument="cello"):
    """A weekly time of a made-up student; a family of them all."""
    who = student(id=StudentId(number), name=MADE_UP)
    values = {
        "id": StandingTimeId(number),
        "student_id": who.id,
        "weekday": weekday,
        "at": at,
        "instrument": instrument,
    }
    return Enrollment(standing=standing(**values), student=who, family=family(zone=zone, hours=24))


@pytest.mark.parametrize(("language", "subject", "lines"), [
    ("de", "Stunde von Teodor (guitar): andere Uhrzeit ab Dienstag, 27. Oktober 2026", [
        "Die Uhren werden nicht überall am selben Tag umgestellt und mancherorts gar nicht. Dadurch verschiebt sich diese Stunde auf Ihrer Uhr:",
        "",
        "Stunde von Teodor (guitar)",
        "Nur am Dienstag, 27. Oktober 2026 beginnt sie um 21:00 Uhr, Ortszeit London (UTC+00:00), statt um 22:00 Uhr (UTC+01:00).",
        "Ab Dienstag, 3. November 2026 beginnt sie wieder um 22:00 Uhr, Ortszeit London (UTC+00:00).",
    ]),
    ("es", "Clase de Teodor (guitar): otra hora desde el martes 27 de octubre de 2026", [
        "La hora no cambia en todas partes el mismo día, y en algunos lugares no cambia nunca. Por eso esta clase cambia en su hora local:",
        "",
        "Clase de Teodor (guitar)",
        "Solo el martes 27 de octubre de 2026, comienzo: 21:00, hora de Londres (UTC+00:00), en lugar de 22:00 (UTC+01:00).",
        "Desde el martes 3 de noviembre de 2026, comienzo: 22:00 de nuevo, hora de Londres (UTC+00:00).",
    ]),
    ("fr", "Cours\u00a0: Teodor (guitar), nouvel horaire à partir du mardi 27 octobre 2026", [
        "Le changement d’heure n’a pas lieu partout le même jour, et en certains endroits pas du tout. "
        "Ce cours change donc d’heure pour vous\u00a0:",
        "",
        "Cours\u00a0: Teodor (guitar)",
        "Seulement le mardi 27 octobre 2026, il commence à 21:00, heure locale\u00a0: Londres (UTC+00:00), au lieu de 22:00 (UTC+01:00).",
        "À partir du mardi 3 novembre 2026, il commence de nouveau à 22:00, heure locale\u00a0: Londres (UTC+00:00).",
    ]),
])  # fmt: skip
def test_a_family_is_told_in_its_language(language, subject, lines):
    told = message(language, [enrollment(TEODOR)])
    assert told.subject == subject
    assert told.text.splitlines() == lines


@pytest.mark.parametrize(("language", "until", "on_another_day"), [
    ("de", "Von Dienstag, 16. März 2027 bis einschließlich Dienstag, 23. März 2027 beginnt sie um 21:00 Uhr,", "statt Dienstag um 23:30 Uhr ("),
    ("es", "Desde el martes 16 de marzo de 2027 hasta el martes 23 de marzo de 2027 inclusive, comienzo: 21:00,",
     "en lugar de martes, 23:30 ("),
    ("fr", "Du mardi 16 mars 2027 au mardi 23 mars 2027 inclus, il commence à 21:00,", "au lieu de mardi à 23:30 ("),
])  # fmt: skip
def test_a_last_day_and_another_day_of_the_week_are_named(language, until, on_another_day):
    assert until in message(language, [enrollment(TEODOR)], SPRING).text
    assert on_another_day in message(language, [kept("Asia/Kolkata", at=time(13))]).text


@given(
    st.sampled_from(OTHERS),
    st.integers(0, 6),
    st.integers(8, 20).map(time),
    st.lists(st.sampled_from([MADE_UP, None]), min_size=1, max_size=3),
    st.sampled_from([(AUTUMN, HOME), (SPRING, HOME), ((utc("2026-12-01"), utc("2027-02-01")), MOVE)]),
)
def test_no_english_is_left_in_a_message(language, weekday, at, instruments, when):
    lessons = [
        kept("America/Phoenix", weekday, at, number, instrument)
        for number, instrument in enumerate(instruments, start=1)
    ]
    told = message(language, lessons, *when)
    said = f"{told.subject}\n{told.text}"
    assert not set("{}") & set(said)
    assert "\n" not in told.subject
    assert english_left(re.sub("Phoenix|UTC", " ", said), language) == set()
