"""Families and students."""
