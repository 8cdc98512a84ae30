"""The program on the screen, from its opening to its end, and what is done beside it."""

import contextlib
import gc
import threading
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from cockpit.clock import monotonic
from cockpit.outlets.folder import StudioFolder
from cockpit.outlets.sender import ParcelSender
from cockpit.running.last_resort import LastResort
from cockpit.running.last_words import LastWords
from cockpit.screens.textual_parts.importing import import_textual
from cockpit.store.open_studio import OpenStudio
from cockpit.studio.errors import CockpitError, NotSaved
from cockpit.wiring import Studio, keep_theme

if TYPE_CHECKING:
    from cockpit.screens.app import CockpitApp
    from cockpit.store.writing import SqliteWriting

_FOR_A_KEY = 0.005  # seconds that a write may wait for another program while keys come
_SECONDS_TO_CLOSE = 20.0


def run_screen(
    studio: Studio,
    say: Callable[[str], None],
    sentences: tuple[str, ...] = (),
    *,
    seconds_to_close: float = _SECONDS_TO_CLOSE,
) -> int:
    """Runs the program on the screen, and returns its exit status. In a rehearsal nothing goes out.

    `say` gets what there is to say when the screen is gone. What goes out then takes `seconds_to_close` in all at most.
    """
    gc.disable()
    import_textual()
    from cockpit.screens.app import CockpitApp
    from cockpit.screens.commands.own_keys import with_own_keys
    from cockpit.screens.look.theming import looks_of
    from cockpit.screens.opening import Opening

    words = LastWords(studio)
    taken_in = words.take_in()
    studio.desk.day.open()
    sentences = (*sentences, *_recovered(studio))
    sender = None if studio.desk.clock.is_rehearsal else ParcelSender(studio.preferences.sending, studio.desk.folder)
    looks, faults = looks_of(studio.desk.folder)
    if (theme := studio.settings.theme) not in looks:
        faults = (*faults, f"settings.toml, theme: found {theme}. Use one of {', '.join(looks)}.")
    started: list[threading.Thread] = []
    last_resort = LastResort(words.keep)
    opening = Opening(
        looks=looks,
        sentences=(*studio.opening_notices, *sentences),
        faults=(*taken_in, *faults),
        after_first_paint=lambda tell: started.append(_start_preparing(studio, tell)),
        has_changed=_watch(studio.store) if studio.store.writing is None else None,
        sender=sender,
        keep_theme=partial(keep_theme, studio.desk.folder) if studio.store.writing is not None else None,
        rescue=words.rescue,
        ends=last_resort,
        screen_gone=partial(_screen_gone, words, last_resort),
    )
    app = CockpitApp(studio.desk, studio.settings, opening, with_own_keys(studio.settings.keys))
    studio.store.wait_for_others(_FOR_A_KEY)
    app.run()
    has_words = words.settle(say)
    _finish_outbox(studio, app, sender, say, _countdown(seconds_to_close))
    studio.desk.previewing.forget_page()
    for thread in filter(threading.Thread.is_alive, started):
        thread.join(timeout=10)
    if studio.store.writing is not None:
        _clear_withdrawn(studio, studio.store.writing)
        back_up_today(studio)  # she was gone before the thread began
    return app.return_code or int(has_words)


def _clear_withdrawn(studio: Studio, writing: "SqliteWriting") -> None:
    """Deletes what was taken back and is past, and inquiries closed long ago, when no key waits any more; a rehearsal has another date."""
    from cockpit.studio.inquiries.deadline import months_before  # when no screen waits for it any more

    if not studio.desk.clock.is_rehearsal:
        from cockpit.desk.inquiries.clearing import clear_inquiries  # the first screen does not wait for it

        with contextlib.suppress(CockpitError):  # the next end does it
            now = studio.desk.clock.now()
            writing.clear_withdrawn(now)
            before = months_before(now, studio.preferences.inquiry.months)
            clear_inquiries(studio.store.reading, writing, StudioFolder(studio.desk.folder), before)


def _finish_outbox(
    studio: Studio,
    app: "CockpitApp",
    sender: ParcelSender | None,
    say: Callable[[str], None],
    seconds_left: Callable[[], float],
) -> None:
    """Saves the results of the last mails, and sends what still waits."""
    try:
        _settle_outbox(app, say, seconds_left())
    except CockpitError as fault:
        say(
            f"The result of the last email could not be saved: {fault} The outbox will ask about it the next time you open the cockpit."
        )
        return
    if sender is not None and app.return_code == 0:
        send_at_the_end(studio, sender, say, seconds_left)


