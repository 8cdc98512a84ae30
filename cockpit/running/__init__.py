"""The program on the screen, from its opening to its end."""
