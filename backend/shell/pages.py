"""The routes of the front end: files under their own paths, one page for the rest."""

from flask import Response, request
from werkzeug.exceptions import NotFound
from werkzeug.routing import PathConverter

from .site import INDEX


class FrontPath(PathConverter):
    """Any path that is not the API's or the health check's.

    So a wrong API address is not found, whatever the method.
    """

    regex = r"(?!(?:api|healthz)(?:/|$))[^/].*?"


def register(app, site):
    """Add the routes of a site to an app."""
    app.url_map.converters["front"] = FrontPath
    # one address for one thing: no redirects from `//`
    app.url_map.merge_slashes = False

    @app.get("/")
    @app.get("/<front:path>")
    def front(path=""):
        asset = site.assets.get("/" + path)
        if asset is None and "." in path.split("/")[-1]:
            raise NotFound()
        # any other address is a screen, and all screens are the one page
        return reply(asset or site.assets[INDEX])


def reply(asset):
    """Answer a request for a file: whole, packed, or unchanged since last time."""
    packing, body = asset.packed(request.accept_encodings.quality)
    response = Response(body, content_type=asset.type)
    response.set_etag(asset.revision + (f"-{packing}" if packing else ""))
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Vary"] = "Accept-Encoding"
    if packing:
        response.headers["Content-Encoding"] = packing
    return response.make_conditional(request)
