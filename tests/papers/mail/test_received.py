"""A saved mail that is an inquiry, held against a second parser, and against whatever a file can hold."""

import random
from datetime import UTC, datetime
from email.message import EmailMessage
from email.utils import format_datetime

import pytest
from fast_mail_parser import parse_email
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples

from cockpit.outlets.mail_file import mail_file
from cockpit.papers.mail.received import read_mail
from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.inquiry import MOST_WORDS, InquiryId
from cockpit.studio.inquiries.received import MOST_BYTES

AT = datetime(2026, 10, 31, 15, tzinfo=UTC)
HEAD = "From: Ana Bell <ana@example.org>\r\nDate: Sat, 31 Oct 2026 10:00:00 -0500\r\nSubject: Cello for Nora\r\n"


def mail(body: str, headers: str = HEAD, charset: str = "utf-8") -> bytes:
    return f"{headers}\r\n{body}".encode(charset)


def test_a_plain_mail_says_who_when_and_what():
    found = read_mail(mail("Hello,\r\n\r\nNora is 8 and would love to play.\r\n"))
    assert (found.name, found.email, found.came_at, found.subject) == (
        "Ana Bell",
        "ana@example.org",
        AT,
        "Cello for Nora",
    )
    assert found.text == "Hello,\n\nNora is 8 and would love to play."
    asked = found.inquiry(InquiryId(3), AT)
    assert asked.words == "Cello for Nora\n\nHello,\n\nNora is 8 and would love to play."
    assert (asked.name, asked.email, asked.age) == ("Ana Bell", "ana@example.org", None)


@pytest.mark.parametrize(
    ("headers", "name", "email"),
    [
        ("From: ana@example.org", "ana", "ana@example.org"),
        ("From: <ana@example.org>", "ana", "ana@example.org"),
        ('From: "Bell, Ana" <ana@example.org>', "Ana Bell", "ana@example.org"),
        ("From: Form <form@service.example>\r\nReply-To: Ana Bell <ana@example.org>", "Ana Bell", "ana@example.org"),
        ("From: Ana Bell <ana@example.org>\r\nReply-To: nobody", "Ana Bell", "ana@example.org"),
        ("From: =?utf-8?q?Zo=C3=AB_Bell?= <zoe@example.org>", "Zoë Bell", "zoe@example.org"),
        ("From: =?iso-8859-1?b?Wm/rLCBCZWxs?= <zoe@example.org>", "Bell Zoë", "zoe@example.org"),
        ("From: =?x-none?q?Zo=C3=AB?= <zoe@example.org>", "Zoë", "zoe@example.org"),
        ('From: "ana@example.org" <ana@example.org>', "ana", "ana@example.org"),
        ("From: Ana\r\n Bell\r\n <ana@example.org>", "Ana Bell", "ana@example.org"),
        ("From: \x1b]2;owned\x07 <ana@example.org>", "owned\ufffd", "ana@example.org"),
    ],
)
def test_whoever_is_to_be_answered_has_sent_it(headers, name, email):
    found = read_mail(mail("Hi", f"{headers}\r\n"))
    assert (found.name, found.email) == (name, email)


@pytest.mark.parametrize(
    ("date", "at"),
    [
        ("Sat, 31 Oct 2026 10:00:00 -0500", AT),
        ("31 Oct 2026 15:00:00 +0000", AT),
        ("Sat, 31 Oct 2026 15:00:00 -0000", AT),
        ("Sat, 31 Oct 2026 15:00:00 GMT (a comment)", AT),
        ("Sat, 31 Oct 2026 10:00 CDT", AT),
        ("yesterday", None),
        ("Sat, 31 Oct 9999999 10:00:00 -0500", None),
        ("Sat, 31 Oct 2026 10:00:00 -9900", None),
        ("", None),
    ],
)
def test_a_date_has_its_offset_and_one_that_is_none_is_asked_for(date, at):
    assert read_mail(mail("Hi", f"From: ana@example.org\r\nDate: {date}\r\n")).came_at == at


def made(text: str | None = "Plain words", html: str | None = None, attached: tuple[str, ...] = ()) -> bytes:
    found = EmailMessage()
    found["From"], found["To"], found["Subject"] = "Zoë Bell <ana@example.org>", "me@example.org", "Größe & Zoë, 🎻"
    found["Date"] = format_datetime(AT)
    if text is not None:
        found.set_content(text)
    if html is not None:
        found.add_alternative(html, subtype="html") if text is not None else found.set_content(html, subtype="html")
    for name in attached:
        found.add_attachment(b"\0\1" * 500, maintype="application", subtype="pdf", filename=name)
    return bytes(found)


@pytest.mark.parametrize(
    "content",
    [
        made(),
        made("Größe 🎻\n\n  indented\n"),
        made("Plain", "<p>Rich</p>"),
        made("Plain", "<p>Rich</p>", ("plan.pdf", "Noten für Zoë.pdf")),
        made("A long line " * 100),
    ],
)
def test_a_second_parser_reads_the_same(content):
    found, theirs = read_mail(content), parse_email(content)
    assert found.subject == theirs.subject == "Größe & Zoë, 🎻"
    assert found.text == theirs.text_plain[0].replace("\r\n", "\n").strip()
    assert found.came_at == AT
    assert [*found.attachments] == [each.filename for each in theirs.attachments if each.filename]
    assert f"{found.name} <{found.email}>" in theirs.headers["From"]


