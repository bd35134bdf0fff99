"""The Teach page: ten minutes in front of a room, or an athlete across the table."""
