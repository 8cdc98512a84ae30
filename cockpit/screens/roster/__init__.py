"""The roster on the screen."""
