"""The Compare page: throws laid over one another, and what differs between them, in numbers and in a sentence."""
