"""Inquiries on the screen: a key for each step, and the day says what waits."""

from datetime import timedelta
from email.message import EmailMessage
from email.utils import format_datetime

from support.screens import on_screen
from textual.widgets import Input, TextArea

from cockpit.sample import history
from cockpit.screens.inquiries.inquiries import InquiriesScreen
from cockpit.screens.inquiries.inquiry_text import InquiryTextScreen
from cockpit.studio.inquiries.inquiry import StepKind

ANA = "ana bell for nora 8, cello, phoenix, ana@example.org, tue or thu after 4pm, from a friend"


def inquiries(opened):
    return opened.studio.store.reading.inquiries()


def kinds(opened) -> list[StepKind]:
    return [step.what for step in opened.studio.store.reading.inquiry_steps()]


async def shown(opened) -> None:
    await opened.press("escape", "tab", "tab", "q")
    assert isinstance(opened.app.screen, InquiriesScreen)


async def added(opened, line: str = ANA) -> None:
    """A new inquiry, whose words are left for later."""
    await opened.press("n")
    await opened.paste(line)
    await opened.press("enter")
    assert isinstance(opened.app.screen, InquiryTextScreen)
    await opened.press("escape")


def test_an_inquiry_goes_from_a_line_to_a_trial_and_each_step_is_taken_back(tmp_path):
    async def steps(opened):
        await shown(opened)
        assert opened.drawn().lower().count("open inquiries") == 1  # in the title
        await opened.press("n")
        await opened.paste(ANA.replace("cello", "celo"))
        assert 'Did you mean "cello"?' in opened.drawn()
        await opened.press("enter")
        assert inquiries(opened) == ()
        opened.app.screen.query_one(Input).value = ANA
        await opened.done()
        assert "answer by Thu, December 3, 4:12 pm" in " ".join(opened.drawn().split())
        await opened.press("enter")
        assert isinstance(opened.app.screen, InquiryTextScreen)
        await opened.paste("Hello,\nNora would love to play.")
        await opened.press("f9")
        assert [each.words for each in inquiries(opened)] == ["Hello,\nNora would love to play."]
        assert "! Ana Bell for Nora, 8" in opened.drawn()

        await opened.press("w")
        assert "Phoenix" in opened.app.screen.query_one(TextArea).text
        await opened.press("f9")
        assert kinds(opened) == [StepKind.ANSWERED]
        assert "is on the clipboard and marked as answered" in opened.said
        assert opened.app._clipboard.startswith("Hello Ana,\n\nThank you for asking about cello lessons for Nora.")

        await opened.press("t")
        assert opened.app.screen.query_one(Input).value == "Nora Bell "
        await opened.type("fri 5pm")
        await opened.press("enter")
        assert kinds(opened) == [StepKind.ANSWERED, StepKind.TRIAL]
        assert "trial Fri 5:00 pm" in opened.drawn()

        await opened.press("j")
        await opened.type("fri 2pm 45m from dec 11")
        await opened.press("enter")
        assert kinds(opened)[-1] is StepKind.STUDENT
        assert "1 student" in opened.drawn()

        await opened.press("f4", "f4")
        assert kinds(opened) == [StepKind.ANSWERED]
        assert inquiries(opened)[0].student_id is None
        await opened.press("f4", "f4", "f4")
        assert inquiries(opened) == ()
        assert "INQUIRIES  no open inquiries" in opened.drawn()

    on_screen(tmp_path, steps)


