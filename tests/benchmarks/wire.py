"""A server between browser and app that counts what goes to the browser."""

import http.client
import threading
from collections import namedtuple
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

HOP_BY_HOP = {"connection", "keep-alive", "transfer-encoding", "content-length", "host"}

Reply = namedtuple("Reply", "path status body headers")


class Wire(ThreadingHTTPServer):
    """Passes requests on to a port of this machine; `replies` are counted in bytes."""

    daemon_threads = True

    def __init__(self, port):
        super().__init__(("127.0.0.1", 0), _PassOn)
        self.port = port
        self.replies = []
        self.address = f"http://127.0.0.1:{self.server_port}"

    def __enter__(self):
        threading.Thread(target=self.serve_forever, daemon=True).start()
        return self

    def __exit__(self, *_):
        self.shutdown()
        self.server_close()


class _PassOn(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def do_GET(self):  # noqa: N802  the name http.server looks for
        status, headers, body = self._ask()
        self.send_response_only(status)
        for name, value in headers:
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(body)))
        # counted before the browser can know that it has all
        length = sum(len(name) + len(value) + 4 for name, value in headers)
        self.server.replies.append(Reply(self.path, status, len(body), length))
        self.end_headers()
        self.wfile.write(body)

    def _ask(self):
        asking = http.client.HTTPConnection("127.0.0.1", self.server.port)
        asking.request("GET", self.path, headers=dict(_end_to_end(self.headers.items())))
        reply = asking.getresponse()
        answered = reply.status, _end_to_end(reply.getheaders()), reply.read()
        asking.close()
        return answered

    def log_message(self, format, *args):
        pass


def _end_to_end(headers):
    return [(name, value) for name, value in headers if name.lower() not in HOP_BY_HOP]
