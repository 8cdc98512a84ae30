"""The only package that knows SQLite."""
