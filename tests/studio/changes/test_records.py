"""A change to the studio as a value: it can be turned around."""

from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, ILSE, STARTS_AT, lesson, standing

from cockpit.studio.changes.records import Change, Edit, Export, FollowUp, MarkSet, Note, added
from cockpit.studio.lessons.lesson import begin
from cockpit.studio.notes.notes import Mark
from cockpit.studio.values import replace

ID = lesson().id
RECORDS = [
    BRANDVOLD,
    ILSE,
    replace(ILSE, remark="shy since the autumn"),
    standing(),
    lesson(),
    begin(lesson(), STARTS_AT),
    Note(lesson_id=ID, body="Elbow low.", changed_at=STARTS_AT),
    MarkSet(lesson_id=ID, line="Scales: D major", mark=Mark.MORE_WORK),
    FollowUp(lesson_id=ID, body="send the fingering"),
    Export(lesson_id=ID, path="notes/Brandvold/2026-12-01 Ilse.md", is_final=True, exported_at=STARTS_AT),
]


def edit(pair):
    before, after = pair
    return Edit(before=before, after=after)


some_record = st.none() | st.sampled_from(RECORDS)
some_edits = st.lists(st.tuples(some_record, some_record).map(edit)).map(tuple)


def test_new_records_come_in_from_nothing():
    assert added(BRANDVOLD, ILSE) == (Edit(before=None, after=BRANDVOLD), Edit(before=None, after=ILSE))
    assert added() == ()


def test_taking_a_change_back_undoes_its_last_edit_first():
    change = Change(said="enroll Ilse", edits=added(BRANDVOLD, ILSE))
    assert change.turned_around().edits == (Edit(before=ILSE, after=None), Edit(before=BRANDVOLD, after=None))


@given(some_edits)
def test_a_change_turned_around_twice_is_itself(edits):
    change = Change(said="begin Ilse's lesson", edits=edits)
    assert change.turned_around().turned_around() == change
    assert change.turned_around().said == change.said


@given(st.lists(st.integers(0, 3)))
def test_a_change_and_its_turned_around_lead_back_to_where_they_began(slots):
    versions = [None, *(replace(ILSE, daily_minutes=minutes) for minutes in range(10))]
    held: dict[int, object] = dict.fromkeys(range(4))
    before_it, edits = dict(held), []
    for count, slot in enumerate(slots):
        after = versions[count % len(versions)]
        edits.append((slot, Edit(before=held[slot], after=after)))
        held[slot] = after
    change = Change(said="several", edits=tuple(edit for _, edit in edits))
    for slot, edit in zip(reversed(slots), change.turned_around().edits, strict=True):
        assert held[slot] == edit.before
        held[slot] = edit.after
    assert held == before_it
