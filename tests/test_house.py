"""The house as a whole: what holds across its rooms."""

import ast
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

HOUSE = Path(__file__).parents[1] / "cockpit"


@cache
def classes() -> list[tuple[Path, ast.ClassDef]]:
    """Every class of the house with its module."""
    modules = [(path, ast.parse(path.read_text("utf-8"))) for path in sorted(HOUSE.rglob("*.py"))]
    return [(path, node) for path, module in modules for node in classes_in(module)]


def classes_in(node: ast.AST) -> Iterator[ast.ClassDef]:
    """The classes of a module, also those within others and within functions; no expression holds one."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.ClassDef):
            yield child
        if not isinstance(child, ast.expr):
            yield from classes_in(child)


def is_port(node: ast.ClassDef) -> bool:
    return any(getattr(base, "id", "") == "Protocol" for base in node.bases)


def classes_by_name() -> dict[str, set[str]]:
    """Where a class of each name stands. A port and what fills it share one name on purpose: they mean the same."""
    found = defaultdict(set)
    for path, node in classes():
        if not is_port(node) and not node.name.startswith("_"):
            found[node.name].add(str(path.relative_to(HOUSE)))
    return found


def test_a_class_name_has_one_meaning_in_the_whole_house():
    names = classes_by_name()
    assert len(names) > 200
    assert {name: places for name, places in names.items() if len(places) > 1} == {}


def test_a_port_is_named_as_what_fills_it_or_as_nothing_else():
    fillers = {"store", "outlets", "printing", "clock.py", "wiring.py"}
    ports = {node.name for _, node in classes() if is_port(node)}
    shared = {name: places for name, places in classes_by_name().items() if name in ports}
    assert {name: places for name, places in shared.items() if places[0].split("/")[0] not in fillers} == {}


def test_the_first_screen_waits_for_nothing_that_it_does_not_show():
    code = (
        "import sys\nimport cockpit.cli.main, cockpit.running.running, cockpit.screens.app, cockpit.wiring\n"
        "late = ('cockpit.studio.typed_times', 'cockpit.papers', 'cockpit.desk.calendar.a', 'cockpit.desk.inquiries', "
        "'cockpit.studio.inquiries.inquiry', 'cockpit.studio.inquiries.deadline', 'cockpit.studio.changes.duties', "
        "'cockpit.studio.lessons.withdrawn', 'cockpit.studio.roster.values', 'cockpit.studio.assignments.unread', "
        "'cockpit.store.backups', "
        "'markdown_it', 'icalendar', 'babel', 'sqlite_utils', 'pendulum', 'importlib.resources')\n"
        "print(sorted(name for name in sys.modules if name.startswith(late)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
