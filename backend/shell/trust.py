"""The plain page that says how a phone comes to trust this machine.

It is served without TLS on a port of its own, since a phone that does not trust
the machine yet would only be shown a warning. The fingerprint on it is also
printed where the server was started, to be compared.
"""

import socket
import threading
from pathlib import Path
from socketserver import ThreadingMixIn
from string import Template
from wsgiref.simple_server import WSGIRequestHandler, WSGIServer, make_server

from flask import Flask, Response

from . import headers

PAGE = Path(__file__).with_name("trust.html")
CERTIFICATE = "/boltfair-authority.crt"


def create_trust_app(certificates, address):
    """Make the app with the page and the authority's certificate.

    Takes: address, where the phone goes once it trusts the machine.
    """
    app = Flask(__name__, static_folder=None)
    app.after_request(headers.setter([]))
    fingerprint = certificates.fingerprint()

    @app.get("/")
    def page():
        text = Template(PAGE.read_text(encoding="utf-8"))
        return text.substitute(certificate=CERTIFICATE, fingerprint=fingerprint, address=address)

    @app.get(CERTIFICATE)
    def certificate():
        return Response(certificates.authority_der(), mimetype="application/x-x509-ca-cert")

    return app


def start(app, host, port):
    """Serve the trust app beside the main server, until the process ends.

    Raises: OSError if the port is taken.
    """
    server = make_server(host, port, app, _Server6 if ":" in host else _Server, _QuietHandler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


class _Server(ThreadingMixIn, WSGIServer):
    daemon_threads = True


class _Server6(_Server):
    address_family = socket.AF_INET6


class _QuietHandler(WSGIRequestHandler):
    # a connection that says nothing is let go
    timeout = 10

    def log_message(self, format, *args):
        pass
