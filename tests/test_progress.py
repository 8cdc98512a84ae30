"""Long work says how far it is, and is ended between two steps with nothing half done."""

import contextlib
import io
import os
import shutil
import signal
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from support.bytes_of import rows_of, snapshot
from support.real_terminal import RealTerminal

from cockpit.cli.commands import restore
from cockpit.cli.family import _forgetting, _leaving
from cockpit.cli.main import main
from cockpit.cli.progress import ProgressLine, stoppable
from cockpit.clock import SetClock
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.papers.calendar.file import calendar_file
from cockpit.papers.calendar.reading import read_calendar
from cockpit.store.backups import back_up
from cockpit.store.backups import restore as put_back
from cockpit.store.schema import NAME
from cockpit.studio.errors import Interrupted
from cockpit.studio.roster.roster import read_roster
from cockpit.wiring import studio_at

ROSTER = (Path(__file__).parents[1] / "cockpit" / "sample" / "roster.csv").read_text(encoding="utf-8")
NOW = datetime(2026, 11, 25, 16, tzinfo=UTC)
NEW = "student,family,weekday,time,minutes\nPim,Olthof,Monday,16:00,30\nCas,Olthof,Monday,16:30,30\n"


class Reported:
    """What work reported; it is ended once it reports so many steps."""

    def __init__(self, ends_at: int | None = None) -> None:
        self.steps: list[tuple[int, int]] = []
        self._ends_at = ends_at

    def __call__(self, done: int, of: int) -> None:
        self.steps.append((done, of))
        if done == self._ends_at:
            raise Interrupted("Stopped.")

    def counts_to(self, of: int) -> bool:
        return self.steps == [(done, of) for done in range(of + 1)]


def test_a_line_comes_after_half_a_second_is_written_anew_and_goes_without_a_trace():
    seconds = iter([0.0, 0.4, 0.5, 0.55, 0.7])
    stream = io.StringIO()
    line = ProgressLine(words="Reading: {} rows", stream=stream, seconds=lambda: next(seconds))
    for done in (0, 200, 412, 450, 1_000):
        line.show(done, 1_500)
    assert stream.getvalue() == "\rReading: 412 of 1,500 rows\rReading: 1,000 of 1,500 rows"
    line.wipe()
    assert stream.getvalue().endswith("\r" + " " * len("Reading: 1,000 of 1,500 rows") + "\r")


def test_short_work_leaves_nothing_on_the_terminal():
    stream = io.StringIO()
    line = ProgressLine(words="{} rows", stream=stream, seconds=lambda: 0.0)
    line.show(0, 9)
    line.show(9, 9)
    line.wipe()
    assert stream.getvalue() == ""


def interrupted_in(number: int, done: list[int]) -> None:
    """Five steps, with ctrl+c in the midst of one of them."""
    with stoppable("{} rows", "Nothing was imported.") as step:
        for each in range(5):
            step(each, 5)
            if each == number:
                os.kill(os.getpid(), signal.SIGINT)
            done.append(each)


@pytest.mark.parametrize("number", [2, 4])
def test_ctrl_c_is_heard_between_two_steps_or_at_the_end_and_never_within_a_step(number):
    done: list[int] = []
    with pytest.raises(Interrupted, match=r"Stopped\. Nothing was imported\."):
        interrupted_in(number, done)
    assert done == list(range(number + 1))
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_all_that_is_counted_goes_from_none_to_all(tmp_path):
    read, compared, searched, written, events = Reported(), Reported(), Reported(), Reported(), Reported()
    with studio_at(tmp_path, SetClock(NOW), to_write=True) as studio:
        roster = read_roster(ROSTER, read)
        assert read.counts_to(len(ROSTER.splitlines()) - 1)
        studio.enrolling.take_in(roster, report=compared)
        assert compared.counts_to(len({row.student for row in roster.rows}))
        studio.desk.ahead.troubles(searched)
        assert searched.steps[-1][0] == searched.steps[-1][1] > 300, "a year of lessons"
        shared = HandingOut(studio.store.reading, studio.desk.clock, studio.preferences).calendar(None, None)
        text = calendar_file(shared, written)
        zones = text.count("BEGIN:VTIMEZONE")
        assert written.counts_to(zones + len(shared.series) + len(shared.lessons))
        read_calendar(text.encode(), home_zone=studio.preferences.home.zone, begins=date(2026, 11, 25), report=events)
        assert events.counts_to(len(shared.series))


