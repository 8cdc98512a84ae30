"""The file settings.toml, read into values."""
