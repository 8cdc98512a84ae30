"""The papers of a recital at the desk: each family alone, at most once, again only when she says so, and what she prints."""

from email import message_from_bytes
from email.policy import default

import pytest
from support.arranged_studio import arranged_studio

from cockpit.cli.main import main
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.recital.papers import Standing
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.studio.recital.program import AgainstRecital
from cockpit.wording.recital import trouble_words

HEADER = "student,weekday,time,minutes,family,instrument,zone,kept_in,email,permissions,language\n"
ROSTER = f"""{HEADER}Ishaan,Tuesday,09:00,30,Banerjee,cello,Asia/Kolkata,teacher,banerjee@example.org,named,en
Ilse,Tuesday,13:00,30,Brandvold,cello,America/Phoenix,teacher,brandvold@example.org,,de
Teodor,Tuesday,10:00,30,Okonjo,guitar,Europe/London,teacher,okonjo@example.org,named,en
Tobin,Tuesday,11:00,30,Aldersgate,guitar,America/Chicago,teacher,,named,en
"""
SETTINGS = 'home_zone = "America/Chicago"\n[sending]\nways = "draft"\n'
TALES = (
    "winter tales, sat dec 19 12pm, theme snow and night, online, 60m, opening 3m, link https://call.example.org/winter"
)
ITEMS = (
    ("Ishaan", "Paper Boats 1:30, costume sailor's collar, note breathe first"),
    ("Ilse", "The Old Mill 3:00, costume miller's apron, prop flour sack, story the mill that would not stop"),
    ("Teodor", "Lantern Song 2:00, with a track"),
    ("Tobin", "Blue Kettle 2:00, costume tin hat"),
)


class Told:
    """An open studio with a recital whose papers are made."""

    def __init__(self, arranged):
        self.arranged, self.clock, self.desk = arranged, arranged.clock, arranged.studio.desk
        self.recitals, self.papers = self.desk.recitals(), self.desk.recital_papers()
        self.recitals.lines.do(self.recitals.lines.propose_new(TALES))
        self.id = self.recitals.reading.view().coming[0].recital.id
        for name, line in ITEMS:
            self.recitals.lines.do(self.recitals.lines.propose_item(self.id, self.student(name).id, line))

    def student(self, name):
        return self.desk.finding.student(name).student

    def of(self, name):
        family = self.student(name).family_id
        return next(each for each in self.papers.view(self.id).families if each.family.id == family)

    def made(self, name):
        return self.papers.made(self.id, self.student(name).family_id)[0]

    def change(self, name, line):
        item = next(each for each in self.recitals.reading.items(self.id) if each.student_id == self.student(name).id)
        self.recitals.lines.do(self.recitals.lines.propose_item_change(self.id, item.id, line))

    def outgoing(self):
        return [each for each in self.arranged.studio.store.reading.open_outgoing() if each.paper is Paper.PROGRAM]


@pytest.fixture
def told(tmp_path):
    with arranged_studio(tmp_path, ROSTER, "2026-12-01 08:00", SETTINGS) as arranged:
        yield Told(arranged)


def test_each_family_gets_its_own_sheet_in_its_language_and_on_its_clock(told):
    german, indian = told.made("Ilse"), told.made("Ishaan")
    assert german.title == "winter tales: Ilse"
    assert "miller's apron" in german.text
    assert "Kostüm" in german.text
    assert "Samstag, 19. Dezember 2026, 11:00" in german.text
    assert "sailor" not in german.text
    assert "11:30 pm (Kolkata time)" in indian.text
    assert "Number 1, at about 11:33 pm" in indian.text
    assert "apron" not in indian.text + indian.page
    assert "breathe first" not in indian.text + indian.page  # a note is hers alone
    assert "the track" in told.made("Teodor").text


def test_nobody_is_named_of_whom_nobody_said_so_but_to_the_own_family(told):
    assert "Ilse" not in told.made("Ishaan").text + told.made("Ishaan").page
    assert "a student, cello" in told.made("Ishaan").text
    assert "Teodor, guitar" in told.made("Ishaan").text
    told.change("Ilse", "shown as the miller")
    assert "the miller, cello" in told.made("Ishaan").text


def test_papers_go_once_and_again_only_when_she_says_so(told):
    assert told.papers.put_out(told.id).startswith(
        "The papers for 4 families are in the outbox. They go in 10 seconds."
    )
    assert {each.address for each in told.outgoing()} == {
        "banerjee@example.org", "brandvold@example.org", "okonjo@example.org", ""
    }  # fmt: skip
    with pytest.raises(Refused, match="Everybody has these papers already"):
        told.papers.put_out(told.id)
    told.change("Ilse", "costume white apron")
    assert told.of("Ilse").at[0].standing is Standing.CHANGED
    assert not told.of("Ishaan").is_changed  # another family's costume is nothing of theirs
    with pytest.raises(Refused, match="have changed since for Ilse"):
        told.papers.put_out(told.id)
    told.papers.put_out(told.id, [told.student("Ilse").family_id])
    (waiting,) = (each for each in told.outgoing() if each.address == "brandvold@example.org")
    assert (waiting.version, waiting.is_update) == (2, False)  # the first one never went
    assert "white apron" in waiting.text


