"""The page of all athletes: a line each, where they are found, made and put away."""
