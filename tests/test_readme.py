"""The README against the code: its two commands, its links, its pictures."""

import os
import re
import subprocess
import sys
from pathlib import Path

from support.picture import KEYS

from cockpit.screens.look.theming import bundled_looks

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block_after(mark: str) -> str:
    found = re.search(rf"<!-- {mark} -->\n```sh\n(.*?)\n```", README, re.DOTALL)
    assert found is not None, mark
    return found[1]


def test_each_of_the_two_commands_makes_its_environment_and_stands_on_one_line():
    for mark, last in (("sample studio", "cockpit demo"), ("all tests", "python -m pytest -n 3 --dist worksteal")):
        command = block_after(mark)
        assert "\n" not in command
        assert command.startswith("python3 -m venv .venv && .venv/bin/python -m pip install -q -c .constraints.txt -e ")
        assert command.endswith(f".venv/bin/{last}")


def test_the_ci_runs_the_test_command_as_the_readme_says_it_and_then_what_takes_long(tmp_path):
    (tmp_path / ".ci").mkdir()
    (tmp_path / ".ci" / "run").write_text((ROOT / ".ci" / "run").read_text(encoding="utf-8"), encoding="utf-8")
    harmless = README.replace(block_after("all tests"), "echo installed && echo the-tests-ran-here")
    (tmp_path / "README.md").write_text(harmless, encoding="utf-8")
    (tmp_path / "chromium").touch(mode=0o755)  # it is there, so that no test installs it
    environment = {**os.environ, "PATH": f"{tmp_path}{os.pathsep}{os.environ['PATH']}"}
    done = subprocess.run(
        ["bash", ".ci/run"], cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines() == [
        "echo installed && echo the-tests-ran-here",
        *("installed", "the-tests-ran-here"),
        "the-tests-ran-here -m long",
    ]


def test_it_is_read_in_four_minutes_and_leads_to_every_page_of_the_guide():
    assert len(README.splitlines()) <= 150
    linked = {target for target in re.findall(r"\]\(([^)]+)\)", README) if "://" not in target}
    assert all((ROOT / target).exists() for target in linked), linked
    pages = {f"cockpit/guide/{path.name}" for path in (ROOT / "cockpit" / "guide").glob("*.md")}
    assert pages <= linked
    last = README[README.index("## The manual") :]
    assert all(f"]({page})" in last for page in pages)


def test_its_pictures_are_pictures_and_four_at_most():
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert 1 <= len(pictures) <= 4
    assert [Path(picture).stem for picture in pictures] == list(KEYS)
    for picture in pictures:
        assert (ROOT / picture).read_text(encoding="utf-8").startswith("<svg")


def test_the_settings_of_a_new_studio_name_every_theme():
    settings = (ROOT / "cockpit" / "settings" / "text.py").read_text(encoding="utf-8")
    for name in bundled_looks():
        assert name in settings


def test_the_help_loads_neither_the_screens_nor_the_database():
    code = (
        "import sys\nfrom cockpit.cli.main import main\ntry:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "print(sorted({'textual', 'sqlite_utils', 'pendulum', 'markdown_it'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
