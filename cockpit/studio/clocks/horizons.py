"""How far we look from a moment or a day on, and how long a lesson may be."""

from datetime import timedelta

LESSON_MINUTES = range(5, 241)
"""The lengths that a lesson may have, in minutes."""
NEXT_LESSON = timedelta(days=120)
"""For the lesson that follows."""
A_YEAR = timedelta(days=366)
"""For what may go wrong."""
EVER = timedelta(days=7305)
"""For whether anything comes at all."""
A_MEETING = timedelta(weeks=3)
"""For one lesson of a weekly time: one of every other week meets in it."""
WEEKS_OF_CHANGES = 12
"""For clock changes, in weeks."""
