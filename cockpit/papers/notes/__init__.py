"""What is typed in a lesson, and what of it a family may see."""
