"""What is handed to a family that leaves."""
