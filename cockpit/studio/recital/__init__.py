"""A recital: when each item begins, in what order they are played, at what time of day, and what was noted of each."""
