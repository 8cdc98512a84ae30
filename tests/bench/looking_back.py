"""Looking back over 20 years of 40 students: 40,000 notes and 160,000 assignments; processor time, the best of five.

`python tests/bench/looking_back.py`. Goals: the page 60 ms, a piece's history 30 ms, find 50 ms a key at the worst query, the mix of the studio 100 ms, and no key
later than 8 ms at the 99th percentile while the index is made.
"""

import random
import sqlite3
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from datetime import time as clock_time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from twenty_years import milliseconds

from cockpit.clock import SetClock
from cockpit.store.index_thread import IndexThread
from cockpit.store.line_index import NAME_OF_INDEX, LineIndex, delete_index
from cockpit.store.open_studio import open_studio
from cockpit.studio.changes.records import Change, added
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.notes.vocabulary import BUILT_IN
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.wiring import studio_at

AT = datetime(2026, 12, 1, 22, 12, tzinfo=UTC)
STUDENTS, WEEKS = 40, 1000
WORDS = [
    "old",
    "mill",
    "river",
    "lantern",
    "gavotte",
    "minuet",
    "canoe",
    "autumn",
    "bridge",
    "sparrow",
    "winter",
    "harbor",
    "Dvořák",
    "étude",
    "carol",
    "garden",
]


def fill(folder: Path) -> None:
    """Writes the notes straight into the database: teaching them would take an hour."""
    chance = random.Random(7)
    store = open_studio(folder)
    assert store.writing is not None
    family = Family(id=FamilyId(1), name="Brandvold", zone="America/Phoenix")
    students = [Student(id=StudentId(n), family_id=family.id, name=f"Ilse{n}") for n in range(1, STUDENTS + 1)]
    times = [
        StandingTime(
            id=StandingTimeId(each.id),
            student_id=each.id,
            weekday=1,
            at=clock_time(16),
            minutes=30,
            kept_in=KeptIn.TEACHER,
        )
        for each in students
    ]
    store.writing.apply(Change(said="fill", edits=added(family, *students, *times)))
    store.close()
    with closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        for student in students:
            for week in range(WEEKS):
                at = (AT - timedelta(weeks=week, minutes=student.id * 30)).isoformat(timespec="microseconds")
                name = f"x{student.id}-{week}"
                connection.execute(
                    "INSERT INTO lesson (id, student_id, kind, starts_at, minutes, began_at, finished_at, gives_full_length, is_reopened)"
                    " VALUES (?, ?, 'weekly', ?, 30, ?, ?, 0, 0)",
                    (name, student.id, at, at, at),
                )
                piece = " ".join(WORDS[(student.id * 7 + week // 12 + n) % len(WORDS)] for n in range(3)).title()
                body = (
                    f"Scales: {'CDEFGAB'[week // 20 % 7]} major 2 oct, q={60 + week % 40} to 120, 5 min\n"
                    f"Piece: {piece} mm. {week % 30 + 1}-{week % 30 + 16} q={60 + week % 30}, 10 min\n"
                    f"Etude: no. {week // 6 + 1}, {chance.choice(WORDS)} bow\nTheory: {' '.join(chance.choices(WORDS, k=4))}\n"
                    f"{' '.join(chance.choices(WORDS, k=30))}\nPrivate: {' '.join(chance.choices(WORDS, k=12))}"
                )
                connection.execute("INSERT INTO note VALUES (?, ?, ?)", (name, body, at))
                line = body.splitlines()[1]
                connection.execute("INSERT INTO heard VALUES (?, ?, ?, ?)", (name, line, 60 + week % 30, 0))


def measured(folder: Path) -> Iterator[tuple[str, float]]:
    """What of looking back takes how long, with the index as it stands."""
    with studio_at(folder, SetClock(AT), to_write=True) as studio:
        desk = studio.desk
        student = StudentId(7)
        pages = desk.pages()
        yield "a page", milliseconds(lambda: pages.page(student))
        piece = (*pages.page(student).open, *pages.page(student).older)[0]
        yield "a piece's history", milliseconds(lambda: pages.history(student, piece.key))
        yield "the mix of a student", milliseconds(lambda: desk.mixing().of(student))
        yield "the mix of the studio", milliseconds(desk.mixing().studio)
        for typed in (
            "ol",
            "old",
            "old m",
            '"old mill"',
            "gavotte since 2020",
            "dvo",
            "bow",
            "ilse7 bow",
            "a b",
            "xyz",
        ):
            yield f"find {typed}", milliseconds(lambda typed=typed: pages.searching.search(typed, 5, 50))


def lateness(index: LineIndex, keys: int = 1500) -> float:
    """How late a millisecond of work is done at the 99th percentile while the index is made on its thread; milliseconds."""
    thread = IndexThread(index)
    thread.catch_up_soon(lambda: None)
    spans = []
    for _ in range(keys):
        time.sleep(0.004)
        begins = time.perf_counter()
        sum(range(50_000))
        spans.append(time.perf_counter() - begins)
    thread.stop()
    return sorted(spans)[keys * 99 // 100] * 1000


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "settings.toml").write_text('home_zone = "America/Chicago"\n')
        fill(folder)
        index = LineIndex(folder, BUILT_IN, may_write=True)
        print(f"a key while the index is made: {lateness(index):.1f} ms at the 99th percentile")
        delete_index(folder)
        begins = time.process_time()
        index.catch_up(lambda: None, lambda: False)
        megabytes = (folder / NAME_OF_INDEX).stat().st_size >> 20
        print(f"the index made anew: {time.process_time() - begins:.1f} s of the thread, {megabytes} MB")
        nothing = milliseconds(lambda: index.catch_up(lambda: None, lambda: False))
        print(f"nothing to do: {nothing:.0f} ms of the thread")
        index.close()
        for what, span in measured(folder):
            print(f"{what}: {span:.0f} ms")


if __name__ == "__main__":
    main()
