"""`cockpit understand`: what a typed line would mean in a studio; nothing is done."""

import io
import json
import sys

import pytest

from cockpit.cli.main import _UNDERSTOOD, main
from cockpit.cli.understand import KINDS

FIELDS = [
    "understood",
    "refused",
    "is",
    "label",
    "area",
    "title",
    "measures",
    "tempo",
    "minutes",
    "times",
    "practice_days",
    "pages",
    "by_heart",
    "warning",
]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A studio without students, with a label of its own."""
    folder = tmp_path_factory.mktemp("studio")
    (folder / "settings.toml").write_text(
        'home_zone = "America/Chicago"\n[labels]\nhymn = "review"\n', encoding="utf-8"
    )
    (folder / "roster.csv").write_text(
        "student,family,family_zone,weekday,time,minutes\nIlse,Okonjo,America/Phoenix,Tuesday,16:00,45\n",
        encoding="utf-8",
    )
    assert main(["roster", str(folder / "roster.csv"), "--folder", str(folder)]) == 0
    return folder


def answers(capsys, folder, *arguments):
    """The exit status and the answers of a call, as JSON."""
    capsys.readouterr()
    status = main(["understand", "note", "--json", "--folder", str(folder), *arguments])
    return status, [json.loads(row) for row in capsys.readouterr().out.splitlines()]


def test_the_kinds_of_the_command_line_are_those_that_there_are():
    assert tuple(KINDS) == _UNDERSTOOD


def test_a_note_is_told_with_all_its_parts(capsys, folder):
    line = "Piece: Gavotte pp. 2-3, mm. 1-16, 32 to end, q. = 60 to 72, 3x, 5 min, M W F, by heart"
    status, [said] = answers(capsys, folder, line)
    assert (status, list(said)) == (0, FIELDS)
    assert said == {
        "understood": said["understood"],
        "refused": None,
        "is": "assignment",
        "label": "Piece",
        "area": "piece",
        "title": "Gavotte",
        "measures": [[1, 16], [32, None]],
        "tempo": {"from": 60, "to": 72, "beat": "dotted quarter"},
        "minutes": 5,
        "times": 3,
        "practice_days": ["Monday", "Wednesday", "Friday"],
        "pages": [[2, 3]],
        "by_heart": True,
        "warning": None,
    }
    assert said["understood"].startswith("assignment: piece · for the family · pages 2–3")


@pytest.mark.parametrize(
    ("line", "fields"),
    [
        ("Lovely tone", {"is": "remark", "label": None, "area": None, "warning": None}),
        ("Prviate: x", {"is": "private", "label": "Prviate", "warning": '"Prviate" is taken for Private: this line is kept back.'}),
        ("follow-up: x", {"is": "follow-up", "warning": None}),
        ("Next time: x", {"is": "next time", "understood": "next time · for you alone"}),
        ("Hymn: Abide", {"is": "assignment", "label": "Hymn", "area": "review", "title": "Abide", "by_heart": None}),
        ("Mum: tired", {"is": "remark", "label": None, "refused": None}),
        ("Piece: Gavotte mm. 1-8, B part 9-16", {"warning": 'Kept as typed, not read: "B part 9-16".'}),
        ("", {"is": "remark", "understood": "an empty line"}),
        ("Lovely - Private - she cried", {"is": "remark", "warning": '"Private - she cried" is private, for you alone.'}),
    ],
)  # fmt: skip
def test_what_there_is_not_is_null_and_never_missing(capsys, folder, line, fields):
    status, [said] = answers(capsys, folder, line)
    assert (status, list(said)) == (0, FIELDS)
    assert {name: said[name] for name in fields} == fields


def test_each_line_of_the_input_is_one_answer_and_together_they_are_one_note(capsys, folder, monkeypatch):
    text = "Private:\nPiece: Gavotte\n\nPiece: Bourrée\n"
    for whole, kinds in (
        ([], ["private", "assignment", "remark", "assignment"]),
        (["--whole"], ["private", "private", "remark", "assignment"]),
    ):
        monkeypatch.setattr(sys, "stdin", io.StringIO(text))
        status, said = answers(capsys, folder, *whole, "-")
        assert (status, [each["is"] for each in said]) == (0, kinds)


def test_it_answers_in_words_works_at_another_time_and_changes_nothing(capsys, folder):
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    arguments = [
        "--at",
        "4:12 pm",
        "understand",
        "note",
        "--student",
        "Ilse",
        "--on",
        "2026-12-01",
        "--folder",
        str(folder),
    ]
    assert main([*arguments, "Piece: Gavotte mm. 1-8", "Mum: tired"]) == 0
    rows = capsys.readouterr().out.splitlines()
    assert rows[0] == "assignment: piece · for the family · measures 1–8 (8)"
    assert rows[1].startswith('remark · for the family · "Mum:" is no label yet')
    assert len(rows) == 2
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_a_student_who_is_not_there_is_told_of(capsys, folder):
    assert main(["understand", "note", "--student", "Zed", "--folder", str(folder), "Piece: x"]) == 1
    assert "Zed" in capsys.readouterr().err