def test_html_is_stripped_where_there_is_no_text_and_nothing_in_it_is_fetched():
    html = (
        "<html><head><title>No</title><style>p {}</style></head><body><h1>Hello&nbsp;there</h1><p>Nora is&#160;8.<br>She "
        "<b>loves</b> music.</p><script>no()</script><ul><li>Tue<li>Thu</ul><img src='http://tracker.example/x.png'></body>"
    )
    assert read_mail(made(None, html)).text == "Hello there\n\nNora is 8.\nShe loves music.\n\nTue\nThu"
    assert "Rich" not in read_mail(made("Plain", "<p>Rich</p>")).text
    assert read_mail(made(" \n", "<p>Rich</p>")).text == "Rich"


def test_what_is_attached_is_named_and_not_kept():
    found = read_mail(made("Plain", None, ("plan.pdf",)))
    assert (found.text, found.attachments) == ("Plain", ("plan.pdf",))
    assert found.words.endswith("Attached: plan.pdf")
    inner = EmailMessage()
    inner["From"], inner["Subject"] = "x@example.org", "inner"
    inner.set_content("inner words")
    outer = EmailMessage()
    outer["From"] = "ana@example.org"
    outer.set_content("outer words")
    outer.add_attachment(inner)
    found = read_mail(bytes(outer))
    assert (found.text, found.attachments) == ("outer words", ("message/rfc822",))


@pytest.mark.parametrize("charset", ["x-none", "ascii", "utf-16", "\x1b]2;"])
def test_letters_in_a_wrong_charset_are_told(charset):
    found = read_mail(mail("Größe", f"{HEAD}Content-Type: text/plain; charset={charset!r}\r\n"))
    assert found.text == "Größe"
    assert "not in" in found.notices[0]
    latin = read_mail(mail("Größe", f"{HEAD}Content-Type: text/plain; charset=utf-8\r\n", charset="cp1252"))
    assert (latin.text, len(latin.notices)) == ("Größe", 1)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "not a saved email"),
        (b"just words\n", "not a saved email"),
        (b"\0" * 1000, "not a saved email"),
        (b"Subject: x\r\n\r\nHi", "does not say who sent it"),
    ],
)
def test_what_is_no_mail_is_told(content, said):
    with pytest.raises(BadInput, match=said):
        read_mail(content)


def nested(depth: int) -> bytes:
    each = (f'Content-Type: multipart/mixed; boundary="b{number}"\r\n\r\n--b{number}' for number in range(depth))
    return "\r\n".join([HEAD + "MIME-Version: 1.0", *each, "Content-Type: text/plain\r\n\r\ndeep"]).encode()


def test_parts_within_parts_end_in_words_or_in_a_sentence():
    assert read_mail(nested(20)).text == "deep"  # none of them is closed
    with pytest.raises(BadInput, match="too many parts"):
        read_mail(nested(1500))


def test_a_file_is_read_as_far_as_30_megabytes_and_the_words_as_far_as_they_are_kept(tmp_path):
    path = tmp_path / "large.eml"
    path.write_bytes(mail("word " * 10_000) + b"\0" * MOST_BYTES)
    content = mail_file(path)
    assert len(content) == MOST_BYTES + 1
    found = read_mail(content)
    assert "Only its beginning was read" in found.notices[0]
    assert found.is_cut
    assert len(found.words) == MOST_WORDS


def test_a_folder_a_device_and_nothing_are_told(tmp_path):
    for path, said in ((tmp_path, "not a file"), (tmp_path / "none.eml", "could not be read")):
        with pytest.raises(BadInput, match=said):
            mail_file(path)
    from pathlib import Path

    for device in ("/dev/zero", "/dev/stdin"):
        if Path(device).exists():
            with pytest.raises(BadInput):
                mail_file(Path(device))


PIECES = st.sampled_from(
    [b"From: ", b"Reply-To: ", b"Date: ", b"Subject: ", b"ana@example.org", b"=?utf-8?b?", b"?=", b"\r\n", b"\n", b" ", b"\t", b"Content-Type: ",
     b"multipart/mixed; boundary=x", b"text/html; charset=", b"--x", b"--x--", b"Content-Transfer-Encoding: base64\r\n", b"=C3=A9", b"<p>", b"&#",
     b"\xff\xfe", b"\0", b"<", b">", b'"', b",", b"(", b"filename*=utf-8''%ff", b"Content-Disposition: attachment; "]
)  # fmt: skip


def read_or_refused(content):
    """What a mail says, or the sentence that refuses it."""
    try:
        return read_mail(content)
    except BadInput as refused:
        return str(refused)


@given(st.lists(PIECES | st.binary(max_size=8), max_size=40).map(b"".join))
@examples(80, long=200)
def test_whatever_a_file_holds_is_read_or_refused_with_a_sentence(content):
    for each in (content, HEAD.encode() + content):
        found = read_or_refused(each)
        if isinstance(found, str):
            assert found.endswith(".")
        else:
            assert found.name
            assert found.email
            assert not {"\0", "\x1b", "\x07"} & set(found.words + found.name)


@given(st.integers(0, 2**32))
@examples(20, long=60)
def test_a_mail_that_was_damaged_anywhere_is_read_or_refused(seed):
    chance, content = random.Random(seed), bytearray(made("Plain words", "<p>Rich</p>", ("plan.pdf",)))
    for _ in range(chance.randrange(1, 30)):
        content[chance.randrange(len(content))] = chance.randrange(256)
    found = read_or_refused(bytes(content))
    assert found if isinstance(found, str) else found.name
