"""A studio for a year without a file: everybody comes, changes, pauses, and ends by a typed line."""

from contextlib import contextmanager
from datetime import date

from support.arranged_studio import Arranged, arranged_studio
from support.rows import everything
from support.studio import home

from cockpit.cli.roster import export, roster
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import addresses_for

COMING = {
    "nora bell, cello, fri 2pm phoenix 45m from sep 4, ana.bell@example.org": (
        "New: Nora, family Bell (Phoenix), cello, Friday 2:00 pm on the family's clock, 45 minutes, from Friday, "
        "September 4, 2026 (4:00 pm yours), notes to ana.bell@example.org."
    ),
    "wren aldersgate, cello, wed 3:30pm 30m from sep 2, aldersgate@example.org": (
        "New: Wren, family Aldersgate (Chicago), cello, Wednesday 3:30 pm on your clock, 30 minutes, from Wednesday, "
        "September 2, 2026, notes to aldersgate@example.org."
    ),
    "tobin, guitar, wed 4pm 30m from sep 2, with wren": (
        "New: Tobin, family Aldersgate (Chicago), guitar, Wednesday 4:00 pm on your clock, 30 minutes, from Wednesday, "
        "September 2, 2026, notes to aldersgate@example.org."
    ),
    "hedda quist, adult, voice, mon 6pm 60m from sep 7, hedda@example.org": "New: Hedda, an adult, family Quist",
    "ishaan banerjee, violin, thu 7:30am kolkata 30m from sep 3, banerjee@example.org": (
        "from Wednesday, September 2, 2026 (9:00 pm yours)"
    ),
    "mireille perreault, clarinet, wed 5pm st johns 45m from sep 2": "(2:30 pm yours)",
    "teodor okonjo, guitar, tue 9pm london 30m from sep 1, okonjo@example.org": "(3:00 pm yours)",
    "nalani kealoha, ukulele, tue 2pm honolulu 30m from sep 1, kealoha@example.org": "(7:00 pm yours)",
    "oskar lindqvist, piano, thu 4pm 30m from sep 3, lindqvist@example.org": "Thursday 4:00 pm on your clock",
    "ottoline, piano, thu 5pm 60m from sep 3": 'Type "family" and a name to call the family otherwise than Ottoline.',
}


class Typing:
    """Types lines as the teacher does: reads what they are understood as, does it, takes it back, and does it again."""

    def __init__(self, arranged: Arranged, folder) -> None:
        self.arranged = arranged
        self.folder = folder

    def line(self, purpose: Purpose, student: str | None, on: str, line: str, *said: str) -> None:
        """One line, on a student's lesson of a date or on none."""
        arranging, before = self.arranged.studio.desk.arranging, everything(self.folder)
        for is_meant in (False, True):
            booking = None if student is None else self.arranged.booking(on, student)
            proposal = arranging.propose(purpose, booking, line)
            for each in said:
                assert each in proposal.understood
            arranging.do(proposal)
            if not is_meant:
                self.arranged.undo()
                assert everything(self.folder) == before, line
        self.arranged.studio.desk.day.reload()

    def at(self, now: str) -> None:
        """Goes to a moment of her clock."""
        self.arranged.clock.at = home(now)
        self.arranged.studio.desk.day.open()


@contextmanager
def empty_studio(folder):
    with arranged_studio(folder, roster="", now="2026-08-24 10:00") as arranged:
        yield Typing(arranged, folder)


def test_a_year_of_a_studio_needs_no_file_and_what_it_exports_is_up_to_date(tmp_path):
    with empty_studio(tmp_path) as typing:
        arranged, reading = typing.arranged, typing.arranged.studio.store.reading
        for line, said in COMING.items():
            typing.line(Purpose.STUDENT, None, "", line, said)
        assert len(reading.people().students) == 10
        guardians = {each.email: each for each in reading.guardians()}
        assert guardians["hedda@example.org"].name == "Hedda Quist"
        assert [each.name for each in guardians.values() if each.name] == ["Hedda Quist"]
        typing.at("2026-09-08 10:00")
        typing.line(Purpose.DETAILS, "Wren", "2026-09-09", "25 a day, language es", "daily minutes: 25; language: es")
        typing.line(Purpose.TRIAL, None, "", "piet amsel thu 3:15pm, 30m", "Thu, September 10, 3:15 pm")
        arranged.write("2026-09-10", "Piet Amsel", "Piece: first song")
        trial = arranged.booking("2026-09-10", "Piet Amsel")
        typing.at("2026-09-11 10:00")
        typing.line(
            *(Purpose.STUDENT, "Piet Amsel", "2026-09-10", "sat 10am 30m from sep 19, family amsel, amsel@example.org"),
            *("Piet becomes a student, with the trial's notes", "Saturday 10:00 am"),
        )
        piet = next(each for each in reading.people().students.values() if each.name == "Piet")
        assert piet.id == trial.student.id
        assert addresses_for(reading, piet.family_id) == ("amsel@example.org",)
        assert reading.notes([trial.lesson.id])[trial.lesson.id].body == "Piece: first song"
        typing.at("2026-12-18 10:00")
        typing.line(
            *(Purpose.CHANGE, "Nora", "2026-12-18", "60m from 12 jan"),
            *("Fri, January 15, 2027, 3:00 pm · 2:00 pm Phoenix, 60 minutes",),
        )
        typing.line(
            *(Purpose.CHANGE, "Teodor", "2026-12-22", "through dec 29"),
            *("The last lesson is Tuesday, December 29, 2026, 3:00 pm · 9:00 pm London.",),
        )
        typing.at("2027-02-05 10:00")
        typing.line(
            *(Purpose.DETAILS, "Nora", "2027-02-05", "zone denver from march 1"),
            *("zone: Phoenix; Denver from Mon, March 1", "Nora, cello: 2:00 pm stays 2:00 pm (3:00 pm for you)"),
        )
        typing.at("2027-05-20 10:00")
        typing.line(
            *(Purpose.PAUSE, "Oskar", "2027-05-20", "from 1 june to 31 aug"),
            *("13 lessons fall out. The first lesson after it is Thu, September 2, 4:00 pm.", "is kept"),
        )
        assert arranged.lessons("Teodor", "2026-12-28", "2027-06-01") == ["Tue 2026-12-29 15:00"]
        assert arranged.lessons("Oskar", "2027-05-27", "2027-09-10") == [
            *("Thu 2027-05-27 16:00", "Thu 2027-09-02 16:00", "Thu 2027-09-09 16:00")
        ]
        # Denver changes its clocks with her, and Phoenix does not.
        assert arranged.lessons("Nora", "2027-02-26", "2027-03-20") == [
            *("Fri 2027-02-26 15:00", "Fri 2027-03-05 15:00", "Fri 2027-03-12 15:00", "Fri 2027-03-19 15:00")
        ]
        (before, after) = (each for each in reading.standing_times() if each.student_id == reading_id(reading, "Nora"))
        assert (before.minutes, before.until_on, after.minutes, after.from_on) == (
            *(45, date(2027, 1, 14), 60, date(2027, 1, 15)),
        )
        file = tmp_path / "students.csv"
        export(tmp_path, file)
    assert roster(tmp_path, file, lambda _: None, dry_run=False) == "Already up to date."


def reading_id(reading, name):
    return next(each.id for each in reading.people().students.values() if each.name == name)
