"""A mail with practice notes: read back as it was meant by two parsers, whatever was typed, and from nowhere else."""

import re
from datetime import timedelta, timezone
from email.utils import parsedate_to_datetime
from html import escape

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from support.examples import examples
from support.mails import ACCOUNT, AT, NEXT, PHRASES, drafted, mailed, outgoing, read
from support.papers import TRICKY, paper
from support.phrases import ENGLISH, IN_ENGLISH

from cockpit.papers.mail.message import as_read, message_id
from cockpit.papers.mail.words import plain_words
from cockpit.papers.notes.page import practice_notes_body
from cockpit.papers.notes.text import practice_notes_text
from cockpit.papers.words.phrases import Phrases, read_phrases
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import NextLesson, OwnWords, SendingRules
from cockpit.studio.shown import one_line, typed_lines
from cockpit.studio.values import replace

TYPED = st.text(st.characters(exclude_categories=["Cs"]), max_size=200)
NAMES = st.one_of(
    TYPED,
    st.sampled_from(["Zoë Dvořák", "小林 さくら", "ليلى حداد", 'Quill, Ada "the bow"', "=?utf-8?q?x?=", "a" * 90]),
    st.text("ab ,.<>@\"\\()é:;", max_size=120),
)  # fmt: skip
TOR = outgoing(
    about="2", lesson_id=LessonId("2"), student="Tor", title="Practice notes for Tor", message_id="<two@example.org>"
)  # fmt: skip
CAUTION = practice_notes_text(paper(), IN_ENGLISH).rstrip().rpartition("\n\n")[2]
IN_EVERY_HEADER = {"Date", "From", "To", "Subject", "Message-ID", "MIME-Version", "Content-Type"}
EARLIER = ("<a@example.org>", "<b@example.org>")


def test_plain_text_is_first_and_the_page_is_last():
    # RFC 2046 5.1.4: the form that says most is last.
    found = read(mailed(outgoing()))
    assert found.kinds == "alternative(plain html)"
    assert found.plain == practice_notes_text(paper(), IN_ENGLISH)
    assert practice_notes_body(paper(), IN_ENGLISH) in found.page
    assert found.page.startswith("<!doctype html>")


def test_the_header_says_who_to_whom_when_and_what():
    found = read(mailed(outgoing()))
    assert found.head.decode().split("\r\n")[:6] == [
        "Date: Tue, 01 Dec 2026 22:31:05 +0000",
        "From: Ada Quill <teacher@example.org>",
        "To: brandvold@example.org",
        "Subject: Practice notes for Ilse, Tue 1 Dec",
        "Message-ID: <one@example.org>",
        "MIME-Version: 1.0",
    ]
    assert set(found.ours.keys()) == IN_EVERY_HEADER


def test_the_same_values_give_the_same_bytes():
    both = [outgoing(next_lesson=NEXT), TOR]
    assert mailed(*both) == mailed(*both)


def test_a_moment_of_any_zone_is_written_in_utc():
    there = AT.astimezone(timezone(timedelta(hours=5, minutes=30)))
    date = read(mailed(outgoing(), sent_at=there)).ours["Date"]
    assert date == "Tue, 01 Dec 2026 22:31:05 +0000"
    assert parsedate_to_datetime(date) == AT.replace(microsecond=0)


@pytest.mark.parametrize(
    ("choice", "kinds"),
    [
        (NextLesson.ATTACHED, "mixed(alternative(plain html) calendar)"),
        (NextLesson.WITHIN, "alternative(plain calendar html)"),
        (NextLesson.LEFT_OUT, "alternative(plain html)"),
    ],
)
def test_the_next_lesson_comes_as_the_teacher_chose(choice, kinds):
    found = read(mailed(outgoing(next_lesson=NEXT), next_lesson=choice))
    assert found.kinds == kinds
    calendars = [part for part in found.ours.walk() if part.get_content_subtype() == "calendar"]
    assert [part.get_content() for part in calendars] == [NEXT] * len(calendars)
    names = [part.get_filename() for part in calendars]
    assert names == {NextLesson.ATTACHED: ["Next lesson.ics"], NextLesson.WITHIN: [None]}.get(choice, [])


