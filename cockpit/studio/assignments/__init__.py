"""An assignment read out of a typed line."""
