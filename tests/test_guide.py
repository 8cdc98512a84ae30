"""The guide against the code: its tables, its examples, its commands, its links."""

import re
import shlex
import shutil
import tomllib
from datetime import timedelta
from importlib import resources
from itertools import chain
from pathlib import Path

import pytest
from support.reading import read
from support.sample import sample_studio

from cockpit.cli.main import main
from cockpit.desk.calendar.proposals import Purpose
from cockpit.guide.__main__ import GUIDE, with_fresh_tables
from cockpit.guide.__main__ import main as write_tables
from cockpit.screens.commands.commands import COMMANDS, key_name
from cockpit.settings.settings import parse_settings
from cockpit.settings.text import FIRST
from cockpit.studio.errors import BadSettings
from cockpit.studio.notes.notes import Area, Line, read_line
from cockpit.studio.roster.columns import COLUMNS

ROOT = Path(__file__).parents[1]
PAGES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(GUIDE.glob("*.md"))}
README = (ROOT / "README.md").read_text(encoding="utf-8")


def rows_below(page, head):
    """The rows of the table of a page that has a heading row."""
    _, _, table = PAGES[page].partition(f"| {head} |\n")
    assert table, (page, head)
    lines = table.splitlines()[1:]
    return [
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in lines[: next((n for n, line in enumerate(lines) if not line.startswith("|")), len(lines))]
    ]


def typed_in(cell):
    return re.findall(r"`([^`]+)`", cell)


# The tables that are written from the code


@pytest.mark.parametrize("page", PAGES)
def test_the_tables_are_those_of_the_code_or_else_python_m_cockpit_guide_writes_them(page):
    assert with_fresh_tables(PAGES[page]) == PAGES[page]


def test_every_command_stands_in_the_table_of_keys_with_its_keys_and_its_help():
    for command in COMMANDS:
        keys = " or ".join(f"`{key_name(key)}`" for key in command.keys) or "in Find"
        assert f"| {keys} | **{command.label}.** {command.help} | `{command.id}` |" in PAGES["keys"]


def test_every_setting_is_named_with_what_it_can_be():
    known = {
        "": "nonsense = 1",
        "practice": "[practice]\nnonsense = 1",
        "weights": "[practice.weights]\nnonsense = 1",
        "sending": "[sending]\nnonsense = 1",
        "inquiry": "[inquiry]\nnonsense = 1",
        "lengths": "[inquiry.lengths]\nnonsense = 1",
        "mail": "[sending.mail]\nnonsense = 1",
        "away": "[[away]]\nnonsense = 1",
    }
    for section, text in known.items():
        with pytest.raises(BadSettings) as refused:
            parse_settings(f'home_zone = "UTC"\n{text}', "settings.toml")
        keys = (
            re.split(r", | or ", str(refused.value).rpartition("one of ")[2].rstrip(".")) if section != "away" else []
        )
        for key in keys or ["zone", "from", "until"]:
            assert re.search(rf"`[^`\n]*\b{re.escape(key)}\b", PAGES["settings"]), (section, key)
    for line in FIRST.splitlines():
        if re.fullmatch(r"[\w-]+ = .+", line) and "{zone}" not in line:
            written = line.replace("{{", "{").replace("}}", "}").replace("\\n", "\n")
            assert f"`{written}`" in PAGES["settings"].replace("\\n", "\n"), line
    assert not re.search(r"\|  \| ", PAGES["settings"]), "a setting of which the program does not say what it can be"


def test_the_command_writes_a_table_that_is_old_and_leaves_the_rest(tmp_path, capsys):
    guide = shutil.copytree(GUIDE, tmp_path / "guide")
    old = PAGES["keys"].replace("`F9` or `ctrl+s`", "`F7`").replace("**Finish", "**End")
    (guide / "keys.md").write_text(old, encoding="utf-8")
    write_tables(guide)
    assert capsys.readouterr().out == "keys.md has new tables.\n"
    assert {path.stem: path.read_text(encoding="utf-8") for path in guide.glob("*.md")} == PAGES


def test_the_pages_lie_in_the_package_that_the_wheel_and_the_source_have_whole():
    targets = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["hatch"]["build"]["targets"]
    assert targets["wheel"]["packages"] == ["cockpit"]
    assert "/cockpit" in targets["sdist"]["include"]
    assert resources.files("cockpit") / "guide" == GUIDE
    assert "exclude" not in targets["wheel"].keys() | targets["sdist"].keys()


# What the other pages say


def test_every_page_begins_with_its_title_and_every_link_leads_somewhere():
    for name, page in PAGES.items():
        assert re.match(r"# [A-Z][^\n]+\n\n", page), name
        assert page.count("\n# ") == 0, name
        for target in re.findall(r"\]\(([^)]+)\)", page):
            file, _, heading = target.partition("#")
            assert (GUIDE / file).resolve().is_relative_to(ROOT), (name, target)
            assert (GUIDE / file).exists(), (name, target)
            headings = {
                words.lower().replace(" ", "-")
                for words in re.findall(r"^##+ (.+)$", PAGES.get(file.removesuffix(".md"), ""), re.MULTILINE)
            }
            assert not heading or heading in headings, (name, target)


