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

# Whether the rest of a line is proposed as you type notes.
proposals = true

# How many minutes before the end the wrap-up cue comes, by the length of the lesson.
[wrap_up_minutes]
30 = 3
45 = 4
60 = 5

# How a week's practice is planned. Common practice and our own choices, no source: change what does not suit you.
[practice]
# The days of a student of whom you have said nothing else, such as "Mon-Sat" or "M W F".
days = "daily"
# The most metronome marks that a tempo climbs from one day to the next.
largest_step = 2
# From how many measures on a passage is cut, into spans of how many at most, and how many of them two neighbors share.
longest_passage = 16
span_measures = 8
overlap = 1
# How long a turn is where pieces are practiced "in turns".
turn_minutes = 3
# The practice days from one coming round of a review piece to the next; the last one goes on.
review_gaps = [1, 2, 3, 4]
# A week has grown suddenly when its daily minutes are so many percent above last week's, and at least so many minutes.
sudden_increase_percent = 50
sudden_increase_minutes = 10

# How the minutes that you did not type are shared among the assignments of a day.
[practice.weights]
warm-up = 2
scales = 5
technique = 5
etude = 6
"method book" = 6
piece = 10
review = 4
theory = 2
ear = 2
sight-reading = 2
listening = 2

# When you move house, or travel: your clock changes from a day on, or up to and on another. Standing times on your
# clock move with a house; while you travel, families keep their times. Take the # away, and write it once for each.
# [[away]]
# zone = "Europe/Lisbon"
# from = 2027-02-01
# until = 2027-02-14

# How practice notes go out, beside the studio folder that always has them. The roster's columns send_by and language
# say it for one family.
[sending]
# Some of clipboard, folder, draft, mail, with commas between them; or none.
ways = "clipboard"
# What the clipboard gets: markdown or page (HTML).
copy_as = "markdown"
# A folder of yours, which another program may carry on: each family has a folder in it.
# folder = "~/Lesson notes"
# The families' language where you have said nothing else: en, es, fr or de.
language = "en"
# Your words before and after the notes of a mail or a draft.
# Line breaks are written \\n. In another language: [sending.words.es] with greeting and signature in it.
greeting = ""
signature = ""
# How the next lesson comes with a mail: "attached", "within" it, or "left out".
next_lesson = "attached"
# Whether a family with several students gets one mail a day, after its last lesson.
one_mail_a_day = false
# How long a mail waits for your undo before it goes.
wait_seconds = 10

# Your mail account. The password is never in this file: it is in the system's keyring, in an environment variable
# (env:NAME), or printed by a command (command:WORDS). Take the # away.
# [sending.mail]
# host = "mail.example.org"
# security = "starttls"
# sender = "me@example.org"
# name = "Your name"
# user = "me@example.org"
# password_from = "keyring"

# Your abbreviations in the notes: `hs` and the End key write it out.
[abbreviations]
# hs = "hands separately"

# Your own keys: a command's id and its keys; `cockpit keys` lists them.
[keys]
# "lesson.finish" = "f9,ctrl+s"
"""
