"""The page of the records: where they lie, how they go out and come in, and how an athlete is erased."""
