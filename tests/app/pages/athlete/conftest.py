"""Cases of the invented throwers, and an app on a demo of its own."""

from tests.app.bind.conftest import app as app
from tests.app.bind.conftest import here as here
from tests.app.bind.conftest import visit as visit
from tests.app.show.conftest import make_case as make_case
from tests.app.show.conftest import text as text
