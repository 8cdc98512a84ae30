"""The bytes that the screen is painted with, in a real terminal: none of them is a control character of her data."""

import contextlib
import re
import sqlite3

import pytest
from support.real_terminal import RealTerminal, make_studio

AT = "2026-12-01 16:05"
TITLE = "\x1b]2;owned\x07"  # sets the title of a window
C1 = "\x9b31m\x85\x9d2;owned\x9c"
TOML = TITLE.replace("\x1b", "\\u001b").replace("\x07", "\\u0007") + "\\u009b"
# The program itself sets no title here (a setting says so) and no color of sixteen, and writes nothing of C1 (two bytes in UTF-8).
RAW = re.compile(rb"\x1b\]2;|owned\x07|\xc2[\x80-\x9f]|\x1b\[31mred")


@pytest.fixture
def folder(tmp_path):
    """A studio whose folder, names, remarks, notes, themes and keys are full of controls."""
    folder = tmp_path / f"studio {TITLE}"
    make_studio(folder)
    (folder / "settings.toml").write_text(
        f'home_zone = "America/Chicago"\nearly_minutes = 240\nwindow_title = false\n[keys]\n"lesson.begin" = "f2,{TOML.replace(" ", "")}"\n',
        encoding="utf-8",
    )
    (folder / "themes").mkdir()
    (folder / "themes" / f"other{TITLE}.toml").write_text(
        f'name = "other"\ntitle = "{TOML}"\nis_dark = true\n[colors]\nground = "{TOML}"\n', encoding="utf-8"
    )
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        connection.execute(
            "UPDATE student SET name = name || ?, remark = ? WHERE name IN ('Ilse', 'Teodor')", (f" {TITLE} {C1}", C1)
        )
        connection.execute("UPDATE family SET name = name || ?", (TITLE,))
        connection.execute("UPDATE standing_time SET instrument = 'cello' || ?, call_link = ?", (C1, f"https://{C1}"))
    return folder


def test_no_screen_paints_a_control_of_names_settings_files_or_pastes(folder):
    # As wide as the longest sentence, whose parts would come one after another, for some seconds each.
    with RealTerminal("--at", AT, "--folder", str(folder), columns=400, rows=40) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.wait_for("Use a color")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.send(f"\x1b[200~Etude: \x1b[31mred\x1b[0m {TITLE} {C1} done\x1b[201~")
        terminal.wait_for("done")
        terminal.key("f1")
        terminal.wait_for("you were in")
        terminal.send("\x1b[F" + "\x1b[<65;60;20M" * 30)
        terminal.wait_for("1C1A15")
        terminal.key("f1")
        terminal.wait_for("Etude:")
        terminal.send("\x06")
        terminal.wait_for("FIND   ")
        terminal.send(f"\x1b[200~zzz{TITLE}{C1}\x1b[201~")
        terminal.wait_for("Nobody and no command")
        terminal.send("\x1b")
        terminal.wait_until_gone("FIND   ")  # another key in the same read as esc would be that key with alt
        for key, title in (("\x01", "WEEK  "), ("\x02", "changes in the next")):
            terminal.send(key)
            terminal.wait_for(title)
            terminal.send("\x1b")
            terminal.wait_until_gone(title)
        terminal.wait_for("Etude:")
        terminal.send("\x06")
        terminal.wait_for("FIND   ")
        terminal.send("newsletter\r")
        terminal.wait_for("LETTERS TO FAMILIES")
        terminal.send("all")
        terminal.wait_for("all students")
        terminal.send(f"\t\x1b[200~News {TITLE}{C1} sent\x1b[201~")
        terminal.wait_for("sent")
        terminal.send("\x1b")
        terminal.wait_for("Etude:")
        terminal.key("f9")
        terminal.wait_for("● Ilse")
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
        written = bytes(terminal.written)
    assert "\N{REPLACEMENT CHARACTER}[31mred".encode() in written
    assert not [written[max(0, at.start() - 60) : at.end() + 20] for at in RAW.finditer(written)]
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        (body,) = connection.execute("SELECT body FROM note").fetchone()
    assert body == "Etude: \ufffd[31mred\ufffd[0m \ufffd]2;owned\ufffd \ufffd31m\n\ufffd2;owned\ufffd done"
    for paper in (folder / "notes").rglob("*.*"):
        assert not RAW.search(paper.read_bytes())
