"""Cases of the invented throwers, and what reads components."""

import pytest

from app.show.from_records import case_of
from app.units.systems import METRIC
from tests.app.kept_demo import TODAY, kept
from tests.app.known import with_settings
from tests.app.pages.compare.conftest import compare_on as compare_on


@pytest.fixture
def make_case():
    """The case of a demo thrower, with settings of the speed profile, and with some that were refused."""

    def make(code="W01", refused=(), system=METRIC, **settings):
        paths = {f"profile.{name}": value for name, value in settings.items()}
        data = with_settings(kept(code), paths, [f"profile.{name}" for name in refused])
        return case_of(data, TODAY, system)

    return make


@pytest.fixture
def text():
    """All the text of components, in order."""

    def of(part):
        if part is None:
            return ""
        if isinstance(part, str | int | float):
            return str(part)
        if isinstance(part, list | tuple):
            return "".join(of(one) for one in part)
        return of(getattr(part, "children", None))

    return of
