"""What is taken along from the Compare page: the figure, its numbers, a link, a printed sheet."""
