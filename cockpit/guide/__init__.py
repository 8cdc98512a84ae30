"""The manual in Markdown, a page a subject; Help shows it, and the README links to it."""
