"""What all tests share."""

import os

from hypothesis import settings

# Before NumPy is loaded. Many small matrices: on a busy machine a second thread makes the solver wait, tenfold.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

settings.register_profile("house", deadline=None, database=None)  # a busy machine is no failure; no files left behind
settings.load_profile("house")
