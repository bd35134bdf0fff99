"""An app and a visit on the demo's records."""

from tests.app.bind.conftest import app, visit

__all__ = ["app", "visit"]
