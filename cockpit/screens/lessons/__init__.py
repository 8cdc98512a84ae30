"""A lesson on the screen: its countdown."""
