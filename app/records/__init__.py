"""The records: what is known of the athletes, kept in a database. It knows the model and the units, and no page."""
