"""What was thrown, by session and calendar week, and the history of the records."""
