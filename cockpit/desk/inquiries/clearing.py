"""Deletes the inquiries that were closed long ago, and the drafts of answers to them."""

from datetime import datetime

from cockpit.desk.ports import Folder, Reading, Writing


def clear_inquiries(reading: Reading, writing: Writing, folder: Folder, closed_before: datetime) -> None:
    """Deletes the inquiries that were closed before a moment (UTC), with the answers to them and their drafts.

    Raises:
        NotSaved: the database refused, or a draft could not be deleted; the next end of the program does the rest.
    """
    before = {each.about for each in reading.answers()}
    writing.clear_inquiries(closed_before)
    gone = before - {each.about for each in reading.answers()}
    if gone:
        folder.remove(name for name in folder.below("drafts") if name.endswith(tuple(f" {each}.eml" for each in gone)))
