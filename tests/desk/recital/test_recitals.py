"""Recitals at the desk: made by lines, ordered, noted, run, and taken back; what stands against one is told as values."""

from contextlib import contextmanager
from datetime import date, time, timedelta

import pytest
from support.arranged_studio import HEADER, arranged_studio
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.changes.recital import NotedThing
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.recital.order import Rule
from cockpit.studio.recital.program import AgainstRecital
from cockpit.studio.recital.readiness import NotedAnswer, Ready
from cockpit.studio.recital.sittings import best_sittings, fewest_sittings
from cockpit.wiring import studio_at
from cockpit.wording.recital import trouble_words

# The eight of the program that the times below were worked out for by hand.
ROSTER = f"""{HEADER}Ishaan,Tuesday,09:00,30,Banerjee,cello,Asia/Kolkata,teacher
Teodor,Tuesday,10:00,30,Okonjo,guitar,Europe/London,teacher
Tobin,Tuesday,11:00,30,Aldersgate,guitar,America/Chicago,teacher
Wren,Tuesday,12:00,30,Aldersgate,cello,America/Chicago,teacher
Ilse,Tuesday,13:00,30,Brandvold,cello,America/Phoenix,teacher
Eilidh,Tuesday,14:00,30,MacAskill,clarinet,America/Halifax,teacher
Mireille,Tuesday,15:00,30,Perreault,clarinet,America/St_Johns,teacher
Nalani,Tuesday,16:00,30,Kealoha,guitar,Pacific/Honolulu,teacher
"""
EIGHT = (
    ("Ishaan", "Paper Boats 1:30"), ("Teodor", "Lantern Song 2:00"), ("Tobin", "Little Canoe 2:15"),
    ("Wren", "Two Sparrows 2:00"), ("Ilse", "The Old Mill 3:00"), ("Eilidh", "Harbor Lights 3:30"),
    ("Nalani", "Rain on Tin 5:00"), ("Mireille", "Winter Reel 4:00"),
)  # fmt: skip
TALES = "winter tales, sat dec 19 12pm, theme snow and night, online, 60m, opening 3m, closing 2m"


class Played:
    """An open studio with a recital."""

    def __init__(self, arranged, items=EIGHT, line=TALES):
        self.arranged, self.clock, self.desk = arranged, arranged.clock, arranged.studio.desk
        self.recitals = self.desk.recitals()
        self.recitals.lines.do(self.recitals.lines.propose_new(line))
        (listed,) = self.recitals.reading.view().coming
        self.id = listed.recital.id
        for name, item in items:
            self.add(name, item)

    def student(self, name):
        return self.desk.finding.student(name).student.id

    def add(self, name, line):
        return self.recitals.lines.do(self.recitals.lines.propose_item(self.id, self.student(name), line))

    def change(self, name, line):
        return self.recitals.lines.do(self.recitals.lines.propose_item_change(self.id, self.item(name).id, line))

    def item(self, name):
        return next(each for each in self.recitals.reading.items(self.id) if each.student_id == self.student(name))

    @property
    def program(self):
        return self.recitals.reading.program(self.id)

    @property
    def names(self):
        return [" and ".join(each.called for each in row.performers) for row in self.program.rows]

    def against(self, kind):
        return [each for each in self.program.troubles if each.kind is kind]


@contextmanager
def played(folder, items=EIGHT, line=TALES, now="2026-12-01 08:00"):
    with arranged_studio(folder, ROSTER, now) as arranged:
        yield Played(arranged, items, line)


def test_the_eight_items_begin_when_they_were_worked_out_to_begin(tmp_path):
    with played(tmp_path) as recital:
        program = recital.program
        starts = [f"{local_time(row.time.starts_at, 'America/Chicago'):%H:%M:%S}" for row in program.rows]
        # 12:03:00 by the welcome of three minutes; then each length and a minute between.
        assert starts == [
            "12:03:00", "12:05:30", "12:08:30", "12:11:45", "12:14:45", "12:18:45", "12:23:15", "12:29:15",
        ]  # fmt: skip
        assert f"{local_time(program.times.closing_at, 'America/Chicago'):%H:%M:%S}" == "12:33:15"
        assert program.times.ends_at - program.times.closing_at == timedelta(minutes=2)
        assert (program.times.music, program.times.left) == (1395, 24 * 60 + 45)


