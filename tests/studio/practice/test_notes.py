"""What a family gets, and the names of its folder and files."""

import tempfile
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from support.phrases import IN_ENGLISH
from support.studio import (
    BRANDVOLD,
    DAY,
    EILIDH,
    HOME,
    ILSE,
    ISHAAN,
    MIREILLE,
    OKONJO,
    STARTS_AT,
    TEODOR,
    booking,
    family,
    home,
    student,
)

from cockpit.papers.notes.text import practice_notes_text
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.lessons.lesson import begin
from cockpit.studio.people.people import FamilyId, StudentId, name_key
from cockpit.studio.practice.notes import family_folder, paper_name, practice_notes, safe_name
from cockpit.studio.values import replace

BODY = "Scales: D major\nPrivate: tired\nElbow low.\nFollow-up: fingering\nNext time: coda"
RESERVED = ["CON", "prn", "Aux", "nul", "COM1", "com9", "LPT1", "lpt³", "con.txt", "AUX.2026.md", "nul .md", "CONIN$"]
LONG_NAMES = [
    "Brandvold " * 30,
    "Ó Súilleabháin-" * 20,
    "Перро" * 40,
    "समृद्धि" * 30,
    "王" * 100,
    "عبدالرحمن " * 20,
    "สมชาย" * 30,
    "김" * 90,
    "👩‍🎓" * 40,
    "é" * 79 + "..",
]
any_name = st.text() | st.sampled_from([*RESERVED, *LONG_NAMES, "..", "../..", "/etc", "C:\\Windows", "~", "\ud800"])


@pytest.mark.parametrize(
    ("who", "shown", "hours"),
    [
        (ILSE, "2026-12-01 15:00", 12),
        (TEODOR, "2026-12-01 22:00", 24),
        (MIREILLE, "2026-12-01 18:30", 12),
        (EILIDH, "2026-12-01 18:00", 12),
        (ISHAAN, "2026-12-02 03:30", 24),
    ],
)
def test_a_family_reads_its_own_clock(who, shown, hours):
    paper = practice_notes(booking(who), BODY, home("2026-12-08 16:00"), 12)
    assert paper.taught_at.strftime("%Y-%m-%d %H:%M") == shown
    assert paper.next_at == home("2026-12-08 16:00")
    assert paper.next_at.utcoffset() == paper.taught_at.utcoffset()
    assert (paper.hours, paper.zone) == (hours, booking(who).family.zone)


def test_the_notes_say_when_the_lesson_really_began():
    late = booking()
    late = replace(late, lesson=begin(late.lesson, STARTS_AT + timedelta(minutes=7)))
    assert practice_notes(late, BODY, None, 12).taught_at == STARTS_AT + timedelta(minutes=7)


def test_the_next_lesson_is_told_on_the_familys_clock_after_a_clock_change():
    paper = practice_notes(booking(starts_at=home("2026-10-27 16:00")), "", home("2026-11-03 16:00"), 12)
    assert paper.taught_at.strftime("%H:%M") == "14:00"
    assert paper.next_at.strftime("%H:%M") == "15:00"


def test_without_a_next_lesson_there_is_none():
    assert practice_notes(booking(), BODY, None, 12).next_at is None


def test_nothing_private_is_in_the_notes():
    who = replace(booking(), student=student(remark="shy since the autumn"))
    paper = practice_notes(who, BODY, None, 12)
    for secret in ("tired", "fingering", "coda", "shy since the autumn"):
        assert secret not in repr(paper)
    assert [line.text for line in paper.notes.assignments] == ["D major"]
    assert paper.notes.remarks == ("Elbow low.",)


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("Okonjo", "Okonjo"),
        ("Núñez Østergård", "Núñez Østergård"),
        ("  Okonjo \t Ade  ", "Okonjo Ade"),
        ("../../etc/passwd", "-..-etc-passwd"),
        ("..", "unnamed"),
        ("...", "unnamed"),
        ("", "unnamed"),
        (".hidden", "hidden"),
        ("Okonjo.", "Okonjo"),
        ("A/B\\C:D", "A-B-C-D"),
        ('Who? "Me" <*|>', "Who- -Me- ----"),
        ("a\x00b\nc", "a-b c"),
        ("con", "con-"),
        ("Con.txt", "Con-.txt"),
        ("Connor", "Connor"),
        ("Kim.", "Kim"),
    ],
)
def test_a_name_becomes_a_file_name(name, safe):
    assert safe_name(name) == safe


@given(any_name)
def test_a_file_name_is_safe_on_every_common_system(name):
    safe = safe_name(name)
    assert safe
    assert safe not in {".", ".."}
    assert not set(safe) & set('/\\:*?"<>|')
    assert safe.isprintable()
    assert safe == safe.strip(" .")
    assert len(safe.encode()) <= 81
    assert safe.partition(".")[0].rstrip().lower() not in {"con", "prn", "aux", "nul", "com1", "lpt1", "com9", "lpt³"}


