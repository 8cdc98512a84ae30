"""DEVELOPERS.md against the house: what it names is there, and each wing has its section."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
HEADINGS = ["Purpose", "Flow", "Invariants", "Tests"]
NAMED = re.compile(r"`((?:[\w.-]+/)+[\w.-]*|[\w-]+\.(?:py|toml|md))`")


def sections():
    """The text of each section that is about a part of the house, by its title."""
    parts = re.split(
        r"^### (.+)$", TEXT.split("\n## The wings\n", 1)[1].split("\n## Working on it\n", 1)[0], flags=re.MULTILINE
    )
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def test_every_path_that_is_named_is_there():
    named = set(NAMED.findall(TEXT)) - {"settings.toml", "family.recovery"}
    assert len(named) > 100
    missing = [path for path in named if not any((top / path).exists() for top in (ROOT, ROOT / "cockpit"))]
    assert not [path for path in missing if not path.startswith("build/")]


def test_each_wing_of_the_studio_has_its_section_and_its_line_in_the_table():
    wings = {path.name for path in (ROOT / "cockpit" / "studio").iterdir() if (path / "__init__.py").exists()}
    assert wings == set(re.findall(r"^\| `(\w+)` \| ", TEXT, re.MULTILINE))
    assert wings <= {title.lower().replace(" ", "_") for title in sections()}


def test_each_section_says_the_same_four_things():
    for title, text in sections().items():
        assert re.findall(r"^\*\*(\w+)\.\*\*", text, re.MULTILINE) == HEADINGS, title


def test_every_folder_of_the_house_is_drawn():
    drawn = set(re.findall(r"^  ([\w.]+)/? ", TEXT.split("```")[1], re.MULTILINE))
    there = {path.name for path in (ROOT / "cockpit").iterdir() if path.is_dir() and (path / "__init__.py").exists()}
    assert there <= drawn
