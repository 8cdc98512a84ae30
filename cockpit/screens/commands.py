"""Every command once: the bindings, the key strip, the palette, help, `cockpit keys` and the README are made from it."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Where(StrEnum):
    """Where a command's keys are heard."""

    EVERYWHERE = "everywhere"
    DAY = "the lesson day"
    LAST = "last assignments"
    REVIEW = "the review"


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """One thing that a key does. `keys` are alternatives; `short` is its word in the key strip.

    `is_of_app` tells that the program as a whole carries it out, and not the screen.
    """

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    where: Where = Where.DAY
    short: str = ""
    is_of_app: bool = False


COMMANDS: tuple[Command, ...] = (
    Command(
        id="app.show_help",
        keys=("f1", "ctrl+g"),
        label="Help",
        short="Help",
        help="Every command with its keys; choose one to do it.",
        where=Where.EVERYWHERE,
        is_of_app=True,
    ),
    Command(
        id="lesson.begin",
        keys=("f2", "ctrl+r"),
        label="Begin or reopen the lesson",
        short="Begin",
        help="Begins the lesson that is shown. A finished, absent or cancelled one is opened again.",
    ),
    Command(
        id="lesson.give_full_length",
        keys=("f3", "ctrl+e"),
        label="Give the full length",
        short="Full length",
        help="Moves the end of the running lesson, if it began late; shows what that does to the next ones.",
    ),
    Command(
        id="app.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="Undo",
        help="Takes back the last begin, finish, absent, cancelled, full length or mark. Typing has ctrl+z.",
    ),
    Command(
        id="lesson.go_next",
        keys=("f5", "ctrl+l"),
        label="Go to the next lesson",
        short="Next",
        help="Shows the next lesson of the day; after the last one, the first.",
    ),
    Command(
        id="lesson.mark_absent",
        keys=("f6", "ctrl+d"),
        label="Mark absent",
        short="Absent",
        help="The student did not come.",
    ),
    Command(
        id="lesson.mark_cancelled",
        keys=("f7", "ctrl+k"),
        label="Mark cancelled",
        short="Cancelled",
        help="In time or late, by your hours of notice; once more for the other. What was cancelled in time can be made up.",
    ),
    Command(
        id="student.find",
        keys=("f8", "ctrl+f"),
        label="Find a student",
        short="Find",
        help="Search by any part of a name; opens the student's lesson of today, or the next one.",
        is_of_app=True,
    ),
    Command(
        id="lesson.finish",
        keys=("f9", "ctrl+s"),
        label="Finish the lesson",
        short="Finish",
        help="The running lesson's practice notes go into the folder and to the clipboard; the next student is shown.",
    ),
    Command(
        id="app.show_review",
        keys=("f10", "ctrl+t"),
        label="Review the day",
        short="Review",
        help="What was taught and sent, what is missing, what you owe, and tomorrow.",
        is_of_app=True,
    ),
    Command(
        id="lesson.open_link",
        keys=("f12", "ctrl+o"),
        label="Open the call link",
        short="Call",
        help="Opens the call of the lesson that is shown in the browser, and shows its address.",
    ),
    Command(
        id="app.command_palette",
        keys=("ctrl+p",),
        label="Search the commands",
        short="Commands",
        help="Type a part of what you want to do.",
        where=Where.EVERYWHERE,
        is_of_app=True,
    ),
    Command(
        id="app.quit",
        keys=("ctrl+q",),
        label="Close the cockpit",
        short="Close",
        help="Everything is saved; opening again goes on where it was, clock included.",
        where=Where.EVERYWHERE,
        is_of_app=True,
    ),
    Command(
        id="pane.show_next",
        keys=("tab",),
        label="Go to the next pane",
        short="Panes",
        help="Notes, last assignments, queue. On a narrow screen this changes what is shown.",
    ),
    Command(
        id="pane.show_notes",
        keys=("escape",),
        label="Back to the notes",
        help="From any pane.",
    ),
    Command(
        id="day.show_today",
        keys=("ctrl+n",),
        label="Show today",
        short="Today",
        help="Back from another day's queue.",
    ),
    Command(
        id="theme.show_next",
        keys=(),
        label="Try the next theme",
        help="For this time; `theme` in settings.toml keeps it.",
        where=Where.EVERYWHERE,
        is_of_app=True,
    ),
    Command(
        id="assignment.mark_done",
        keys=("d",),
        label="Mark: done",
        help="The chosen assignment of last time is done.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.mark_more_work",
        keys=("m",),
        label="Mark: more work",
        help="The chosen assignment needs more work.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.mark_not_yet",
        keys=("n",),
        label="Mark: not yet",
        help="The chosen assignment was not practiced yet.",
        where=Where.LAST,
    ),
    Command(
        id="review.write_out",
        keys=("f9", "ctrl+s"),
        label="Write the review out",
        short="Write out",
        help="Puts the review into the folder as Markdown.",
        where=Where.REVIEW,
    ),
    Command(
        id="review.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last tick",
        short="Undo",
        help="Takes back the last tick; what was done to a lesson is undone on the lesson day.",
        where=Where.REVIEW,
    ),
    Command(
        id="review.show_day_before",
        keys=("left",),
        label="Review the day before",
        short="Before",
        help="Goes a day back.",
        where=Where.REVIEW,
    ),
    Command(
        id="review.show_day_after",
        keys=("right",),
        label="Review the day after",
        short="After",
        help="Goes a day on.",
        where=Where.REVIEW,
    ),
    Command(
        id="review.close",
        keys=("escape", "f10", "ctrl+t"),
        label="Back to the lesson day",
        short="Back",
        help="Leaves the review.",
        where=Where.REVIEW,
    ),
)
BY_ID: Mapping[str, Command] = {command.id: command for command in COMMANDS}


def key_name(key: str) -> str:
    """A key as it is printed: `F9`, `ctrl+s`."""
    return key.upper() if key[:1] == "f" and key[1:].isdigit() else {"escape": "esc"}.get(key, key)