def test_the_family_for_whom_it_is_night_is_told_and_nobody_else(tmp_path):
    with played(tmp_path) as recital:
        (night,) = recital.against(AgainstRecital.NIGHT)
        assert night.family.name == "Banerjee"
        assert f"{night.local:%a %H:%M}" == "Sat 23:30"
        recital.recitals.lines.do(recital.recitals.lines.propose_change(recital.id, "in person"))
        assert recital.against(AgainstRecital.NIGHT) == []


def test_the_times_that_suit_most_leave_out_one_family_and_two_sittings_reach_all(tmp_path):
    with played(tmp_path) as recital:
        sittings = recital.recitals.reading.suiting(recital.id)
        best = best_sittings(sittings)
        names = {each.id: each.name for each in recital.program.families}
        assert [{names[each] for each in found.at_night} for found in best] == [{"Kealoha"}, {"Banerjee"}]
        assert home("2026-12-19 12:00") in (best[1].starts.first + timedelta(minutes=15) * step for step in range(20))
        assert len(fewest_sittings(sittings)) == 2


def test_an_order_is_drafted_moved_and_taken_back(tmp_path):
    with played(tmp_path) as recital:
        before = recital.names
        recital.recitals.steps.move(recital.id, recital.item("Mireille").id, -7)
        assert recital.names == ["Mireille", *before[:-1]]
        recital.recitals.steps.draft_order(recital.id)
        # By length where nobody has a level.
        drafted = recital.names
        assert drafted[0] == "Ishaan"
        assert sorted(drafted) == sorted(before)
        recital.arranged.undo()
        assert recital.names == ["Mireille", *before[:-1]]
        recital.arranged.undo()
        assert recital.names == before
        with pytest.raises(Refused, match="last item already"):
            recital.recitals.steps.move(recital.id, recital.item("Mireille").id, 1)


def test_pins_hold_in_a_drafted_order(tmp_path):
    with played(tmp_path) as recital:
        recital.change("Nalani", "first")
        recital.change("Ishaan", "last")
        recital.change("Wren", "after teodor")
        recital.recitals.steps.draft_order(recital.id)
        names = recital.names
        assert (names[0], names[-1]) == ("Nalani", "Ishaan")
        assert names.index("Wren") > names.index("Teodor")
        with pytest.raises(BadInput, match="Type one of: Nalani"):
            recital.change("Wren", "after beatriz")
        with pytest.raises(BadInput, match="after itself"):
            recital.change("Wren", "after wren")


def test_a_student_who_withdraws_leaves_no_gap_and_undo_brings_back_what_was_noted(tmp_path):
    with played(tmp_path) as recital:
        item = recital.item("Teodor")
        recital.recitals.steps.note(item, NotedThing.BY_HEART, recital.id, is_yes=True)
        recital.recitals.steps.remove_item(recital.id, item.id)
        assert [row.number for row in recital.program.rows] == [1, 2, 3, 4, 5, 6, 7]
        recital.arranged.undo()
        noted = {each.what: each for each in recital.recitals.reading.readiness(item).noted}
        assert noted[Ready.BY_HEART].answer is NotedAnswer.YES
        assert recital.item("Teodor") == item


