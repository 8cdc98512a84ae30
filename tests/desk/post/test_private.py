"""Private stays private, on every way out: random notes, amended and sent to two families with the same first names."""

import string
import tempfile
from email import message_from_bytes
from email.policy import default
from pathlib import Path
from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.outbox import Answering, always, posting_studio

from cockpit.outlets.sender import ParcelSender
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.wording.outbox import outbox_text

if TYPE_CHECKING:
    from cockpit.studio.post.parcel import Parcel

LABELS = ("Private:", "private :", "PRIVATE:", "Follow-up:", "follow up:", "Next time:", "- Private:", "  Private:")
AREAS = ("Scales:", "Piece:", "Theory:", "")
WORD = st.text(alphabet=string.ascii_lowercase[:16], min_size=3, max_size=8)


@st.composite
def typed_lines(draw: st.DrawFn, kept_back: str, given_out: str) -> str:
    """Some lines of notes: those kept back hold the one word, the others the other."""
    lines = []
    for _ in range(draw(st.integers(1, 6))):
        if draw(st.booleans()):
            lines.append(f"{draw(st.sampled_from(LABELS))} {draw(WORD)} {kept_back} {draw(WORD)}")
        else:
            lines.append(f"{draw(st.sampled_from(AREAS))} {draw(WORD)} {given_out}, q=60 to 80, 5 min".strip())
    return "\n".join([f"Scales: {given_out}", *lines])


def unpacked(content: bytes) -> str:
    """Everything that a document says, with each part of a mail decoded."""
    mail = message_from_bytes(content, policy=default)
    parts = [part.get_payload(decode=True) or b"" for part in mail.walk()]
    return "\n".join(piece.decode("utf-8", "replace") for piece in (content, *parts))


def files_below(folder: Path) -> str:
    return "\n".join(unpacked(path.read_bytes()) for path in folder.rglob("*") if path.is_file())


@examples(4, long=10)
@given(st.data())
def test_no_way_out_carries_what_is_kept_back_or_another_familys_words(data: st.DataObject) -> None:
    ours, theirs = data.draw(typed_lines("qqours", "xxours")), data.draw(typed_lines("qqtheirs", "xxtheirs"))
    amended = data.draw(typed_lines("qqours", "xxours"))
    is_together = data.draw(st.booleans())
    reason = Delivery(
        answer=data.draw(st.sampled_from((Answer.TAKEN, Answer.NEVER, Answer.UNKNOWN))), reason="so it is"
    )
    with tempfile.TemporaryDirectory() as root:
        there = Path(root) / "carried on"
        there.mkdir()
        sending = f'folder = "{there}"\none_mail_a_day = {str(is_together).lower()}'
        with posting_studio(Path(root) / "studio", "clipboard+mail+draft+folder", sending) as posted:
            desk, sender = (
                posted.studio.desk,
                ParcelSender(posted.studio.preferences.sending, posted.studio.desk.folder),
            )
            _write_remarks(posted.studio)
            copied: dict[str, list[str]] = {"Brandvold": [], "Okonjo": []}
            carried: list[Parcel] = []
            for student, family, body in (
                ("Ilse", "Brandvold", ours), ("Ilse", "Okonjo", theirs), ("Tor", "Brandvold", ours), ("Ilse", "Brandvold", amended),
            ):  # fmt: skip
                posted.finish(student, family, body)
                booking = next(b for b in desk.day.bookings if (b.student.name, b.family.name) == (student, family))
                copied[family].append(desk.previewing.of_lesson(booking).text)
                posted.clock.wind(hours=2)
                mailing = Answering([reason])
                while (parcel := desk.dispatch.next_parcel()) is not None:
                    carried.append(parcel)
                    desk.dispatch.settle(
                        parcel, (mailing if parcel.way is Channel.MAIL else sender).carry(parcel, always)
                    )
            names = dict(desk.outbox.families().items())
            for parcel in carried:
                text = "\n".join(document.name + unpacked(document.content) for document in parcel.documents)
                copied[names[parcel.items[0].family_id]].append(text)
            assert carried
            for family, own, other in (("Brandvold", "ours", "theirs"), ("Okonjo", "theirs", "ours")):
                said = "\n".join(copied[family])
                said += files_below(there / family) + files_below(Path(root) / "studio" / "drafts" / family)
                said += files_below(Path(root) / "studio" / "notes" / family)
                assert f"xx{own}" in said
                assert f"xx{other}" not in said
                assert "qq" not in said
                assert "braces" not in said
            listed = outbox_text(desk.outbox.entries(), TeacherClock(zone="America/Chicago"), desk.outbox.drafts())
            assert "qq" not in listed
            assert "xx" not in listed


def _write_remarks(studio) -> None:
    header = "student,weekday,time,minutes,family,remark\n"
    rows = ("Ilse,Tuesday,16:00,30,Brandvold,braces hurt", "Ilse,Tuesday,16:30,30,Okonjo,braces too")
    studio.enrolling.take_in(header + "\n".join(rows) + "\n")
