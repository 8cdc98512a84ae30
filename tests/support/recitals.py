"""The recital of the sample studio, planned at the desk."""

import tomllib
from importlib import resources

from cockpit.studio.changes.recital import NotedThing, RecitalId


def planned_recital(desk, *, noted=True) -> RecitalId:
    """The recital of the sample with its rehearsal, its eight items, and what was noted of them."""
    text = (resources.files("cockpit") / "sample" / "recital.toml").read_text(encoding="utf-8")
    recitals, planned = desk.recitals(), tomllib.loads(text)
    recitals.lines.do(recitals.lines.propose_new(planned["line"]))
    (listed,) = recitals.reading.view().coming
    recital_id = listed.recital.id
    recitals.lines.do(recitals.lines.propose_child(recital_id, planned["rehearsal"], is_rehearsal=True))
    for each in planned["items"]:
        student = desk.finding.student(each["student"]).student
        recitals.lines.do(recitals.lines.propose_item(recital_id, student.id, each["line"]))
        item = recitals.reading.items(recital_id)[-1]
        for said in each["noted"] if noted else ():
            recitals.steps.note(
                item, NotedThing(said.removeprefix("not ")), recital_id, is_yes=not said.startswith("not ")
            )
    return recital_id
