"""Help: the commands of the place, and the guide."""
