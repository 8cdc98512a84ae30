"""Files with a family's data in them are hers alone, whatever other files of the process are made like."""

import os
import zipfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from cockpit.outlets.recovery import Recovery
from cockpit.outlets.zip_file import put_zip
from cockpit.studio.errors import NotSaved

AT = datetime(2026, 12, 1, 22, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _an_open_process() -> Iterator[None]:
    before = os.umask(0o022)
    yield
    os.umask(before)


def test_a_zip_file_is_hers_alone_and_so_is_each_file_that_comes_out_of_it(tmp_path):
    put_zip(tmp_path / "a.zip", {"Zoë.txt": b"x"}, AT)
    assert (tmp_path / "a.zip").stat().st_mode & 0o777 == 0o600
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        assert archive.namelist() == ["Zoë.txt"]
        assert archive.infolist()[0].external_attr >> 16 == 0o600


def test_a_recovery_file_is_hers_alone(tmp_path):
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / "a.md").write_bytes(b"x")
    recovery = Recovery(tmp_path)
    recovery.keep(["notes/a.md"], "about it")
    assert recovery.path.stat().st_mode & 0o777 == 0o600
    assert recovery.about() == "about it"


def test_what_a_recovery_file_cannot_put_back_it_keeps(tmp_path):
    (tmp_path / "a.md").write_bytes(b"x")
    recovery = Recovery(tmp_path)
    recovery.keep(["a.md"], "")
    (tmp_path / "a.md").unlink()
    (tmp_path / "a.md").mkdir()
    (tmp_path / "a.md" / "something").write_bytes(b"y")
    with pytest.raises(NotSaved, match="Everything is still in"):
        recovery.put_back(but="none")
    (tmp_path / "a.md" / "something").unlink()
    (tmp_path / "a.md").rmdir()
    recovery.put_back(but="none")
    assert (tmp_path / "a.md").read_bytes() == b"x"
    recovery.remove()
    assert list(tmp_path.iterdir()) == [tmp_path / "a.md"]


def test_a_file_that_is_gone_before_it_is_kept_leaves_nothing_behind(tmp_path):
    with pytest.raises(NotSaved, match="Nothing was deleted"):
        Recovery(tmp_path).keep(["gone.md"], "")
    assert list(tmp_path.iterdir()) == []
    assert Recovery(Path(tmp_path)).about() is None
