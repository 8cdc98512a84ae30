"""What the screen of a letter to many families says of each guardian, and of what F9 would do."""

from datetime import UTC, datetime

import pytest
from rich.cells import cell_len

from cockpit.desk.post.family_letters import LetterView, Recipient, Sends
from cockpit.screens.post.family_letter_rows import recipient_options, status_words, title_words, whom_words
from cockpit.studio.lessons.status import Status
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, Student, StudentId
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.family_letter import FamilyLetter, FamilyLetterId
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.roster.whom import Candidate

LETTER = FamilyLetter(
    id=FamilyLetterId(1), whom="all", text="News\n\nHello.", made_at=datetime(2026, 12, 1, tzinfo=UTC)
)


def one(number, sends=Sends.GOES, fate=None, ways=(Channel.MAIL,), email="ann@a-rather-long-domain.example"):
    family = Family(id=FamilyId(number), name="Bell-Wetherington-Ortiz", zone="UTC")
    student = Student(id=StudentId(number), family_id=family.id, name="Ilse")
    guardian = Guardian(id=GuardianId(number), family_id=family.id, name="Ann", email=email)
    students = (Candidate(student=student, family=family, status=Status.ACTIVE),)
    return Recipient(guardian=guardian, family=family, students=students, sends=sends, ways=ways, fate=fate)


def view(*recipients, **more):
    return LetterView(letter=LETTER, whom="all students", is_understood=True, recipients=recipients, **more)


def rows(shown, width=80):
    return [str(option.prompt).strip() for option in recipient_options(shown, width)]


@pytest.mark.parametrize(
    ("recipient", "begins", "ends"),
    [
        (one(1), "○", "Ilse"),
        (one(1, ways=()), "○", "to copy"),
        (one(1, Sends.LEFT_OUT), "×", "left out"),
        (one(1, Sends.NO_ADDRESS, email=None), "!", "Ilse"),
        (one(1, Sends.WENT, DeliveryStatus.SENT), "●", "has it"),
        (one(1, Sends.WENT, DeliveryStatus.WAITING), "○", "in the outbox"),
        (one(1, Sends.WENT, DeliveryStatus.WAITING, ways=()), "○", "to copy"),
        (one(1, Sends.WENT, DeliveryStatus.UNSURE), "!", "unsure"),
        (one(1, Sends.WENT, DeliveryStatus.REFUSED), "!", "refused"),
    ],
)
def test_a_row_tells_what_the_letter_does_with_a_guardian_or_what_became_of_it(recipient, begins, ends):
    for width in (42, 50, 78, 148):
        row = rows(view(recipient), width)[1]
        assert row.startswith(begins)
        assert cell_len(row) <= width
        assert row.endswith(ends) or (width < 66 and ends == "Ilse")


def test_the_title_counts_what_went_and_what_is_in_the_outbox():
    sent, waits = one(1, Sends.WENT, DeliveryStatus.SENT), one(2, Sends.WENT, DeliveryStatus.WAITING)
    assert title_words(view(one(3))) == "draft"
    assert title_words(view(sent, waits, one(3))) == "sent to 1, 1 in the outbox"


def test_it_is_told_what_the_key_would_do_how_long_that_takes_and_what_is_wrong():
    assert str(status_words(view(one(1), one(2)), 3, "")) == '"News"  F9 sends 2 letters to 2 families, about 3 minutes'
    joined = view(one(1, Sends.WENT, DeliveryStatus.SENT), one(2), went=True)
    assert str(status_words(joined, 0, "")) == '"News"  F9 sends to those who joined since: 1 letter to 1 family'
    done = view(one(1, Sends.WENT, DeliveryStatus.SENT), went=True)
    assert str(status_words(done, 0, "x")) == '"News"  Once somebody joins, F9 sends it there'
    assert str(status_words(view(one(1, ways=())), 0, "")).endswith(
        "puts into the outbox 1 letter to 1 family, for you to copy"
    )
    assert str(status_words(view(one(1)), 0, "{sum} is money.")) == '"News"  {sum} is money.'


def test_families_without_a_guardian_who_gets_news_are_named():
    said = str(whom_words(view(one(1), unreached=("Bell", "Ng"))))
    assert said == "all students; Bell and Ng have no guardian who gets news"
