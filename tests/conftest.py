"""What every test stands on: pinned zone data, a plain terminal, and properties that do not race a clock."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

from cockpit.clock import pin_zone_data

pin_zone_data()

# The machine's own habits would change pictures, themes and folders.
for name in ("NO_COLOR", "TEXTUAL_THEME", "COCKPIT_FOLDER"):
    os.environ.pop(name, None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

# The same examples at every run, so that what was green is green again; `--hypothesis-profile=long` looks for new ones.
settings.register_profile("fixed", deadline=None, derandomize=True, database=None)
settings.register_profile("long", deadline=None, max_examples=2000, print_blob=True)
settings.load_profile("fixed")


def pytest_configure(config: pytest.Config) -> None:
    """Says what kind of run this is to those that have more to do in a long one."""
    from support.examples import note_run  # found only now that pytest has set the path

    note_run(config.getoption("markexpr"))


@pytest.fixture(scope="session")
def full_studio(tmp_path_factory) -> Path:
    """A studio with something of every kind; tests that change it change a copy."""
    from support.leaving import make_full_studio  # few tests want the whole program

    folder = tmp_path_factory.mktemp("full") / "studio"
    make_full_studio(folder)
    return folder
