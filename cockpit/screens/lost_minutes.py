"""What becomes of minutes that a lost call cost: asked at the end of the lesson, and wherever they are owed."""

from datetime import timedelta

from cockpit.screens.asking import AskingScreen, Choice
from cockpit.screens.screen import CockpitScreen
from cockpit.studio.clocks.words import minutes_of
from cockpit.studio.lessons.calls import LostMinutes, OwedMinutes, Settled
from cockpit.studio.lessons.scheduled import ScheduledLesson

GIVE, OWE, LET_BE, GIVEN = "g", "o", "l", "d"


def ask_at_finish(screen: CockpitScreen, booking: ScheduledLesson, lost: LostMinutes) -> None:
    """Asks whether a lesson that is to be finished gets its lost minutes now or later, or not at all."""
    desk, minutes = screen.desk, lost.minutes
    finishes = "Finishes the lesson."
    owes = "A rehearsal owes nothing." if desk.clock.is_rehearsal else "They are in Coming up until you give them."
    answers = [
        Choice(letter=OWE, word=f"Owe {minutes}", does=f"{finishes} {owes}", keys=_keys(screen, "lesson.finish")),
        Choice(letter=LET_BE, word="Let be", does=f"{finishes} Nothing is owed."),
    ]
    if desk.calls.lost is None:
        answers.insert(0, _give(screen, booking, minutes))

    def answered(letter: str | None) -> None:
        if letter == GIVE:
            screen.step(lambda: desk.calls.give(lost))
        elif letter is not None:
            screen.step(lambda: screen.finished(desk.teaching.finish(lets_be=letter == LET_BE)))

    question = f"{booking.student.name} lost {minutes_of(minutes)} of the call."
    screen.app.push_screen(AskingScreen(question, answers), answered)


def ask_to_settle(screen: CockpitScreen, owed: OwedMinutes) -> None:
    """Asks what became of minutes that are owed."""
    desk, running = screen.desk, screen.desk.day.running
    answers = [
        Choice(letter=GIVEN, word="Given", does="You taught them meanwhile."),
        Choice(letter=LET_BE, word="Let be", does="Nothing is owed any more."),
    ]
    if running is not None and running.student.id == owed.student.id and desk.calls.lost is None:
        answers.insert(0, _give(screen, running, owed.minutes))

    def answered(letter: str | None) -> None:
        if letter == GIVE:
            screen.step(lambda: desk.calls.give(owed.lost))
        elif letter is not None:
            screen.step(lambda: desk.calls.settle(owed, Settled.GIVEN if letter == GIVEN else Settled.LET_BE))

    question = f"You owe {owed.student.name} {minutes_of(owed.minutes)} of lost calls."
    screen.app.push_screen(AskingScreen(question, answers), answered)


def _give(screen: CockpitScreen, booking: ScheduledLesson, minutes: int) -> Choice:
    ends = screen.settings.preferences.home.time(booking.lesson.ends_at + timedelta(minutes=minutes))
    word = f"Give {minutes} more"
    return Choice(
        letter=GIVE, word=word, does=f"The lesson ends at {ends}.", keys=_keys(screen, "lesson.give_full_length")
    )


def _keys(screen: CockpitScreen, command: str) -> tuple[str, ...]:
    return screen.parts.commands[command].keys
