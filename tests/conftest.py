"""What every test stands on: pinned zone data, a plain terminal, and properties that do not race a clock."""

import compileall
import gc
import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import core, is_hypothesis_test, settings

from cockpit.clock import pin_zone_data

pin_zone_data()

# The machine's own habits would change pictures, themes and folders.
for name in ("NO_COLOR", "TEXTUAL_THEME", "COCKPIT_FOLDER"):
    os.environ.pop(name, None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

# The house is compiled before the first test, for a hundred programs are started. None of them compiles anything itself:
# one whose disk refuses would leave half a module behind for all that come after it.
HOUSE = Path(__file__).parents[1] / "cockpit"
os.environ["PYTHONDONTWRITEBYTECODE"] = "1"

# The same examples at every run, so that what was green is green again; `--hypothesis-profile=long` looks for new ones.
settings.register_profile("fixed", deadline=None, derandomize=True, database=None, max_examples=15)
# Others than those, the same at every run too: what was tried once need not be tried again.
settings.register_profile("many", deadline=None, database=None, max_examples=9)
settings.register_profile("long", deadline=None, max_examples=2000, print_blob=True)
settings.load_profile("fixed")

LONGEST = {"test_machines.py", "test_great_loads.py"}  # mypy, and the largest roster


def pytest_configure(config: pytest.Config) -> None:
    """Compiles the house; takes other examples where the tests that take long are asked for."""
    if not hasattr(config, "workerinput"):
        compileall.compile_dir(HOUSE, quiet=2)  # where it may not write, all is as it was
    if config.getoption("markexpr") == "long" and not config.getoption("--hypothesis-profile"):
        settings.load_profile("many")
        core.global_force_seed = 1


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session: pytest.Session) -> None:
    """Has each of several processes read the modules from another one on: they compile for one another, not all of them all."""
    gc.disable()  # what is collected stays to the end: looking through it again and again is a quarter of the time
    worker = getattr(session.config, "workerinput", None)
    if worker is not None and session.config.args == session.config.getini("testpaths"):
        modules = sorted(str(path) for path in Path(__file__).parent.rglob("test_*.py"))
        first = len(modules) * int(worker["workerid"].removeprefix("gw")) // worker["workercount"]
        session.config.args[:] = modules[first:] + modules[:first]
    sys.dont_write_bytecode = False


def pytest_collection_finish() -> None:
    """Has no test leave a module behind, compiled while its disk refused, nor look through the tests for garbage."""
    sys.dont_write_bytecode = True
    gc.collect()
    gc.freeze()
    gc.set_threshold(
        20_000, 20, 20
    )  # a twentieth of what a test of a screen takes: a program leaves much behind at once
    gc.enable()


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Counts every property, on other examples, among the tests that take long; begins with the longest of all."""
    items.sort(key=lambda item: (item.path.name not in LONGEST, item.path))  # nobody waits for one of them in the end
    if settings.get_current_profile_name() == "many":
        for item in items:
            if is_hypothesis_test(getattr(item, "obj", None)):
                item.add_marker("long")


@pytest.fixture(scope="session", autouse=True)
def new_databases() -> Iterator[None]:
    """Copies of one, wherever a test begins a studio."""
    from support.forms import begun_by_copy  # when the zone data is pinned

    with begun_by_copy():
        yield


@pytest.fixture(scope="session")
def full_studio(tmp_path_factory) -> Path:
    """A studio with something of every kind; tests that change it change a copy."""
    from support.leaving import make_full_studio  # few tests want the whole program

    folder = tmp_path_factory.mktemp("full") / "studio"
    make_full_studio(folder)
    return folder
