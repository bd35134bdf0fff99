"""Cases of the invented throwers, and of people of the tests' own: those of what pages share."""

from tests.app.bind.conftest import app as app
from tests.app.bind.conftest import here as here
from tests.app.bind.conftest import visit as visit
from tests.app.show.conftest import DEMO as DEMO
from tests.app.show.conftest import TODAY as TODAY
from tests.app.show.conftest import form_with as form_with
from tests.app.show.conftest import make_case as make_case
from tests.app.show.conftest import man as man
from tests.app.show.conftest import text as text
