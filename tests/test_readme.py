"""The README against the code: its two commands, its keys, its words."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from cockpit.cli.main import main
from cockpit.screens.commands.command import key_name
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.look.theming import bundled_looks
from cockpit.studio.notes.notes import Area

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block_after(mark: str) -> str:
    found = re.search(rf"<!-- {mark} -->\n```sh\n(.*?)\n```", README, re.DOTALL)
    assert found is not None, mark
    return found[1]


def test_the_key_table_is_that_of_the_code():
    table = README.split("<!-- keys -->\n", 1)[1].split("\n<!-- end of keys -->", 1)[0].splitlines()[2:]
    rows = [
        "| {} | {} | {} | `{}` |".format(
            " or ".join(f"`{key_name(key)}`" for key in command.keys) or "palette",
            command.label,
            command.place,
            command.id,
        )
        for command in COMMANDS
    ]
    assert table == rows


def test_each_of_the_two_commands_makes_its_environment_and_stands_on_one_line():
    for mark, last in (("sample studio", "cockpit demo"), ("all tests", "python -m pytest -n 3 --dist worksteal")):
        command = block_after(mark)
        assert "\n" not in command
        assert command.startswith("python3 -m venv .venv && .venv/bin/python -m pip install -q -c .constraints.txt -e ")
        assert command.endswith(f".venv/bin/{last}")


def test_the_ci_runs_the_test_command_as_the_readme_says_it_and_then_what_takes_long(tmp_path):
    (tmp_path / ".ci").mkdir()
    (tmp_path / ".ci" / "run").write_text((ROOT / ".ci" / "run").read_text(encoding="utf-8"), encoding="utf-8")
    harmless = README.replace(block_after("all tests"), "echo the-tests-ran-here")
    (tmp_path / "README.md").write_text(harmless, encoding="utf-8")
    done = subprocess.run(["bash", ".ci/run"], cwd=tmp_path, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == ["echo the-tests-ran-here", "the-tests-ran-here", "the-tests-ran-here -m long"]


def test_every_cockpit_command_in_the_readme_is_understood(capsys):
    examples = set(re.findall(r"`(cockpit [^`]+)`", README)) | set(
        re.findall(r"^ *(cockpit .+)$", README, re.MULTILINE)
    )
    assert len(examples) >= 10
    for example in examples:
        words = shlex.split(example)[1:]
        with pytest.raises(SystemExit) as ended:
            main([*words, "--help"])
        assert ended.value.code == 0, example
    assert "usage: cockpit" in capsys.readouterr().out


def test_areas_themes_and_the_picture_are_as_the_readme_says():
    for area in Area:
        assert area in README
    settings = (ROOT / "cockpit" / "settings" / "text.py").read_text(encoding="utf-8")
    for name in bundled_looks():
        assert name in settings
    picture = re.search(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert picture is not None
    assert (ROOT / picture[1]).read_text(encoding="utf-8").startswith("<svg")


def test_the_help_loads_neither_the_screens_nor_the_database():
    code = (
        "import sys\nfrom cockpit.cli.main import main\ntry:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "print(sorted({'textual', 'sqlite_utils', 'pendulum', 'markdown_it'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
