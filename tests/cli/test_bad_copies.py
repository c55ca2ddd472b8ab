"""A copy is put back whole or not at all, whatever became of the file; no command ends in a traceback."""

import json
import os
import subprocess
import sys
import zipfile

import pytest

from tests.phones import uuid7


def lines_of(entries, name):
    return [json.loads(line) for line in entries[name].splitlines()]


def put_lines(entries, name, rows):
    entries[name] = b"".join(json.dumps(row).encode() + b"\n" for row in rows)


def without_a_change(entries):
    put_lines(entries, "change.jsonl", [row for row in lines_of(entries, "change.jsonl") if row["seq"] != 2])


def without_the_end(entries):
    put_lines(entries, "change.jsonl", lines_of(entries, "change.jsonl")[:-1])


def with_other_content(entries):
    rows = lines_of(entries, "change.jsonl")
    rows[-1]["fields"] = rows[-1]["fields"].replace('"quantity":1', '"quantity":2')
    rows[-1]["at"] += 1
    put_lines(entries, "change.jsonl", rows)


def with_a_column_of_another_type(entries):
    rows = lines_of(entries, "log_head.jsonl")
    rows[0]["last_seq"] = "many"
    put_lines(entries, "log_head.jsonl", rows)


def with_a_column_too_many(entries):
    rows = lines_of(entries, "device.jsonl")
    rows[0]["admin"] = True
    put_lines(entries, "device.jsonl", rows)


def with_a_phone_of_no_business(entries):
    rows = lines_of(entries, "device.jsonl")
    rows[0]["business"] = uuid7()
    put_lines(entries, "device.jsonl", rows)


def with_a_database_in_it(entries):
    entries["files/boltfair.db-wal"] = b"x"


def with_a_file_elsewhere(entries):
    entries["files/certificates/../../outside"] = b"x"


def with_no_json(entries):
    entries["device.jsonl"] = b"{\n"


def without_phones(entries):
    del entries["device.jsonl"]


SPOILT = [
    without_a_change, without_the_end, with_other_content, with_a_column_of_another_type,
    with_a_column_too_many, with_a_phone_of_no_business, with_a_database_in_it, with_a_file_elsewhere,
    with_no_json, without_phones,
]  # fmt: skip


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda spoil: spoil.__name__)
def test_a_spoilt_copy_is_refused_before_anything_is_changed(run, phone, settings, tmp_path, spoil):
    (settings.data / "certificates").mkdir()
    key = settings.data / "certificates" / "key.pem"
    key.write_text("of the copy")
    phone.exchange([phone.sale() for _ in range(3)])
    assert run("backup", tmp_path / "copy")[0] == 0
    phone.exchange([phone.sale()])
    key.write_text("of now")
    with zipfile.ZipFile(tmp_path / "copy") as packed:
        entries = {name: packed.read(name) for name in packed.namelist()}
    spoil(entries)
    with zipfile.ZipFile(tmp_path / "spoilt", "w") as packed:
        for name, body in entries.items():
            packed.writestr(name, body)
    code, _, complaint = run("restore", "--replace", tmp_path / "spoilt")
    assert code == 1
    assert complaint.startswith("boltfair: ") and "is not a copy that can be read: " in complaint
    assert key.read_text() == "of now"
    assert list(settings.data.rglob("*.part")) == []
    assert len(phone.ask("GET", "/sales").get_json()["records"]) == 4


def test_damaged_bytes_of_a_copy_are_told(run, phone, tmp_path):
    phone.exchange([phone.sale() for _ in range(50)])
    run("backup", tmp_path / "copy")
    body = bytearray((tmp_path / "copy").read_bytes())
    for at in range(200, len(body) - 2000, 97):
        body[at] ^= 0x55
    (tmp_path / "copy").write_bytes(body)
    assert run("restore", "--replace", tmp_path / "copy")[0] == 1
    assert len(phone.ask("GET", "/sales").get_json()["records"]) == 50


def test_a_copy_into_the_data_folder_holds_no_copy(run, phone, settings):
    for name in ("one", "two"):
        assert run("backup", settings.data / name)[0] == 0
    with zipfile.ZipFile(settings.data / "two") as packed:
        assert {name.partition("/")[0] for name in packed.namelist()} <= {
            "about.json", "log_head.jsonl", "change.jsonl", "device.jsonl", "files",
        }  # fmt: skip
        assert [name for name in packed.namelist() if "one" in name or "two" in name] == []


def test_a_copy_that_cannot_be_written_leaves_nothing(run, business, tmp_path):
    assert run("backup", tmp_path / "no such folder" / "copy")[0] == 1
    (tmp_path / "folder").mkdir()
    code, _, complaint = run("backup", tmp_path / "folder")
    assert code == 1 and complaint.startswith("boltfair: ")
    assert [path.name for path in tmp_path.iterdir() if path.name.endswith(".part")] == []


@pytest.mark.parametrize(
    "address",
    ["nonsense", "mysql://localhost/x", "postgresql://localhost:port/x", "postgresql://127.0.0.1:1/x"],
)
def test_an_address_that_leads_nowhere_is_said_in_words(run, monkeypatch, address):
    monkeypatch.setenv("DATABASE_URL", address)
    code, _, complaint = run("business", "list")
    assert code == 1
    assert complaint.startswith("boltfair: ") and complaint.count("\n") == 1


def test_a_database_that_is_none_is_said_in_words(run, monkeypatch, tmp_path):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "boltfair.db").write_bytes(b"no database at all " * 100)
    code, _, complaint = run("business", "list", "--data", tmp_path / "data")
    assert code == 1
    assert complaint.startswith("boltfair: ") and complaint.count("\n") == 1


def test_a_data_folder_that_is_a_file_is_said_in_words(run, monkeypatch, tmp_path):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    (tmp_path / "file").write_text("x")
    code, _, complaint = run("business", "list", "--data", tmp_path / "file")
    assert code == 1
    assert complaint.startswith("boltfair: ") and complaint.count("\n") == 1


def test_a_console_without_these_letters_shows_what_it_can(tmp_path):
    command = [sys.executable, "-c", "import sys; from backend.cli import main; sys.exit(main())"]
    here = os.environ | {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    here.pop("DATABASE_URL", None)
    for asked in (["business", "add", "Tern & Zoë"], ["pair"]):
        done = subprocess.run(
            [*command, *asked, "--data", str(tmp_path)], env=here, capture_output=True, timeout=120
        )
        assert (done.returncode, done.stderr) == (0, b""), done.stderr
