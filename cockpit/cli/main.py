"""The command line: parse, wire, run. The only module that prints."""

import argparse
import gc
import os
import sys
import tempfile
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import NoReturn, TextIO

from cockpit import __version__
from cockpit.studio.clocks.horizons import WEEKS_OF_CHANGES
from cockpit.studio.errors import BadInput, CockpitError, Interrupted, Refused
from cockpit.studio.shown import shown

_MOST_WEEKS = 260
_INTERRUPTED = 130
# The kinds of `cli/understand.py`, which --help does not load.
_UNDERSTOOD = ("note", "move", "make-up", "extra", "trial", "time", "break", "pause")
_FOLDER = "the studio folder (default: COCKPIT_FOLDER, or your system's data folder)"
_TIME = "a time on your clock, such as '4:12 pm' or '2026-12-01 16:12'"


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs a command, and returns the exit status: 0, or 1 after a sentence on stderr; 130 where ctrl+c ended it."""
    asked = _asked(sys.argv[1:] if arguments is None else arguments)
    try:
        return int(_run(asked))
    except Interrupted as fault:
        _say(str(fault), sys.stderr)
        return _INTERRUPTED
    except CockpitError as fault:
        _say(str(fault), sys.stderr)
        return 1
    except BrokenPipeError:
        # The reader (head, a pager) has seen enough.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except OSError as fault:
        _say(f"{fault.filename or 'A file'}: {fault.strerror}.", sys.stderr)
        return 1


class _Parser(argparse.ArgumentParser):
    """Repeats no control character of a command line to the terminal."""

    def error(self, message: str) -> NoReturn:
        super().error(shown(message))


def _asked(arguments: Sequence[str]) -> argparse.Namespace:
    """Parses a command line. One without a command does not wait 6 ms for the parser of all commands."""
    opening = _Parser(add_help=False, exit_on_error=False)
    opening.set_defaults(command=None)
    _add_opening(opening)
    try:
        asked, others = opening.parse_known_args(arguments)
    except argparse.ArgumentError:
        return _parser().parse_args(arguments)
    return _parser().parse_args(arguments) if others else asked


def _add_opening(parser: _Parser) -> None:
    parser.add_argument(
        "--at", metavar="TIME", help=f"rehearse at {_TIME}; requires --folder with a copy of your studio"
    )
    parser.add_argument("--folder", type=Path, metavar="DIR", help=_FOLDER)


def _parser() -> _Parser:
    parser = _Parser(prog="cockpit", description="The lesson day of a music teacher. With no command, opens today.")
    parser.add_argument("--version", action="version", version=f"cockpit {__version__}")
    _add_opening(parser)
    folder = _Parser(add_help=False)
    folder.add_argument("--folder", type=Path, metavar="DIR", default=argparse.SUPPRESS, help=_FOLDER)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    on = _Parser(add_help=False)
    on.add_argument("--on", type=_date, metavar="DATE", help="a date, such as 2026-12-01 (default: today)")

    _add_files(commands, folder)
    queue = commands.add_parser("queue", parents=[folder, on], help="the lessons of a day")
    queue.add_argument("--json", action="store_true", help="as JSON")
    notes = commands.add_parser(
        "notes", parents=[folder, on], help="a student's practice notes, as the family gets them"
    )
    notes.add_argument("student", metavar="STUDENT")
    notes.add_argument(
        "--as", dest="kind", choices=["md", "html", "text"], default="md", help="the format (default: md)"
    )
    _add_calendar(commands, folder)
    outbox = commands.add_parser("outbox", parents=[folder], help="practice notes that have not been sent, and why")
    outbox.add_argument("--send", action="store_true", help="send what can be sent and list what is left")
    commands.add_parser("review", parents=[folder, on], help="the end of a day: lessons, what is missing, what you owe")
    demo = commands.add_parser("demo", help="a sample studio in a new temporary folder, with a lesson running")
    demo.add_argument("--at", metavar="TIME", default=argparse.SUPPRESS, help=_TIME)
    keys = commands.add_parser("keys", parents=[folder], help="every command with its keys")
    keys.add_argument("--json", action="store_true", help="as JSON")
    commands.add_parser("restore", parents=[folder], help="restore the last backup and keep the damaged file")
    commands.add_parser("recital", parents=[folder], help="the recitals to come: who plays what, and when")
    _add_family(commands, folder)
    _add_understand(commands, folder, on)
    return parser


def _add_files(commands: "argparse._SubParsersAction[_Parser]", folder: _Parser) -> None:
    roster = commands.add_parser(
        "roster", parents=[folder], help="import your students from a CSV or iCalendar file, or save them as one"
    )
    of_roster = roster.add_mutually_exclusive_group(required=True)
    of_roster.add_argument("file", type=Path, metavar="FILE", nargs="?")
    of_roster.add_argument("--export", type=Path, metavar="FILE.csv", help="save your students in a new CSV file")
    roster.add_argument("--dry-run", action="store_true", help="show what would change without changing anything")
    inquiry = commands.add_parser(
        "inquiry", parents=[folder], help="add an inquiry about lessons from a saved email, or count inquiries"
    )
    of_inquiry = inquiry.add_mutually_exclusive_group(required=True)
    of_inquiry.add_argument("file", type=Path, metavar="FILE", nargs="?")
    of_inquiry.add_argument(
        "--counts",
        nargs=2,
        type=_date,
        metavar=("FIRST", "LAST"),
        help="what came of those from one date through another",
    )
    inquiry.add_argument(
        "--came", metavar="TIME", help="when it came, such as 'yesterday 10am', if the email does not say"
    )


def _add_understand(commands: "argparse._SubParsersAction[_Parser]", folder: _Parser, on: _Parser) -> None:
    understand = commands.add_parser(
        "understand", parents=[folder, on], help="what typed lines would mean, without doing anything"
    )
    understand.add_argument("kind", metavar="KIND", choices=_UNDERSTOOD, help=", ".join(_UNDERSTOOD))
    understand.add_argument(
        "lines", metavar="LINE", nargs="+", help="a line in quotes; - reads them from standard input"
    )
    understand.add_argument("--student", metavar="NAME", help="the student whose lesson it is")
    understand.add_argument("--whole", action="store_true", help="read the lines as one text, not each by itself")
    understand.add_argument("--json", action="store_true", help="as JSON, one row for each line")


def _add_calendar(commands: "argparse._SubParsersAction[_Parser]", folder: _Parser) -> None:
    changes = commands.add_parser(
        "clockchanges", parents=[folder], help="clock changes coming up, and the lessons they shift"
    )
    changes.add_argument(
        "--weeks",
        type=_weeks,
        default=WEEKS_OF_CHANGES,
        metavar="N",
        help="how many weeks to look ahead (default: %(default)s)",
    )
    calendar = commands.add_parser("calendar", parents=[folder], help="the lessons as an iCalendar file")
    calendar.add_argument("--weeks", type=_weeks, metavar="N", help="how many weeks to look ahead (default: no end)")
    calendar.add_argument("--family", metavar="NAME", help="one family's lessons (default: the whole studio's)")
    calendar.add_argument("--out", type=Path, metavar="FILE", help="the file to write (default: print on the screen)")


def _add_family(commands: "argparse._SubParsersAction[_Parser]", folder: _Parser) -> None:
    family = commands.add_parser("family", parents=[folder], help="export or delete a family that leaves")
    family.add_argument("name", metavar="NAME")
    does = family.add_mutually_exclusive_group()
    does.add_argument("--export", type=Path, metavar="FILE", help="save everything about the family in a new zip file")
    does.add_argument("--forget", action="store_true", help="delete everything about the family; asks twice")
    family.add_argument(
        "--without-private",
        action="store_true",
        help="leave your private lines, follow-ups, and remarks on students out of the file",
    )
    family.add_argument("--sure", metavar="NAME", help="for scripts: delete the family with this name without asking")


def _weeks(text: str) -> int:
    from cockpit.studio.clocks.words import number_in

    weeks = number_in(text)
    if weeks is None or not 1 <= weeks <= _MOST_WEEKS:
        raise argparse.ArgumentTypeError(f"{text} does not work; write a number of weeks from 1 to {_MOST_WEEKS}")
    return weeks


def _date(text: str) -> date:
    from cockpit.cli.commands import a_lesson_day

    try:
        return a_lesson_day(date.fromisoformat(text))
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} does not work; write a date such as 2026-12-01") from None
    except BadInput as fault:
        raise argparse.ArgumentTypeError(str(fault)) from None


def _run(asked: argparse.Namespace) -> int:
    if asked.command is None:
        gc.disable()  # until the screen is there: nothing that is loaded until then goes again
    from cockpit.cli import commands  # 40 ms of desk and store, which --help does not need

    if asked.at is not None and asked.command not in {None, "demo", "understand"}:
        raise BadInput("--at works only with the cockpit itself, the demo, and understand.")
    match asked.command:
        case "demo":
            with tempfile.TemporaryDirectory(prefix="cockpit-sample-") as folder:
                return commands.demo(Path(folder), asked.at, _say)
        case "keys":
            _say(commands.keys(as_json=asked.json))
            return 0
        case "understand":
            return _understand(_folder(asked.folder, at=asked.at), asked)
        case _:
            return _run_in(_folder(asked.folder, at=asked.at), asked)


def _run_in(folder: Path, asked: argparse.Namespace) -> int:
    from cockpit.cli import commands

    match asked.command:
        case None:
            return commands.open_cockpit(folder, asked.at, _say)
        case "roster" | "inquiry":
            said = _taken_in(folder, asked)
        case "queue" | "review" | "recital":
            said = _looked_at(folder, asked)
        case "notes":
            said = commands.notes(folder, asked.student, asked.on, asked.kind)
        case "clockchanges" | "calendar" | "outbox":
            said = _sent_out(folder, asked)
        case "restore":
            said = commands.restore(folder)
        case _:
            said = _family(folder, asked)
    _say(said)
    return 0


def _looked_at(folder: Path, asked: argparse.Namespace) -> str:
    from cockpit.cli import commands
    from cockpit.cli.recital import recitals

    match asked.command:
        case "queue":
            return commands.queue(folder, asked.on, as_json=asked.json)
        case "review":
            return commands.review(folder, asked.on)
        case _:
            return recitals(folder)


def _understand(folder: Path, asked: argparse.Namespace) -> int:
    from cockpit.cli.answers import Question
    from cockpit.cli.understand import understand

    lines = asked.lines
    if lines == ["-"]:
        lines = sys.stdin.read().removesuffix("\n").split("\n")
    question = Question(lines=lines, is_whole=asked.whole, student=asked.student, on=asked.on)
    said, is_understood = understand(folder, asked.kind, question, asked.at, as_json=asked.json)
    _say(said)
    return 0 if is_understood else 1


def _family(folder: Path, asked: argparse.Namespace) -> str:
    from cockpit.cli import family as family_commands

    if (asked.without_private and asked.export is None) or (asked.sure is not None and not asked.forget):
        raise BadInput("Use --without-private only with --export FILE, and --sure NAME only with --forget.")
    talk = family_commands.Talk(say=_say, ask=_typed, is_terminal=sys.stdin.isatty())
    if asked.forget:
        return family_commands.forget(folder, asked.name, asked.sure, talk)
    if asked.export is None:
        return family_commands.tell(folder, asked.name, talk)
    return family_commands.export(folder, asked.name, asked.export, talk, with_private=not asked.without_private)


def _say(text: str, file: TextIO | None = None, end: str = "\n") -> None:
    """Prints a text; what it has from names, files and servers must not command the terminal."""
    print(shown(text + end), file=file, end="", flush=True)


def _taken_in(folder: Path, asked: argparse.Namespace) -> str:
    from cockpit.cli.inquiry import counts, inquiry

    if asked.command == "roster":
        return _roster(folder, asked)
    return counts(folder, *asked.counts) if asked.counts else inquiry(folder, asked.file, asked.came, _answer)


def _roster(folder: Path, asked: argparse.Namespace) -> str:
    from cockpit.cli import calendar as calendar_commands
    from cockpit.cli import roster as roster_commands

    if asked.export is not None:
        return roster_commands.export(folder, asked.export)
    if asked.file.suffix.lower() not in {".ics", ".ical", ".icalendar"}:
        return roster_commands.roster(folder, asked.file, _answer, dry_run=asked.dry_run)
    try:
        return calendar_commands.bring_calendar(folder, asked.file.read_bytes(), _answer, dry_run=asked.dry_run)
    except BadInput as faults:
        raise BadInput(f"{faults}\nNothing was imported from {asked.file}.") from faults


def _answer(question: str) -> str | None:
    """What she answers, also through a pipe; None where nobody does.

    Raises:
        Interrupted: she pressed ctrl+c instead.
    """
    _say(question, sys.stderr, end="")
    try:
        return sys.stdin.readline() or None
    except KeyboardInterrupt:
        raise Interrupted("\nStopped. Nothing was changed.") from None


def _typed(question: str) -> str | None:
    """What she types on the terminal; None at its end. A signal is heard at any moment of the waiting."""
    from cockpit.cli.signals import wait_to_read

    _say(question, sys.stderr, end="")
    wait_to_read(sys.stdin.fileno())
    return sys.stdin.readline() or None


def _sent_out(folder: Path, asked: argparse.Namespace) -> str:
    from cockpit.cli import calendar as calendar_commands
    from cockpit.cli import outbox as outbox_commands

    if asked.command == "outbox":
        return outbox_commands.outbox(folder, sends=asked.send)
    if asked.command == "clockchanges":
        return calendar_commands.clock_changes(folder, asked.weeks)
    return calendar_commands.calendar(folder, asked.weeks, asked.family, asked.out)


def _folder(given: Path | None, *, at: str | None) -> Path:
    named = given or (Path(os.environ["COCKPIT_FOLDER"]) if os.environ.get("COCKPIT_FOLDER") else None)
    if at is not None and given is None:
        raise Refused(
            "--at is for rehearsals. Add --folder DIR with a copy of your studio, or use: cockpit demo --at TIME"
        )
    if named is not None:
        return named.expanduser().absolute()
    from platformdirs import user_data_path

    return user_data_path("cockpit", appauthor=False)
