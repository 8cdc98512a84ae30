"""Files and texts far larger than any studio has: taken in while they are within a number, refused with it beyond."""

import resource
import subprocess
import sys

import pytest
from support.arranged_studio import arranged_studio

from cockpit.cli.main import main
from cockpit.store.tables import LISTED, listed
from cockpit.studio.roster.roster import MOST_ROWS

HEADER = "student,family,weekday,time,minutes\n"
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat")


def rows_of(count: int) -> str:
    """Two weekly times for each student, two students for each family."""
    return HEADER + "".join(
        f"Student {n // 2},Family {n // 4},{WEEKDAYS[n % 6]},{8 + n % 12:02}:{n * 5 % 60:02},45\n" for n in range(count)
    )


@pytest.mark.long
def test_the_largest_roster_is_taken_in_looked_through_and_read_again(tmp_path):
    with arranged_studio(tmp_path, rows_of(MOST_ROWS)) as arranged:
        studio = arranged.studio
        assert len(studio.store.reading.standing_times()) == MOST_ROWS
        assert len(studio.store.reading.people().families) == MOST_ROWS // 4
        assert studio.desk.ahead.days() == 10
        assert studio.enrolling.take_in(rows_of(100)).lines == ()
        next_number = studio.store.writing.new_id()
        assert next_number > max(each.id for each in studio.store.reading.standing_times())


def test_a_row_more_is_refused_with_the_number_that_works_before_anything_is_done(tmp_path, capsys):
    (tmp_path / "long.csv").write_text(rows_of(MOST_ROWS + 1), encoding="utf-8")
    assert main(["roster", str(tmp_path / "long.csv"), "--folder", str(tmp_path / "studio")]) == 1
    said = capsys.readouterr().err
    assert "Line 20002: found 20,001 rows. At most 20,000 can be read at once. Put the rest in a second file." in said
    assert "Nothing was imported" in said


@pytest.mark.long
def test_a_question_takes_any_number_of_values(tmp_path):
    ids = [f"w1-{number}" for number in range(300_000)]
    with arranged_studio(tmp_path) as arranged:
        assert arranged.studio.store.reading.notes(ids) == {}
        here = arranged.booking("2026-12-01", "Ilse").lesson
        arranged.write("2026-12-01", "Ilse", "Scales")
        assert list(arranged.studio.store.reading.notes([*ids, here.id])) == [here.id]
        found = arranged.studio.store.reading.lessons_between(here.starts_at, here.starts_at, [*ids, here.id])
        assert [each.id for each in found] == [here.id]
        asked = f"SELECT value FROM (SELECT 1 AS value) WHERE value IN {LISTED}"
        assert arranged.studio.store.connection.execute(asked, (listed(iter([1, 2])),)).fetchone()[0] == 1


@pytest.mark.long
def test_a_roster_that_the_disk_refuses_is_told_without_words_of_notes(tmp_path):
    with arranged_studio(tmp_path):
        pass
    (tmp_path / "roster.csv").write_text(rows_of(2000), encoding="utf-8")

    def before() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000))

    said = subprocess.run(
        [sys.executable, "-m", "cockpit", "roster", tmp_path / "roster.csv", "--folder", tmp_path],
        preexec_fn=before,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert said.returncode == 1
    assert said.stderr.startswith(f"Nothing was imported: {tmp_path} could not be written to (")
    assert "words" not in said.stderr
