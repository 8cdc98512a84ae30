"""What lies ahead on the screen: what will collide, clocks that change, make-ups owed, breaks, pauses."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.desk.calendar.ahead import MakeUpOwed
from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.screens.commands.commands import Place
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.calendar.clock_changes import ChangeAhead
from cockpit.studio.clocks.horizons import WEEKS_OF_CHANGES
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.scheduled import ScheduledLesson

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import Outlook
    from cockpit.studio.lessons.breaks import TimeOff


class AheadScreen(CockpitScreen):
    """Enter goes to the lesson that collides, books the make-up that is owed, or settles owed minutes."""

    PLACE = Place.AHEAD
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, about: "MakeUpOwed | ChangeAhead | TimeOff | None" = None) -> None:
        super().__init__(parts)
        self.outlook: Outlook | None = None
        self._about = about

    def body(self) -> Iterable[Widget]:
        """The list."""
        rows = Rows(id="ahead", markup=False)
        rows.rules_group = True
        yield rows

    def on_mount(self) -> None:
        """Shows it, with the cursor on what was asked about."""
        self.show()
        rows = self.query_one(Rows)
        if (place := self._place_asked()) in {option.id for option in rows.options}:
            rows.highlighted = rows.get_option_index(place)
        rows.focus()

    def show(self) -> None:
        """Looks again; the cursor stays on its line."""
        outlook = self.outlook = self.desk.ahead.outlook(WEEKS_OF_CHANGES)
        home, to_settle = self.settings.preferences.home, outlook.to_settle
        owed = len(outlook.owed) + len(outlook.owed_minutes)
        facts = (f"{to_settle} to settle" if to_settle else "", f"{owed} owed" if owed else "")
        self.entitle(f"the next {outlook.weeks} weeks", ", ".join(filter(None, facts)))
        self.query_one(Rows).lay_out(lambda width: ahead_options(outlook, home, width))

    def _place_asked(self) -> str:
        """Returns the id of the row that was asked about, or an empty text where that row is gone."""
        outlook, about = self.outlook, self._about
        if outlook is None:
            return ""
        if isinstance(about, ChangeAhead):
            days = [each.changed_on for each in outlook.changes]
            return f"change:{days.index(about.changed_on)}" if about.changed_on in days else ""
        if isinstance(about, MakeUpOwed):
            return f"owed:{outlook.owed.index(about)}" if about in outlook.owed else ""
        return f"break:{outlook.breaks.index(about)}" if about in outlook.breaks else ""

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes to the lesson, or books the make-up."""
        event.stop()
        kind, number = self._line()
        if kind == "minutes" and self.outlook is not None:
            from cockpit.screens.lost_minutes import ask_to_settle  # when something is owed

            ask_to_settle(self, self.outlook.owed_minutes[number])
            return
        booking, purpose = self._chosen()
        if booking is None:
            return
        if purpose is Purpose.MAKE_UP:
            self._arrange(Purpose.MAKE_UP)
        else:
            on = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(on, booking.lesson.id))

    def action_move(self) -> None:
        """Moves the chosen lesson."""
        self._arrange(Purpose.MOVE)

    def action_change_standing_time(self) -> None:
        """Changes the chosen lesson's weekly time from a date on."""
        self._arrange(Purpose.CHANGE)

    def action_pause(self) -> None:
        """Changes the chosen pause: when it ends, or what becomes of the time."""
        kind, number = self._line()
        each = self.outlook.breaks[number] if self.outlook is not None and kind == "break" else None
        if not isinstance(each, Pause):
            self.say("Choose a pause first.", is_fault=True)
            return
        booking = self.desk.ahead.paused_lesson(each)
        if booking is None:
            self.say("This pause has no lesson in the next four months. You can remove it.", is_fault=True)
        else:
            self.ask_for_line(Purpose.PAUSE, booking)

    def action_accept(self) -> None:
        """Leaves the chosen trouble as it is, or lets the chosen make-up go; or takes that back."""
        self.step(self._accept)

    def action_write_messages(self) -> None:
        """Writes what the families concerned are to be told."""
        self.attempt(self._write_messages)

    def action_take_out(self) -> None:
        """Takes the chosen break or pause out again."""
        self.step(self._take_out)

    def _accept(self) -> str:
        kind, number = self._line()
        outlook = self.outlook
        if outlook is not None and kind in {"owed", "let_go"}:
            lesson = outlook.owed[number].lesson if kind == "owed" else outlook.let_go[number]
            return self.desk.arranging.let_go(lesson.id, is_let_go=kind == "owed")
        if outlook is not None and kind == "ended":
            return self.desk.arranging.keep_ended(outlook.ended[number])
        if outlook is None or kind not in {"trouble", "accepted"}:
            raise Refused("Choose a scheduling problem, a make-up, or a family that ended first.")
        group = (outlook.troubles if kind == "trouble" else outlook.accepted)[number]
        self.desk.arranging.accept(group, is_accepted=kind == "trouble")
        return (
            "Left as is. You will not be warned again unless it changes."
            if kind == "trouble"
            else "You will be warned again."
        )

    def _write_messages(self) -> None:
        paths = self.desk.ahead.write_messages(WEEKS_OF_CHANGES)
        if not paths:
            raise Refused(
                f"No family's lesson time changes in the next {WEEKS_OF_CHANGES} weeks, so there is no one to write to."
            )
        names = counted(len(paths), "message")
        self.say(f"{names} ready to send in {paths[0].parent.relative_to(self.desk.folder)}")

    def _take_out(self) -> str:
        kind, number = self._line()
        if self.outlook is None or kind != "break":
            raise Refused("Choose a break or a pause to remove.")
        each = self.outlook.breaks[number]
        self.desk.arranging.take_out(each)
        self.desk.day.reload()
        return f"{'Pause' if isinstance(each, Pause) else 'Break'} removed. Its lessons are back on."

    def _arrange(self, purpose: Purpose) -> None:
        booking, _ = self._chosen()
        if booking is None:
            self.say("Choose a lesson first.", is_fault=True)
        else:
            self.ask_for_line(purpose, booking)

    def _line(self) -> tuple[str, int]:
        """What kind the chosen line is of, and its number."""
        option = self.query_one(Rows).highlighted_option
        kind, _, number = (option.id if option is not None and option.id else "").partition(":")
        return kind, int(number) if number.isdecimal() else 0

    def _chosen(self) -> tuple[ScheduledLesson | None, Purpose | None]:
        """The lesson of the chosen line: the later one of two that collide, or the one to make up."""
        kind, number = self._line()
        if self.outlook is None:
            return None, None
        if kind == "trouble":
            first = self.outlook.troubles[number].first
            return first.other or first.booking, Purpose.MOVE
        if kind == "owed":
            return self.outlook.booking_of(self.outlook.owed[number].lesson), Purpose.MAKE_UP
        return None, None
