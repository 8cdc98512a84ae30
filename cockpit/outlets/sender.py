"""Hands parcels over: to a mail server, to a folder of the teacher's, into the folder of drafts."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.outlets.folder import StudioFolder, place
from cockpit.studio.errors import CockpitError
from cockpit.studio.post.channels import Channel, SendingRules
from cockpit.studio.post.delivery import Answer, Delivery

if TYPE_CHECKING:
    from cockpit.studio.post.parcel import Parcel

_TAKEN = Delivery(answer=Answer.TAKEN)


class ParcelSender:
    """Carries one parcel at a time; it knows no database, and may be asked from any thread."""

    def __init__(self, rules: SendingRules, studio_folder: Path) -> None:
        self._rules = rules
        self._studio_folder = studio_folder

    def carry(self, parcel: "Parcel", may_go: Callable[[], bool]) -> Delivery:
        """Hands a parcel over, and returns what came of it; it raises nothing.

        A mail asks `may_go` just before it leaves for good. What goes into a folder does not: it can be written again.
        """
        match parcel.way:
            case Channel.MAIL:
                return self._mail(parcel, may_go)
            case Channel.DRAFT:
                return self._draft(parcel)
            case _:
                return self._put(parcel)

    def _mail(self, parcel: "Parcel", may_go: Callable[[], bool]) -> Delivery:
        from cockpit.outlets.mail import send  # 30 ms of smtplib and ssl, which no screen waits for
        from cockpit.outlets.passwords import password_of

        account = self._rules.account
        if account is None:
            return _shut("settings.toml has no email account; add a section [sending.mail]")
        try:
            password = password_of(account)
        except CockpitError as fault:
            return _shut(str(fault))
        return send(account, password, parcel.address, parcel.documents[0].content, may_go)

    def _put(self, parcel: "Parcel") -> Delivery:
        if self._rules.folder is None:
            return _shut("settings.toml names no folder; set folder in [sending]")
        try:
            root = Path(self._rules.folder).expanduser()
            is_there = root.is_dir()
        except (OSError, RuntimeError) as fault:
            return _shut(f"settings.toml, folder: {self._rules.folder} is not a valid path here ({_why(fault)})")
        if not is_there:  # made here, it could lie under the name of a disk that is not there now
            return Delivery(answer=Answer.LATER, reason=f"the folder {root} does not exist", is_channel_shut=True)
        for document in parcel.documents:
            target = root / document.name
            try:
                target.parent.mkdir(exist_ok=True)
                place(target, document.content)
            except OSError as fault:
                return Delivery(answer=Answer.LATER, reason=f"{target.parent} could not be written to ({_why(fault)})")
        return _TAKEN

    def _draft(self, parcel: "Parcel") -> Delivery:
        drafts = StudioFolder(self._studio_folder)
        for document in parcel.documents:
            try:
                drafts.put_bytes(f"drafts/{document.name}", document.content)
            except OSError as fault:
                why = f"the draft {document.name} could not be written ({_why(fault)})"
                return Delivery(answer=Answer.LATER, reason=why)
        return _TAKEN


def _shut(reason: str) -> Delivery:
    return Delivery(answer=Answer.NEVER, reason=reason, is_channel_shut=True)


def _why(fault: Exception) -> str:
    return fault.strerror or "refused" if isinstance(fault, OSError) else str(fault)
