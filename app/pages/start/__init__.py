"""The parts of the Start page: which ball to begin with, and at which share of full speed."""