def test_what_was_put_out_can_be_taken_back_for_ten_seconds(told):
    told.papers.put_out(told.id)
    told.arranged.undo()
    assert told.outgoing() == []
    assert told.of("Ilse").goes


def test_a_moved_recital_is_the_same_event_with_a_higher_sequence(told):
    first = told.made("Ilse").next_lesson
    told.papers.put_out(told.id)
    told.recitals.lines.do(told.recitals.lines.propose_change(told.id, "sun dec 20 1pm"))
    again = told.made("Ilse").next_lesson
    lines = [
        {name: value for name, _, value in (line.partition(":") for line in text.splitlines())}
        for text in (first, again)
    ]
    assert lines[0]["UID"] == lines[1]["UID"]
    assert [each["SEQUENCE"] for each in lines] == ["0", "1"]
    assert [each["DTSTART"] for each in lines] == ["20261219T180000Z", "20261220T190000Z"]


def test_a_draft_has_the_page_to_print_and_the_day_for_the_calendar(told):
    told.recitals.lines.do(told.recitals.lines.propose_child(told.id, "sat dec 12 11am", is_rehearsal=True))
    told.papers.put_out(told.id)
    told.clock.wind(seconds=11)
    parcels = []
    while (parcel := told.desk.dispatch.next_parcel()) is not None:
        parcels.append(parcel)
        told.desk.dispatch.settle(parcel, Delivery(answer=Answer.TAKEN))
    (parcel,) = (each for each in parcels if each.address == "brandvold@example.org")
    mail = message_from_bytes(parcel.documents[0].content, policy=default)
    files = {part.get_filename(): part.get_content() for part in mail.iter_attachments()}
    page, calendar = (next(text for name, text in files.items() if name.endswith(end)) for end in (".html", ".ics"))
    assert "booklet" in page
    assert calendar.count("BEGIN:VEVENT") == 2
    assert "winter tales (Probe)" in calendar
    assert mail["Subject"] == "winter tales: Ilse"


def test_the_rate_of_the_account_holds_for_papers_too(tmp_path):
    mail = (
        '[sending.mail]\nhost = "localhost"\nsecurity = "none"\nsender = "teacher@studio.example"\nmails_a_minute = 2\n'
    )
    with arranged_studio(tmp_path, ROSTER, "2026-12-01 08:00", SETTINGS.replace("draft", "mail") + mail) as arranged:
        told = Told(arranged)
        told.papers.put_out(told.id)
        told.clock.wind(seconds=11)
        dispatch = told.desk.dispatch
        first = dispatch.next_parcel()
        assert first is not None
        content = first.documents[0].content
        mail = message_from_bytes(content, policy=default)
        assert sorted((part.get_filename() or "").rpartition(".")[2] for part in mail.iter_attachments()) == [
            "html",
            "ics",
        ]
        assert b"booklet" in next(
            p.get_content().encode() for p in mail.iter_attachments() if p.get_content_subtype() == "html"
        )
        dispatch.settle(first, Delivery(answer=Answer.TAKEN))
        assert dispatch.next_parcel() is None
        told.clock.wind(seconds=30)
        assert dispatch.next_parcel() is not None


def test_two_families_with_one_address_get_two_papers(tmp_path):
    roster = ROSTER.replace("okonjo@", "banerjee@")
    with arranged_studio(tmp_path, roster, "2026-12-01 08:00", SETTINGS) as arranged:
        told = Told(arranged)
        told.papers.put_out(told.id)
        both = [each.text for each in told.outgoing() if each.address == "banerjee@example.org"]
        assert len(both) == 2
        assert sum("sailor" in text for text in both) == 1
        assert not told.of("Teodor").is_changed


def test_a_guardian_without_an_address_is_told_of_in_the_outbox(told):
    told.papers.put_out(told.id)
    (lost,) = (each for each in told.outgoing() if not each.address)
    assert lost.fate is DeliveryStatus.REFUSED
    assert lost.way is Channel.DRAFT


def test_who_is_paused_that_day_is_told_of_before_anything_goes_and_gets_papers_all_the_same(told):
    told.arranged.done(Purpose.PAUSE, "2026-12-08", "Ilse", "2026-12-14 to 2027-01-10")
    view = told.papers.view(told.id)
    against = [(each.kind, each.performer.called) for each in view.program.troubles if each.because is not None]
    assert against == [(AgainstRecital.PAUSED, "Ilse")]
    assert told.of("Ilse").goes
    _, _, running = told.papers.keep_files(told.id)
    assert "Ilse is paused on that day." in running.read_text()


