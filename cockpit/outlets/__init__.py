"""Where papers go."""
