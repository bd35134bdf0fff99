"""The page that says how far to trust the numbers."""
