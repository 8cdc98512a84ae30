"""The sample studio in a folder, with a clock that stands still."""

import atexit
import functools
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.wiring import Studio, studio_at

NEVER_EARLY = "early_minutes = 240\n"
"""The setting that asks no question at a finish in the middle of a lesson, where most tests finish one."""


@functools.cache
def taught(at: datetime) -> Path:
    """A folder with the sample taught up to a moment, for each process once; nobody writes into it."""
    folder = Path(tempfile.mkdtemp(prefix="sample-"))
    atexit.register(shutil.rmtree, folder)
    (folder / "settings.toml").write_text(NEVER_EARLY + history.SETTINGS, encoding="utf-8")
    clock = SetClock(at)
    with studio_at(folder, clock, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_history(studio.desk, clock, at)
        studio.desk.day.open()
    return folder


@contextmanager
def sample_studio(folder: Path, at: datetime = history.MOMENT) -> Iterator[tuple[Studio, SetClock]]:
    """The sample, taught and opened again, in a folder of the test's own."""
    shutil.copytree(taught(at), folder, dirs_exist_ok=True)
    clock = SetClock(at)
    with studio_at(folder, clock, to_write=True) as studio:
        studio.desk.day.open()
        yield studio, clock