def test_every_cockpit_command_in_the_guide_and_the_readme_is_understood(capsys):
    texts = [*PAGES.values(), README]
    examples = set(chain.from_iterable(re.findall(r"`(cockpit [^`]+)`", text) for text in texts)) | set(
        chain.from_iterable(re.findall(r"^ *(cockpit .+)$", text, re.MULTILINE) for text in texts)
    )
    assert len(examples) >= 20
    for example in examples:
        words = shlex.split(example)[1:]
        with pytest.raises(SystemExit) as ended:
            main([*words, "--help"])
        assert ended.value.code == 0, example
    assert "usage: cockpit" in capsys.readouterr().out


def test_every_function_key_and_id_that_is_named_is_one_of_a_command():
    keys = {key_name(key) for command in COMMANDS for key in command.keys}
    for page in PAGES.values():
        assert set(re.findall(r"`(F\d+|ctrl\+\w)`", page)) <= keys | {"ctrl+z"}


def test_the_areas_are_those_of_the_code():
    said = " ".join(PAGES["assignments"].split())
    *areas, last, other = Area
    assert f"{', '.join(areas)}, or {last}." in said
    assert other == Area.OTHER


def test_every_label_that_the_page_names_is_one():
    section = PAGES["assignments"].split("## Areas")[1].split("\n## ")[0]
    labels = [typed for typed in typed_in(section) if ":" in typed and not typed.startswith("[")]
    assert len(labels) > 10
    assert all(read_line(f"{typed} Gavotte").line is Line.ASSIGNMENT for typed in labels)


def test_the_columns_of_the_roster_are_those_of_the_code():
    named = [
        name for column, _ in rows_below("bringing-files-in", "column | what it says") for name in typed_in(column)
    ]
    assert sorted(named) == sorted(COLUMNS)


def test_the_lines_of_notes_are_what_the_page_says_of_them():
    said = {read_line(typed_in(typed)[0]).line: means for typed, means in rows_below("lesson", "line | is")}
    assert said.keys() == set(Line)
    assert said[Line.ASSIGNMENT] == "an assignment"
    assert "the family reads it" in said[Line.REMARK]
    assert all(said[line].startswith("for you alone") for line in (Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME))


def covered(typed, area):
    """The letters of a text that are claimed."""
    return "".join("".join(typed[each.begins : each.ends].split()) for each in read(typed, area).stretches)


@pytest.mark.parametrize(("cell", "_means"), rows_below("assignments", "you type | means"))
def test_every_example_of_shorthand_is_understood_whole(cell, _means):
    for typed in typed_in(cell):
        claimed = [covered(typed, area) for area in (Area.PIECE, Area.SCALES)]
        assert any("".join(typed.split()) == said for said in claimed), (typed, claimed)


def test_every_example_of_a_typed_line_arranges_what_it_says(tmp_path):
    purposes = {
        "m": Purpose.MOVE, "u": Purpose.MAKE_UP, "e": Purpose.EXTRA, "t": Purpose.TRIAL, "s": Purpose.CHANGE,
        "p": Purpose.PAUSE, "b": Purpose.BREAK,
    }  # fmt: skip
    rows = rows_below("calendar", "key | for | a line such as")
    assert [typed_in(key)[0] for key, _, _ in rows] == list(purposes)
    with sample_studio(tmp_path) as (studio, _):
        desk = studio.desk
        nalani = next(each for each in desk.day.bookings if each.student.name == "Nalani")
        desk.day.open(nalani.lesson.starts_at.date() + timedelta(days=7))
        desk.day.go_to(next(each.lesson.id for each in desk.day.bookings if each.student.name == "Nalani"))
        desk.teaching.mark_cancelled()  # a week ahead, so that a make-up is owed
        for key, _, lines in rows:
            for line in typed_in(lines):
                assert desk.arranging.propose(purposes[typed_in(key)[0]], nalani, line).edits, line


def test_every_line_of_a_recital_makes_what_it_says(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        recitals = studio.desk.recitals()
        cells = [typed_in(cell) for cell, _ in rows_below("recital", "you type for a recital | it is")]
        begins, *parts = [line for cell in cells for line in cell]
        recitals.lines.do(recitals.lines.propose_new(begins))
        (listed,) = recitals.reading.view().coming
        for part in parts:
            assert recitals.lines.propose_new(f"{begins}, {part}").edits, part
        for child in ("sat dec 12 11am", "sat dec 19 7:30pm"):
            assert f"`{child}`" in PAGES["recital"]
            assert recitals.lines.propose_child(listed.recital.id, child, is_rehearsal=True).edits
        begins, *parts = [
            line for cell, _ in rows_below("recital", "you type for an item | it is") for line in typed_in(cell)
        ]
        for item in (begins, "teodor lantern song 2:00"):
            recitals.lines.do(recitals.lines.propose_typed_item(listed.recital.id, item))
        for part in parts:
            assert recitals.lines.propose_typed_item(listed.recital.id, f"{begins}, {part}").edits, part