def test_what_was_noted_has_the_day_it_was_said_and_only_what_there_is_is_asked(tmp_path):
    with played(tmp_path, items=()) as recital:
        recital.add("Ilse", "the old mill 3:00, by heart, costume miller's apron, with a track")
        item = recital.item("Ilse")
        noted = {each.what: (each.answer, each.on) for each in recital.recitals.reading.readiness(item).noted}
        assert noted[Ready.BY_HEART] == (NotedAnswer.YES, date(2026, 12, 1))
        assert noted[Ready.COSTUME] == noted[Ready.TRACK] == noted[Ready.SOUND] == (NotedAnswer.NOT_SAID, None)
        assert Ready.PROPS not in noted
        recital.clock.at = home("2026-12-08 10:00")
        recital.recitals.steps.note(item, NotedThing.COSTUME, recital.id, is_yes=False)
        recital.recitals.steps.note(item, NotedThing.BY_HEART, recital.id, is_yes=None)
        noted = {each.what: (each.answer, each.on) for each in recital.recitals.reading.readiness(item).noted}
        assert noted[Ready.COSTUME] == (NotedAnswer.NO, date(2026, 12, 8))
        assert noted[Ready.BY_HEART][0] is NotedAnswer.NOT_SAID


def test_a_rehearsal_has_the_items_of_its_recital_and_who_attended_is_noted(tmp_path):
    with played(tmp_path) as recital:
        recitals = recital.recitals
        recitals.lines.do(recitals.lines.propose_child(recital.id, "sat dec 12 11am", is_rehearsal=True))
        (rehearsal,) = recital.program.rehearsals
        assert (rehearsal.held_on, rehearsal.at) == (date(2026, 12, 12), time(11))
        assert recitals.reading.items(rehearsal.id) == recitals.reading.items(recital.id)
        item = recital.item("Wren")
        recitals.steps.note(item, NotedThing.REHEARSED, rehearsal.id, is_yes=True)
        recital.clock.at = home("2026-12-13 10:00")
        assert recitals.reading.readiness(item).rehearsals == (date(2026, 12, 12),)
        with pytest.raises(Refused, match="has the items of its recital"):
            recitals.lines.propose_item(rehearsal.id, recital.student("Wren"), "Two Sparrows 2:00")
        recitals.steps.remove(rehearsal.id)
        assert recital.program.rehearsals == ()
        recital.arranged.undo()
        assert recitals.reading.readiness(item).rehearsals == (date(2026, 12, 12),)


def test_a_duet_is_one_number_and_each_keeps_the_own_part(tmp_path):
    with played(tmp_path, items=EIGHT[:3]) as recital:
        recital.add("Ilse", "Gavotte 2:30, costume red scarf, with wren")
        assert recital.names == ["Ishaan", "Teodor", "Tobin", "Ilse and Wren"]
        assert recital.program.times.music == 90 + 120 + 135 + 150
        assert recital.item("Wren").costume is None
        recital.change("Wren", "3:00, costume blue hat")
        assert (recital.item("Ilse").seconds, recital.item("Ilse").costume) == (180, "red scarf")
        recital.change("Ilse", "with grandpa joe, note hum the first line to her")
        assert recital.item("Ilse").with_whom == "grandpa joe"
        assert (recital.item("Wren").with_whom, recital.item("Wren").note) == (None, None)  # of the other family
        recital.recitals.steps.move(recital.id, recital.item("Wren").id, -3)
        assert recital.names[0] == "Ilse and Wren"
        recital.recitals.steps.remove_item(recital.id, recital.item("Ilse").id)
        assert recital.names[0] == "Wren"


