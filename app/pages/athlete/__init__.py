"""The Athlete page: who throws, radar readings, and what they say of every ball."""
