"""The Boltfair server: one Flask app, made here."""

from pathlib import Path

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from . import api, settings, shell, store

CORE = Path(__file__).parent / "core"
FRONTEND = Path(__file__).parent.parent / "frontend"


def create_app(frontend=FRONTEND, told=None):
    """Make the app: the API under /api/v1, the front end everywhere else.

    Takes: frontend, the folder served; tests give others; told, the Settings,
    read from the environment where none are given. The database is opened when
    it is first used; `store.prepare` makes it.
    """
    told = told or settings.from_environment()
    app = Flask(__name__, static_folder=None)
    app.config["BOLTFAIR"] = told
    store.register(app, told)
    api.register(app)
    shell.register(app, frontend, CORE)
    if told.behind_proxy:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_proto=1, x_host=1)
    return app