def test_no_next_lesson_leaves_no_part():
    assert read(mailed(outgoing(), next_lesson=NextLesson.ATTACHED)).kinds == "alternative(plain html)"


@pytest.mark.parametrize("choice", [NextLesson.ATTACHED, NextLesson.WITHIN])
def test_a_calendar_part_has_the_method_of_its_text_and_none_without_one(choice):
    # RFC 5545 8.1 and RFC 6047 2.4: the parameter is the METHOD property of the calendar inside; from memory.
    published = NEXT.replace("VERSION:2.0\r\n", "VERSION:2.0\r\nMETHOD:PUBLISH\r\n")
    for text, method in ((NEXT, None), (published, "PUBLISH")):
        found = read(mailed(outgoing(next_lesson=text), next_lesson=choice))
        (part,) = [each for each in found.ours.walk() if each.get_content_subtype() == "calendar"]
        assert part.get_param("method") == method


def test_a_word_in_an_event_is_no_method():
    text = NEXT.replace("END:VC", "DESCRIPTION:so\r\n METHOD:NO\r\nEND:VC")
    found = read(mailed(outgoing(next_lesson=text)))
    (part,) = [each for each in found.ours.walk() if each.get_content_subtype() == "calendar"]
    assert part.get_param("method") is None


def test_an_update_says_so_in_its_subject_and_its_first_sentence():
    found = read(mailed(outgoing(is_update=True, version=2), references=EARLIER))
    assert found.theirs.subject == "Updated: Practice notes for Ilse, Tue 1 Dec"
    assert found.plain.startswith(f"{ENGLISH['mail.updated']}\n\nPractice notes for Ilse\n")
    assert f"<main>\n<p>{ENGLISH['mail.updated']}</p>\n<h1>" in found.page
    assert found.ours["In-Reply-To"] == "<b@example.org>"
    assert found.ours["References"].split() == list(EARLIER)


def test_a_first_version_refers_to_nothing():
    found = read(mailed(outgoing()))
    assert found.ours["References"] is None
    assert found.ours["In-Reply-To"] is None


def test_many_earlier_versions_stand_on_lines_of_their_own():
    many = [f"<{'0' * 40}{n}@example.org>" for n in range(40)]
    found = read(mailed(outgoing(), references=many))
    assert found.ours["References"].split() == many
    assert max(map(len, found.head.split(b"\r\n"))) <= 78


def test_what_is_no_identifier_is_left_out():
    found = read(mailed(outgoing(message_id="<x@y>\r\nBcc: z@example.org"), references=["<x y@z>", "<\r\nBcc: q@r>"]))
    assert found.ours["Message-ID"] is None
    assert found.ours["References"] is None
    assert found.ours["Bcc"] is None


GREETING, SIGNATURE = "Dear family of {student},\r\nhow {nice} {it} is {", "Warmly,\nAda\n\n} {student} & <b>"


def test_the_greeting_is_first_and_the_signature_last_and_only_the_student_is_put_in():
    found = read(mailed(outgoing(), greeting=GREETING, signature=SIGNATURE))
    assert found.plain.startswith("Dear family of Ilse,\nhow {nice} {it} is {\n\nPractice notes for Ilse\n")
    assert found.plain.endswith(f"{CAUTION}\n\nWarmly,\nAda\n\n}} Ilse & <b>\n")
    assert "<main>\n<p>Dear family of Ilse,<br>how {nice} {it} is {</p>\n<h1>" in found.page
    assert "<p>Warmly,<br>Ada</p>\n<p>} Ilse &amp; &lt;b&gt;</p>\n</main>" in found.page


def test_a_name_with_braces_is_a_name():
    found = read(mailed(outgoing(student="{day} {student}", title="{day}{0}"), greeting="Hello {student}"))
    assert found.plain.startswith("Hello {day} {student}\n")
    assert found.theirs.subject == "{day}{0}, Tue 1 Dec"


