"""Music theory at hand: scales, chords, intervals, keys, and rhythms that are typed in braces, worked out."""
