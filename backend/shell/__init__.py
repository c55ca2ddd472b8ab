"""The shell: serves the front end, and says how browsers must treat it."""

from . import headers, pages
from .site import make_site


def register(app, frontend, core):
    """Serve the front end's folder and the core's sources from an app."""
    site = make_site(frontend, core)
    pages.register(app, site)
    app.after_request(headers.setter(site.inline_hashes))
