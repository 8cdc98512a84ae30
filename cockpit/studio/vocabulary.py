"""Words and phrases of the trade and of plain English, of our own choice, for a teacher who has no notes yet.

The order is a guess at how often a word comes in notes; common practice, no source.
"""

_WORDS = """
the and to a of in on is it for with you your at up that from this out more one as be when so all not play by new keep
each time now me do or are very was before through down can just them let two same every last then her but will where
good well practice today next week hands note notes slowly slow great first lovely tone nice hand both finger fingers
thumb bow right left line lines bar bars measure measures page pages song tune piece pieces rhythm tempo time beat beats
count counting steady even clear sound sounds soft softly loud louder softer fast faster quick light lightly heavy
gently relaxed relax loose shoulders shoulder wrist wrists arm arms elbow elbows back posture sit stand breathe breath
breathing listen listening hear heard sing singing clap clapping tap say aloud feel look watch remember memory memorize
start begin beginning end ending middle stop stopping go going come coming back again once twice three four five six
seven eight nine ten many few little bit much most less enough only even also still already always never often sometimes
day days daily minute minutes morning evening night home school lesson lessons concert recital performance perform exam
audition rehearsal duet teacher student mother father mom dad parents family sister brother friend
work worked working works learn learned learning try trying think about know known knew find found read reading write
writing mark marked check use using make makes made making take takes taking give gives giving get gets getting put
bring brings show shows shown tell tells ask asks answer help helps need needs want wants like likes love loved enjoy
better best big bigger small smaller long longer short shorter high higher low lower strong stronger weak easy easier
hard harder difficult different beautiful beautifully careful carefully musical musically smooth smoothly
ready proud happy tired nervous shy excited sick late early busy
progress improvement improved much-improved effort job done excellent wonderful super bravo congratulations thank thanks
welcome please sorry
phrase phrases phrasing melody melodies harmony harmonies chord chords bass treble clef voice voices voicing balance
accompaniment dynamics dynamic crescendo decrescendo diminuendo forte piano pianissimo fortissimo mezzo accent accents
accented staccato legato detache martele spiccato pizzicato arco tremolo vibrato trill trills ornament ornaments grace
articulation articulate slur slurs slurred tie ties tongue tongued tonguing separate together separately hands-together
metronome pulse tempos ritardando rubato fermata pause rest rests upbeat downbeat pickup syncopation triplet triplets
eighth eighths quarter quarters half halves whole sixteenth sixteenths dotted swing swung
scale scales arpeggio arpeggios octave octaves third thirds sixth sixths fifth fourth second seventh interval intervals
major minor harmonic melodic natural chromatic pentatonic blues modal key keys signature sharp sharps flat flats
position positions shift shifts shifting fingering fingerings string strings open bowing bows up-bow down-bow frog tip
pressure speed contact point bridge fingerboard neck fret frets capo pick strum strumming barre hammer-on pull-off
embouchure reed mouthpiece ligature lips jaw air airstream diaphragm support register overtones long-tones harmonics
pedal pedals pedaling damper sustain bench keyboard crossing cross crossings under over thumb-under
intonation pitch tune tuner tuned tuning drone in-tune resonance ring ringing blend
sight-reading ear training theory workbook worksheet flashcards book books sheet sheets copy score edition part parts
section sections passage passages spot spots variation variations repeat repeats repeated coda exposition development
recapitulation introduction theme themes verse chorus
movement movements sonata sonatina minuet gavotte waltz march etude etudes study studies prelude invention fugue rondo
bourree gigue jig reel air allegro andante adagio presto moderato concerto suite nocturne mazurka polonaise
Bach Handel Haydn Mozart Beethoven Schubert Schumann Chopin Brahms Liszt Debussy Ravel Satie Grieg Vivaldi Corelli
Telemann Scarlatti Purcell Clementi Czerny Burgmuller Kuhlau Diabelli Hanon Kreutzer Wohlfahrt Kayser Mazas Dotzauer
Popper Sor Carcassi Carulli Giuliani Tarrega Paganini Mendelssohn Tchaikovsky Faure Elgar Dvorak Bartok Joplin
C D E F G A B Bb Eb Ab Db Gb F# C# G# HS HT LH RH
Monday Tuesday Wednesday Thursday Friday Saturday Sunday January February March April May June July August September
October November December Christmas holiday holidays summer winter spring autumn weekend vacation birthday
will would could should may might must shall have has had having been being were am does did doing they their there
these those what which who how why because if than too into onto off until while after during without within between
against around near far away here he she his him its we us our my I something anything nothing everything someone
everyone anyone another other others such own some any no yes maybe almost nearly quite rather really actually
especially finally usually perhaps instead together apart ahead above below behind beside across along toward inside
outside top bottom side front edge corner line place places thing things way ways kind kinds sort lot part piece half
word words name names number numbers letter letters question questions idea ideas example examples reason rest sure
hold holding held move moves moving lift lifting lifted drop drops press release let lets leave leaves leaving land
lands rise rises fall falls float floats bend bends curve curved flatten straight straighten tight tighten tension turn
turns turning open close closed touch reach stretch shape shaped shaping connect connected carry follow followed
following lead leading change changes changing add adding remove skip start starts started finish finished continue
continued play played playing plays sounded practiced practicing prepare prepared preparing isolate loop
record recorded recording recordings video camera microphone send sent share listen choose chose chosen pick decide
focus concentrate imagine pretend notice noticed understand understood explain correct correctly wrong mistake mistakes
fix fixed solid secure accurate confident confidence controlled control independent independence
expression expressive feeling feelings character mood color colour colors story picture dance dancing march
warm warmer cold bright brighter dark darker round rich full thin deep quiet quietly silent silence
little bigger full-size size hold grip flexible flexibility firm firmly gentle natural naturally
close closer careful attention aware awareness goal goals plan plans challenge review reviews assignment assignments
tomorrow yesterday tonight later soon since ago hour hours second seconds month months year years old young
kids child children boy girl people audience everybody nobody somebody person partner group orchestra band choir quartet
violin viola cello bass guitar ukulele flute clarinet oboe saxophone trumpet horn trombone drums voice singer instrument
case stand chair desk table room house floor door window light phone computer screen internet
email message call invoice payment schedule reschedule make-up cancelled missed absent trip travel moved
maybe seems seemed looks looked sounds feels says said told asked wanted needed liked enjoyed remembered forgot
forgotten lost broke broken bought ordered order buy replace replaced new strings rosin shoulder-rest chinrest endpin
hurts hurt pain sore stiff ache tense stress stressed worried upset cried laughed smiled smile fun funny joy delight
kept keeps keeping began begins gone went came gave got saw seen heard felt thought taught caught brought stood sat ran
run runs running walk walking jump jumps leap leaps skip step steps stepwise climb
"""
# The usual first, each once.
WORDS = tuple(dict.fromkeys(_WORDS.split()))

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
