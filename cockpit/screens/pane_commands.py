"""The commands of the lesson day's two lists: the last assignments and the queue."""

from cockpit.screens.command import Command, Where

PANE_COMMANDS: tuple[Command, ...] = (
    Command(
        id="assignment.mark_done",
        keys=("d",),
        label="Mark: done",
        help="The chosen assignment of last time is done.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.mark_more_work",
        keys=("m",),
        label="Mark: more work",
        help="The chosen assignment needs more work.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.mark_not_yet",
        keys=("n",),
        label="Mark: not yet",
        help="The chosen assignment was not practiced yet.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.drop",
        keys=("x",),
        label="Mark: dropped",
        help="The chosen assignment is not worked on any more.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.tap",
        keys=("t",),
        label="Tap the tempo",
        help="Four taps or more along with the student's playing; Enter keeps it. Digits do as well.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.count_clean_run",
        keys=("r",),
        label="Count a clean run-through",
        help="One more of the chosen assignment.",
        where=Where.LAST,
    ),
    Command(
        id="assignment.carry",
        keys=("c",),
        label="Carry into today's notes",
        help="The chosen assignment is given again, from the tempo it was heard at.",
        where=Where.LAST,
    ),
    Command(
        id="queue.move",
        keys=("m",),
        label="Move the lesson",
        help="To another time: a line such as thu 4:30pm, or 4 pm phoenix.",
        where=Where.QUEUE,
    ),
    Command(
        id="queue.make_up",
        keys=("u",),
        label="Book a make-up",
        help="For a lesson of this student that was cancelled in time.",
        where=Where.QUEUE,
    ),
    Command(
        id="queue.book_extra",
        keys=("e",),
        label="Book an extra lesson",
        help="One more for this student.",
        where=Where.QUEUE,
    ),
    Command(
        id="queue.book_trial",
        keys=("t",),
        label="Book a trial lesson",
        help="For a name and a time; somebody new becomes a student.",
        where=Where.QUEUE,
    ),
    Command(
        id="queue.change_standing_time",
        keys=("s",),
        label="Change the standing time",
        help="From a date on, every week or every second one, or until a date; the past stays as it was.",
        where=Where.QUEUE,
    ),
    Command(
        id="queue.add_break",
        keys=("b",),
        label="Add a break",
        help="Days without lessons, for the studio or one family.",
        where=Where.QUEUE,
    ),
)
