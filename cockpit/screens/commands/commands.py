"""Every command once: the bindings, the key strip, Find, Help, `cockpit keys` and the guide are made from it.

The strip of a screen has its commands in this order.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Place(StrEnum):
    """Where a command's keys are heard: everywhere, on a screen, or in a pane of the lesson day.

    Each has the `page` of the guide that Help opens there, at a `heading`, or at its beginning.
    """

    EVERYWHERE = "everywhere", "first-day", ""
    DAY = "the lesson day", "lesson", ""
    NOTES = "the notes", "lesson", "Notes"
    LAST = "last assignments", "assignments", ""
    QUEUE = "the queue", "calendar", ""
    REVIEW = "the end of the day", "end-of-day", ""
    AHEAD = "coming up", "coming-up", ""
    WEEK = "the week", "calendar", "The week"
    YEAR = "the year", "calendar", "The studio year"
    OUTBOX = "the outbox", "sending", "The outbox"
    INQUIRIES = "inquiries", "inquiries", ""
    WAYS = "how notes are sent", "sending", "How notes are sent"
    PREVIEW = "the preview", "sending", "The preview"
    EARLIER = "earlier lessons", "lesson", "Earlier lessons"
    FIND = "find", "first-day", "Finding your way"
    HELP = "help", "first-day", "Finding your way"

    page: str
    heading: str

    def __new__(cls, said: str, page: str, heading: str) -> "Place":
        """A place as it is said, with the page of the guide that Help opens there, and the heading in it; none is its beginning."""
        place = str.__new__(cls, said)
        place._value_, place.page, place.heading = said, page, heading
        return place

    @property
    def screen(self) -> "Place":
        """The screen that a place is on: its own, but for the panes of the lesson day."""
        return Place.DAY if self in {Place.NOTES, Place.LAST, Place.QUEUE} else self

    @property
    def is_typed_in(self) -> bool:
        """Whether a letter is text there, and cannot be the key of a command."""
        return self in {Place.EVERYWHERE, Place.DAY, Place.NOTES, Place.FIND, Place.HELP}

    def is_heard_with(self, other: "Place") -> bool:
        """Whether there is a moment at which keys of both are heard: a screen hears its own in each of its panes."""
        return Place.EVERYWHERE in {self, other} or self is other or self is other.screen or self.screen is other


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """One thing that a key does. `keys` are alternatives; `short` is its word in the key strip, if it has a place in it.

    `words` are what she may call it, for Find; `opens` is the screen that the command opens, as `module:class`: it is imported when it is first opened. Any other
    command is an action of what hears it.
    """

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    place: Place = Place.DAY
    short: str = ""
    words: str = ""
    opens: str = ""

    @property
    def action(self) -> str:
        """The action that carries the command out, for what hears it: its id without the place."""
        if self.opens:
            return f"app.open_screen('{self.opens}')"
        name = self.id.split(".", 1)[1]
        return f"app.{name}" if self.place is Place.EVERYWHERE else name


COMMANDS: tuple[Command, ...] = (
    Command(
        id="lesson.begin",
        keys=("f2", "ctrl+r"),
        label="Begin or reopen the lesson",
        short="begin",
        help="Begins this lesson, or reopens it if it is finished, absent, or canceled.",
        words="start open clock timer reopen resume",
    ),
    Command(
        id="lesson.give_full_length",
        keys=("f3", "ctrl+e"),
        label="Give all the minutes",
        short="all minutes",
        help="If the lesson began late, moves its end so that the student gets all the minutes. Shows which lessons will start late.",
        words="extend late longer more time minutes",
    ),
    Command(
        id="app.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Undoes your last step: begin, finish, absent, canceled, all minutes, or a mark. To undo typing, press ctrl+z.",
        words="back revert mistake oops",
    ),
    Command(
        id="lesson.go_next",
        keys=("f5", "ctrl+l"),
        label="Go to the next lesson",
        short="next lesson",
        help="Shows the day's next lesson. After the last one, starts again with the first.",
        words="student forward skip",
    ),
    Command(
        id="lesson.mark_absent",
        keys=(),
        label="Mark absent",
        help="Marks the student absent. In the queue, press a.",
        words="no-show missing sick did not come",
    ),
    Command(
        id="lesson.mark_cancelled",
        keys=(),
        label="Mark canceled",
        help="Canceled in time or late, by your notice period. Again switches. In the queue, press c.",
        words="cancel cancelled sick off",
    ),
    Command(
        id="lesson.show_earlier",
        keys=("f7", "ctrl+k"),
        label="Earlier lessons",
        short="earlier",
        help="Reads this student's earlier lessons, the last one first. Your notes stay as they are.",
        words="history previous past last time back notes before student page",
    ),
    Command(
        id="lesson.finish",
        keys=("f9", "ctrl+s"),
        label="Finish the lesson",
        short="finish",
        help="Finishes the lesson, sends the practice notes the way the family gets them, and shows the next student.",
        words="end stop done send save complete",
    ),
    Command(
        id="app.show_review",
        keys=("f10", "ctrl+t"),
        label="End of the day",
        short="end of day",
        help="Lessons taught, notes sent, anything missing, what you owe, and tomorrow.",
        words="summary to-do todo owed follow-up evening tick",
        opens="cockpit.screens.day.day_review:DayReviewScreen",
    ),
    Command(
        id="app.show_ahead",
        keys=("ctrl+b",),
        label="Coming up",
        short="coming up",
        help="Scheduling problems in the next year, clock changes, make-ups owed, breaks, and pauses.",
        words="conflicts problems collisions clock change daylight saving make-ups breaks pauses seats holidays next",
        opens="cockpit.screens.calendar.ahead:AheadScreen",
    ),
    Command(
        id="app.show_week",
        keys=("ctrl+a",),
        label="The week",
        short="week",
        help="Seven days on both clocks, with breaks and free times. You can move lessons here.",
        words="calendar schedule timetable agenda plan days",
        opens="cockpit.screens.calendar.week:WeekScreen",
    ),
    Command(
        id="app.show_year",
        keys=(),
        label="The studio year",
        short="year",
        help="Lessons taught and planned by student and month, compared with the lesson times in your year.",
        words="statistics totals attendance count report",
        opens="cockpit.screens.calendar.year:YearScreen",
    ),
    Command(
        id="lesson.preview",
        keys=("f11", "ctrl+backslash"),
        label="Preview the practice notes",
        short="preview",
        help="What the family will read. Works before and after you finish the lesson.",
        words="print paper page see handout family sheet browser pdf",
    ),
    Command(
        id="app.show_inquiries",
        keys=(),
        label="Inquiries",
        short="inquiries",
        help="Who asked about lessons, until when you answer, trials, and the waiting list.",
        words="inquiry enquiry asked new student lead waiting list trial mail eml",
        opens="cockpit.screens.inquiries.inquiries:InquiriesScreen",
    ),
    Command(
        id="app.show_outbox",
        keys=(),
        label="The outbox",
        short="outbox",
        help="What was sent, what is waiting, and what was refused and why. Retry, change an address, or withdraw notes.",
        words="mail email e-mail send sent waiting failed resend ways",
        opens="cockpit.screens.post.outbox:OutboxScreen",
    ),
    Command(
        id="lesson.open_link",
        keys=("f12", "ctrl+o"),
        label="Open the call link",
        short="call",
        help="Opens this lesson's call in your browser and shows the link.",
        words="zoom video meet meeting link join browser",
    ),
    Command(
        id="pane.show_next",
        keys=("tab",),
        label="Go to the next pane",
        short="last time",
        help="Moves between notes, last assignments, and queue. A narrow screen shows one at a time.",
        words="switch focus assignments queue",
    ),
    Command(
        id="pane.show_notes",
        keys=("escape",),
        label="Back to the notes",
        help="Returns to the notes from any pane.",
        words="return close leave write",
    ),
    Command(
        id="day.show_today",
        keys=("ctrl+n",),
        label="Show today",
        short="today",
        help="Returns to today's queue.",
        words="now home return",
    ),
    Command(
        id="notes.take_word",
        keys=("right",),
        label="Accept the next word",
        help="Accepts one word of the suggestion. Keep typing to ignore it.",
        words="suggestion completion right",
        place=Place.NOTES,
    ),
    Command(
        id="notes.take_all",
        keys=("end",),
        label="Accept the whole suggestion",
        help="Accepts the dim words after the cursor, or expands your abbreviation.",
        words="suggestion completion complete abbreviation",
        place=Place.NOTES,
    ),
    Command(
        id="assignment.mark_done",
        keys=("d",),
        label="Mark: done",
        short="done",
        help="Marks the chosen assignment as done.",
        words="finished learned good tick",
        place=Place.LAST,
    ),
    Command(
        id="assignment.mark_more_work",
        keys=("m",),
        label="Mark: more work",
        short="more",
        help="Marks the chosen assignment as needing more work.",
        words="again keep repeat",
        place=Place.LAST,
    ),
    Command(
        id="assignment.mark_not_yet",
        keys=("n",),
        label="Mark: not yet",
        short="not yet",
        help="Marks the chosen assignment as not practiced yet.",
        words="not practiced forgot later",
        place=Place.LAST,
    ),
    Command(
        id="assignment.drop",
        keys=("x",),
        label="Mark: dropped",
        short="drop",
        help="Marks the chosen assignment as dropped.",
        words="delete remove stop cross out",
        place=Place.LAST,
    ),
    Command(
        id="assignment.tap",
        keys=("t",),
        label="Tap the tempo",
        short="tap",
        help="Tap at least four times along with the student's playing, then press enter to save the tempo. You can also type the number.",
        words="metronome bpm beat speed heard",
        place=Place.LAST,
    ),
    Command(
        id="assignment.count_clean_run",
        keys=("r",),
        label="Count a clean run-through",
        short="clean",
        help="Adds one clean run-through to the chosen assignment.",
        words="run-through runs mistakes",
        place=Place.LAST,
    ),
    Command(
        id="assignment.carry",
        keys=("c",),
        label="Carry over to today's notes",
        short="carry over",
        help="Assigns it again in today's notes, starting from the tempo you heard.",
        words="copy repeat again give keep",
        place=Place.LAST,
    ),
    Command(
        id="queue.move",
        keys=("m",),
        label="Move the lesson",
        short="move",
        help="Moves the lesson. Type a time, such as thu 4:30pm or 4 pm phoenix.",
        words="reschedule change time postpone shift",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.mark_absent",
        keys=("a",),
        label="Mark absent",
        short="absent",
        help="Marks the student of the chosen lesson absent.",
        words="no-show missing sick did not come",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.mark_cancelled",
        keys=("c",),
        label="Mark canceled",
        short="canceled",
        help="In time or late, by your notice period. Press again to switch. A lesson canceled in time can be made up.",
        words="cancel cancelled sick off",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.make_up",
        keys=("u",),
        label="Book a make-up",
        short="make-up",
        help="Makes up a lesson that this student canceled in time, or that you called off.",
        words="makeup replace catch up",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.book_extra",
        keys=("e",),
        label="Book an extra lesson",
        short="extra",
        help="Books one more lesson for this student.",
        words="add lesson new additional",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.show_inquiries",
        keys=("q",),
        label="Inquiries",
        short="inquiries",
        help="Who asked about lessons, until when you answer, trials, and the waiting list.",
        words="inquiry enquiry asked new student lead waiting list trial mail eml",
        place=Place.QUEUE,
        opens="cockpit.screens.inquiries.inquiries:InquiriesScreen",
    ),
    Command(
        id="queue.book_trial",
        keys=("t",),
        label="Book a trial lesson",
        short="trial",
        help="Type a name and a time. A new name is added as a student.",
        words="add student new student pupil inquiry first enroll",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.change_standing_time",
        keys=("s",),
        label="Change the weekly time",
        short="weekly time",
        help="Changes the weekly time from a date on, to every week or every other week, or ends it on a date. Past lessons do not change.",
        words="reschedule regular standing time slot length end quit every other week",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.add_student",
        keys=("n",),
        label="Add a student",
        short="new student",
        help="A name, an instrument, a weekly time, an email address, with commas between them. On a trial lesson: the one who had it stays.",
        words="enroll register sibling join roster",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.change_details",
        keys=("d",),
        label="Change details",
        short="details",
        help="What the roster has of this student and the family: names, language, clock, email, remark, practice, link.",
        words="rename address phone edit roster language link",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.call_off",
        keys=("i",),
        label="Call lessons off",
        short="call off",
        help="You cannot teach: the chosen lesson, a day, from a time on. Each family gets a letter of its own, and a make-up is owed.",
        words="ill sick cancel away today",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.write",
        keys=("w",),
        label="Write to the family",
        short="write",
        help="A short letter about the chosen lesson, in the family's language and on its clock: what became of it, or three free times.",
        words="letter mail email message tell reschedule suggest propose",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.add_break",
        keys=("b",),
        label="Add a break",
        short="break",
        help="Days with no lessons, for the whole studio or one family.",
        words="holiday vacation pause days off closed",
        place=Place.QUEUE,
    ),
    Command(
        id="queue.pause",
        keys=("p",),
        label="Pause a student",
        short="pause",
        help="No lessons of the chosen student from a day on, or through another. The weekly time is kept unless you free it.",
        words="pause summer away sabbatical hold no lessons one student",
        place=Place.QUEUE,
    ),
    Command(
        id="review.mark_taught",
        keys=("d",),
        label="Mark as taught",
        short="taught",
        help="Finishes the chosen lesson, as F9 does in it: its notes are sent the way the family gets them.",
        words="done happened",
        place=Place.REVIEW,
    ),
    Command(
        id="review.mark_absent",
        keys=("a",),
        label="Mark absent",
        short="absent",
        help="Marks the student of the chosen lesson absent.",
        words="no-show missing sick did not come",
        place=Place.REVIEW,
    ),
    Command(
        id="review.mark_cancelled",
        keys=("c",),
        label="Mark canceled",
        short="canceled",
        help="In time or late, by your notice period. Press again to switch.",
        words="cancel cancelled sick off",
        place=Place.REVIEW,
    ),
    Command(
        id="review.add_owed",
        keys=("plus",),
        label="Add something you owe",
        short="owe",
        help="Something that comes from no lesson: once, by a day, or again and again. It stands here until you check it off.",
        words="todo task reminder duty remember order buy",
        place=Place.REVIEW,
    ),
    Command(
        id="review.write_out",
        keys=("f9", "ctrl+s"),
        label="Save this page",
        short="save",
        help="Saves this page in the studio folder as Markdown.",
        words="export markdown file print",
        place=Place.REVIEW,
    ),
    Command(
        id="review.close",
        keys=("escape", "f10", "ctrl+t"),
        label="Back to the lesson day",
        short="back",
        help="Closes End of the day.",
        place=Place.REVIEW,
    ),
    Command(
        id="review.show_inquiries",
        keys=("q",),
        label="Inquiries",
        short="inquiries",
        help="Who asked about lessons, until when you answer, trials, and the waiting list.",
        words="inquiry enquiry asked new student waiting list trial",
        place=Place.REVIEW,
        opens="cockpit.screens.inquiries.inquiries:InquiriesScreen",
    ),
    Command(
        id="review.show_outbox",
        keys=("o",),
        label="The outbox",
        short="outbox",
        help="What was sent, what is waiting, and what was refused and why.",
        words="mail email e-mail send sent waiting failed resend",
        place=Place.REVIEW,
        opens="cockpit.screens.post.outbox:OutboxScreen",
    ),
    Command(
        id="review.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Takes the last check mark back, or what a lesson was marked as. Same as on the lesson day.",
        place=Place.REVIEW,
    ),
    Command(
        id="review.show_day_before",
        keys=("left",),
        label="Previous day",
        short="before",
        help="Shows the previous day.",
        words="yesterday earlier",
        place=Place.REVIEW,
    ),
    Command(
        id="review.show_day_after",
        keys=("right",),
        label="Next day",
        short="after",
        help="Shows the next day.",
        words="tomorrow later",
        place=Place.REVIEW,
    ),
    Command(
        id="ahead.move",
        keys=("m",),
        label="Move the conflicting lesson",
        short="move",
        help="Moves the later of the two lessons, this once.",
        words="reschedule",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.change_standing_time",
        keys=("s",),
        label="Change the conflicting weekly time",
        short="weekly time",
        help="From a date on, permanently.",
        words="reschedule regular slot",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.accept",
        keys=("x",),
        label="Leave as is",
        short="leave",
        help="You will not be warned about it again. Press again to undo.",
        words="ignore accept keep dismiss",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.write_messages",
        keys=("w",),
        label="Write to the affected families",
        short="write",
        help="Saves a message in the studio folder for each family whose lesson time changes, and for no other.",
        words="mail email letter tell families print",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.close",
        keys=("escape", "ctrl+b"),
        label="Back to the lesson day",
        short="back",
        help="Closes Coming up.",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Same as on the lesson day.",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.pause",
        keys=("p",),
        label="Change the pause",
        help="Type until aug 31 to end it, or frees the time with its days.",
        words="pause end until comes back",
        place=Place.AHEAD,
    ),
    Command(
        id="ahead.take_out",
        keys=("delete",),
        label="Remove the break or the pause",
        help="Its lessons are back on.",
        words="delete break holiday cancel",
        place=Place.AHEAD,
    ),
    Command(
        id="week.close",
        keys=("escape", "ctrl+a"),
        label="Back to the lesson day",
        short="back",
        help="Closes the week.",
        place=Place.WEEK,
    ),
    Command(
        id="week.show_before",
        keys=("left",),
        label="Previous week",
        short="before",
        help="Shows the previous week.",
        place=Place.WEEK,
    ),
    Command(
        id="week.show_after",
        keys=("right",),
        label="Next week",
        short="after",
        help="Shows the next week.",
        place=Place.WEEK,
    ),
    Command(
        id="week.move",
        keys=("m",),
        label="Move the chosen lesson",
        short="move",
        help="Moves the lesson this once. Type a time, such as thu 4:30pm or 4 pm phoenix.",
        words="reschedule change time postpone",
        place=Place.WEEK,
    ),
    Command(
        id="week.show_this",
        keys=("t",),
        label="Show this week",
        short="this week",
        help="Returns to this week.",
        place=Place.WEEK,
    ),
    Command(
        id="week.show_year",
        keys=("y",),
        label="Show the studio year",
        short="year",
        help="Lessons by student and month, compared with the lesson times in your year.",
        words="statistics totals attendance count",
        place=Place.WEEK,
        opens="cockpit.screens.calendar.year:YearScreen",
    ),
    Command(
        id="week.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Same as on the lesson day.",
        place=Place.WEEK,
    ),
    Command(
        id="year.mark_taught",
        keys=("d",),
        label="Mark as taught",
        short="taught",
        help="Marks what is not marked in the chosen month, year, or row of all students. You are asked before.",
        place=Place.YEAR,
    ),
    Command(
        id="year.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Same as on the lesson day. What was marked together is taken back together.",
        place=Place.YEAR,
    ),
    Command(
        id="year.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="Closes the year.",
        place=Place.YEAR,
    ),
    Command(
        id="outbox.try_again",
        keys=("r",),
        label="Try again",
        short="try again",
        help="Sends the chosen notes now. If they may already have arrived, the family might get them twice.",
        words="resend retry mail email",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.try_all_again",
        keys=("a",),
        label="Retry everything",
        short="retry all",
        help="Sends everything that is waiting or was refused.",
        words="resend retry mail email",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.take_as_sent",
        keys=("y",),
        label="They arrived",
        short="arrived",
        help="Confirms that the family has the notes: they are not sent again. A draft that you sent is deleted from drafts.",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.copy",
        keys=("c",),
        label="Copy the letter",
        short="copy",
        help="Copies a letter for a family that gets neither email nor drafts, for you to send. The outbox keeps it as sent.",
        words="clipboard paste",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.change_address",
        keys=("e",),
        label="Change the address",
        short="address",
        help="Replaces this address in the roster and sends to the new one.",
        words="mail email guardian",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.withdraw",
        keys=("w",),
        label="Withdraw",
        short="withdraw",
        help="Keeps the chosen notes from being sent. To send them after all, retry them.",
        words="cancel stop delete recall",
        place=Place.OUTBOX,
    ),
    Command(
        id="outbox.show_ways",
        keys=("s",),
        label="How notes are sent",
        short="ways",
        help="Shows how each way is set up, and lets you test it.",
        words="mail email password setup server",
        place=Place.OUTBOX,
        opens="cockpit.screens.post.ways:WaysScreen",
    ),
    Command(
        id="outbox.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="Closes the outbox.",
        place=Place.OUTBOX,
    ),
    Command(
        id="inquiries.write",
        keys=("w",),
        label="Write the answer",
        short="write",
        help="Shows your answer with three free times on both clocks. You can change it; F9 sends it and marks the inquiry answered.",
        words="reply answer respond email by phone",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.add",
        keys=("n",),
        label="New inquiry",
        short="new",
        help="Type who asks, for whom, what, and when, with commas between. Then paste what they wrote.",
        words="add enquiry asked",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.add_mail",
        keys=("i",),
        label="New inquiry from a saved email",
        short="from a mail",
        help="Reads an .eml file. Attachments are named, not kept.",
        words="eml file import message form",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.book_trial",
        keys=("t",),
        label="Book the trial lesson",
        short="trial",
        help="Type a time. The name, the instrument, the address, and the city are known.",
        words="first lesson",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.enroll",
        keys=("j",),
        label="Becomes a student",
        short="student",
        help="Type a weekly time, such as fri 2pm 45m from dec 11. Who had the trial stays the same student, with its notes.",
        words="join enroll weekly time begins",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.note_reply",
        keys=("r",),
        label="They wrote again",
        short="wrote again",
        help="Notes that it is your turn. A closed inquiry is open again.",
        words="reply reopen",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.put_on_list",
        keys=("l",),
        label="Put on the waiting list",
        short="waiting list",
        help="Type the times that would suit, on their clock. You are told when a weekly time becomes free that fits.",
        words="wait later seat",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.finish",
        keys=("x",),
        label="Close the inquiry",
        short="close",
        help="Type why: no answer, chose somebody else, or I have no time. The age is deleted now, the rest after some months.",
        words="decline end no answer",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.change",
        keys=("e",),
        label="Change what is known",
        short="change",
        help="The same line again, with what you know so far. Enter on an inquiry shows what they wrote.",
        words="edit correct address instrument",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.undo",
        keys=("f4", "ctrl+u"),
        label="Undo the last step",
        short="undo",
        help="Same as on the lesson day.",
        place=Place.INQUIRIES,
    ),
    Command(
        id="inquiries.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="Closes Inquiries.",
        place=Place.INQUIRIES,
    ),
    Command(
        id="ways.test",
        keys=("t",),
        label="Send me a test",
        short="test",
        help="Tests the chosen way with a page that names no student, sent to your own address, the folder, or the clipboard.",
        words="try mail email",
        place=Place.WAYS,
    ),
    Command(
        id="ways.keep_password",
        keys=("p",),
        label="Save the password",
        short="password",
        help="Saves your email password in the system's keyring. It is never shown.",
        words="mail email login keyring",
        place=Place.WAYS,
    ),
    Command(
        id="ways.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="Closes How notes are sent.",
        place=Place.WAYS,
    ),
    Command(
        id="preview.open_page",
        keys=("o",),
        label="Open the page in the browser",
        short="page",
        help="Shows the page as the family sees it.",
        words="print paper browser pdf sheet",
        place=Place.PREVIEW,
    ),
    Command(
        id="preview.close",
        keys=("escape", "f11", "ctrl+backslash"),
        label="Back",
        short="back",
        help="Closes the preview.",
        place=Place.PREVIEW,
    ),
    Command(
        id="earlier.show_older",
        keys=("pageup", "left"),
        label="The lesson before",
        short="older",
        help="Shows the student's lesson before this one.",
        place=Place.EARLIER,
    ),
    Command(
        id="earlier.show_newer",
        keys=("pagedown", "right"),
        label="The lesson after",
        short="newer",
        help="Shows the student's lesson after this one, up to the one you came from.",
        place=Place.EARLIER,
    ),
    Command(
        id="earlier.close",
        keys=("escape", "f7", "ctrl+k"),
        label="Back to the lesson day",
        short="back",
        help="Closes the earlier lessons. The cursor is where it was.",
        place=Place.EARLIER,
    ),
    Command(
        id="find.choose",
        keys=("enter",),
        label="Open or do what is chosen",
        short="open or do",
        help="Opens the student's lesson, or does the command.",
        place=Place.FIND,
    ),
    Command(
        id="find.show_next_group",
        keys=("tab",),
        label="Go to the next group",
        short="next group",
        help="From the students to the commands, and back.",
        place=Place.FIND,
    ),
    Command(
        id="find.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="Closes Find.",
        place=Place.FIND,
    ),
    Command(
        id="help.choose",
        keys=("enter",),
        label="Do it, or open the page",
        short="do it",
        help="Does the chosen command, or opens the chosen page of the guide.",
        place=Place.HELP,
    ),
    Command(
        id="help.turn_on",
        keys=("right",),
        label="The next page of the guide",
        short="guide",
        help="Opens the guide at the place you came from, then turns its pages.",
        place=Place.HELP,
    ),
    Command(
        id="help.turn_back",
        keys=("left",),
        label="The page before",
        help="Turns back a page of the guide.",
        place=Place.HELP,
    ),
    Command(
        id="help.close",
        keys=("escape",),
        label="Back",
        short="back",
        help="From a page to the list, and from there to where you came from.",
        place=Place.HELP,
    ),
    Command(
        id="app.show_help",
        keys=("f1", "ctrl+g"),
        label="Help",
        short="help",
        help="Every command with its keys. Choose one to run it.",
        words="guide manual keys shortcuts signs how",
        place=Place.EVERYWHERE,
    ),
    Command(
        id="student.find",
        keys=("f8", "ctrl+f"),
        label="Find a student or a command",
        short="find",
        help="Type any part of a name, or what you want to do. A student opens at today's lesson, or the next one.",
        words="search look up name family pupil",
        place=Place.EVERYWHERE,
    ),
    Command(
        id="app.show_curtain",
        keys=("f6", "ctrl+d"),
        label="Curtain: hide the screen to share it",
        short="curtain",
        help="Shows the first name of the student whose lesson is running, and nothing private. Press again to lift it.",
        words="share sharing hide private privacy cover present",
        place=Place.EVERYWHERE,
    ),
    Command(
        id="app.command_palette",
        keys=("ctrl+p",),
        label="Find a command",
        help="The same as Find, with the commands first.",
        words="palette search run action menu",
        place=Place.EVERYWHERE,
    ),
    Command(
        id="app.quit",
        keys=("ctrl+q",),
        label="Close the cockpit",
        short="close",
        help="Everything is saved. The next time you open the cockpit, you are back where you were, clock included.",
        words="exit quit leave stop",
        place=Place.EVERYWHERE,
    ),
    Command(
        id="theme.show_next",
        keys=(),
        label="Show the next theme",
        help="It is kept: the line `theme` of settings.toml is changed.",
        words="color colors dark light look appearance",
        place=Place.EVERYWHERE,
    ),
)
BY_ID: Mapping[str, Command] = {command.id: command for command in COMMANDS}


_KEY_NAMES = {"escape": "esc", "ctrl+backslash": "ctrl+\\", "pageup": "page up", "pagedown": "page down"}


def key_name(key: str) -> str:
    """A key as it is printed: `F9`, `ctrl+s`."""
    return key.upper() if key[:1] == "f" and key[1:].isdigit() else _KEY_NAMES.get(key, key)


def keys_of(command: Command) -> str:
    """All keys of a command as they are printed: `F9 or ctrl+s`; empty if it has none."""
    return " or ".join(map(key_name, command.keys))
