"""Looking back over what was given: a student's pieces, the mix, and a search through all notes."""