@pytest.mark.parametrize(
    ("line", "understood", "told"),
    [
        # Chicago skips 2:00 to 3:00 am on March 14, 2027, and repeats 1:00 to 2:00 am on November 7; by the zone data.
        (
            "x, sun mar 14 2027 2:30am", "Sunday, March 14, 2027, 2:30 am.",
            ["2:30 am does not exist in Chicago on Sun, March 14: the clock skips it. The start is at 3:30 am."],
        ),
        (
            "x, sun nov 7 2027 1:30am", "Sunday, November 7, 2027, 1:30 am.",
            ["1:30 am comes twice in Chicago on Sun, November 7. The start is at the first of the two."],
        ),
        (
            "x, sun nov 7 2027 12pm", "Sunday, November 7, 2027, 12:00 pm.",
            ["The clock changes in Chicago on Sun, November 7. The start is at 12:00 pm there."],
        ),
        ("x, sat nov 6 2027 12pm", "Saturday, November 6, 2027, 12:00 pm.", []),
        (
            "x, sat dec 19 6pm london", "Saturday, December 19, 2026, 6:00 pm in London.",
            ["That is Sat, December 19, 12:00 pm on your clock."],
        ),
        ("x, sat dec 19 6pm mexico city", "Saturday, December 19, 2026, 6:00 pm in Mexico City.", []),
        (
            "x, sun mar 28 2027 1:30am london", "Sunday, March 28, 2027, 1:30 am in London.",
            [
                "That is Sat, March 27, 8:30 pm on your clock.",
                "1:30 am does not exist in London on Sun, March 28: the clock skips it. The start is at 2:30 am.",
            ],
        ),
    ],
)  # fmt: skip
def test_the_line_says_the_zone_and_what_a_clock_change_does_to_the_start(tmp_path, line, understood, told):
    with arranged_studio(tmp_path, ROSTER, "2026-12-01 08:00") as arranged:
        proposal = arranged.studio.desk.recitals().lines.propose_new(line)
        assert proposal.understood == f"x: day and time: {understood}"
        assert list(proposal.troubles) == told


def test_a_clock_that_changes_for_a_family_is_told_where_the_time_is_set_and_on_the_screen(tmp_path):
    with played(tmp_path, items=(("Teodor", "Lantern Song 2:00"), ("Wren", "Two Sparrows 2:00"))) as recital:
        # London repeats 1:00 to 2:00 am on October 31, 2027: 7:30 and 8:30 pm in Chicago the evening before.
        for line, which in (("sat oct 30 2027 7:30pm", "first"), ("sat oct 30 2027 8:30pm", "second")):
            told = f"1:30 am comes twice in London on Sun, October 31. The start is at the {which} of the two."
            proposal = recital.recitals.lines.propose_change(recital.id, line)
            assert told in proposal.troubles
            recital.recitals.lines.do(proposal)
            (turned,) = recital.against(AgainstRecital.CLOCK)
            assert trouble_words(turned, recital.arranged.studio.preferences.home) == told
        rehearsal = recital.recitals.lines.propose_child(recital.id, "sun mar 28 2027 12pm", is_rehearsal=True)
        assert rehearsal.troubles == ("The clock changes in London on Sun, March 28. The start is at 6:00 pm there.",)


def test_half_a_pair_of_surrogates_in_a_line_is_kept_as_a_sign_and_a_link_has_its_commas(tmp_path):
    link = "https://call.example.org/winter,tales;b?at=1,2"
    with played(
        tmp_path, items=EIGHT[:1], line=f"winter \ud83d tales, sat dec 19 12pm, link {link}, online"
    ) as recital:
        assert recital.recitals.reading.recital(recital.id).name == "winter \ufffd tales"
        assert (recital.program.recital.link, recital.program.recital.is_online) == (link, True)
        recital.change("Ishaan", "story the \udc00 moon")
        assert recital.item("Ishaan").story == "the \ufffd moon"
        recital.arranged.undo()
        assert recital.item("Ishaan").story is None


def test_two_students_named_behind_with_both_play_along_and_each_has_a_place_in_the_order(tmp_path):
    with played(tmp_path, items=EIGHT[:1]) as recital:
        recital.add("Ilse", "Gavotte 2:30, with teodor and wren")
        assert recital.names == ["Ishaan", "Ilse and Teodor and Wren"]
        assert {recital.item(name).piece for name in ("Ilse", "Teodor", "Wren")} == {"Gavotte"}
        assert (recital.item("Teodor").instrument, recital.item("Wren").instrument) == ("guitar", "cello")
        papers = recital.desk.recital_papers()
        for each in papers.view(recital.id).families[1:]:
            assert (
                papers.made(recital.id, each.family.id)[0].text.count("a student") >= 2
            )  # the two others, who may not be named
        recital.add("Wren", "Solo 2:00")  # right behind the trio that she plays in
        rules = [(each.row.number, each.broken.rule) for each in recital.against(AgainstRecital.ORDER)]
        assert (3, Rule.STUDENT) in rules
        assert set(recital.recitals.reading.readiness_of(recital.recitals.reading.items(recital.id))) == {
            each.id for each in recital.recitals.reading.items(recital.id)
        }
        recital.arranged.undo()
        recital.arranged.undo()
        assert recital.names == ["Ishaan"]


