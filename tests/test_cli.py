"""The command, as a real process."""

import contextlib
import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import time
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path

import pytest

from backend.access.codes import MOST_TRIES_OF_ONE
from backend.cli import main
from backend.shell.certificates import local_address
from e2e.server import free_port
from tests.phones import uuid7

LAUNCH = "import sys; from backend.cli import main; sys.exit(main())"
SECONDS = 60


@pytest.fixture
def port():
    """A port that is free, and the one after it too."""
    while True:
        number = free_port()
        with contextlib.suppress(OSError), socket.create_server(("127.0.0.1", number + 1)):
            return number


@pytest.fixture
def serve(port, tmp_path):
    """Start `boltfair serve` and wait for the address it prints."""
    started = []

    def start(*options):
        command = [sys.executable, "-W", "error", "-c", LAUNCH, "serve", "--port", str(port)]
        process = subprocess.Popen(
            [*command, "--data", str(tmp_path), *options],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        started.append(process)
        return process, process.stdout.readline()

    yield start
    for process in started:
        if process.poll() is None:
            process.terminate()
        process.communicate(timeout=SECONDS)


def fetch(address, context=None, **options):
    request = urllib.request.Request(address, **options)
    with urllib.request.urlopen(request, timeout=SECONDS, context=context) as reply:
        return reply.status, reply.headers, reply.read()


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_the_server_says_where_it_is_answers_and_ends_cleanly(serve, port, number):
    process, line = serve()
    assert line == f"Boltfair is at http://127.0.0.1:{port}/ (stop with Ctrl+C)\n"
    assert fetch(f"http://127.0.0.1:{port}/healthz")[0] == 200
    status, headers, body = fetch(
        f"http://127.0.0.1:{port}/api/v1/calculators/strip-length",
        data=b'{"loop": 180}',
        headers={"Content-Type": "application/json"},
    )
    assert status == 200
    assert json.loads(body)["result"]["strip_width"] == 110
    assert headers["Content-Security-Policy"]
    process.send_signal(number)
    _, errors = process.communicate(timeout=SECONDS)
    assert (process.returncode, errors) == (0, "")
    with pytest.raises(OSError):
        socket.create_connection(("127.0.0.1", port))


def test_a_worker_that_does_not_stop_is_ended(serve):
    process, _ = serve()
    [worker] = workers_of(process)
    # it hears of nothing any more, as one that lost the signal
    os.kill(int(worker), signal.SIGSTOP)
    process.terminate()
    _, errors = process.communicate(timeout=SECONDS)
    assert (process.returncode, errors) == (0, "")


def test_a_worker_that_is_killed_is_replaced(serve, port):
    process, _ = serve()
    [worker] = workers_of(process)
    os.kill(int(worker), signal.SIGKILL)
    until = time.monotonic() + SECONDS
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            assert fetch(f"http://127.0.0.1:{port}/healthz")[0] == 200
            break
    [other] = workers_of(process)
    assert other != worker


def test_a_server_that_has_nothing_yet_tells_a_code_for_its_first_owner(serve, port):
    process, _ = serve()
    told = ""
    while "or type the code" not in told:
        told += process.stdout.readline()
    assert re.search(
        rf"Open http://127.0.0.1:{port}/settings#pair=(\w{{10}})\nor type the code \1: good once", told
    )


def test_a_killed_server_leaves_nothing_behind_that_holds_its_port(serve, port):
    process, _ = serve()
    process.kill()
    # its pipes close once the last of its processes has ended
    process.communicate(timeout=SECONDS)
    _, line = serve()
    assert line.startswith("Boltfair is at ")


def test_a_port_that_is_taken_is_refused_in_words(serve, port, tmp_path, capsys):
    serve()
    assert main(["serve", "--port", str(port), "--data", str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert told.startswith("boltfair: ") and "in use" in told


@pytest.mark.parametrize("proxied", [False, True], ids=["by itself", "behind a proxy"])
def test_an_address_that_phones_cannot_use_is_told_as_such(serve, proxied):
    if not local_address():
        pytest.skip("this machine is in no network: nothing but itself could reach it")
    process, _ = serve("--host", "0.0.0.0", *(["--behind-proxy"] if proxied else []))
    told = process.stdout.readline()
    assert ("Phones cannot use it there" in told) is not proxied


def test_a_phone_on_the_network_gets_a_certificate_it_can_trust(serve, port, tmp_path):
    process, line = serve("--https", "--host", "127.0.0.1")
    assert line == f"Boltfair is at https://127.0.0.1:{port}/ (stop with Ctrl+C)\n"
    assert process.stdout.readline() == f"A new phone first goes to http://127.0.0.1:{port + 1}/\n"
    fingerprint = process.stdout.readline().split()[-1]

    _, _, page = fetch(f"http://127.0.0.1:{port + 1}/")
    assert fingerprint.encode() in page
    _, _, certificate = fetch(f"http://127.0.0.1:{port + 1}/boltfair-authority.crt")
    trusting = ssl.create_default_context(cadata=certificate)
    for host in ("127.0.0.1", "localhost"):
        assert fetch(f"https://{host}:{port}/healthz", trusting)[0] == 200
    with pytest.raises(OSError, match="CERTIFICATE_VERIFY_FAILED"):
        fetch(f"https://127.0.0.1:{port}/healthz", ssl.create_default_context())

    process.send_signal(signal.SIGTERM)
    process.communicate(timeout=SECONDS)
    assert process.returncode == 0


def code_told(process):
    """Read on until the first owner's code is told: returns the line with the link, and the code."""
    line = ""
    while "#pair=" not in line:
        line = process.stdout.readline()
    return line, line.partition("#pair=")[2].strip()


def pair(port, code, **headers):
    """Pair a phone, through what a proxy says: returns its cookie and what was told."""
    body = json.dumps({"code": code, "name": "x"}).encode()
    headers = {"Content-Type": "application/json", "Origin": f"http://127.0.0.1:{port}"} | headers
    _, told, reply = fetch(f"http://127.0.0.1:{port}/api/v1/devices", data=body, headers=headers)
    return told["Set-Cookie"], json.loads(reply)


def test_behind_a_proxy_it_goes_by_the_name_and_scheme_that_the_proxy_says(serve, port):
    process, _ = serve("--behind-proxy", "--name", "stall.example")
    line, code = code_told(process)
    assert f"https://stall.example/settings#pair={code}" in line
    said = {"X-Forwarded-Host": "stall.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": "192.0.2.7"}
    for origin, more in ((f"http://127.0.0.1:{port}", said), ("https://stall.example", {})):
        with pytest.raises(urllib.error.HTTPError) as refused:
            pair(port, code, Origin=origin, **more)
        assert refused.value.code == 403
        refused.value.close()
    cookie, _ = pair(port, code, Origin="https://stall.example", **said)
    assert cookie.startswith("__Host-boltfair=") and "; Secure" in cookie


def test_behind_a_proxy_wrong_codes_are_counted_by_who_the_proxy_says_sent_them(serve, port):
    process, _ = serve("--behind-proxy", "--name", "stall.example")
    _, code = code_told(process)
    said = {
        "X-Forwarded-Host": "stall.example",
        "X-Forwarded-Proto": "https",
        "Origin": "https://stall.example",
    }
    # what a sender says itself comes first: only the last is the proxy's own word
    for number in range(MOST_TRIES_OF_ONE + 1):
        with pytest.raises(urllib.error.HTTPError) as refused:
            pair(port, "0" * 10, **said, **{"X-Forwarded-For": f"198.51.100.{number}, 192.0.2.7"})
        refused.value.close()
    assert refused.value.code == 429
    with pytest.raises(urllib.error.HTTPError) as refused:
        pair(port, code, **said, **{"X-Forwarded-For": "192.0.2.7"})
    assert refused.value.code == 429
    refused.value.close()
    assert pair(port, code, **said, **{"X-Forwarded-For": "192.0.2.8"})


def test_several_workers_share_one_log_without_a_gap(serve, port):
    process, _ = serve("--workers", "2")
    _, code = code_told(process)
    cookie, told = pair(port, code)
    device = told["device"]["id"]
    headers = {
        "Content-Type": "application/json",
        "Origin": f"http://127.0.0.1:{port}",
        "Cookie": cookie.partition(";")[0],
    }

    def send(number):
        fields = {"day": "2026-05-02", "sale": uuid7()}
        change = {
            "id": uuid7(),
            "kind": "void",
            "fields": fields,
            "at": 1,
            "stamp": f"{number:013}-0000-{device}",
            "schema": 1,
        }
        body = {"epoch": told["epoch"], "cursor": 0, "schema": 1, "sent_at": 1, "changes": [change]}
        _, _, reply = fetch(
            f"http://127.0.0.1:{port}/api/v1/sync", data=json.dumps(body).encode(), headers=headers
        )
        return json.loads(reply)["results"][0]["seq"]

    with ThreadPoolExecutor(8) as several:
        assert sorted(several.map(send, range(40))) == list(range(1, 41))
    assert len(workers_of(process)) == 2
    process.send_signal(signal.SIGTERM)
    _, errors = process.communicate(timeout=SECONDS)
    assert (process.returncode, errors) == (0, "")


def workers_of(process):
    """Find a server's worker processes (proc(5))."""
    children = Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text().split()
    return [child for child in children if b"spawn_main" in Path(f"/proc/{child}/cmdline").read_bytes()]


def test_a_body_without_a_length_is_read_and_bounded_too(serve, port):
    serve()
    address = f"http://127.0.0.1:{port}/api/v1/calculators/strip-length"
    headers = {"Content-Type": "application/json"}
    # urllib sends an iterable in chunks
    assert fetch(address, data=iter([b'{"loop":', b" 180}"]), headers=headers)[0] == 200
    with pytest.raises(urllib.error.HTTPError) as refused:
        fetch(address, data=iter([b" " * 70000] * 4), headers=headers)
    assert refused.value.code == 413
    refused.value.close()


def test_the_invented_year_is_shown_by_one_command_from_a_folder_of_its_own(port, tmp_path):
    home, made = tmp_path / "home", tmp_path / "made"
    home.mkdir()
    made.mkdir()
    command = [sys.executable, "-W", "error", "-c", LAUNCH, "serve", "--demo", "--port", str(port)]
    # a database that is there for something else is let be, too
    around = os.environ | {"HOME": str(home), "TMPDIR": str(made), "DATABASE_URL": "sqlite:////nowhere/db"}
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=around, cwd=tmp_path
    )
    try:
        assert process.stdout.readline().startswith(f"Boltfair is at http://127.0.0.1:{port}/")
        assert "invented maker" in process.stdout.readline()
        cookie, told = pair(port, code_told(process)[1])
        # a browser tells hosts apart and not ports: the phone of a true business stays paired
        assert cookie.startswith("boltfair-demo=")
        headers = {"Cookie": cookie.partition(";")[0]}
        today = date.today().isoformat()
        _, _, reply = fetch(f"http://127.0.0.1:{port}/api/v1/bookings?day={today}", headers=headers)
        assert len(json.loads(reply)["records"]) == 1
    finally:
        process.terminate()
    _, errors = process.communicate(timeout=SECONDS)
    assert (process.returncode, errors) == (0, "")
    assert list(home.iterdir()) == []
    assert [path for path in made.iterdir() if path.name.startswith("boltfair-demo")] == []


def test_the_invented_year_is_put_in_no_folder_that_is_named(tmp_path, capsys):
    assert main(["serve", "--demo", "--data", str(tmp_path)]) == 1
    assert "a folder of its own" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "options",
    [
        ["--port", "0"],
        ["--port", "65535"],
        ["--port", "x"],
        ["--host", "no.invalid."],
        ["--workers", "0"],
        ["--workers", "65"],
    ],
)
def test_an_option_that_makes_no_sense_is_refused(options, capsys):
    with pytest.raises(SystemExit) as ended:
        main(["serve", *options])
    assert ended.value.code == 2
    assert f"argument {options[0]}: invalid" in capsys.readouterr().err


def test_the_command_alone_says_what_it_can_do(capsys):
    with pytest.raises(SystemExit):
        main(["--help"])
    assert "serve" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("started", "needless"),
    [
        # makes tables
        ("backend.cli, backend.worker", "alembic"),
        # what only the parent runs, which the worker loads by the command's name
        ("backend.cli, backend.worker", "granian"),
        # answers
        ("backend.serving", "flask_smorest"),
    ],
)
def test_a_process_of_the_server_starts_without_what_it_never_uses(started, needless):
    asked = f"import sys, {started}; print({needless!r} in sys.modules)"
    said = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"
