"""An export is quick to load: what is heavy is loaded by the page alone, when it is made."""

import subprocess
import sys


def test_no_paper_loads_a_markdown_reader_a_screen_or_a_database() -> None:
    modules = (
        "papers.notes.literal",
        "papers.notes.text",
        "papers.notes.page",
        "papers.queue",
        "papers.review",
        "wording.queue",
    )
    heavy = ("markdown_it", "textual", "sqlite3", "sqlite_utils", "pendulum")
    program = (
        "import sys\n"
        + "".join(f"import cockpit.{name}\n" for name in modules)
        + f"print([name for name in {heavy!r} if name in sys.modules])"
    )
    loaded = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert loaded.stdout == "[]\n"