def test_several_students_share_one_mail_with_one_greeting_one_caution_and_one_signature():
    found = read(
        mailed(
            outgoing(next_lesson=NEXT),
            replace(TOR, next_lesson=NEXT, is_update=True),
            greeting="Dear {student}",
            signature="Ada",
            next_lesson=NextLesson.WITHIN,
        )
    )
    assert found.theirs.subject == "Practice notes for Ilse and Tor, Tue 1 Dec"
    for words in (found.plain, found.page):
        for once in ("Dear Ilse and Tor", CAUTION, ENGLISH["mail.updated"]):
            assert words.count(once) == 1
    assert found.plain.endswith(f"{CAUTION}\n\nAda\n")
    assert found.page.count("<h1>") == 2
    # Two calendars are no two forms of one text: they are files.
    assert found.kinds == "mixed(alternative(plain html) calendar calendar)"
    names = [part.get_filename() for part in found.ours.walk() if part.get_filename()]
    assert names == ["Next lesson, Ilse.ics", "Next lesson, Tor.ics"]


@pytest.mark.parametrize("path", sorted(PHRASES.glob("*.toml")), ids=lambda path: path.stem)
def test_every_language_has_a_mail_of_its_own(path):
    phrases = read_phrases(path.read_text(encoding="utf-8"))
    items = [outgoing(is_update=True, language=path.stem, next_lesson=NEXT), replace(TOR, is_update=True)]
    found = read(mailed(*items, phrases=Phrases(language=path.stem, by_key=phrases)))
    known = {name.removeprefix("mail."): words for name, words in phrases.items() if name.startswith("mail.")}
    assert known.keys() == {name.removeprefix("mail.") for name in ENGLISH if name.startswith("mail.")}
    students = phrases["words.and"].format(first="Ilse", last="Tor")
    title = known["title_of_several"].format(students=students)
    subject = known["subject"].format(title=title, day="Tue 1 Dec")
    assert found.theirs.subject == known["updated_subject"].format(subject=subject)
    assert found.plain.startswith(known["updated"])
    assert [each.filename for each in found.theirs.attachments] == [f"{known['calendar_of_next']}.ics"]
    assert f'<html lang="{path.stem}">' in found.page


def test_a_file_is_called_after_its_student_without_the_signs_that_some_programs_stumble_over():
    named = [outgoing(next_lesson=NEXT, student='a;b/"c"\\\r\nd'), replace(TOR, next_lesson=NEXT, student="Zoë Dvořák")]
    found = read(mailed(*named))
    names = [part.get_filename() for part in found.ours.walk() if part.get_filename()]
    assert names == [each.filename for each in found.theirs.attachments]
    assert names == ["Next lesson, a-b--c-- d.ics", "Next lesson, Zoë Dvořák.ics"]


def test_what_only_some_end_with_stays_where_it_is():
    found = read(mailed(outgoing(text="One\n\nend\n"), replace(TOR, text="Two\n\nanother end\n")))
    assert found.plain == f"One\n\nend\n\n{'-' * 40}\n\nTwo\n\nanother end\n"


def test_three_students_are_named_and_one_twice_in_a_day_once():
    third = replace(TOR, student="Zoë")
    subject = read(mailed(outgoing(), TOR, third, TOR)).theirs.subject
    assert subject == "Practice notes for Ilse, Tor, and Zoë, Tue 1 Dec"


def test_a_mail_of_updates_only_says_so_and_one_of_both_does_not():
    both = [outgoing(is_update=True), replace(TOR, is_update=True)]
    assert read(mailed(*both)).theirs.subject.startswith("Updated: Practice notes for Ilse and Tor")
    assert read(mailed(both[0], TOR)).theirs.subject.startswith("Practice notes for")


@pytest.mark.parametrize("other", [{"address": "other@example.org"}, {"family_id": FamilyId(2)}])
def test_a_mail_is_never_for_two_families_or_addresses(other):
    with pytest.raises(ValueError, match="one family and one address"):
        mailed(outgoing(), replace(TOR, **other))


