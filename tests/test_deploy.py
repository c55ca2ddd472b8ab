"""The files for whoever runs a server are true: their options are real, and a checker finds nothing wrong."""

import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from backend.cli import make_parser

DEPLOY = Path(__file__).parent.parent / "backend" / "deploy"
UNIT, CONTAINER = DEPLOY / "boltfair.service", DEPLOY / "Containerfile"


def test_the_unit_starts_the_server_with_options_it_knows():
    [command] = re.findall(r"^ExecStart=(.*)$", UNIT.read_text(encoding="utf-8"), re.MULTILINE)
    given = make_parser().parse_args(shlex.split(command)[1:])
    assert (str(given.data), given.behind_proxy) == ("/var/lib/boltfair", True)


def test_the_image_starts_the_server_with_options_it_knows():
    [command] = re.findall(r"^CMD \[(.*)\]$", CONTAINER.read_text(encoding="utf-8"), re.MULTILINE)
    given = make_parser().parse_args([part.strip(' "') for part in command.split(",")])
    assert (given.host, str(given.data)) == ("0.0.0.0", "/var/lib/boltfair")


@pytest.mark.skipif(not shutil.which("systemd-analyze"), reason="there is no systemd here to ask")
def test_systemd_finds_nothing_wrong_with_the_unit(tmp_path):
    # the program need not be there to check the rest
    text = UNIT.read_text(encoding="utf-8").replace("/opt/boltfair/bin/boltfair", shutil.which("true"))
    (tmp_path / UNIT.name).write_text(text, encoding="utf-8")
    done = subprocess.run(
        ["systemd-analyze", "verify", tmp_path / UNIT.name], capture_output=True, text=True, timeout=120
    )
    assert [line for line in done.stderr.splitlines() if UNIT.name in line] == []
