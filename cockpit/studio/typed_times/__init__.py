"""When a typed line says that something is."""