def _screen_gone(words: LastWords, last_resort: LastResort) -> None:
    """Keeps unsaved notes before the program waits for a mail; from here on no screen can hang."""
    with contextlib.suppress(NotSaved):  # `settle` tries again, and says so
        words.keep()
    last_resort.disarm()


def _recovered(studio: Studio) -> tuple[str, ...]:
    """Settles what was going when the program ended; a sentence if that cannot be kept now."""
    try:
        if studio.desk.outbox.unsent():
            studio.desk.dispatch.recover()
    except CockpitError as fault:
        return (str(fault),)
    return ()


def _settle_outbox(app: "CockpitApp", say: Callable[[str], None], seconds: float) -> None:
    if app.is_sending:
        say(f"Sending the last notes. This takes at most {seconds:.0f} seconds...")
    app.settle_outbox(seconds)


def _countdown(seconds: float) -> Callable[[], float]:
    """Returns a function that says how many of the seconds are left."""
    ends_at = monotonic() + seconds
    return lambda: max(0.0, ends_at - monotonic())


def send_at_the_end(
    studio: Studio, sender: ParcelSender, say: Callable[[str], None], seconds_left: Callable[[], float]
) -> None:
    """Sends what still waits for undo, since nobody can undo any more; says what did not go.

    `seconds_left` says how long that may still take.
    """
    if studio.store.writing is None or not studio.desk.outbox.unsent():
        return
    say("Sending what is in the outbox...")
    try:
        studio.desk.dispatch.hand_over(sender, at_once=True, seconds_left=seconds_left)
    except CockpitError as fault:
        say(str(fault))
    from cockpit.wording.outbox import nothing_left, outbox_words

    said = outbox_words(studio.desk.outbox.unsent().values())
    left = f"Still in the outbox: {said}. Sending continues the next time you open the cockpit."
    say(left if said else f"{nothing_left(studio.desk.outbox.drafts()).capitalize()}.")


def _watch(store: OpenStudio) -> Callable[[], bool]:
    seen = [store.version()]

    def has_changed() -> bool:
        fresh = store.version()
        changed = fresh != seen[0]
        seen[0] = fresh
        return changed

    return has_changed


def _start_preparing(studio: Studio, tell: Callable[[str], None]) -> threading.Thread:
    thread = threading.Thread(target=_prepare, args=(studio, tell), name="prepare", daemon=True)
    if studio.store.writing is not None:
        thread.start()
    return thread


def _prepare(studio: Studio, tell: Callable[[str], None]) -> None:
    """Loads what the first finish would wait for, and copies the database at the first opening of a day."""
    import markdown_it  # noqa: F401 for its being loaded
    import sqlite_utils  # noqa: F401 for its being loaded

    import cockpit.desk.calendar.calendar
    import cockpit.desk.pieces.mixing
    import cockpit.desk.post.post
    import cockpit.papers.notes.chart
    import cockpit.papers.notes.page
    import cockpit.papers.notes.plan
    import cockpit.papers.notes.text
    import cockpit.screens.calendar.ahead
    import cockpit.screens.day.day_review
    import cockpit.screens.day.earlier
    import cockpit.screens.help.find
    import cockpit.screens.help.help
    import cockpit.screens.typed_times.line
    import cockpit.studio.assignments.unread
    import cockpit.studio.notes.no_labels
    import cockpit.studio.practice.lesson_plan
    import cockpit.studio.practice.notices  # noqa: F401 for its being loaded

    fault = back_up_today(studio)
    if fault is not None:
        with contextlib.suppress(RuntimeError):  # the program was closed meanwhile
            tell(fault)
    studio.desk.index_notes(lambda: None)
    from cockpit.printing.staves import load_engraver

    load_engraver()


def back_up_today(studio: Studio) -> str | None:
    """Copies the database at the first opening of each day; a sentence if that could not be done."""
    from cockpit.store.backups import back_up

    try:
        back_up(studio.desk.folder, studio.preferences.home.local(studio.desk.clock.now()))
    except (CockpitError, OSError) as fault:
        return str(fault)
    return None
