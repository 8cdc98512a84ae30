"""Examples of what works in braces, by what they are about: the guide shows them with their answers, and tests hold each."""

EXAMPLES = {
    "Scales and arpeggios": (
        "D major", "D major 2 oct", "D major down", "F# major", "Cb major", "A minor", "A natural minor", "A harmonic minor",
        "G# harmonic minor", "G# melodic minor", "D# harmonic minor", "A minor, 3 forms", "D dorian", "E phrygian", "F lydian",
        "G mixolydian", "B locrian", "Eb lydian", "G major pentatonic", "E minor pentatonic", "A blues", "Eb blues",
        "chromatic from C", "D whole tone", "Db whole tone", "D major arpeggio 2 oct", "E dom7 arpeggio",
    ),
    "Chords": (
        "chord D", "chord F#7", "Bbm7b5", "G#dim7", "Ebmaj7", "Cadd9", "Dsus4", "C/E", "chords in G", "chords in B minor",
    ),
    "Intervals": (
        "interval D F#", "B F", "F B", "C# Bb", "G E#", "major sixth above Eb", "minor third below C", "perfect fifth below A",
        "major seventh above F#",
    ),
    "Keys": ("key 3 sharps", "key Ab", "key f# minor", "circle of fifths"),
    "Instruments": (
        "open strings violin", "open strings guitar", "concert Bb for clarinet", "concert Bb for clarinet in a", "concert Bb for horn",
        "concert Bb for alto sax", "concert Bb for tenor sax", "written C for clarinet", "Eb major for clarinet and horn",
        "D dorian for clarinet", "A blues for horn and clarinet", "keyboard D F# A",
    ),
    "Rhythms": (
        "rhythm 4/4 q e e h", "rhythm 2/4 e e q", "rhythm 3/4 h. | q q q", "rhythm 3/4 q. e q", "rhythm 4/4 q. e~ e e q",
        "rhythm 4/4 e s s s s e 3(e e e) q", "rhythm 4/4 s s s s e. s q er e", "rhythm 4/4 3(q q q) h", "rhythm 4/4 q.. s h",
        "rhythm 2/2 h q q", "rhythm 6/8 q e q e", "rhythm 6/8 in 2 q e q e", "rhythm 6/8 e. s e q.", "rhythm 6/8 in 2 e. s e q.",
        "rhythm 9/8 q. q e e e e", "rhythm 9/8 in 3 q. q e e e e", "rhythm 12/8 q e q e q. q.", "rhythm 12/8 in 4 q e q e q. q.",
        "rhythm 5/8 q e q", "rhythm 5/8 3+2 q e q", "rhythm 7/8 q q q e", "rhythm 3/4 q | h q | h",
        "4/4 qeeh", "rhythm 4/4 quarter eighth eighth half", "takadimi 4/4 q s s s s e e q",
    ),
}  # fmt: skip
