"""Help and Find: the commands, the students, and the guide."""