@pytest.mark.parametrize("ends_at", [0, 1, 2])
def test_a_roster_that_is_stopped_changes_nothing(tmp_path, ends_at):
    with studio_at(tmp_path, SetClock(NOW), to_write=True) as studio:
        studio.enrolling.take_in(ROSTER)
        before = rows_of(tmp_path / NAME)
        with pytest.raises(Interrupted):
            studio.enrolling.take_in(NEW, report=Reported(ends_at))
        assert rows_of(tmp_path / NAME) == before
        assert len(studio.enrolling.take_in(NEW).lines) > 0, "and can be taken in afterwards"


def test_a_restore_that_is_stopped_leaves_the_studio_and_no_file(tmp_path):
    with studio_at(tmp_path, SetClock(NOW), to_write=True) as studio:
        studio.enrolling.take_in(ROSTER)
    back_up(tmp_path, NOW)
    before = snapshot(tmp_path)

    def last_page(done: int, of: int) -> None:
        if done == of:
            raise Interrupted("Stopped.")

    with pytest.raises(Interrupted):
        put_back(tmp_path, "stamp", last_page)
    assert snapshot(tmp_path) == before
    assert "was restored" in restore(tmp_path)


def test_a_deletion_that_is_stopped_among_the_copies_has_deleted_nothing(full_studio, tmp_path):
    folder = Path(shutil.copytree(full_studio, tmp_path / "studio"))
    with studio_at(folder, SetClock(NOW), to_write=True) as studio:
        before = rows_of(folder / NAME)
        leaving, forgetting, counted = _leaving(studio), _forgetting(studio), Reported()
        record = leaving.record(leaving.family("zwijndrecht"))
        with pytest.raises(Interrupted):
            forgetting.forget(record, Reported(ends_at=1))
        assert rows_of(folder / NAME) == before
        assert not list(folder.rglob("*.new"))
        assert not (folder / "family.recovery").exists()
        forgetting.forget(record, counted)
        assert counted.counts_to(counted.steps[-1][1])
        assert len(counted.steps) > 2
        forgetting.end()


def test_an_export_counts_its_papers_and_leaves_no_file_when_it_is_stopped(full_studio, tmp_path, monkeypatch):
    folder = Path(shutil.copytree(full_studio, tmp_path / "studio"))
    with studio_at(folder, SetClock(NOW), to_write=True) as studio:
        leaving, counted = _leaving(studio), Reported()
        record = leaving.record(leaving.family("zwijndrecht"))
        leaving.practice_notes(record, counted)
        assert counted.counts_to(len(record.exports))
    file = tmp_path / "all.zip"
    export = ["family", "zwijndrecht", "--export", str(file), "--folder", str(folder)]
    with monkeypatch.context() as stopped:
        stopped.setattr("cockpit.cli.family.stoppable", lambda *_: contextlib.nullcontext(Reported(ends_at=1)))
        assert main(export) == 130
    assert not file.exists()
    assert main(export) == 0
    assert file.exists()


@pytest.mark.long
def test_on_a_terminal_a_large_roster_says_how_far_it_is_and_ctrl_c_says_that_nothing_was_imported(tmp_path):
    names = [
        f"{chr(65 + n % 26)}{'abcdefghij'[n // 26 % 10]}{'klmnopqrst'[n // 260 % 10]}{n * 7919 % 99991}"
        for n in range(8_000)
    ]
    rows = [f"{name},{name}s,Monday,{8 + n % 12}:{n % 4 * 15:02},30" for n, name in enumerate(names)]
    file = tmp_path / "many.csv"
    file.write_text("\n".join(["student,family,weekday,time,minutes", *rows]), encoding="utf-8")
    folder = tmp_path / "studio"
    with RealTerminal("roster", str(file), "--folder", str(folder)) as terminal:
        terminal.wait_for("of 8,000 students")
        terminal.send("\x03")
        terminal.wait_for("Stopped. Nothing was imported.")
        assert terminal.ended() == 130
        assert "students" not in terminal.text(), "the line is gone"
        assert "Traceback" not in terminal.text()
    assert rows_of(folder / NAME)["student"] == []