def test_a_name_is_shown_only_where_it_may_be(tmp_path):
    with played(tmp_path) as recital:
        arranged = recital.arranged
        arranged.done(Purpose.DETAILS, "2026-12-08", "Ilse", "may be named, seen in a recital")
        change = recital.recitals.lines.propose_item_change
        (told,) = change(recital.id, recital.item("Wren").id, "shown as W. A.").troubles
        assert told == 'Wren is shown as "W. A."; permission to be named: not said.'
        assert change(recital.id, recital.item("Ilse").id, "shown as Ilse B.").troubles == ()
        recital.change("Wren", "shown as W. A.")
        named = [
            each for each in recital.recitals.reading.readiness(recital.item("Wren")).noted if each.what is Ready.NAMED
        ]
        assert [each.answer for each in named] == [NotedAnswer.NOT_SAID]
        arranged.done(Purpose.DETAILS, "2026-12-08", "Wren", "may not be named")
        (told,) = change(recital.id, recital.item("Wren").id, "shown as W.").troubles
        assert told == 'Wren is shown as "W."; permission to be named: no, Tue, December 1.'
        shown = {each.called: each.shown_as for row in recital.program.rows for each in row.performers}
        assert (shown["Ilse"], shown["Wren"], shown["Teodor"]) == ("Ilse", "W. A.", "a student")
        assert "Ilse" not in [each.performer.called for each in recital.against(AgainstRecital.NOT_SEEN)]
        assert len(recital.against(AgainstRecital.NOT_SEEN)) == 7


def test_who_is_paused_on_a_break_or_has_ended_is_told(tmp_path):
    with played(tmp_path) as recital:
        arranged = recital.arranged
        arranged.done(Purpose.PAUSE, "2026-12-08", "Ilse", "2026-12-14 to 2027-01-10")
        arranged.done(Purpose.BREAK, "2026-12-08", "Teodor", "okonjo dec 18 to dec 30")
        roster = recital.desk.roster()
        (entry,) = (each for each in roster.view().entries if each.student.name == "Eilidh")
        recital.desk.arranging.do(roster.propose(Purpose.END, entry, "after dec 15"))
        told = [
            (each.kind, each.performer.called)
            for each in recital.program.troubles
            if each.because or each.kind is AgainstRecital.ENDED
        ]
        assert told == [
            (AgainstRecital.ON_BREAK, "Teodor"), (AgainstRecital.PAUSED, "Ilse"), (AgainstRecital.ENDED, "Eilidh"),
        ]  # fmt: skip


def test_what_is_over_the_limit_or_has_no_length_is_told(tmp_path):
    with played(tmp_path) as recital:
        recital.recitals.lines.do(recital.recitals.lines.propose_change(recital.id, "30m"))
        (over,) = recital.against(AgainstRecital.OVER_LIMIT)
        assert over.seconds == 35 * 60 + 15 - 30 * 60
        recital.change("Wren", "no length")
        (missing,) = recital.against(AgainstRecital.NO_LENGTH)
        assert missing.row.performers[0].called == "Wren"


