"""The build-up page: from a start, a goal and a calendar to steps, days and throws."""
