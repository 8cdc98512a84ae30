"""The papers of a recital: the program, what each family gets, and her running sheet."""
