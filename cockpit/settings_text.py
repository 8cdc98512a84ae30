"""The settings file that a new studio begins with; it explains itself."""

FIRST = """\
# Your studio's settings. Change a line, save, and open the cockpit again.

# Your own time zone, by its IANA name. It was taken from this computer.
home_zone = "{zone}"

# Your clock, and the families' where they have said nothing else: 12 or 24 hours.
hours = 12
family_hours = 12

# One of ivory, ebony, rosin, spruce, footlights, or one of your own from the folder "themes" beside this file.
theme = "ebony"

# How long to wait for a late student.
wait_minutes = 15

# How many hours before a lesson it can be cancelled in time, and how many minutes you want between two lessons.
notice_hours = 24
gap_minutes = 0

# The hours that a lesson is to lie in, on your clock and on the family's: you are told of others.
day_begins = 7
day_ends = 21

# Whether 12/3 is the third of December (true) or the twelfth of March (false).
month_first = true

# The lessons you promise a student for a year, and the month and day on which your year begins.
promised_lessons = 36
year_begins = "09-01"

# How many minutes before the end the wrap-up cue comes, by the length of the lesson.
[wrap_up_minutes]
30 = 3
45 = 4
60 = 5

# When you move house, or travel: your clock changes from a day on, or up to and on another. Standing times on your
# clock move with a house; while you travel, families keep their times. Take the # away, and write it once for each.
# [[away]]
# zone = "Europe/Lisbon"
# from = 2027-02-01
# until = 2027-02-14

# Your own keys: a command's id and its keys; `cockpit keys` lists them.
[keys]
# "lesson.finish" = "f9,ctrl+s"
"""
