"""Zones, moments and dates, and how they are said."""
