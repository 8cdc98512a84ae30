"""Months of a studio at random: a roster that is edited and read again, changes made here, notes typed ahead."""

import random
from datetime import timedelta

import pytest
from support.arranged_studio import arranged_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import CockpitError

HEADER = "student,weekday,time,minutes,family,instrument,zone,kept_in,from,until,every_weeks"
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class Months:
    """A studio, its roster as a table, and what is done with both."""

    def __init__(self, arranged, seed):
        self.arranged = arranged
        self.chance = random.Random(seed)
        self.rows = [
            ["Ilse", "Tuesday", "16:00", "30", "Brandvold", "cello", "America/Phoenix", "teacher", "", "", ""],
            ["Teodor", "Thursday", "19:00", "45", "Okonjo", "guitar", "Europe/London", "family", "", "", ""],
        ]

    @property
    def today(self):
        return local_time(self.arranged.clock.now(), "America/Chicago").date()

    def file(self):
        return "\n".join([HEADER, *(",".join(row) for row in self.rows)]) + "\n"

    def edit(self):
        row = self.chance.choice(self.rows)
        cell = self.chance.choice(("weekday", "time", "minutes", "from", "until", "every", "shuffle"))
        some_day = (self.today + timedelta(days=self.chance.randrange(1, 60))).isoformat()
        match cell:
            case "weekday":
                row[1] = self.chance.choice(DAYS)
            case "time":
                row[2] = f"{self.chance.randrange(9, 20)}:00"
            case "minutes":
                row[3] = self.chance.choice(("30", "45", "60"))
            case "from":
                row[8], row[9] = self.chance.choice(("", some_day)), ""
            case "until":
                row[8], row[9] = "", self.chance.choice(("", "", some_day))
            case "every":
                row[10] = self.chance.choice(("", "1", "2"))
            case "shuffle":
                self.rows.reverse()

    def a_lesson_to_come(self):
        begins = self.arranged.clock.now()
        zone = self.arranged.studio.preferences.home.zone
        found, _ = bookings_between(
            self.arranged.studio.store.reading, begins, begins + timedelta(days=45), TeacherClock(zone=zone)
        )
        return self.chance.choice(found) if found else None

    def change_here(self, booking):
        on = booking.lesson.starts_at + timedelta(days=self.chance.randrange(0, 15))
        line = self.chance.choice((f"from {on:%Y-%m-%d} 17:00", f"until {on:%Y-%m-%d}", "every other week"))
        on_day = local_time(booking.lesson.starts_at, "America/Chicago").date().isoformat()
        try:
            self.arranged.done(Purpose.CHANGE, on_day, booking.student.name, line)
        except CockpitError:
            return  # a sentence: nothing was done

    def type_ahead(self, booking, number):
        on = local_time(booking.lesson.starts_at, "America/Chicago").date().isoformat()
        self.arranged.write(on, booking.student.name, f"Scales: D major, {number}")

    def bodies(self):
        asked = "SELECT body FROM note WHERE trim(body) <> '' ORDER BY body"
        return [body for (body,) in map(tuple, self.arranged.studio.store.connection.execute(asked))]

    def past(self):
        """The lessons before now, as the queue has them."""
        now, zone = self.arranged.clock.now(), self.arranged.studio.preferences.home.zone
        found, _ = bookings_between(
            self.arranged.studio.store.reading, now - timedelta(days=60), now, TeacherClock(zone=zone)
        )
        return [(each.lesson.id, each.lesson.starts_at, each.lesson.minutes) for each in found]


@pytest.mark.parametrize("seed", [*range(6), *(pytest.param(seed, marks=pytest.mark.long) for seed in range(6, 40))])
def test_what_was_stays_no_word_is_lost_and_the_same_file_says_nothing(tmp_path, seed):
    with arranged_studio(tmp_path, roster="") as arranged:
        months = Months(arranged, seed)
        for number in range(14):
            if number:
                months.edit()
            before, past = months.bodies(), months.past() if number else None
            arranged.studio.enrolling.take_in(months.file())
            assert months.bodies() == before
            assert past is None or months.past() == past, months.file()
            again = arranged.studio.enrolling.look_at(months.file())
            assert (again.lines, again.edits) == ((), ())
            booking = months.a_lesson_to_come()
            if booking is not None:
                months.type_ahead(booking, number)
                if months.chance.random() < 0.5:
                    months.change_here(booking)
            assert arranged.studio.enrolling.look_at(months.file()).lines == ()
            arranged.clock.at += timedelta(days=months.chance.randrange(0, 9), hours=months.chance.randrange(0, 24))