def test_a_length_that_nobody_typed_is_worked_out_of_measures_and_tempo(tmp_path):
    with played(tmp_path, items=(), now="2026-11-24 12:00") as recital:
        arranged, pages = recital.arranged, recital.desk.pages()
        arranged.write("2026-11-24", "Ilse", "Piece: The Old Mill, whole, q=96")
        recital.clock.at = home("2026-12-01 08:00")
        ilse = recital.student("Ilse")
        proposal = pages.propose(ilse, pages.history(ilse, "old mill"), "96 measures, composer anna of eyne")
        recital.desk.arranging.do(proposal)
        said = recital.add("Ilse", "the old mill, by heart")
        item = recital.item("Ilse")
        # 96 measures of four at 96 in a minute: 240 seconds.
        assert (item.seconds, item.is_computed, item.piece, item.composer) == (
            240,
            True,
            "The Old Mill",
            "anna of eyne",
        )
        assert "length: 4:00, computed" in said
        recital.change("Ilse", "3:40")
        assert (recital.item("Ilse").seconds, recital.item("Ilse").is_computed) == (220, False)


def test_the_day_goes_on_from_where_it_was_after_the_program_was_killed(tmp_path):
    with played(tmp_path) as recital:
        number, clock = recital.id, recital.clock
        clock.at = home("2026-12-19 12:00")
        assert recital.recitals.live.go_on(number).has_begun
        clock.at = home("2026-12-19 12:04")
        now = recital.recitals.live.go_on(number)
        assert (now.playing.performers[0].called, now.following[0].performers[0].called) == ("Ishaan", "Teodor")
        assert (now.behind, now.elapsed, now.remaining) == (60, 240, 90)
    with studio_at(tmp_path, clock, to_write=True) as studio:
        recitals = studio.desk.recitals()
        assert recitals.reading.now(number).playing.performers[0].called == "Ishaan"
        clock.at += timedelta(seconds=95)
        between = recitals.live.go_on(number)
        assert (between.playing, between.behind, between.played) == (None, 65, 1)
        skipped = recitals.live.skip(number)
        assert skipped.following[0].performers[0].called == "Tobin"
        later = recitals.live.move_to_end(number)
        assert later.following[-1].performers[0].called == "Tobin"
        assert recitals.live.go_back(number).following[0].performers[0].called == "Teodor"


def test_real_lengths_are_kept_and_the_end_ends_it(tmp_path):
    with played(tmp_path, items=EIGHT[:1]) as recital:
        for at in ("12:00", "12:03", "12:05", "12:06"):
            recital.clock.at = home(f"2026-12-19 {at}")
            now = recital.recitals.live.go_on(recital.id)
        assert now.is_over
        assert recital.recitals.reading.lengths_played(recital.student("Ishaan"), "paper boats") == (
            (date(2026, 12, 19), 120),
        )
        recital.recitals.lines.do(recital.recitals.lines.propose_new("spring tales, may 8 2027 3pm"))
        (spring,) = recital.recitals.reading.view().coming
        ishaan = recital.student("Ishaan")
        recital.recitals.lines.do(recital.recitals.lines.propose_item(spring.recital.id, ishaan, "paper boats"))
        (again,) = recital.recitals.reading.items(spring.recital.id)
        assert (again.seconds, again.is_computed) == (120, True)
        recital.recitals.steps.remove(spring.recital.id)
        with pytest.raises(Refused, match="is over"):
            recital.recitals.live.go_on(recital.id)
        assert [each.recital.id for each in recital.recitals.reading.view().past] == [recital.id]
        for _ in range(4):
            now = recital.recitals.live.go_back(recital.id)
        assert not now.has_begun
        with pytest.raises(Refused, match="has not begun"):
            recital.recitals.live.go_back(recital.id)


def test_a_recital_is_removed_whole_and_comes_back_whole(tmp_path):
    with played(tmp_path) as recital:
        recital.recitals.lines.do(
            recital.recitals.lines.propose_child(recital.id, "sat dec 12 11am", is_rehearsal=True)
        )
        before = recital.program
        recital.recitals.steps.remove(recital.id)
        assert recital.recitals.reading.view().coming == ()
        with pytest.raises(NotFound):
            recital.recitals.reading.program(recital.id)
        recital.arranged.undo()
        assert recital.program == before


