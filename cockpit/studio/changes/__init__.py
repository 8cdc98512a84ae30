"""What is kept of the studio, and a change of it as data."""
