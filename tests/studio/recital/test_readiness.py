"""What was noted of an item: facts with their dates. Spans of time are common practice, no source."""

from datetime import date

from support.pieces import given_line
from support.studio import ISHAAN

from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.permissions import Permission, Shown
from cockpit.studio.pieces.history import histories
from cockpit.studio.recital.readiness import ItemFacts, ItemNeeds, NotedAnswer, Ready, Tick, readiness, weeks_to
from cockpit.studio.values import replace

TODAY, THE_DAY = date(2026, 12, 1), date(2026, 12, 19)
LINE = "Piece: Paper Boats q=60 to 80"


def piece(*lines):
    (found,) = histories(lines, {})
    return found


def noted(facts):
    return {each.what: (each.answer, each.on) for each in readiness(facts, THE_DAY, TODAY).noted}


def test_the_tempo_heard_and_the_goal_have_the_date_of_their_lesson():
    heard = piece(given_line("11-17", LINE, heard=66), given_line("11-24", LINE, heard=72))
    found = readiness(ItemFacts(needs=ItemNeeds(), piece=heard), THE_DAY, TODAY)
    assert (found.heard.tempo, found.goal, found.heard.on) == (72, 80, date(2026, 11, 24))


def test_clean_runs_are_those_of_the_last_14_days():
    lines = [
        replace(given_line(on, LINE, Mark.MORE_WORK), clean_runs=runs)
        for on, runs in (("11-10", 1), ("11-17", 2), ("11-18", 4), ("11-24", 8))
    ]
    found = readiness(ItemFacts(needs=ItemNeeds(), piece=piece(*lines)), THE_DAY, TODAY)
    assert (found.clean_runs, found.last_given) == (12, date(2026, 11, 24))


def test_of_an_item_without_a_piece_in_the_notes_nothing_is_claimed():
    found = readiness(ItemFacts(needs=ItemNeeds()), THE_DAY, TODAY)
    assert (found.heard, found.goal, found.last_given, found.clean_runs) == (None, None, None, None)


def test_whether_a_name_may_be_shown_is_asked_where_one_was_typed():
    assert noted(ItemFacts(needs=ItemNeeds(named=True)))[Ready.NAMED] == (NotedAnswer.NOT_SAID, None)
    assert Ready.NAMED not in noted(ItemFacts(needs=ItemNeeds()))
    given = Permission(student_id=ISHAAN.id, what=Shown.NAMED, is_given=True, said_on=TODAY)
    facts = ItemFacts(needs=ItemNeeds(named=True), permissions=(given,))
    assert noted(facts)[Ready.NAMED] == (NotedAnswer.YES, TODAY)


def test_each_thing_is_yes_no_or_not_said_and_what_was_not_said_has_no_date():
    ticks = {
        Ready.BY_HEART: Tick(is_yes=True, on=date(2026, 11, 24)),
        Ready.PROPS: Tick(is_yes=False, on=TODAY),
    }
    facts = ItemFacts(needs=ItemNeeds(costume=True, props=True), ticks=ticks)
    assert noted(facts) == {
        Ready.BY_HEART: (NotedAnswer.YES, date(2026, 11, 24)),
        Ready.COSTUME: (NotedAnswer.NOT_SAID, None),
        Ready.PROPS: (NotedAnswer.NO, TODAY),
        Ready.PERMISSION: (NotedAnswer.NOT_SAID, None),
        Ready.RECORDING: (NotedAnswer.NOT_SAID, None),
    }


def test_sound_is_asked_about_online_alone_and_a_story_or_a_track_where_there_is_one():
    here = noted(ItemFacts(needs=ItemNeeds()))
    there = noted(ItemFacts(needs=ItemNeeds(online=True, story=True, track=True)))
    assert set(there) - set(here) == {Ready.SOUND, Ready.STORY, Ready.TRACK}


def test_permission_is_that_for_the_day_of_the_recital():
    given = Permission(
        student_id=ISHAAN.id, what=Shown.RECITAL, is_given=True, said_on=TODAY, until_on=date(2026, 12, 18)
    )
    refused = replace(given, what=Shown.RECORDED, is_given=False, until_on=None)
    found = noted(ItemFacts(needs=ItemNeeds(), permissions=(given, refused)))
    assert (found[Ready.PERMISSION], found[Ready.RECORDING]) == ((NotedAnswer.NO, TODAY), (NotedAnswer.NO, TODAY))
    lasting = replace(given, until_on=THE_DAY)
    assert noted(ItemFacts(needs=ItemNeeds(), permissions=(lasting,)))[Ready.PERMISSION] == (NotedAnswer.YES, TODAY)


def test_rehearsals_are_those_that_were_attended_so_far():
    days = (date(2026, 12, 12), date(2026, 11, 28))
    assert readiness(ItemFacts(needs=ItemNeeds(), rehearsals=days), THE_DAY, TODAY).rehearsals == days[1:]


def test_the_weeks_to_the_day_count_the_one_that_has_begun():
    on_days = [date(2026, 12, 1), date(2026, 12, 5), date(2026, 12, 12), date(2026, 12, 19), date(2026, 12, 20)]
    assert [weeks_to(THE_DAY, each) for each in on_days] == [3, 2, 1, 0, 0]