@given(any_name)
@example("../../outside")
def test_a_file_of_any_name_stays_in_its_folder(name):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{safe_name(name)}.md"
        assert path.resolve().parent == Path(folder).resolve()
        path.write_text("practice notes", encoding="utf-8")
        assert len(list(Path(folder).iterdir())) == 1


@pytest.mark.parametrize("name", LONG_NAMES)
def test_a_long_name_in_any_script_is_shortened_between_letters(name):
    safe = safe_name(name)
    assert 70 <= len(safe.encode()) <= 80
    assert safe[:5] == safe_name(name[:5])


def test_a_name_of_eighty_bytes_is_kept_whole_and_a_longer_one_loses_no_more_than_it_must():
    assert safe_name("x" * 80) == "x" * 80
    assert safe_name("x" * 81) == "x" * 80


@pytest.mark.parametrize("name", RESERVED)
def test_a_name_that_a_system_keeps_for_itself_is_changed(name):
    assert safe_name(name) not in {name, name.strip()}


def test_a_family_alone_under_its_name_has_a_folder_of_that_name():
    assert family_folder(BRANDVOLD, [BRANDVOLD, OKONJO]) == "Brandvold"


def test_two_families_of_one_name_have_numbered_folders():
    both = [family(), family(id=FamilyId(2), name="BRANDVOLD")]
    assert [family_folder(each, both) for each in both] == ["Brandvold (1)", "BRANDVOLD (2)"]


def test_a_family_keeps_its_folder_when_it_changes_its_name_and_nobody_else_gets_it():
    renamed = family(name="Brandvold-Quist", folder="Brandvold")
    newcomer = family(id=FamilyId(7), name="brandvold")
    assert family_folder(renamed, [renamed, newcomer]) == "Brandvold"
    assert family_folder(newcomer, [renamed, newcomer]) == "brandvold (7)"


confusable = st.sampled_from(
    [
        "Okonjo",
        "OKONJO",
        "Okonjo.",
        "Okonjo (1)",
        "okonjo  (2)",
        "Okonjo (3) ",
        "Okonjo (1) (2)",
        "A/B",
        "A-B",
        "",
        "..",
        "unnamed",
        "unnamed (1)",
        "con",
        "con-",
        "Zoe\u0308",
        "Zoë",
        "Straße",
        "STRASSE",
        "x" * 90,
        "x" * 95,
        "x" * 76 + " (1)",
    ]
)


@given(st.lists(confusable | st.text(), min_size=2, max_size=8))
@example(["Okonjo", "Okonjo", "Okonjo (1)"])
def test_two_families_never_share_a_folder(names):
    called = [family(id=FamilyId(number), name=name) for number, name in enumerate(names, start=1)]
    folders = [family_folder(each, called) for each in called]
    assert len({name_key(folder) for folder in folders}) == len(names)


def test_a_paper_is_named_after_its_day_and_student():
    assert paper_name(booking(), DAY, [booking()], HOME) == "2026-12-01 Ilse"


def test_a_second_lesson_of_the_day_has_its_time_and_number():
    extra = booking(id="extra", starts_at=home("2026-12-01 18:30"))
    that_day = [booking(), booking(TEODOR), extra]
    assert paper_name(booking(), DAY, that_day, HOME) == "2026-12-01 Ilse"
    assert paper_name(extra, DAY, that_day, HOME) == "2026-12-01 Ilse 18.30 (2)"


def test_a_student_of_another_family_with_the_same_name_changes_nothing():
    hers, theirs = booking(), replace(booking(TEODOR), student=student(id=StudentId(2), name="Ilse"))
    assert paper_name(theirs, DAY, [hers, theirs], HOME) == "2026-12-01 Ilse"


@given(st.lists(st.sampled_from(["Ilse", "ILSE", "Ilse.", "Ada", "A/da", "A-da"]), min_size=1, max_size=6))
def test_no_two_papers_of_a_family_and_day_share_a_name(names):
    that_day = [
        replace(
            booking(id=f"w{n}", starts_at=STARTS_AT + timedelta(minutes=30 * (n // 2))),
            student=student(id=StudentId(n), name=name),
        )
        for n, name in enumerate(names)
    ]
    papers = {name_key(paper_name(each, DAY, that_day, HOME)) for each in that_day}
    assert len(papers) == len(names)


def test_notes_of_a_lesson_before_a_move_have_the_old_city_and_the_next_lesson_the_new_one():
    moves = Home(zone="America/Phoenix", stays=(Stay(zone="America/New_York", from_on=date(2026, 12, 3)),))
    paper = practice_notes(
        replace(booking(), family=replace(BRANDVOLD, zone=moves)), BODY, home("2026-12-08 16:00"), 12
    )
    assert (paper.taught_at.hour, paper.zone) == (15, "America/Phoenix")
    assert paper.next_at is not None
    assert (paper.next_at.hour, paper.next_zone) == (17, "America/New_York")
    text = practice_notes_text(paper, IN_ENGLISH)
    assert "3:00 pm Phoenix time" in text
    assert "Tuesday, December 8, 2026, 5:00 pm New York time (UTC−05:00)" in text