@examples(25, long=150)
@given(shown=NAMES, title=NAMES, day=TYPED)
@example("Zoë Dvořák", "Practice notes for Zoë Dvořák and Šárka Nováková and Łukasz, with a long way to go", "út 1.12.")
@example("小林 さくら", "さくらさんの練習ノート" * 6, "12月1日")
@example("ليلى حداد", "ملاحظات التمرين " * 8, "١ ديسمبر")
@example("a  b", "two  blanks, and one at the end ", " ")
@example('Quill, Ada "of the bow" \\ (cello); <x@y>', "=?utf-8?b?eA==?=", "x")
@example("\r\nBcc: gone@example.org", "x\r\nBcc: gone@example.org\r\n\r\nbody", "\nBcc: z@example.org")
def test_names_and_subjects_are_read_back_as_they_were_typed(shown, title, day):
    found = read(mailed(outgoing(title=title), account=replace(ACCOUNT, name=shown), day=day))
    assert found.theirs.subject == one_line(f"{title}, {day}".replace("\r\n", "\n"))
    assert [(each.address) for each in found.theirs.to] == ["brandvold@example.org"]
    assert found.theirs.from_.address == "teacher@example.org"
    assert (found.theirs.from_.display_name or "") == one_line(shown).strip()
    (sender,) = found.ours["From"].addresses
    # The standard library of 3.11 joins and parts a name's encoded words in its own way.
    assert "".join(sender.display_name.split()) == "".join(one_line(shown).split())
    assert sender.addr_spec == "teacher@example.org"
    assert found.head.isascii()
    assert max(map(len, found.head.split(b"\r\n"))) <= 78
    # RFC 2047 2: at most 75 in a word, and 76 in a line that has one.
    encoded = [line for line in found.head.split(b"\r\n") if b"=?utf-8?" in line]
    assert all(len(line) <= 76 for line in encoded)
    assert all(len(word) <= 75 for line in encoded for word in line.split() if word.startswith(b"=?utf-8?"))
    assert set(found.ours.keys()) == IN_EVERY_HEADER


@examples(20, long=100)
@given(lines=st.lists(TYPED, min_size=1), greeting=TYPED, name=NAMES)
@example(["From here", ".", "..", "=20 \t ", "x" * 2000, "ž" * 2000], "y" * 2000, "z" * 500)
def test_bodies_are_read_back_as_they_were_typed(lines, greeting, name):
    typed = typed_lines("\n".join(lines))
    page = "".join(f"<p>{escape(line)}</p>\n" for line in typed)
    found = read(mailed(outgoing(text="\n".join(lines), page=page, student=name), greeting=greeting))
    assert found.plain.endswith("\n".join(typed).strip("\n") + "\n")
    assert page.strip("\n") in found.page


@examples(25, long=120)
@given(text=st.text(st.characters(exclude_categories=["Cs", "Cc"], include_characters="\t")), folds=st.integers(0, 40))
@example("SUMMARY:" + "ž" * 2000, 0)
def test_a_calendar_comes_to_the_last_byte(text, folds):
    calendar = NEXT.replace("END:VC", f"{text}\r\n" + f" {text}\r\n" * folds + "END:VC")
    (part,) = read(mailed(outgoing(next_lesson=calendar))).theirs.attachments
    assert (part.filename, part.content.decode()) == ("Next lesson.ics", calendar)


def test_tricky_notes_come_as_they_were_typed():
    notes = paper(TRICKY)
    found = read(
        mailed(outgoing(text=practice_notes_text(notes, IN_ENGLISH), page=practice_notes_body(notes, IN_ENGLISH)))
    )
    assert found.plain == practice_notes_text(notes, IN_ENGLISH)
    assert practice_notes_body(notes, IN_ENGLISH) in found.page


def test_an_address_outside_ascii_stands_in_the_header_as_it_is():
    # RFC 6532 3.2: UTF-8 in a header, for a server that says SMTPUTF8; from memory.
    found = read(mailed(outgoing(address="zoë@dvořák.example"), account=replace(ACCOUNT, name="Zoë Dvořák")))
    assert "To: zoë@dvořák.example\r\n".encode() in found.head
    assert [line for line in found.head.split(b"\r\n") if not line.isascii()] == ["To: zoë@dvořák.example".encode()]


@pytest.mark.parametrize(
    "address", ["", "x", "a@b\r\nBcc: c@d", "a b@c.example", "<a@b.example>", "a@b.example, c@d.example", "a\x00@b.c"]
)
def test_what_is_no_address_makes_no_mail(address):
    for make in (mailed, drafted):
        with pytest.raises(BadInput, match="is not an email address"):
            make(outgoing(address=address))


