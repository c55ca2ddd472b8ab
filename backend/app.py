"""The Boltfair server: one Flask app, made here."""

from pathlib import Path

from flask import Flask

from . import api, shell

CORE = Path(__file__).parent / "core"
FRONTEND = Path(__file__).parent.parent / "frontend"


def create_app(frontend=FRONTEND):
    """Make the app: the API under /api/v1, the front end everywhere else.

    Takes: frontend, the folder served; tests give others.
    """
    app = Flask(__name__, static_folder=None)
    api.register(app)
    shell.register(app, frontend, CORE)
    return app
