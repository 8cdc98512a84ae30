"""The lesson day."""
