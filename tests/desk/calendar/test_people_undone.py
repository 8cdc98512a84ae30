"""Any steps with people in any order, then undo: every record is as it was before each of them."""

import tempfile
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule
from support.arranged_studio import arranged_studio
from support.examples import examples
from support.rows import everything

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between
from cockpit.studio.errors import BadInput, Refused

LINES = {
    Purpose.STUDENT: (
        "nora bell, cello, fri 2pm phoenix 45m from dec 11, ana.bell@example.org",
        "tobin, guitar, wed 4pm 30m, with ilse",
        "marta, voice",
        "sat 10am 30m from dec 12, family bell",
    ),
    Purpose.DETAILS: (
        "call her Runa",
        "family Quist",
        "language es, clock 24",
        "25 a day",
        "instrument viola",
        "remark -",
        "zone denver from jan 4",
        "no move",
        "may be named, recorded until jun 30, 2027",
        "level elementary, link https://call.example.org/two",
    ),
    Purpose.CHANGE: ("60m from dec 14", "tue 5pm from dec 15", "through dec 18", "from jan 12 every other week"),
    Purpose.PAUSE: ("dec 7 to jan 31", "from jan 4, frees the time", "dec 14 to dec 20 trip"),
    Purpose.TRIAL: ("piet amsel thu 5pm", "sunna thu 6pm phoenix"),
    Purpose.CALL_OFF: ("", "until thursday", "today ill"),
    Purpose.BREAK: ("dec 21 to jan 3", "brandvold dec 8"),
    Purpose.MOVE: ("fri 11am", "sat 5pm"),
}
OF_THE_ROSTER = {
    Purpose.END: ("after dec 18, moved away", "today", "after jan 8, keep lessons"),
    Purpose.GUARDIANS: ("ana ana@example.org notes", "phone ana +1 602 555 0100", "not ana@example.org"),
    Purpose.CHANGE: ("instrument viola from dec 14", "45m from dec 14"),
}
ASKED = ("ana bell for nora 8, cello, phoenix, ana@example.org, tue after 4pm", "jo amsel for piet 6, piano, london")
STEPS = {
    Purpose.INQUIRY: ("jo amsel for piet 7, piano, london", "r. castellan, adult, guitar, halifax"),
    Purpose.TRIAL: ("nora bell thu 5pm phoenix", "piet amsel thu 3pm"),
    Purpose.STUDENT: ("nora bell, cello, fri 2pm phoenix 45m", "sat 10am 30m, family amsel"),
    Purpose.WAITING: ("tue after 4pm", "mon or fri"),
    Purpose.CLOSE: ("no answer", "i have no time"),
}


class PeopleUndone(RuleBasedStateMachine):
    """Students and inquiries that come, change, pause, and end."""

    @initialize()
    def open(self) -> None:
        self.temporary = tempfile.TemporaryDirectory()
        self.folder = Path(self.temporary.name)
        with arranged_studio(self.folder):
            pass  # the roster that is read is a step, too: what follows begins with none
        self.context = arranged_studio(self.folder, roster="")
        self.arranged = self.context.__enter__()
        self.desk = self.arranged.studio.desk
        self.before: list[dict[str, list[str]]] = []

    def step(self, take) -> None:
        state = everything(self.folder)
        try:
            take()
        except (BadInput, Refused):
            assert everything(self.folder) == state
        else:
            self.before.append(state)
        self.desk.day.reload()

    @rule(
        line=st.sampled_from([(purpose, line) for purpose, lines in LINES.items() for line in lines]),
        place=st.integers(0, 11),
    )
    def type_a_line(self, line: tuple[Purpose, str], place: int) -> None:
        preferences = self.arranged.studio.preferences
        now = self.arranged.clock.now()
        reading = self.arranged.studio.store.reading
        found, _ = bookings_between(reading, now, now + timedelta(days=16), preferences.home)
        booking = found[place % len(found)] if found else None
        arranging = self.desk.arranging
        self.step(lambda: arranging.do(arranging.propose(line[0], booking, line[1])))

    @rule(
        line=st.sampled_from([(purpose, line) for purpose, lines in OF_THE_ROSTER.items() for line in lines]),
        place=st.integers(0, 7),
    )
    def type_a_line_in_the_roster(self, line: tuple[Purpose, str], place: int) -> None:
        roster = self.desk.roster()
        entries = roster.view().entries
        self.step(lambda: self.desk.arranging.do(roster.propose(line[0], entries[place % len(entries)], line[1])))

    @rule(years=st.integers(3, 4))
    def keep_a_family_that_ended_long_ago(self, years: int) -> None:
        at = self.arranged.clock.at
        self.arranged.clock.wind(hours=24 * 366 * years)
        for ended in self.desk.ahead.outlook(1).ended:
            self.step(lambda ended=ended: self.desk.arranging.keep_ended(ended))
        self.arranged.clock.at = at

    @rule(line=st.sampled_from(ASKED))
    def ask(self, line: str) -> None:
        inquiring = self.desk.inquiring()
        self.step(lambda: inquiring.do(inquiring.propose(None, Purpose.INQUIRY, line)))

    @rule(
        line=st.sampled_from([(purpose, line) for purpose, lines in STEPS.items() for line in lines]),
        place=st.integers(0, 3),
    )
    def go_on_with_an_inquiry(self, line: tuple[Purpose, str], place: int) -> None:
        inquiring, asked = self.desk.inquiring(), self.arranged.studio.store.reading.inquiries()
        if asked:
            number = asked[place % len(asked)].id
            self.step(lambda: inquiring.do(inquiring.propose(number, line[0], line[1])))

    @rule(place=st.integers(0, 3))
    def answer(self, place: int) -> None:
        inquiring, asked = self.desk.inquiring(), self.arranged.studio.store.reading.inquiries()
        if asked:
            number = asked[place % len(asked)].id
            self.step(lambda: inquiring.answering.by_phone(number))
            self.step(lambda: inquiring.they_wrote(number))

    @rule(hours=st.integers(1, 30))
    def wait(self, hours: int) -> None:
        self.arranged.clock.wind(hours=hours)

    @rule()
    def undo(self) -> None:
        if self.before:
            self.desk.teaching.undo()
            assert everything(self.folder) == self.before.pop()
        else:
            with pytest.raises(Refused, match="Nothing to undo"):
                self.desk.teaching.undo()

    def teardown(self) -> None:
        if hasattr(self, "context"):
            while self.before:
                self.undo()
            self.context.__exit__(None, None, None)
            self.temporary.cleanup()


TestPeopleUndone = PeopleUndone.TestCase
TestPeopleUndone.settings = settings(examples(5, long=25), stateful_step_count=15, deadline=None)