def test_a_permission_that_is_given_later_changes_the_papers_of_all(told):
    told.papers.put_out(told.id)
    told.arranged.done(Purpose.DETAILS, "2026-12-01", "Ilse", "may be named")
    assert told.of("Ishaan").is_changed
    assert "Ilse, cello" in told.made("Ishaan").text


def test_two_recitals_on_one_day_have_papers_of_their_own(told):
    told.recitals.lines.do(told.recitals.lines.propose_new("songs, sat dec 19 5pm, online"))
    other = next(each.recital.id for each in told.recitals.reading.view().coming if each.recital.id != told.id)
    told.recitals.lines.do(told.recitals.lines.propose_item(other, told.student("Ilse").id, "Little Canoe 2:00"))
    told.papers.put_out(told.id)
    assert told.papers.view(other).families[0].goes
    told.papers.put_out(other)
    assert len({each.about for each in told.outgoing() if each.address == "brandvold@example.org"}) == 2
    kept = {path.parent for each in (told.id, other) for path in told.papers.keep_files(each)}
    assert len(kept) == 2


def test_who_withdraws_leaves_no_gap_in_the_numbers_and_gets_no_papers_any_more(told):
    item = next(each for each in told.recitals.reading.items(told.id) if each.student_id == told.student("Ilse").id)
    told.recitals.steps.remove_item(told.id, item.id)
    assert "2. Lantern Song" in told.made("Ishaan").text
    with pytest.raises(NotFound, match="nobody in the recital any more"):
        told.papers.preview(told.id, told.student("Ilse").family_id)


def test_the_preview_is_what_a_family_will_read(told):
    shown = told.papers.preview(told.id, told.student("Ilse").family_id)
    assert shown.heading == "winter tales: Ilse"
    assert "miller" in shown.text
    assert shown.facts == ("To brandvold@example.org", "By draft, when you press F9")


def test_the_folder_gets_the_program_and_her_running_sheet(told):
    markdown, page, running = told.papers.keep_files(told.id)
    assert "sailor" not in markdown.read_text() + page.read_text()
    assert "call.example.org" not in markdown.read_text() + page.read_text()
    hers = running.read_text()
    assert "For you alone" in hers
    assert "breathe first" in hers
    assert "Ilse has no permission to be seen in a recital." in hers
    assert "12:03:00 pm, 1:30" in hers


def test_a_rehearsal_and_an_empty_recital_have_no_papers_for_families(told):
    told.recitals.lines.do(told.recitals.lines.propose_child(told.id, "sat dec 12 11am", is_rehearsal=True))
    (rehearsal,) = told.recitals.reading.program(told.id).rehearsals
    with pytest.raises(Refused, match="papers of its recital"):
        told.papers.view(rehearsal.id)
    told.recitals.lines.do(told.recitals.lines.propose_new("songs, sun dec 20 5pm, online"))
    empty = next(each.recital.id for each in told.recitals.reading.view().coming if each.recital.name == "songs")
    with pytest.raises(Refused, match="Nobody plays in this recital yet"):
        told.papers.put_out(empty)
    markdown, *_ = told.papers.keep_files(empty)
    assert "not settled yet" in markdown.read_text()


def test_a_rehearsal_sends_nothing_and_shows_all_the_same(told):
    told.clock.is_rehearsal = True
    with pytest.raises(Refused, match="A rehearsal sends nothing"):
        told.papers.put_out(told.id)
    assert "apron" in told.papers.preview(told.id, told.student("Ilse").family_id).text


def test_a_deleted_family_takes_programs_and_papers_with_it(tmp_path):
    with arranged_studio(tmp_path, ROSTER, "2026-12-01 08:00", SETTINGS) as arranged:
        told = Told(arranged)
        told.papers.put_out(told.id)
        told.papers.keep_files(told.id)
    assert main(["family", "Brandvold", "--forget", "--sure", "Brandvold", "--folder", str(tmp_path)]) == 0
    assert not list((tmp_path / "recitals").glob("**/*.md"))


@pytest.mark.parametrize("whom", ["Mrs. Okonjo at the piano", "Teodor's mother"])
def test_a_name_of_another_family_is_on_no_sheet(told, whom):
    told.change("Ilse", f"with {whom}")
    text = told.papers.preview(told.id, told.student("Ilse").family_id).text
    assert whom not in text
    told.change("Ilse", "with Mrs. Brandvold at the piano")
    assert "Mrs. Brandvold" in told.papers.preview(told.id, told.student("Ilse").family_id).text


def test_a_name_that_others_may_not_see_is_told_before_the_papers_go(told):
    told.change("Teodor", "enters after Ilse")
    words = [
        trouble_words(each, told.arranged.studio.preferences.home)
        for each in told.papers.view(told.id).program.troubles
    ]
    assert "The entry of Teodor's Lantern Song names Ilse, who has no permission to be named." in words
