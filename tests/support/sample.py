"""The sample studio in a folder, with a clock that stands still."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.wiring import Studio, studio_at


@contextmanager
def sample_studio(folder: Path, at: datetime = history.MOMENT) -> Iterator[tuple[Studio, SetClock]]:
    (folder / "settings.toml").write_text(history.SETTINGS, encoding="utf-8")
    clock = SetClock(at)
    with studio_at(folder, clock, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_history(studio.desk, clock, at)
        studio.desk.day.open()
        yield studio, clock