def test_a_recital_keeps_its_local_time_across_a_clock_change_and_two_on_one_day_are_told_apart(tmp_path):
    with played(tmp_path, items=(), line="march music, sat mar 13 2027 12pm") as recital:
        assert recital.program.starts_at == home("2027-03-13 12:00")
        recital.recitals.lines.do(recital.recitals.lines.propose_change(recital.id, "mar 14 2027"))
        assert recital.program.starts_at == home("2027-03-14 12:00")
        recital.recitals.lines.do(recital.recitals.lines.propose_new("evening music, mar 14 2027 7pm"))
        names = [each.recital.name for each in recital.recitals.reading.view().coming]
        assert names == ["march music", "evening music"]
        assert recital.program.rows == ()


def test_forty_items_and_a_title_of_300_characters(tmp_path):
    with played(tmp_path, items=()) as recital:
        for number in range(5):
            for name, _ in EIGHT:
                recital.add(name, f"{'x' * 297} {number:02d} 1:00")
        assert len(recital.program.rows) == 40
        recital.recitals.steps.draft_order(recital.id)
        assert [row.number for row in recital.program.rows] == list(range(1, 41))


def test_an_item_is_typed_with_its_student_and_its_whole_line_takes_away_what_it_leaves_out(tmp_path):
    with played(tmp_path, items=()) as recital:
        recitals = recital.recitals
        line = "ilse the old mill 3:00, costume miller's apron, story the mill, note lower the stand"
        recitals.lines.do(recitals.lines.propose_typed_item(recital.id, line))
        item = recital.item("Ilse")
        typed = recitals.lines.line_of_item(recital.id, item.id)
        assert typed.startswith("piece the old mill, 3:00, on cello, costume miller's apron")
        without = typed.replace(", costume miller's apron", "")
        recitals.lines.do(recitals.lines.propose_item_change(recital.id, item.id, without, is_whole=True))
        after = recital.item("Ilse")
        assert (after.costume, after.story, after.note, after.seconds) == (None, "the mill", "lower the stand", 180)
        recital.desk.teaching.undo()
        assert recital.item("Ilse") == item
        whole = recitals.lines.line_of(recital.id).replace(", theme snow and night", "")
        recitals.lines.do(recitals.lines.propose_change(recital.id, whole, is_whole=True))
        assert recitals.reading.recital(recital.id).theme is None
        assert recitals.reading.recital(recital.id).minutes_limit == 60


def test_a_change_says_what_would_stand_against_the_recital_and_does_not_yet(tmp_path):
    with played(tmp_path) as recital:
        (trouble,) = recital.recitals.lines.propose_change(recital.id, "8am").troubles
        assert trouble == "It is night for the Kealoha family: Sat 4:00 am in Honolulu."
        assert recital.recitals.lines.propose_change(recital.id, "theme night").troubles == ()
        assert recital.recitals.lines.propose_change(recital.id, "30m").troubles == (
            "The recital is 5:15 over its limit.",
        )


def test_an_item_goes_into_another_sitting_with_what_was_noted_of_it_and_comes_back(tmp_path):
    with played(tmp_path) as recital:
        recitals, ishaan = recital.recitals, recital.item("Ishaan")
        recitals.steps.note(ishaan, NotedThing.BY_HEART, recital.id, is_yes=True)
        recitals.lines.do(recitals.lines.propose_child(recital.id, "sat dec 12 11am", is_rehearsal=True))
        (rehearsal,) = recital.program.rehearsals
        recitals.steps.note(ishaan, NotedThing.REHEARSED, rehearsal.id, is_yes=True)
        recitals.lines.do(recitals.lines.propose_child(recital.id, "sat dec 19 7:30pm", is_rehearsal=False))
        (sitting,) = recital.program.sittings
        recitals.steps.move_to_sitting(ishaan, sitting.id)
        assert "Ishaan" not in recital.names
        (there,) = recitals.reading.items(sitting.id)
        assert {each.what: each.answer for each in recitals.reading.readiness(there).noted}[
            Ready.BY_HEART
        ] is NotedAnswer.YES
        assert list(recitals.reading.rehearsed(there)) == [rehearsal.id]
        assert recital.against(AgainstRecital.NIGHT) == []
        with pytest.raises(Refused, match="in this sitting already"):
            recitals.steps.move_to_sitting(there, sitting.id)
        recital.desk.teaching.undo()
        assert recital.item("Ishaan") == ishaan
        assert {each.what: each.answer for each in recitals.reading.readiness(ishaan).noted}[
            Ready.BY_HEART
        ] is NotedAnswer.YES


