"""A recital of 60 items and seven zones, and one of 60 families; processor time, the best of five.

`python tests/bench/recital.py`. Goals: the screen 60 ms, an order drafted 20 ms, each paper 200 ms, who of 60 families gets what 100 ms.
"""

import asyncio
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.arranged_studio import HEADER, arranged_studio
from support.screens import cockpit

from cockpit.screens.recital.recital import RecitalScreen
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.recital.program import drafted

ITEMS, TIMES = 60, 5
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday")
ZONES = ("Asia/Kolkata", "Europe/London", "America/Chicago", "America/Phoenix")
DRAFTS = 'home_zone = "America/Chicago"\n[sending]\nways = "draft"\n'
PLAYERS = ("Ishaan", "Teodor", "Wren", "Tobin", "Ilse", "Eilidh", "Nalani", "Mireille")


def best_of(take: Callable[[], object]) -> float:
    """The fewest milliseconds of some tries."""
    found = []
    for _ in range(TIMES):
        begins = time.process_time()
        take()
        found.append((time.process_time() - begins) * 1000)
    return min(found)


def filled(desk):
    """A recital with its items."""
    recitals = desk.recitals()
    recitals.lines.do(recitals.lines.propose_new("winter tales, sat dec 19 12pm, online, 120m"))
    (listed,) = recitals.reading.view().coming
    for number in range(ITEMS):
        student = desk.finding.student(PLAYERS[number % len(PLAYERS)]).student
        line = f"{'the old mill' if number < len(PLAYERS) else f'piece {number}'}, 1:{number % 60:02d}, costume no. {number % 3}"
        recitals.lines.do(recitals.lines.propose_item(listed.recital.id, student.id, line))
    return listed.recital.id


async def measure(folder: Path) -> None:
    """Prints how long each takes."""
    async with cockpit(folder, size=(150, 45)) as opened:
        desk = opened.studio.desk
        recital_id = filled(desk)
        recitals, papers = desk.recitals(), desk.recital_papers()
        screen = RecitalScreen(opened.app.screen.parts, recital_id)
        await opened.app.push_screen(screen)
        await opened.done()
        program = recitals.reading.program(recital_id)
        items = [each for row in program.rows for each in row.items]
        rows = screen.query_one(Rows)

        def shown() -> None:
            screen.show()
            opened.paint()

        for words, take in (
            ("the screen, read again and painted", shown),
            ("  the program", lambda: recitals.reading.program(recital_id)),
            ("  what is ready", lambda: recitals.reading.readiness_of(items)),
            ("  the rows", lambda: rows.lay_out(rows._draw)),
            ("an order drafted", lambda: drafted(program)),
            ("  with what stands against it", lambda: (drafted(program), recitals.reading.program(recital_id))),
            ("when it suits all", lambda: recitals.reading.suiting(recital_id)),
            ("who of seven families gets what", lambda: papers.view(recital_id)),
            ("  one of them, as it will read it", lambda: papers.preview(recital_id, program.families[0].id)),
            ("the program and the running sheet, in the folder", lambda: papers.keep_files(recital_id)),
        ):
            print(f"{best_of(take):7.1f} ms  {words}")


def measure_families(folder: Path) -> None:
    """Prints how long it takes to tell who of 60 families gets what, before and after the papers went."""
    names = [f"Child {chr(97 + number // 26)}{chr(97 + number % 26)}" for number in range(ITEMS)]
    rows = (
        f"{name},{WEEKDAYS[number % 5]},{8 + number // 5}:00,30,Family {name},cello,{ZONES[number % 4]},teacher,{number}@example.org,named"
        for number, name in enumerate(names)
    )
    roster = f"{HEADER.strip()},email,permissions\n" + "\n".join(rows) + "\n"
    with arranged_studio(folder, roster, "2026-12-01 08:00", DRAFTS) as arranged:
        desk = arranged.studio.desk
        recitals, papers = desk.recitals(), desk.recital_papers()
        recitals.lines.do(recitals.lines.propose_new("winter tales, sat dec 19 12pm, online"))
        recital_id = recitals.reading.view().coming[0].recital.id
        for number, name in enumerate(names):
            line = f"piece {number} 1:00, costume no. {number}, story the tale of {number}"
            recitals.lines.do(recitals.lines.propose_item(recital_id, desk.finding.student(name).student.id, line))
        print(f"{best_of(lambda: papers.view(recital_id)):7.1f} ms  who of sixty families gets what")
        papers.put_out(recital_id)
        print(f"{best_of(lambda: papers.view(recital_id)):7.1f} ms    when all of them have papers")
        family = arranged.studio.desk.finding.student(names[0]).family.id
        print(f"{best_of(lambda: papers.preview(recital_id, family)):7.1f} ms    one of them, as it will read it")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        asyncio.run(measure(Path(folder)))
    with tempfile.TemporaryDirectory() as folder:
        measure_families(Path(folder))
