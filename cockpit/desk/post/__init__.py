"""What goes out to families."""
