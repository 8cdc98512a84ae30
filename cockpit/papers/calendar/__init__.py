"""The calendar as a whole: collisions, clock changes, free times, the studio year."""
