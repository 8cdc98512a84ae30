"""Lines of notes of our own making, for a teacher who has none yet: usual labels, phrases and sentences."""

# As a teacher may write them; the first words of a line stand behind its label.
LINES = """
Warm-up: long tones, 5 min
Warm-up: open strings, whole bows, 2 min
Warm-up: five-finger patterns, hands separately, q = 60
Warm-up: breathing, then long tones, 3 min
Scales: C major, 2 octaves, hands separately, q = 60
Scales: G major, 2 octaves, hands together, q = 60
Scales: D major 2 oct, q = 60, 5 min
Scales: A minor, harmonic and melodic, 2 octaves
Scales: F major 1 oct, slurred, q = 60, 5 min
Scales: Bb major 2 oct, separate bows, q = 72
Technique: arpeggios, hands separately, q = 60, 5 min
Technique: shifting, 5 min
Technique: trills, 3 min
Etude: no. 1 mm. 1-8, q = 60
Etude: op. 100 no. 2 mm. 1-16, hands separately, q = 60
Etude: no. 3, whole, q = 72
Method book: pp. 4-5
Method book: p. 6, count out loud
Piece: Minuet in G mm. 1-8, hands separately, q = 60
Piece: Minuet in G mm. 1-16, hands together, slowly, q = 60, 10 min
Piece: Sonatina, 1st mvt mm. 1-16, HS, q = 60
Piece: Gavotte mm. 1-16, slowly, q = 60, 10 min
Piece: Waltz, whole, from memory
Piece: Prelude, whole, by heart, q = 72
Review: Minuet in G, once a day
Review: twice this week
Theory: workbook p. 3
Theory: workbook pp. 4-5
Ear: sing the intervals
Ear: sing the first phrase before you play it
Sight-reading: one line a day
Sight-reading: two lines a day
Listening: two recordings of your piece
Next time: hear the scales first
Next time: start with the piece
Follow-up: send the recording
Follow-up: ask about the recital
Follow-up: send her mother the link
Private: was tired today
Private: mother says he is busy at school
start at the end, then the last two lines, then the whole piece
hands separately, then hands together, slowly
hands separately first, slow, count out loud
right hand alone, left hand alone, then both hands
with the metronome, three times each day
one phrase at a time, from the end to the beginning
by heart, with the recording, at half speed
without stopping, even if there is a mistake
once slow, once fast, and once from memory
watch the fingering in m. 8
watch the dynamics, make a crescendo to the top of the phrase
Great job today! I am so proud of you.
Good job with the rhythm this week.
Very good progress this week, keep it up!
Well done on the new piece, you are ready for the next one.
You played so well today, the tone was beautiful.
I loved the way you played the last line.
Much better than last week, now let us work on the tempo.
Keep your fingers curved and your wrists loose.
Keep the thumb soft and the hand round.
Keep the bow straight and close to the bridge.
Keep a steady beat and do not rush.
Keep your shoulders down and your back straight.
Let the arm be heavy and the wrist be free.
Listen to the end of the note.
Listen for the melody in the left hand.
Make sure that you count the rests.
Make sure to use the right fingering.
Remember to breathe at the end of each phrase.
Remember to practice a little bit every day.
Try to sing it before you play it.
Try to feel the beat in your body.
Do not forget to tune before you play.
Do not stop when you make a mistake.
Take your time at the end of the line.
Use the whole bow on the long notes.
Use more bow and less pressure.
Think about the shape of the phrase.
Think of the sound before you play.
There is no need to rush in this piece.
It is easier if you look at the next note.
It was a lot of fun to hear you play.
This is one of the best lessons so far.
This will help you with the fast notes.
The first part is ready, the second part needs more work.
The rhythm is right, now add the dynamics.
The left hand is too loud for the melody.
We will look at the theory next week.
We will start a new piece next time.
See you next week, have a good holiday!
Have fun at the concert on Saturday!
Please bring the book to the next lesson.
Please send me a recording by Friday.
at the same time, in the middle of the piece, on the other side, one at a time, as well as you can
a little slower, a bit faster, a lot of, as soon as, as if it were, so that you can hear it, in order to
in the right hand, in the left hand, on the first beat, on the string, for the first time, from the beginning
to the end, at the beginning, at the end of the, out of tune, in tune, up to speed, under tempo, at tempo
if you can, when you play, before you play, after the rest, all of the notes, each of the three, most of the time
has to be, is going to be, will be able to, would like to, does not want to, needs to be, should be, can be
""".strip().split("\n")