def test_nothing_is_fetched_from_anywhere():
    found = read(mailed(outgoing(next_lesson=NEXT), greeting="<img src='https://example.org/a.png'>"))
    for page in found.theirs.text_html:
        assert not re.search(
            r"<(?:img|link|script|iframe|object|embed|video|audio|base)\b|\bsrc=|@import|url\(",
            page.replace("&lt;img src=", ""),
        )
        assert "default-src 'none'" in page


def test_the_identifier_is_the_same_for_the_same_version_to_the_same_address_and_names_nobody():
    item = outgoing(address="brandvold@example.org")
    known = message_id(item, "studio", "teacher@studio.example")
    assert known == message_id(replace(item, title="Other", attempts=3), "studio", "teacher@studio.example")
    assert re.fullmatch(r"<[0-9a-f]{40}@studio\.example>", known)
    others = [
        replace(item, version=2),
        replace(item, address="per@example.org"),
        replace(item, about="2"),
    ]
    ids = {message_id(each, "studio", "teacher@studio.example") for each in (item, *others)}
    ids |= {message_id(item, "another studio", "teacher@studio.example")}
    ids |= {message_id(item, "studio", "teacher@studio.example", also=also) for also in (others[:1], others)}
    assert len(ids) == 7


@pytest.mark.parametrize("sender", ["", "teacher", "teacher@dvořák.example", "a@b\r\nBcc: x"])
def test_an_identifier_is_ascii_whatever_the_sender_is(sender):
    assert re.fullmatch(r"<[0-9a-f]{40}@notes\.invalid>", message_id(outgoing(), "studio", sender))


def test_a_draft_opens_unsent_with_the_sheet_and_the_next_lesson_as_files():
    item = outgoing(next_lesson=NEXT, is_update=True)
    found = read(drafted(item, next_lesson=NextLesson.WITHIN, greeting="Dear {student}"))
    assert found.kinds == "mixed(alternative(plain html) html calendar)"
    assert found.ours["X-Unsent"] == "1"
    assert found.ours["Message-ID"] is None
    assert found.theirs.subject == "Updated: Practice notes for Ilse, Tue 1 Dec"
    sheet, calendar = found.theirs.attachments
    assert (sheet.filename, sheet.mimetype) == ("Practice notes for Ilse, Tue 1 Dec.html", "text/html")
    assert practice_notes_body(paper(), IN_ENGLISH) in sheet.content.decode().replace("\r\n", "\n")
    assert b"Dear Ilse" not in sheet.content
    assert calendar.filename == "Next lesson.ics"
    assert found.plain.startswith("Dear Ilse\n\nThese notes have changed.")


def test_a_draft_without_an_account_leaves_the_sender_to_the_mail_program():
    found = read(drafted(outgoing(), None))
    assert found.ours["From"] is None
    assert found.theirs.to[0].address == "brandvold@example.org"


@examples(25, long=120)
@given(title=NAMES.filter(str.strip))
@example("Zoë: " + "ř" * 120)
def test_a_sheet_has_a_name_that_both_parsers_read(title):
    found = read(drafted(outgoing(title=title)))
    (theirs,) = [each.filename for each in found.theirs.attachments]
    (ours,) = [part.get_filename() for part in found.ours.walk() if part.get_filename()]
    assert ours == theirs
    assert theirs.endswith(".html")


@given(title=NAMES, text=st.text(min_size=1, max_size=50))
def test_the_preview_reads_what_the_family_will_read(title, text):
    content = mailed(outgoing(title=title, is_update=True), greeting=text)
    found = read(content)
    subject, plain, page = as_read(content)
    assert subject == found.theirs.subject
    assert plain.replace("\r\n", "\n") == found.plain
    assert page.replace("\r\n", "\n") == found.page


def test_her_words_are_in_the_language_of_the_family_where_she_has_them():
    words = {"en": OwnWords(greeting="Dear family,"), "es": OwnWords(greeting="Querida familia:")}
    rules = SendingRules(words=words)
    assert rules.in_language("es").greeting == "Querida familia:"
    assert rules.in_language("fr").greeting == "Dear family,"
    assert "Querida familia:" in plain_words([outgoing(language="es")], rules, IN_ENGLISH)
    assert "Dear family," in plain_words([outgoing(language="fr")], rules, IN_ENGLISH)
