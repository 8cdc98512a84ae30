"""Notes that the database did not take, and the text file that keeps them until it does."""

from datetime import date

from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.values import Value

_ABOUT = (
    "The notes below could not be saved in the studio. The next time you open the cockpit, it puts them into their lesson "
    "and deletes this file."
)


class UnsavedNotes(Value):
    """The whole text of a lesson as the screen had it; `over` is the `mark_of` the text in the database at that time."""

    lesson_id: LessonId
    student: str
    on: date
    body: str
    over: str


class KeptNotes(Value):
    """Unsaved notes with the studio that they belong to: its lasting name, and the folder that it lay in."""

    notes: UnsavedNotes
    studio: str
    folder: str


def mark_of(body: str) -> str:
    """A short hash of a text, to tell whether the text is still the same."""
    import hashlib  # 4 ms, where nothing is unsaved

    return hashlib.sha256(body.encode(errors="replace")).hexdigest()[:16]


def kept_text(kept: KeptNotes) -> str:
    """The file: a line of explanation, a line for each value, an empty line, and the notes as they were typed."""
    notes = kept.notes
    values = {
        "Student": notes.student,
        "Date": notes.on.isoformat(),
        "Lesson": notes.lesson_id,
        "Written over": notes.over,
        "Studio": kept.studio,
        "Folder": kept.folder,
    }
    head = "\n".join(f"{name}: {' '.join(value.splitlines())}" for name, value in values.items())
    return f"{_ABOUT}\n{head}\n\n{notes.body}"


def read_kept(text: str) -> KeptNotes:
    """Reads what `kept_text` wrote.

    Raises:
        BadInput: it is not such a text.
    """
    head, _, body = text.partition("\n\n")
    values = dict(line.split(": ", 1) for line in head.split("\n")[1:] if ": " in line)
    try:
        notes = UnsavedNotes(
            lesson_id=LessonId(values["Lesson"]),
            student=values["Student"],
            on=date.fromisoformat(values["Date"]),
            body=body,
            over=values["Written over"],
        )
        return KeptNotes(notes=notes, studio=values["Studio"], folder=values["Folder"])
    except (KeyError, ValueError) as fault:
        raise BadInput("found no lesson and date; a file of unsaved notes begins with them") from fault


def put_together(saved: str, unsaved: UnsavedNotes) -> str:
    """Merges a lesson's saved notes with its unsaved ones: no line of either is lost.

    Where the database still has the text that she was typing over, the newer text takes its place. Where it has changed
    since, the newer text goes below, unless it is there already.
    """
    body = unsaved.body
    if mark_of(saved) == unsaved.over or body.startswith(saved):
        return body
    if set(_lines(body)) <= set(_lines(saved)):
        return saved
    return f"{saved.rstrip()}\n\n{body}"


def _lines(body: str) -> list[str]:
    return [line.rstrip() for line in body.split("\n") if line.strip()]
