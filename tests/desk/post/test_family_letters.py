"""Letters to many families, each alone: kept as they are typed, one mail a guardian, at most once, and nothing of another family's."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.outbox import MORNING, Answering, posting_studio

from cockpit.clock import SetClock
from cockpit.desk.post.family_letters import Sends, meant
from cockpit.papers.mail.message import as_read
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.people.people import Gets, Guardian, GuardianId
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.studio.values import replace

TEXT = "Rehearsal, {family}\n\nDear {family},\n{student}: next lesson {time}. You live in {place}."


@pytest.fixture
def posted(tmp_path):
    with posting_studio(tmp_path / "studio") as posted:
        yield posted


def letters(posted):
    return posted.studio.desk.families()


def written(posted, whom="all", text=TEXT):
    """A letter, kept as it would be while it is typed, and its view."""
    families = letters(posted)
    letter = replace(families.fresh(), whom=whom, text=text)
    families.keep(letter)
    return families.view(letter, families.candidates())


def again(posted, view):
    return letters(posted).view(view.letter, letters(posted).candidates())


def mails(sender):
    """What was carried: the address, and the subject and the text of the mail as its reader sees them."""
    read = [(parcel.items[0].address, as_read(parcel.documents[0].content)) for parcel in sender.carried]
    return {address: f"{subject}\n{text}" for address, (subject, text, _) in read}


def send_all(posted, sender=None):
    """Lets time go by until everything is gone."""
    sender = posted.send(sender)
    for _ in range(20):
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(sender)
    return sender


def test_each_guardian_gets_a_mail_alone_filled_in_on_the_familys_clock(posted):
    view = written(posted)
    assert view.whom == "all students"
    assert [each.guardian.email for each in view.recipients] == [
        "ann@brandvold.example", "per@brandvold.example", "ada@okonjo.example", "m@perreault.example",
    ]  # fmt: skip
    said = letters(posted).put_out(view)
    assert said.startswith("The letter is in the outbox for 4 guardians of 3 families. It goes in 10 seconds; F4 takes")
    assert posted.entries()[0].paper is Paper.NEWS
    got = mails(send_all(posted))
    assert got["ann@brandvold.example"] == got["per@brandvold.example"]
    assert got["ann@brandvold.example"].splitlines() == [
        "Rehearsal, Brandvold",
        "Dear Brandvold,",
        "Ilse and Tor: next lesson Tuesday, December 1, 2026, 3:00 pm (Phoenix time) for Ilse and Tuesday, December 1, 2026, "
        "4:00 pm (Phoenix time) for Tor. You live in Phoenix.",
    ]
    assert (
        "next lesson Tuesday, December 1, 2026, 10:30 pm (London time). You live in London."
        in got["ada@okonjo.example"]
    )


def test_nothing_goes_before_she_says_so_and_undo_takes_all_of_it_back(posted):
    view = written(posted)
    assert mails(send_all(posted)) == {}
    letters(posted).put_out(view)
    posted.clock.wind(seconds=9)
    posted.studio.desk.dispatch.hand_over(sender := Answering())
    assert mails(sender) == {}
    assert posted.studio.desk.teaching.undo() == "Undone: the letter to 4 guardians of 3 families."
    assert mails(send_all(posted)) == {}
    assert len(again(posted, view).of(Sends.GOES)) == 4
    letters(posted).put_out(again(posted, view))
    assert len(mails(send_all(posted))) == 4


def test_a_second_time_it_goes_only_to_those_who_joined_since(posted):
    view = written(posted, text="News\n\nHello {family}.")
    letters(posted).put_out(view)
    assert len(mails(send_all(posted))) == 4
    assert {(each.sends, each.fate) for each in again(posted, view).recipients} == {(Sends.WENT, DeliveryStatus.SENT)}
    with pytest.raises(Refused, match="Nobody joined since"):
        letters(posted).put_out(again(posted, view))
    posted.studio.enrolling.take_in(
        "student,weekday,time,minutes,family,email,send_by\nNora,Friday,16:00,30,Quist,q@quist.example,mail\n"
    )
    fresh = again(posted, view)
    assert [each.guardian.email for each in fresh.of(Sends.GOES)] == ["q@quist.example"]
    letters(posted).put_out(fresh)
    assert list(mails(send_all(posted))) == ["q@quist.example"]


def test_who_is_left_out_gets_nothing_and_can_be_taken_in_again(posted):
    view, families = written(posted, text="News\n\nHello."), letters(posted)
    per = next(each for each in view.recipients if each.guardian.email == "per@brandvold.example")
    assert families.leave_out(view.letter, per) == "per@brandvold.example is left out."
    view = again(posted, view)
    assert [each.guardian.email for each in view.of(Sends.LEFT_OUT)] == ["per@brandvold.example"]
    assert posted.studio.desk.teaching.undo() == "Undone: per@brandvold.example left out."
    families.leave_out(view.letter, meant(again(posted, view), per.guardian.id))
    families.put_out(again(posted, view))
    assert "per@brandvold.example" not in mails(send_all(posted))
    assert (
        families.leave_out(view.letter, meant(again(posted, view), per.guardian.id)) == "per@brandvold.example gets it."
    )
    families.put_out(again(posted, view))
    assert list(mails(send_all(posted))) == ["per@brandvold.example"]


def test_news_goes_to_those_guardians_alone_who_get_news(posted):
    store = posted.studio.store
    ann, per, ada, _ = store.reading.guardians()
    posted.studio.desk.outbox._steps.record(
        (ann, replace(ann, gets=frozenset({Gets.NOTES}))),
        (per, replace(per, gets=frozenset({Gets.NEWS}))),
        (ada, replace(ada, gets=frozenset({Gets.NOTES}))),
    )
    view = written(posted, text="News\n\nHello.")
    assert [each.guardian.email for each in view.recipients] == ["per@brandvold.example", "m@perreault.example"]
    assert view.unreached == ("Okonjo",)
    letters(posted).put_out(view)
    per = next(each for each in store.reading.guardians() if each.id == per.id)
    posted.studio.desk.outbox._steps.record((per, replace(per, gets=frozenset({Gets.NOTES}))))
    assert list(mails(send_all(posted))) == ["m@perreault.example"]
    refused = [each.reason for each in posted.entries() if each.fate is DeliveryStatus.REFUSED]
    assert refused == ["per@brandvold.example no longer gets news"]


@pytest.mark.parametrize(
    ("whom", "text", "said"),
    [
        ("all", "News\n\nYou owe {sum}.", "is money"),
        ("all", "News\n\nDear {name}.", "is not filled in"),
        ("all", "News", "no text below it"),
        ("flute", "News\n\nHello.", '"flute" is not understood'),
        ("", "News\n\nHello.", "Type whom"),
    ],
)
def test_what_cannot_go_is_refused_with_a_sentence_and_nothing_of_it_goes(posted, whom, text, said):
    with pytest.raises(BadInput, match=said):
        letters(posted).put_out(written(posted, whom, text))
    assert posted.entries() == ()


def test_a_rehearsal_shows_what_would_go_and_sends_nothing_then_or_later(tmp_path):
    with posting_studio(tmp_path / "studio", clock=SetClock(MORNING, is_rehearsal=True)) as posted:
        view = written(posted)
        assert letters(posted).preview(view, view.recipients[0]).address == "ann@brandvold.example"
        with pytest.raises(Refused, match="A rehearsal sends nothing"):
            letters(posted).put_out(view)
    with posting_studio(tmp_path / "studio") as posted:
        assert mails(send_all(posted)) == {}


def test_a_letter_that_names_a_time_is_refused_where_a_student_has_none(posted):
    posted.studio.enrolling.take_in(
        "student,weekday,time,minutes,family,email,send_by,until\nNora,Friday,16:00,30,Quist,q@quist.example,mail,2026-11-27\n"
    )
    with pytest.raises(Refused, match=r"Nora \(Quist\) has no next lesson, so \{time\} is empty"):
        letters(posted).put_out(written(posted, "all, nora"))
    assert posted.entries() == ()
    letters(posted).put_out(written(posted, "all, nora", "News\n\nHello {student}."))
    assert "Hello Nora." in mails(send_all(posted))["q@quist.example"]


def test_a_draft_is_there_when_the_studio_is_opened_again_and_an_empty_one_is_not(tmp_path):
    with posting_studio(tmp_path / "studio") as posted:
        view = written(posted, "bran", "Rehear")
        letters(posted).keep(letters(posted).fresh())
    with posting_studio(tmp_path / "studio") as posted:
        assert letters(posted).letters() == (view.letter,)
        letters(posted).keep(replace(view.letter, whom="", text=" "))
        assert letters(posted).letters() == ()


def test_the_account_takes_so_many_mails_a_minute_also_when_the_program_ends(tmp_path):
    rate = (
        "[sending.mail]\nhost = 'localhost'\nsecurity = 'none'\nsender = 'teacher@studio.example'\nmails_a_minute = 2\n"
    )
    with posting_studio(tmp_path / "studio", sending=rate) as posted:
        view = written(posted, text="News\n\nHello.")
        assert letters(posted).minutes(view) == 2
        assert letters(posted).put_out(view).endswith("All of it takes about 2 minutes.")
        sender, dispatch = posted.send(), posted.studio.desk.dispatch
        assert len(sender.carried) == 1
        assert dispatch.due_at() == posted.clock.at + timedelta(seconds=30)
        posted.clock.wind(seconds=29)
        dispatch.hand_over(sender, at_once=True)
        assert len(sender.carried) == 1
        posted.finish("Mireille", "Perreault", "Lovely")
        at = posted.clock.at
        posted.send(sender)
        assert [each.items[0].paper for each in sender.carried] == [Paper.NEWS, Paper.NEWS, Paper.NOTES]
        posted.clock.at = at + timedelta(hours=1)
        dispatch.hand_over(sender)
        assert len(sender.carried) == 4


def test_the_rest_can_be_withdrawn_and_goes_out_again_later(tmp_path):
    rate = (
        "[sending.mail]\nhost = 'localhost'\nsecurity = 'none'\nsender = 'teacher@studio.example'\nmails_a_minute = 1\n"
    )
    with posting_studio(tmp_path / "studio", sending=rate) as posted:
        view = written(posted, text="News\n\nHello {family}.")
        letters(posted).put_out(view)
        first = mails(posted.send())
        assert letters(posted).stop(view.letter) == "3 letters withdrawn. What had gone before is gone."
        posted.clock.wind(minutes=9)
        assert mails(posted.send()) == {}
        fresh = again(posted, view)
        assert len(fresh.of(Sends.GOES)) == 3
        letters(posted).put_out(replace(fresh, letter=replace(view.letter, text="Newer\n\nHello {family}.")))
        sender = Answering()
        for _ in range(4):
            posted.clock.wind(minutes=2)
            posted.studio.desk.dispatch.hand_over(sender)
        assert len(sender.carried) == 3
        assert not set(mails(sender)) & set(first)
        with pytest.raises(Refused, match="Nothing of this letter waits"):
            letters(posted).stop(view.letter)


def test_who_was_reached_by_one_way_is_not_written_to_again_when_a_copy_on_another_is_withdrawn(tmp_path):
    with posting_studio(tmp_path / "both", way='"mail, draft"') as posted:
        view = written(posted, "mireille", "News\n\nHello {family}.")
        letters(posted).put_out(view)
        posted.clock.wind(seconds=11)
        full = Delivery(answer=Answer.NEVER, reason="the disk is full")
        sender = Answering([full, Delivery(answer=Answer.TAKEN)])  # the draft is written first
        posted.studio.desk.dispatch.hand_over(sender)
        assert {each.way: each.fate for each in posted.entries()} == {"mail": "sent", "draft": "refused"}
        assert letters(posted).stop(view.letter).startswith("1 letter withdrawn")
        assert [each.sends for each in again(posted, view).recipients] == [Sends.WENT]
    with posting_studio(tmp_path / "none", way='"mail, draft"') as posted:
        view = written(posted, "mireille", "News\n\nHello {family}.")
        letters(posted).put_out(view)
        letters(posted).stop(view.letter)
        assert [each.sends for each in again(posted, view).recipients] == [Sends.GOES]


def test_who_got_an_email_keeps_it_when_what_is_to_copy_for_the_family_is_withdrawn(tmp_path):
    with posting_studio(tmp_path / "studio", way="clipboard") as posted:
        reading, record = posted.studio.store.reading, posted.studio.desk.outbox._steps.record
        view = written(posted, "mireille", "News\n\nHello {family}.")
        letters(posted).put_out(view)  # to copy
        family = next(each for each in reading.people().families.values() if each.name == "Perreault")
        aunt = Guardian(id=GuardianId(4711), family_id=family.id, email="aunt@perreault.example", position=1)
        record((family, replace(family, send_by="mail")), (None, aunt))
        letters(posted).put_out(again(posted, view))
        assert set(mails(send_all(posted))) == {"aunt@perreault.example"}
        letters(posted).stop(view.letter)
        assert [(each.guardian.email, each.sends) for each in again(posted, view).recipients] == [
            ("m@perreault.example", Sends.GOES), ("aunt@perreault.example", Sends.WENT),
        ]  # fmt: skip


def test_a_server_that_is_not_there_is_asked_again_and_nobody_gets_it_twice(posted):
    letters(posted).put_out(written(posted, text="News\n\nHello."))
    away = Delivery(answer=Answer.LATER, reason="no server", is_channel_shut=True)
    sender = Answering([away, Delivery(answer=Answer.TAKEN)])
    posted.send(sender)
    for _ in range(100):
        posted.clock.wind(minutes=1)
        posted.studio.desk.dispatch.hand_over(sender)
    taken = [parcel.items[0].address for parcel in sender.carried[1:]]
    assert len(taken) == len(set(taken)) == 4


def test_without_mail_each_family_is_one_entry_to_copy_and_drafts_are_one_a_guardian(tmp_path):
    with posting_studio(tmp_path / "copies", way="clipboard") as posted:
        view = written(posted, text="News\n\nHello {family}.")
        assert letters(posted).put_out(view).endswith("It waits there for you to copy.")
        assert [(each.student, each.way, each.text) for each in posted.entries()] == [
            ("Ilse and Tor", "clipboard", "Hello Brandvold.\n"),
            ("Ilse", "clipboard", "Hello Okonjo.\n"),
            ("Mireille", "clipboard", "Hello Perreault.\n"),
        ]
        with pytest.raises(Refused, match="Nobody joined since"):
            letters(posted).put_out(again(posted, view))
    with posting_studio(tmp_path / "drafts", way="draft") as posted:
        letters(posted).put_out(written(posted, text="News\n\nHello {family}."))
        assert len({name for parcel in posted.send().carried for name in (parcel.documents[0].name,)}) == 4


def test_a_text_by_language_and_the_familys_own_dates_and_clock(posted):
    okonjo = next(each for each in posted.studio.store.reading.people().families.values() if each.name == "Okonjo")
    posted.studio.desk.outbox._steps.record((okonjo, replace(okonjo, language="es", hours=24)))
    text = "Rehearsal\n\n{student}, {time}\n[es]\nEnsayo\n\n{student}, {time}"
    letters(posted).put_out(written(posted, text=text))
    got = mails(send_all(posted))
    assert "Rehearsal\nMireille, Tuesday, December 1, 2026" in got["m@perreault.example"]
    assert got["ada@okonjo.example"].startswith("Ensayo\nIlse, martes 1 de diciembre de 2026, 22:30 (hora de Londres)")


def test_a_preview_is_what_goes_and_keeps_nothing(posted):
    view, families = written(posted), letters(posted)
    item = families.preview(view, view.recipients[0])
    shown = posted.studio.desk.previewing.of_letter(item)
    assert posted.entries() == ()
    families.put_out(view)
    got = mails(send_all(posted))[item.address]
    assert f"{shown.heading}\n{shown.text}" == got
    assert shown.facts[0] == f"To {item.address}"


ZONES = ("Europe/London", "Asia/Kolkata", "America/Phoenix", "Pacific/Honolulu", "America/St_Johns", "Asia/Kathmandu")
CITIES = ("London", "Kolkata", "Phoenix", "Honolulu", "Johns", "Kathmandu")
FAMILIES = ("Quill", "Sorrel", "Tansy", "Umber", "Vetch", "Woad")
NAMES = ("Abelard", "Brunhild", "Cosima", "Desmond", "Eulalia", "Florian")


@examples(20)
@given(st.data())
def test_no_name_time_or_address_of_a_family_is_in_another_familys_letter(tmp_path_factory, data):
    count = data.draw(st.integers(2, 6))
    hours = data.draw(st.permutations(range(8, 8 + 6)))[:count]
    siblings = data.draw(st.integers(0, count - 1))
    rows = [
        f"{NAMES[n]},{data.draw(st.sampled_from(['Monday', 'Thursday']))},{hours[n]}:0{n + 1},30,{FAMILIES[n]},{FAMILIES[n].lower()}@{n}.example,{ZONES[n]},mail"
        for n in range(count)
    ]
    rows.append(f"Gervase,Friday,20:15,30,{FAMILIES[siblings]},,,")
    with posting_studio(tmp_path_factory.mktemp("many"), clock=SetClock(MORNING)) as posted:
        posted.studio.enrolling.take_in("student,weekday,time,minutes,family,email,zone,send_by\n" + "\n".join(rows))
        whom = ", ".join(FAMILIES[:count])
        letters(posted).put_out(written(posted, whom, "For {family}\n\n{student} {time} {place}"))
        sender = send_all(posted)
        assert len(sender.carried) == count
        for parcel in sender.carried:
            (item,) = parcel.items
            whole = (
                f"{item.title} {item.text} {item.page} {item.student} {' '.join(as_read(parcel.documents[0].content))}"
            )
            own = next(n for n in range(count) if f"@{n}.example" in item.address)
            for n in range(count):
                if n != own:
                    own_words = (
                        FAMILIES[n],
                        NAMES[n],
                        f"@{n}.example",
                        CITIES[n],
                        *(f":{minute + n:02d} " for minute in (1, 31, 46)),
                    )
                    assert not [word for word in own_words if word in whole], (n, whole)
            assert ("Gervase" in whole) == (own == siblings)
            assert FAMILIES[own] in whole
            assert NAMES[own] in whole


def test_words_below_brackets_that_are_no_language_are_not_lost_silently(posted):
    with pytest.raises(BadInput, match=r"\[end\] is the language of no family, so nobody would get the text below it"):
        letters(posted).check(written(posted, text="News\n\nHello.\n[end]\nBring a stand."))
    letters(posted).check(written(posted, text="News\n\nHello.\n[es]\nAviso\n\nHola."))


def test_who_would_get_a_text_in_another_language_than_theirs_is_told_before(posted):
    view = written(posted, text="[es]\nHola\n\nEnsayamos el sábado.")
    assert {family for family, _ in view.foreign} == {each.family.name for each in view.recipients}
    assert {language for _, language in view.foreign} == {"es"}
    assert written(posted, text="Hello\n\nWe rehearse.").foreign == ()
