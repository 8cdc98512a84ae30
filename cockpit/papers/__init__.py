"""Values to text that leaves the program."""
