"""The records: what is known of the athletes, kept in a database. It knows the model and the units, and no page."""

VARIABLE = "LEVELPEAK_DATABASE"
"""The variable of the environment that names a server's database, with a password where one is needed."""

ACCEPTED = "postgresql://USER@HOST/DATABASE"
"""How such a database is named."""
