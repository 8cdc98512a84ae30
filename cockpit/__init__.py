"""The lesson-day cockpit of an independent music teacher."""

__version__ = "0.1.0"
