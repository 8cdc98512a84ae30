"""Values in sentences for the teacher: what screens, desk, and shell say in the same words."""
