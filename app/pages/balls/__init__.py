"""The page of the team's balls."""