def test_a_break_of_the_studio_on_the_day_is_told_once(tmp_path):
    with played(tmp_path) as recital:
        assert recital.against(AgainstRecital.CLOSED) == []
        arranging = recital.desk.arranging
        arranging.do(arranging.propose(Purpose.BREAK, None, "dec 18 to jan 3 holidays"))
        assert len(recital.against(AgainstRecital.CLOSED)) == 1
        assert recital.against(AgainstRecital.ON_BREAK) == []


def test_a_recital_is_live_from_its_beginning_to_its_end_or_for_half_a_day(tmp_path):
    with played(tmp_path, now="2026-12-19 12:00") as recital:
        recitals = recital.recitals
        assert recitals.reading.live() is None
        recitals.live.go_on(recital.id)
        assert recitals.reading.live() == recital.id
        recital.clock.wind(hours=13)
        assert recitals.reading.live() is None


def test_a_draft_says_what_it_could_not_keep(tmp_path):
    with played(tmp_path, items=(("Teodor", "Lantern Song 2:00"), ("Tobin", "Blue Kettle 1:00"))) as recital:
        assert recital.recitals.steps.draft_order(recital.id) == (
            "The items are in a drafted order. Move them as you like. "
            "Teodor's Lantern Song has the instrument of the item before."
        )


def test_what_a_student_plays_is_known_up_to_the_day(tmp_path):
    with played(tmp_path) as recital:
        recital.recitals.lines.do(
            recital.recitals.lines.propose_child(recital.id, "sat dec 12 11am", is_rehearsal=True)
        )
        ((listed, item),) = recital.recitals.reading.to_come_of(recital.student("Ilse"))
        assert (listed.recital.id, listed.weeks, item.piece) == (recital.id, 3, "The Old Mill")
        recital.clock.wind(days=30)
        assert recital.recitals.reading.to_come_of(recital.student("Ilse")) == ()


def test_a_rehearsal_that_goes_takes_what_was_noted_of_an_item_in_another_sitting_and_undo_brings_it_back(tmp_path):
    with played(tmp_path) as recital:
        recitals, store = recital.recitals, recital.arranged.studio.store

        def noted():
            return store.connection.execute("SELECT * FROM recital_noted ORDER BY 1, 2, 3").fetchall()

        recitals.lines.do(recitals.lines.propose_child(recital.id, "sat dec 12 11am", is_rehearsal=True))
        recitals.lines.do(recitals.lines.propose_child(recital.id, "sat dec 19 7pm", is_rehearsal=False))
        program = recitals.reading.program(recital.id)
        recitals.steps.note(recital.item("Nalani"), NotedThing.REHEARSED, program.rehearsals[0].id, is_yes=True)
        recitals.steps.move_to_sitting(recital.item("Nalani"), program.sittings[0].id)
        before = noted()
        assert before
        recitals.steps.remove(program.rehearsals[0].id)
        assert noted() == []
        recital.desk.teaching.undo()
        assert noted() == before


def test_an_item_behind_the_first_of_two_by_one_student_says_so_in_its_line(tmp_path):
    with played(tmp_path) as recital:
        recital.add("Ilse", "Mill Wheel 1:00, after the old mill")
        item = recital.recitals.reading.items(recital.id)[-1]
        line = recital.recitals.lines.line_of_item(recital.id, item.id)
        assert line.endswith("after The Old Mill")
        with pytest.raises(Refused, match="so already"):
            recital.recitals.lines.propose_item_change(recital.id, item.id, line, is_whole=True)
