"""The fixed phrases that tests look for on English papers."""

from cockpit.papers.english import ENGLISH

ASSIGNMENTS = ENGLISH["notes.assignments"]
REMARKS = ENGLISH["notes.remarks"]
NEXT_LESSON = ENGLISH["notes.next_lesson"]
PLAN = ENGLISH["plan.heading"]
CAUTION = ENGLISH["notes.caution"]
