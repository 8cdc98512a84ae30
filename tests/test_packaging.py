"""What is installed with the program: honest ranges, and the exact versions that were tried."""

import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
TRIED = [
    Requirement(line)
    for line in (ROOT / ".constraints.txt").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]


def asked_for() -> list[Requirement]:
    project = PROJECT["project"]
    extras = (each for extra in project["optional-dependencies"].values() for each in extra)
    return [Requirement(each) for each in (*project["dependencies"], *extras)]


def test_one_exact_version_within_its_range_was_tried_of_everything_that_is_asked_for():
    for wanted in asked_for():
        tried = [each for each in TRIED if each.name == wanted.name]
        assert tried, wanted
        for version in (next(iter(each.specifier)).version for each in tried):
            assert wanted.specifier.contains(version), (wanted, version)


def test_every_version_that_was_tried_is_exact_and_for_every_python():
    for each in TRIED:
        assert [part.operator for part in each.specifier] == ["=="], each
        assert not each.extras, each
    for python in ("3.11.0", "3.12.0", "3.13.0"):
        here = {"python_version": python.rpartition(".")[0], "python_full_version": python, "sys_platform": "linux"}
        names = [each.name for each in TRIED if each.marker is None or each.marker.evaluate(here)]
        assert len(names) == len(set(names))
        assert {each.name for each in asked_for()} <= set(names)


def test_what_builds_the_program_is_exact_too():
    (builder,) = (Requirement(each) for each in PROJECT["build-system"]["requires"])
    assert [part.operator for part in builder.specifier] == ["=="]


def test_the_versions_go_with_the_source_and_name_no_place_of_their_own():
    assert "/.constraints.txt" in PROJECT["tool"]["hatch"]["build"]["targets"]["sdist"]["include"]
    assert not re.search(r"://|^-|[/\\]|@ ", "\n".join(map(str, TRIED)), re.MULTILINE)
