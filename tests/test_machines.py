"""What machines hold: lint, format, types, the direction of imports, one clock, and values that stay as they are."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from cockpit.studio.values import Value, replace

ROOT = Path(__file__).parents[1]
SCRIPTS = Path(sys.executable).parent
SOURCES = sorted((ROOT / "cockpit").rglob("*.py"))
READS_THE_CLOCK = {
    *(f"datetime.datetime.{name}" for name in ("now", "today", "utcnow")),
    "datetime.date.today",
    *(f"time.{name}" for name in ("time", "time_ns", "monotonic", "monotonic_ns", "perf_counter", "perf_counter_ns")),
    *(f"time.{name}" for name in ("localtime", "gmtime", "ctime")),
    *(f"pendulum.{name}" for name in ("now", "today", "tomorrow", "yesterday")),
    *(f"pendulum.DateTime.{name}" for name in ("now", "today", "utcnow")),
    "pendulum.Date.today",
}


@pytest.mark.parametrize(
    "command",
    [("ruff", "check"), ("ruff", "format", "--check"), ("mypy",), ("lint-imports", "--no-cache", "--no-logo")],
    ids=" ".join,
)
def test_a_machine_finds_nothing(command):
    program, *arguments = command
    found = subprocess.run(
        [SCRIPTS / program, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=300, check=False
    )
    assert found.returncode == 0, f"{' '.join(command)}\n{found.stdout}{found.stderr}"


def first_name(node: ast.expr) -> str:
    """The name that a dotted name begins with; nothing where it begins with another expression."""
    while isinstance(node, ast.Attribute):
        node = node.value
    return node.id if isinstance(node, ast.Name) else ""


def clock_readings(source: str) -> Iterator[str]:
    """The places in a module where it names a function that reads the clock, as `line: function`."""
    tree = ast.parse(source)
    known: dict[str, str] = {}
    for node in ast.walk(tree):
        match node:
            case ast.Import(names=names):
                known |= {each.asname or each.name: each.name for each in names}
            case ast.ImportFrom(module=str(module), names=names):
                known |= {each.asname or each.name: f"{module}.{each.name}" for each in names}
    leads_there = {
        alias for alias, name in known.items() if any(f"{each}.".startswith(f"{name}.") for each in READS_THE_CLOCK)
    }
    for node in ast.walk(tree) if leads_there else ():
        if isinstance(node, ast.Attribute | ast.Name) and first_name(node) in leads_there:
            first, _, rest = ast.unparse(node).partition(".")
            named = f"{known.get(first, first)}.{rest}".rstrip(".")
            if first in known and named in READS_THE_CLOCK:
                yield f"{node.lineno}: {named}"


@pytest.mark.parametrize(
    "source",
    [
        "import datetime\ndatetime.datetime.now(datetime.UTC)",
        "from datetime import UTC, datetime\ndatetime.now(UTC)",
        "from datetime import datetime as moment\nnow = moment.utcnow",
        "from datetime import date\ndate.today()",
        "import time\ntime.time()",
        "def late():\n    from time import perf_counter as count\n    return count()",
        "import pendulum\npendulum.now('UTC')",
        "from pendulum import today\ntoday()",
    ],
)
def test_a_reading_of_the_clock_is_found_under_any_name(source):
    assert list(clock_readings(source))


@pytest.mark.parametrize(
    "source",
    [
        "self._clock.now()",
        "from datetime import date, datetime, time\ndatetime.combine(date(2026, 12, 1), time())",
        "def starts(now): return now.today",
        "from cockpit.clock import monotonic\nmonotonic()",
    ],
)
def test_what_only_looks_like_it_is_no_reading_of_the_clock(source):
    assert list(clock_readings(source)) == []


def test_only_one_module_reads_the_clock():
    (clock,) = (path for path in SOURCES if path.name == "clock.py")
    assert list(clock_readings(clock.read_text(encoding="utf-8")))
    others = (path for path in SOURCES if path != clock)
    offenders = [
        f"{path.relative_to(ROOT)}:{place}"
        for path in others
        for place in clock_readings(path.read_text(encoding="utf-8"))
    ]
    assert not offenders, "\n".join(offenders)


def test_the_studio_has_no_values_but_those_that_are_frozen_and_keyword_only():
    studio = [path for path in SOURCES if "studio" in path.relative_to(ROOT).parts and path.name != "values.py"]
    assert not [path.name for path in studio if "@dataclass" in path.read_text(encoding="utf-8")]


def test_a_value_is_frozen_and_keyword_only_and_equal_by_its_fields():
    class Bow(Value):
        hair: str
        grams: int = 81

    bow = Bow(hair="white")
    assert (bow, hash(bow)) == (Bow(hair="white", grams=81), hash(Bow(hair="white")))
    assert replace(bow, grams=78) != bow
    with pytest.raises(AttributeError, match="immutable"):
        bow.grams = 78
    with pytest.raises(TypeError):
        Bow("white")
    with pytest.raises(TypeError):
        replace(bow, gram=78)
