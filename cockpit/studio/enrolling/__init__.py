"""What a file that was read changes in the studio."""
