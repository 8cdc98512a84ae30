"""The command line: what each command is called, does and prints."""