def test_the_waiting_list_a_reply_by_phone_and_a_closing(tmp_path):
    async def steps(opened):
        await shown(opened)
        await added(opened)
        await opened.press("w")
        await opened.type("by phone")
        await opened.press("f9")
        assert (kinds(opened), opened.said) == ([StepKind.BY_PHONE], "Ana Bell is answered by phone.")
        assert opened.app._clipboard == ""
        await opened.press("l")
        assert opened.app.screen.query_one(Input).value == "tue or thu after 4pm"
        await opened.type(", 45m")
        await opened.press("enter")
        assert "WAITING LIST" in opened.drawn()
        assert inquiries(opened)[0].wishes == "tue or thu after 4pm, 45m"
        await opened.press("r")
        assert "they wrote again today" in opened.drawn()
        await opened.press("x")
        await opened.type("they moved")
        assert "is no reason that is understood" in " ".join(opened.drawn().split())
        opened.app.screen.query_one(Input).value = "chose somebody else"
        await opened.done()
        await opened.press("enter")
        assert kinds(opened)[-1] is StepKind.DECLINED
        assert inquiries(opened)[0].age is None
        assert "CLOSED IN THE LAST 30 DAYS" in opened.drawn()
        await opened.press("e")
        assert opened.app.screen.query_one(Input).value.startswith("Ana Bell for Nora, cello")
        await opened.press("escape")
        opened.clock.wind(days=360)
        await added(opened, "jo amsel, piano, came yesterday 10am")
        assert "CLOSED LONG AGO, DELETED SOON" in opened.drawn()
        await opened.press("escape", "f10")
        rows = opened.drawn().split(" INQUIRIES ")[1].splitlines()
        assert "! deleted soon: Ana Bell for Nora" in rows[1], "first of all"
        assert "! Jo Amsel  answer within" in rows[2]

    on_screen(tmp_path, steps)


def test_the_day_and_its_end_say_what_waits_from_half_of_its_time_on(tmp_path):
    async def steps(opened):
        await shown(opened)
        await added(opened)
        await opened.press("escape")
        assert "inquiry" not in opened.drawn()
        opened.clock.wind(hours=41)
        opened.day.tell_time()
        await opened.done()
        assert "! 1 inquiry: 7 h" in opened.drawn()
        await opened.press("f10")
        assert "! Ana Bell for Nora, 8  answer within 7 h: by 4:12 pm today" in opened.drawn()
        await opened.press("q")
        assert isinstance(opened.app.screen, InquiriesScreen)
        opened.clock.wind(hours=10)
        await opened.press("escape", "escape")
        assert "late by 3 h" in opened.drawn()

    on_screen(tmp_path, steps, size=(130, 40))


def test_a_text_that_was_changed_is_not_left_by_one_key(tmp_path):
    async def steps(opened):
        await shown(opened)
        await added(opened)
        await opened.press("enter")
        await opened.type("Hello")
        await opened.press("escape")
        assert "What you typed is lost if you leave" in " ".join(opened.drawn().split())
        await opened.press("f9")
        assert inquiries(opened)[0].words == "Hello"

    on_screen(tmp_path, steps)


def test_a_saved_mail_is_read_and_asked_when_it_came(tmp_path):
    mail = EmailMessage()
    mail["From"], mail["Subject"] = "Ana Bell <ana@example.org>", "Cello for Nora"
    mail.set_content("Hello")
    (tmp_path / "bare.eml").write_bytes(bytes(mail))
    mail["Date"] = format_datetime(history.MOMENT - timedelta(hours=3))
    (tmp_path / "whole.eml").write_bytes(bytes(mail))

    async def steps(opened):
        await shown(opened)
        await opened.press("i")
        await opened.paste(str(tmp_path / "none.eml"))
        await opened.press("enter")
        assert "could not be read" in opened.said
        await opened.press("i")
        await opened.paste(str(tmp_path / "whole.eml"))
        await opened.press("enter")
        assert [each.came_at for each in inquiries(opened)] == [history.MOMENT - timedelta(hours=3)]
        await opened.press("i")
        await opened.paste(str(tmp_path / "bare.eml"))
        await opened.press("enter")
        assert "When did the email from Ana Bell come?" in opened.drawn()
        await opened.type("yesterday 10am")
        await opened.press("enter")
        assert "has asked before" in opened.said
        assert len(inquiries(opened)) == 2

    on_screen(tmp_path / "studio", steps)
