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
    "kept_back",
    "area",
    "title",
    "measures",
    "tempo",
    "minutes",
    "times",
    "practice_days",
    "not_on",
    "pages",
    "by_heart",
    "to_get",
    "by",
    "theory",
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
        "student,family,zone,weekday,time,minutes\nIlse,Okonjo,America/Phoenix,Tuesday,16:00,45\n",
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
        "kept_back": None,
        "area": "piece",
        "title": "Gavotte",
        "measures": [[1, 16], [32, None]],
        "tempo": {"from": 60, "to": 72, "beat": "dotted quarter"},
        "minutes": 5,
        "times": 3,
        "practice_days": ["Monday", "Wednesday", "Friday"],
        "not_on": None,
        "pages": [[2, 3]],
        "by_heart": True,
        "to_get": None,
        "by": None,
        "theory": None,
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
        ("Get: strings (A, D), book 2 private: x", {"is": "to get", "label": "Get", "to_get": ["strings (A, D)", "book 2"],
            "understood": "to get · for the family · strings (A, D) · book 2; private · for you alone"}),
        ("Lovely tone - private: she cried", {"is": "remark", "kept_back": [{"is": "private", "text": "she cried"}]}),
        ("Private: x", {"is": "private", "kept_back": [{"is": "private", "text": "x"}]}),
        ("Piece: Gavotte m1-8 private: x follow-up: y", {"is": "assignment", "measures": [[1, 8]], "kept_back": [
            {"is": "private", "text": "x"}, {"is": "follow-up", "text": "y"}]}),
        ("Piece: Gavotte 5 min, not Sat Sun", {"practice_days": None, "not_on": ["Saturday", "Sunday"], "minutes": 5}),
        ("Piece: Gavotte daily except Sun", {"not_on": ["Sunday"]}),
        ("Theory: {B F}, 2 min", {"theory": ["diminished fifth, 6 half steps", "inversion: augmented fourth"], "minutes": 2,
            "understood": "assignment: theory · for the family · 2 min · diminished fifth, 6 half steps · inversion: augmented fourth"}),
        ("Private: {D majr}", {"theory": ["{D majr} is not read; {D major} works"]}),
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


TIME_FIELDS = [
    *(
        "understood",
        "refused",
        "student",
        "family",
        "starts_at",
        "minutes",
        "from_on",
        "until_on",
        "weekday",
        "at",
        "zone",
    ),
    *("every_weeks", "first_on", "last_on", "whom", "reason", "troubles"),
]
AT = "2026-12-01 10:00"


def time_answers(capsys, folder, kind, *lines, student="Ilse"):
    """The exit status and the answers for lines of a kind, on the morning of Tuesday 1 December 2026."""
    capsys.readouterr()
    whose = ["--student", student] if student else []
    status = main(["--at", AT, "understand", kind, "--json", "--folder", str(folder), *whose, *lines])
    said = [json.loads(row) for row in capsys.readouterr().out.splitlines()]
    assert all(list(each) == TIME_FIELDS for each in said)
    return status, said


def test_a_move_is_told_with_its_lesson_on_her_clock(capsys, folder):
    status, [said] = time_answers(capsys, folder, "move", "thu 4:30 pm phoenix 30m")
    assert status == 0
    assert said["understood"].startswith("Moved: Ilse, Thu, December 3, 5:30 pm")
    assert {name: each for name, each in said.items() if each is not None and name != "understood"} == {
        "student": "Ilse", "family": "Okonjo", "starts_at": "2026-12-03T17:30:00-06:00", "minutes": 30, "weekday": "Thursday",
        "at": "16:30", "zone": "America/Phoenix", "troubles": [],
    }  # fmt: skip


def test_a_weekly_time_is_told_with_its_days(capsys, folder):
    status, [new, ended, refused] = time_answers(
        capsys,
        folder,
        "time",
        "from 1 feb 5 pm every other week until 30 mar",
        "through dec 18",
        "from 1 feb 5 pm except 9 feb",
    )
    assert status == 1
    named = ("from_on", "until_on", "weekday", "at", "zone", "every_weeks")
    assert [new[name] for name in named] == ["2027-02-02", "2027-03-30", "Tuesday", "17:00", "America/Chicago", 2]
    assert [ended[name] for name in named] == [None, "2026-12-18", None, None, None, 1]
    assert refused["understood"] is None
    assert '"except" is not understood' in refused["refused"]


def test_a_break_is_told_with_whose_it_is_and_why(capsys, folder):
    status, said = time_answers(
        capsys, folder, "break", "24.12.-2.1. skiing", "24 dec ilse", "24 dec, family okonjo", student=""
    )
    assert status == 0
    named = ("first_on", "last_on", "whom", "reason")
    assert [[each[name] for name in named] for each in said] == [
        ["2026-12-24", "2027-01-02", "studio", "skiing"], ["2026-12-24", "2026-12-24", "Ilse", None],
        ["2026-12-24", "2026-12-24", "Okonjo", None],
    ]  # fmt: skip


def test_a_pause_is_told_with_its_days_and_one_without_an_end_has_no_last_one(capsys, folder):
    status, said = time_answers(capsys, folder, "pause", "from 4 jan to 31 jan trip", "from 4 jan, frees the time")
    assert status == 0
    named = ("first_on", "last_on", "whom", "reason")
    assert [[each[name] for name in named] for each in said] == [
        ["2027-01-04", "2027-01-31", "Ilse", "trip"], ["2027-01-04", None, "Ilse", None],
    ]  # fmt: skip


def test_a_trial_and_an_extra_lesson_are_told_and_nobody_is_added(capsys, folder):
    for _ in range(2):
        status, [said] = time_answers(capsys, folder, "trial", "Jack London fri 5pm", student="")
        assert (status, said["student"], said["zone"], said["minutes"]) == (0, "Jack London", "America/Chicago", 30)
        assert said["troubles"] == []
    status, [said] = time_answers(capsys, folder, "extra", "half an hour later")
    assert (status, said["starts_at"]) == (0, "2026-12-01T16:30:00-06:00")
    assert len(said["troubles"]) == 1


def test_a_make_up_that_is_not_owed_is_refused_and_a_lesson_has_to_be_named(capsys, folder):
    status, [said] = time_answers(capsys, folder, "make-up", "thu 4pm")
    assert (status, said["starts_at"]) == (1, None)
    assert said["refused"].startswith("Ilse is not owed a make-up")
    assert time_answers(capsys, folder, "move", "thu 4pm", student="") == (1, [])
    assert (
        main(["understand", "move", "--student", "Ilse", "--on", "2026-12-02", "--folder", str(folder), "thu 4pm"]) == 1
    )
    assert "Ilse has no lesson on Wednesday, December 2, 2026." in capsys.readouterr().err
