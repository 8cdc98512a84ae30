"""Shows the outbox on the command line, and sends what is due."""

import sys
import time
from pathlib import Path

from cockpit.cli.commands import asked
from cockpit.clock import SystemClock
from cockpit.outlets.sender import ParcelSender
from cockpit.studio.errors import Refused
from cockpit.studio.shown import shown
from cockpit.wiring import Studio, studio_at
from cockpit.wording.outbox import outbox_text


def outbox(folder: Path, *, sends: bool) -> str:
    """Returns what is open in the outbox as text; with `sends`, sends everything that may go first.

    Raises:
        Refused: it should send, and nothing can be written to the studio.
    """
    if not sends:
        return asked(folder, _told)
    asked(folder, _told)  # or a studio would be made where there is none
    with studio_at(folder, SystemClock(), to_write=True) as studio:
        if studio.store.writing is None:
            raise Refused(f"{studio.store.why_read_only} Nothing was sent from here.")
        if studio.store.loss is not None:  # everything else that must be known was told above
            sys.stderr.write(f"{shown(studio.store.loss)}\n")
        studio.desk.dispatch.recover()
        dispatch, sender = studio.desk.dispatch, ParcelSender(studio.preferences.sending, folder)
        dispatch.hand_over(sender, at_once=True)
        while (news_from := dispatch.news_from()) is not None:  # an account takes so many mails a minute
            time.sleep(max(0.0, (news_from - studio.desk.clock.now()).total_seconds()))
            dispatch.hand_over(sender, at_once=True)
        return _told(studio)


def _told(studio: Studio) -> str:
    outbox = studio.desk.outbox
    return outbox_text(outbox.entries(), studio.preferences.home, outbox.drafts())
