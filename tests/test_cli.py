"""The command, as a real process."""

import contextlib
import json
import re
import signal
import socket
import ssl
import subprocess
import sys
import urllib.request

import pytest

from backend.cli import main

LAUNCH = "import sys; from backend.cli import main; sys.exit(main())"
SECONDS = 60


@pytest.fixture
def port():
    """A port that is free, and the one after it too."""
    while True:
        with socket.create_server(("127.0.0.1", 0)) as one:
            number = one.getsockname()[1]
            with contextlib.suppress(OSError, OverflowError), socket.create_server(("127.0.0.1", number + 1)):
                break
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


@pytest.mark.parametrize(
    "options", [["--port", "0"], ["--port", "65535"], ["--port", "x"], ["--host", "no.invalid."]]
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
