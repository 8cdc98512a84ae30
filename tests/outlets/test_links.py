"""Links in a studio folder: what is written goes into no other place, and no other place gets another mode."""

import os
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from cockpit.outlets.browser import open_link
from cockpit.outlets.folder import StudioFolder, place
from cockpit.outlets.recovery import Recovery
from cockpit.outlets.zip_file import put_zip
from cockpit.settings.settings import read_settings
from cockpit.store.opening import make_private, take_lock
from cockpit.studio.errors import BadInput, NotSaved
from cockpit.studio.roster.values import read_call_link

AT = datetime(2026, 12, 1, 22, tzinfo=UTC)


@pytest.fixture
def elsewhere(tmp_path) -> Path:
    """A file of hers in a folder of hers, outside of the studio."""
    folder = tmp_path / "elsewhere"
    folder.mkdir(mode=0o755)
    folder.chmod(0o755)
    (folder / "precious").write_text("hers", encoding="utf-8")
    (folder / "precious").chmod(0o644)
    return folder


@pytest.fixture
def studio(tmp_path) -> Path:
    (tmp_path / "studio").mkdir()
    return tmp_path / "studio"


@pytest.fixture(autouse=True)
def _as_it_was(elsewhere):
    before = os.umask(0o022)
    yield
    os.umask(before)
    assert (elsewhere / "precious").read_text(encoding="utf-8") == "hers"
    assert (elsewhere / "precious").stat().st_mode & 0o777 == 0o644
    assert elsewhere.stat().st_mode & 0o777 == 0o755
    assert [path.name for path in elsewhere.iterdir()] == ["precious"]


def leads(link: Path, target: Path) -> Path:
    link.parent.mkdir(parents=True, exist_ok=True)
    link.symlink_to(target)
    return link


def test_a_link_under_the_name_of_a_file_that_is_being_written_is_not_followed(studio, elsewhere):
    precious = elsewhere / "precious"
    leads(studio / "notes" / "B" / ".a.html.new", precious)
    leads(studio / "notes" / "B" / "a.html", precious)
    StudioFolder(studio).put("notes/B/a.html", "the page")
    assert (studio / "notes" / "B" / "a.html").read_text(encoding="utf-8") == "the page"
    assert not (studio / "notes" / "B" / "a.html").is_symlink()
    leads(studio / ".b.new", precious)
    place(studio / "b", b"x")
    leads(studio / ".c.zip.new", precious)
    put_zip(studio / "c.zip", {"x": b"x"}, AT)
    leads(studio / ".family.recovery.new", precious)
    recovery = Recovery(studio)
    recovery.keep(["b"], "")
    leads(studio / ".b.back.new", precious)
    recovery.put_back(but="none")
    assert (studio / "b").read_bytes() == b"x"
    assert not (studio / "b").is_symlink()


@pytest.mark.parametrize("name", ["notes", "notes/B"])
def test_a_folder_of_papers_that_is_a_link_is_told_and_not_followed(studio, elsewhere, name):
    leads(studio / name, elsewhere)
    with pytest.raises(NotSaved, match=rf"{name} is a link, and notes are saved only in real folders of the studio"):
        StudioFolder(studio).put("notes/B/a.md", "the notes")
    StudioFolder(studio).remove(["notes/precious", "notes/B/precious"])
    files = StudioFolder(studio)
    assert files.below("notes") == (("notes/B",) if name == "notes/B" else ())
    assert files.content("notes/B") is None


def test_a_link_among_the_papers_of_a_family_goes_and_comes_back_as_a_link(studio, elsewhere):
    link = leads(studio / "notes" / "B" / "a.md", elsewhere / "precious")
    files, recovery = StudioFolder(studio), Recovery(studio)
    assert files.below("notes/B") == ("notes/B/a.md",)
    assert files.content("notes/B/a.md") is None
    recovery.keep(files.below("notes/B"), "")
    files.remove(files.below("notes/B"))
    assert not link.is_symlink()
    recovery.put_back(but="none")
    assert link.readlink() == elsewhere / "precious"


def test_a_studio_folder_that_is_a_link_of_hers_works_and_keeps_the_mode_that_she_gave_it(tmp_path, elsewhere):
    (tmp_path / "disk").mkdir()
    (tmp_path / "disk").chmod(0o750)
    link = leads(tmp_path / "linked", tmp_path / "disk")
    make_private(link)
    StudioFolder(link).put("notes/B/a.md", "the notes")
    assert (tmp_path / "disk").stat().st_mode & 0o777 == 0o750
    assert (tmp_path / "disk" / "notes" / "B" / "a.md").stat().st_mode & 0o777 == 0o600
    assert (tmp_path / "disk" / "notes").stat().st_mode & 0o777 == 0o700


def test_settings_that_are_a_link_to_nothing_are_not_made_there(studio, elsewhere):
    leads(studio / "settings.toml", elsewhere / "settings.toml")
    settings, told = read_settings(studio, lambda: "America/Chicago")
    assert settings.preferences.home.zone == "America/Chicago"
    assert told is not None
    assert "could not be created" in told


@pytest.mark.parametrize("link", ["HTTPS://call.example.org/Ilse", "Http://call.example.org/Ilse"])
def test_a_call_link_opens_however_its_scheme_is_spelled(tmp_path, link):
    assert read_call_link(f" {link} ") == link
    os.mkfifo(tmp_path / "taken")
    for name in ("xdg-open", "open"):
        (tmp_path / name).write_text(f'#!/bin/sh\nprintf %s "$1" > "{tmp_path}/taken"\n', encoding="utf-8")
        (tmp_path / name).chmod(0o755)
    code = f"from cockpit.outlets.browser import open_link; raise SystemExit(not open_link({link!r}))"
    path = f"{tmp_path}:{os.environ['PATH']}"
    subprocess.run([sys.executable, "-c", code], env={**os.environ, "PATH": path}, check=True)
    scheme, _, rest = link.partition(":")
    assert (tmp_path / "taken").read_text(encoding="utf-8") == f"{scheme.lower()}:{rest}"


@pytest.mark.parametrize(
    "link",
    ["javascript:alert(1)", "JavaScript://x.org/%0aalert(1)", "FILE:///etc/passwd", "file://x.org/a", "https:", "https://",
     "java\tscript:x", "ht\ntps://x.org", "https://x.org/a b", "https://x.org/\x1b]2;t\x07", "-https://x.org", "//x.org", ""],
)  # fmt: skip
def test_nothing_else_is_opened(link):
    assert not open_link(link)
    if link:
        with pytest.raises(BadInput, match="https://"):
            read_call_link(link)


def test_a_lock_that_is_a_link_empties_no_file(tmp_path):
    other = tmp_path / "other.txt"
    other.write_text("words", encoding="utf-8")
    folder = tmp_path / "studio"
    folder.mkdir()
    (folder / "studio.lock").symlink_to(other)
    with take_lock(folder):
        assert other.read_text(encoding="utf-8") == "words"


def test_deleting_papers_takes_the_folders_that_are_empty_then_and_no_others(studio):
    folder = StudioFolder(studio)
    for name in ("notes/B/older/a.md", "notes/C/b.md", "drafts/B/a.eml"):
        folder.put(name, "words")
    folder.remove(["notes/B/older/a.md", "drafts/B/a.eml", "notes/none.md"])
    assert folder.below() == ("notes/C/b.md",)
    assert [path.name for path in studio.iterdir()] == ["notes"]
    assert [path.name for path in (studio / "notes").iterdir()] == ["C"]
