"""Documents by way of papers, with the style sheet and the phrases."""
