"""What all tests share."""

from hypothesis import settings

settings.register_profile("house", deadline=None, database=None)  # a busy machine is no failure; no files left behind
settings.load_profile("house")
