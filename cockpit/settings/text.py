"""The settings file that a new studio begins with; it explains itself."""

from cockpit.studio.inquiries.rules import ANSWER

FIRST = """\
# Your studio's settings. Change a line, save, and open the cockpit again.

# Your time zone, as an IANA name. It was taken from this computer.
home_zone = "{zone}"

# Your clock, and the families' clock unless the roster says otherwise: 12 or 24 hours.
hours = 12
family_hours = 12

# One of ivory, ebony, rosin, spruce, footlights, or one of your own from the folder "themes" beside this file.
theme = "ebony"

# "drawn", or "ascii" for a terminal that draws signs such as the circle of a lesson to come over two cells.
signs = "drawn"

# How many minutes to wait for a late student.
wait_minutes = 15

# If you finish a lesson with more than this many minutes left, you are asked once more.
early_minutes = 10

# Your notice period: a lesson canceled at least this many hours ahead is canceled in time.
notice_hours = 24

# How many minutes you want between two lessons.
gap_minutes = 0

# The hours of a day for lessons. You are warned about lessons outside them, on your clock or the family's. For teaching hours
# of your own on each weekday, see the section [teaching].
day_begins = 7
day_ends = 21

# Whether 12/3 means December 3 (true) or March 12 (false).
month_first = true

# The lesson times in the year for each student who has no yearly_lessons in the roster, and when your year starts.
promised_lessons = 36
year_begins = "09-01"

# How many months after the last student of a family ended you are asked whether to keep what is known of the family; 0 for
# never.
keep_months = 24

# After how many weeks a piece that is kept alive is to be heard again, and again. The last number repeats.
repertoire_gaps = [2, 4, 8, 12]

# Whether a progress sheet says of an assignment that it needs more work.
report_marks = false

# How rhythms in braces are counted: "numbers" is 1 e + a, and "takadimi" is ta ka di mi.
counting = "numbers"

# Whether the rest of a line is suggested as you type notes.
proposals = true

# Whether the curtain, which hides the screen while you share it, shows the minutes left.
curtain_clock = true

# Whether the window's title is "Lesson" while the cockpit is open, so that it never names a student or a folder.
window_title = true

# Whether the parts of a lesson are shown under its bar: true or false. To share out the minutes in your own way, put a
# section [pacing] in place of this line, with a line for each lesson length.
pacing = true

# How many minutes before the end the wrap-up cue appears, for each lesson length.
[wrap_up_minutes]
30 = 3
45 = 4
60 = 5

# Your teaching hours, weekday by weekday, on your clock. A day that is not here is not taught on: no time of it is called free.
# Without this section you teach every day from day_begins to day_ends. Remove the # signs.
# [teaching]
# tue = "14:00-20:00"
# sat = "9:00-12:00, 13:00-15:00"

# What you owe for a lesson that was not taught. These are common practice, no source: change what is not your policy.
[policy]
# For a lesson canceled in time, canceled late, or missed, and for one that you call off yourself: "make-up" or "nothing". For
# those canceled late or missed also "make-up once a term".
canceled_in_time = "make-up"
canceled_late = "nothing"
absent = "nothing"
called_off = "make-up"
# Whether a lesson that was canceled late counts as in time if its reason is sick or ill.
forgive_sick = false
# How many days after the lesson a make-up is promised for; 0 for no end, and "term" for the last day of its term.
make_up_within_days = 0
# How many make-ups a student may have in a term for lessons that the family canceled or missed; 0 for no limit. One more
# is told and never dropped.
make_ups_a_term = 0
# The first day of each term, or "monthly" if each month is one.
terms_begin = ["09-01", "01-01", "06-01"]

# How a week of practice is planned. These are common practice and our own choices, no source. Change what does not suit
# you.
[practice]
# How the practice until the next lesson is on a sheet: "chart", with a box to check off for each day, "list", or "none".
# For one student, use the roster column plan.
plan = "chart"
# On which sheets the health line is: "monthly" for a student's first of each month, "always", or "never".
health_line = "monthly"
# The practice days of students with none in the roster, such as "Mon-Sat" or "M W F".
days = "daily"
# The most metronome marks that a tempo may rise from one day to the next.
largest_step = 2
# A passage longer than this many measures is divided into sections. Then, the most measures in a section, and how many
# measures two neighboring sections share.
longest_passage = 16
span_measures = 8
overlap = 1
# How many minutes a turn lasts when assignments alternate.
turn_minutes = 3
# How many practice days pass before a review piece comes back. The last number repeats.
review_gaps = [1, 2, 3, 4]
# You are warned when a week's daily minutes rise by at least this percentage and at least this many minutes over last
# week's.
sudden_increase_percent = 50
sudden_increase_minutes = 10

# How the day's remaining minutes are divided among the assignments without minutes of their own.
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
rhythm = 2
improvisation = 2
other = 4

# A move has only "from": weekly times on your clock move with you. A trip also has "until": families keep their times.
# Remove the # signs, and repeat for each move or trip.
# [[away]]
# zone = "Europe/Lisbon"
# from = 2027-02-01
# until = 2027-02-14

# How practice notes are sent. The studio folder always has a copy. For one family, use the roster columns send_by and
# language.
[sending]
# One or more of clipboard, folder, draft, mail, separated by commas, or none.
ways = "clipboard"
# What the clipboard gets: markdown, or page for a web page (HTML).
copy_as = "markdown"
# A folder of yours, perhaps one that another program syncs. Each family gets a folder inside it.
# folder = "~/Lesson notes"
# The families' language unless the roster says otherwise: en, en-GB, es, fr, or de.
language = "en"
# Your words before and after the notes in an email or a draft. Write a line break as \\n. For another language, add a
# section such as [sending.words.es] with its own greeting and signature.
greeting = ""
signature = ""
# Where the next lesson goes in an email: "attached", "within" the text, or "left out".
next_lesson = "attached"
# Whether a family with several students gets one email a day, after its last lesson.
one_mail_a_day = false
# How many seconds an email waits, so that you can undo, before it is sent.
wait_seconds = 10

# Your email account. The password is never in this file. It comes from the system's keyring, an environment variable
# (env:NAME), or a command that prints it (command:WORDS). Remove the # signs.
# [sending.mail]
# host = "mail.example.org"
# security = "starttls"
# sender = "me@example.org"
# name = "Your name"
# user = "me@example.org"
# password_from = "keyring"

# Inquiries: somebody asks about lessons. These are common practice, no source. Change what does not suit you.
[inquiry]
# Within how many hours you answer an inquiry. You are reminded once half of them have passed.
reply_hours = 48
# How many days after your answer you ask again, if nobody writes back.
follow_up_days = [5, 12]
# The minutes of a trial lesson.
trial_minutes = 30
# How many months after it was closed an inquiry is deleted.
months = 12
# Your answer. {{name}} is who asks, {{child}} is for whom, {{times}} are three free times, and {{signature}} is yours from [sending].
answer = "{answer}"

# The minutes that are proposed for a lesson, by level, for ages under 7, 7 to 9, 10 to 12, 13 to 17, and for adults.
[inquiry.lengths]
beginner = [30, 30, 30, 45, 45]
elementary = [30, 45, 45, 45, 60]
intermediate = [30, 45, 45, 45, 60]
advanced = [45, 45, 60, 60, 60]

# The strands of your teaching, as the mix of a student shows them. In each are areas, or "chosen" for pieces that the student
# chose, or "origin" for pieces whose origin you noted.
[mix.strands]
"pieces they love" = ["chosen"]
"method book" = ["method book", "etude"]
technique = ["warm-up", "scales", "technique"]
theory = ["theory", "rhythm", "ear", "sight-reading", "listening"]
"music of the world" = ["origin"]

# After how many weeks an area or a strand is mentioned at the start of a lesson. One name of both means the area.
[mix.limits]
theory = 3
"music of the world" = 6

# Your abbreviations for notes. Type `hs` and press End to write it out.
[abbreviations]
# hs = "hands separately"

# Your labels, and the area that each stands for, or "remark", "get" for things to get, or "goal". The family reads your word. Private,
# Follow-up, and Next time cannot be changed. Remove the # signs.
[labels]
# hymn = "piece"

# Areas of your own: the weight in a practice plan, and whether a line begins with a title. Remove the # signs.
# [areas]
# drumming = {{ weight = 4, titled = true }}

# Your own keys: a command's id, then its keys. `cockpit keys` lists all commands.
[keys]
# "lesson.finish" = "f9,ctrl+s"
""".replace("{answer}", ANSWER.replace("{", "{{").replace("}", "}}").replace("\n", "\\n"))
