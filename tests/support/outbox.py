"""A studio whose notes go out: a roster with guardians and ways, a day that is taught, a sender that answers.

It is Tuesday 1 December 2026. Two families have a student called Ilse, and one has two students.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from support.mail_server import MailServer

from cockpit.clock import SetClock, SystemClock
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing
from cockpit.studio.post.parcel import Parcel
from cockpit.wiring import Studio, studio_at

MORNING = datetime(2026, 12, 1, 14, tzinfo=UTC)  # 8:00 in Chicago
ROSTER = """student,weekday,time,minutes,family,email,zone,send_by
Ilse,Tuesday,16:00,30,Brandvold,"ann@brandvold.example, per@brandvold.example",America/Phoenix,{way}
Tor,Tuesday,17:00,30,Brandvold,,,
Ilse,Tuesday,16:30,30,Okonjo,ada@okonjo.example,Europe/London,{way}
Mireille,Tuesday,18:00,45,Perreault,m@perreault.example,America/St_Johns,{way}
"""
TAKEN = Delivery(answer=Answer.TAKEN)


def always() -> bool:
    """Lets a mail leave whenever it is ready."""
    return True


@dataclass
class Answering:
    """A sender who gives the answers he was told, the last one for good; what he was handed is kept."""

    answers: list[Delivery] = field(default_factory=lambda: [TAKEN])
    carried: list[Parcel] = field(default_factory=list)

    def carry(self, parcel: Parcel, may_go: Callable[[], bool]) -> Delivery:
        assert may_go()
        assert len(self.carried) < 100, "it never ends"
        self.carried.append(parcel)
        return self.answers.pop(0) if len(self.answers) > 1 else self.answers[0]


@dataclass
class Posted:
    """An open studio, its clock, and what a test does in it."""

    studio: Studio
    clock: SetClock

    def finish(self, student: str, family: str, body: str) -> str:
        """Teaches a lesson of the day to its planned end, or opens it again, and finishes it; returns its id."""
        desk = self.studio.desk
        desk.day.open()
        booking = next(b for b in desk.day.bookings if (b.student.name, b.family.name) == (student, family))
        desk.day.go_to(booking.lesson.id)
        if self.clock.at < booking.lesson.starts_at:
            self.clock.at = booking.lesson.starts_at
        desk.teaching.begin()
        desk.notes.write(booking.lesson.id, body)
        self.clock.wind(minutes=1)
        desk.teaching.finish()
        return booking.lesson.id

    def send(self, sender: Answering | None = None) -> Answering:
        """Hands over what is due when the time for undo is over."""
        sender = sender or Answering()
        self.clock.wind(seconds=11)
        self.studio.desk.dispatch.hand_over(sender)
        return sender

    def entries(self) -> tuple[Outgoing, ...]:
        return self.studio.desk.outbox.entries()

    def fates(self) -> list[DeliveryStatus]:
        return [item.fate for item in self.entries()]


def mail_settings(server: MailServer, wait_seconds: int = 0, patience_seconds: int = 20) -> str:
    """What the section [sending] says of a mail server of ours."""
    return (
        f"wait_seconds = {wait_seconds}\n[sending.mail]\nhost = '127.0.0.1'\nport = {server.port}\nsecurity = 'none'\n"
        f"sender = 'teacher@studio.example'\npatience_seconds = {patience_seconds}\n"
    )


@contextmanager
def posting_studio(
    folder: Path, way: str = "mail", sending: str = "", clock: SetClock | None = None
) -> Iterator[Posted]:
    """The studio; `way` is what the roster's column send_by says, `sending` stands in that section of the settings.

    A folder that has a studio already is opened as it is.
    """
    clock = clock or SetClock(MORNING)
    if not (folder / "settings.toml").exists():
        folder.mkdir(exist_ok=True)
        account = '[sending.mail]\nhost = "localhost"\nsecurity = "none"\nsender = "teacher@studio.example"\n'
        text = f'home_zone = "America/Chicago"\nearly_minutes = 240\n[sending]\n{sending}\n'
        (folder / "settings.toml").write_text(text + ("" if "[sending.mail]" in sending else account))
        with studio_at(folder, clock, to_write=True) as studio:
            studio.enrolling.take_in(ROSTER.format(way=way))
    with studio_at(folder, clock, to_write=True) as studio:
        studio.desk.dispatch.recover()
        yield Posted(studio, clock)


def make_studio_of_now(folder: Path, family: str, way: str, email: str = "", sending: str = "") -> None:
    """A studio as above whose one student more, Nora, has a lesson that begins this minute; it is closed again."""
    now = local_time(SystemClock().now(), "America/Chicago")
    row = f'Nora,{now:%A},{now:%H:%M},30,{family},{way},"{email}"\n'
    with posting_studio(folder, sending=sending) as posted:
        posted.studio.enrolling.take_in(f"student,weekday,time,minutes,family,send_by,email\n{row}")


def words(items: Iterable[Outgoing]) -> list[tuple[str, str, str]]:
    """Whose notes, by which way and to whom."""
    return [(item.student, item.way, item.address) for item in items]
