"""The pieces of a student, and all that was given, week after week: what it is, how it went, and the mix of it."""
