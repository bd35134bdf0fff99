"""What all tests share."""

import os
import tempfile

from hypothesis import settings

# Before NumPy is loaded. Many small matrices: on a busy machine a second thread makes the solver wait, tenfold.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# No test ever comes near the records of whoever runs it.
os.environ.pop("LEVELPEAK_DATABASE", None)
os.environ["XDG_DATA_HOME"] = os.path.join(tempfile.gettempdir(), "levelpeak-tests-without-a-place")

settings.register_profile("house", deadline=None, database=None)  # a busy machine is no failure; no files left behind
settings.load_profile("house")
