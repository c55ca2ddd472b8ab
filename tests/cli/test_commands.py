"""What the commands do to what is kept."""

import json
import threading
import zipfile

import pytest

from tests.phones import ORIGIN, PLACE, SALE_DAY, Phone, uuid7


def pair(app, code):
    return app.test_client().post(
        "/api/v1/devices", json={"code": code, "name": "x"}, headers={"Origin": ORIGIN}
    )


def test_a_business_is_added_listed_and_known_to_its_phones(run, business, phone):
    assert run("business", "list")[1] == f"{business}  Tern & Tansy\n"
    [change] = phone.exchange()["changes"]
    assert change["record"] == business
    assert change["fields"] == {"name": "Tern & Tansy", "currency": "EUR"}


def test_a_business_needs_a_name_that_can_be_kept(run):
    code, _, complaint = run("business", "add", "x" * 61)
    assert code == 1 and "60 characters" in complaint
    assert run("business", "list")[1] == ""


def test_pairing_prints_a_code_a_phone_can_use(run, app, business):
    told = json.loads(run("pair", "--role", "helper", "--name", "Joss", "--json")[1])
    assert told["business"] == business
    assert pair(app, told["code"]).get_json()["device"]["name"] == "Joss"
    shown = run("pair")[1]
    assert f"or type the code {shown.partition('#pair=')[2][:10]}: good once, for 10 minutes" in shown


def test_a_command_asks_which_of_two_businesses_is_meant(run, business):
    other = run("business", "add", "Other", "--currency", "JPY")[1].split()[0]
    code, _, complaint = run("pair")
    assert code == 1
    assert f"Tern & Tansy ({business})" in complaint and f"Other ({other})" in complaint
    for name in (other, "Other"):
        assert json.loads(run("pair", "--business", name, "--json")[1])["business"] == other


def test_phones_are_listed_and_taken_off(run, phone):
    assert f"{phone.id}  owner   A phone  (last seen " in run("phones")[1]
    assert run("phones", "revoke", phone.id)[0] == 0
    assert phone.send().status_code == 403
    assert "(removed)" in run("phones")[1]
    assert run("devices", "revoke", uuid7())[0] == 1


def test_an_option_may_stand_behind_what_it_is_about(run, phone, settings):
    assert run("devices", "revoke", phone.id, "--data", settings.data)[0] == 0
    assert "(removed)" in run("devices", "--data", settings.data)[1]


def test_a_name_that_is_too_long_for_a_phone_is_refused(run, business, capsys):
    with pytest.raises(SystemExit):
        run("pair", "--name", "x" * 61)
    assert "may be at most 60 characters long" in capsys.readouterr().err


def test_what_is_kept_is_only_for_its_owner_in_a_folder_made_before(run, monkeypatch, tmp_path):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    folder = tmp_path / "made before"
    folder.mkdir(mode=0o755)
    assert run("business", "add", "Tern & Tansy", "--data", folder)[0] == 0
    assert {path.stat().st_mode & 0o077 for path in folder.iterdir()} == {0}


def test_a_copy_is_put_back_in_a_new_life_and_phones_send_what_is_missing(run, phone, tmp_path):
    early, late = [phone.sale() for _ in range(5)], [phone.sale() for _ in range(3)]
    phone.exchange(early)
    assert run("backup", tmp_path / "copy")[0] == 0
    phone.exchange(late)
    assert run("restore", tmp_path / "copy")[0] == 1
    assert len(phone.pull_all()[0]) == 9
    assert run("restore", "--replace", tmp_path / "copy")[0] == 0
    told = phone.send().get_json()
    assert told["epoch"] != phone.epoch
    assert told["from"] == 0
    phone.epoch, phone.cursor = told["epoch"], 0
    statuses = [result["status"] for result in phone.exchange(early + late)["results"]]
    assert statuses == ["duplicate"] * 5 + ["accepted"] * 3
    assert len(phone.ask("GET", "/sales").get_json()["records"]) == 8


def test_a_copy_carries_everything_to_another_kind_of_database(run, phone, tmp_path, monkeypatch):
    phone.exchange([phone.sale() for _ in range(3)])
    run("backup", tmp_path / "copy")
    run("export", tmp_path / "before")
    monkeypatch.delenv("DATABASE_URL", raising=False)
    elsewhere = ("--data", tmp_path / "elsewhere")
    assert run("restore", tmp_path / "copy", *elsewhere)[0] == 0
    run("export", tmp_path / "after", *elsewhere)
    for path in sorted((tmp_path / "before").iterdir()):
        assert (tmp_path / "after" / path.name).read_bytes() == path.read_bytes()


def test_a_copy_made_while_phones_send_is_of_one_moment(run, phone, tmp_path):
    stop = threading.Event()

    def send(app=phone.client.application):
        with app.app_context():
            while not stop.is_set():
                phone.exchange([phone.sale() for _ in range(5)])

    sending = threading.Thread(target=send)
    sending.start()
    try:
        for number in range(3):
            assert run("backup", tmp_path / f"copy {number}")[0] == 0
    finally:
        stop.set()
        sending.join()
    for number in range(3):
        with zipfile.ZipFile(tmp_path / f"copy {number}") as packed:
            [head] = map(json.loads, packed.read("log_head.jsonl").splitlines())
            seqs = [json.loads(line)["seq"] for line in packed.read("change.jsonl").splitlines()]
        assert seqs == list(range(1, head["last_seq"] + 1))


def test_a_copy_holds_the_other_files_of_the_data_folder(run, business, settings, tmp_path):
    (settings.data / "certificates").mkdir()
    (settings.data / "certificates" / "key.pem").write_text("secret")
    run("backup", tmp_path / "copy")
    assert (tmp_path / "copy").stat().st_mode & 0o077 == 0
    (settings.data / "certificates" / "key.pem").unlink()
    run("restore", "--replace", tmp_path / "copy")
    assert (settings.data / "certificates" / "key.pem").read_text() == "secret"


@pytest.mark.parametrize("body", [b"", b"no copy", None])
def test_what_is_no_copy_is_refused_and_nothing_is_lost(run, business, tmp_path, body):
    file = tmp_path / "file"
    if body is None:
        with zipfile.ZipFile(file, "w") as packed:
            packed.writestr("about.json", '{"format": "boltfair copy 1"}')
    else:
        file.write_bytes(body)
    assert run("restore", "--replace", file)[0] == 1
    assert business in run("business", "list")[1]


def test_a_copy_puts_no_file_outside_the_data_folder(run, business, tmp_path):
    run("backup", tmp_path / "copy")
    with zipfile.ZipFile(tmp_path / "copy", "a") as packed:
        packed.writestr("files/../../outside", "x")
    assert run("restore", "--replace", tmp_path / "copy")[0] == 1
    assert not (tmp_path / "outside").exists()


def test_rebuilding_says_how_much_there_is_and_changes_nothing(run, phone, business, tmp_path):
    phone.exchange([phone.sale() for _ in range(4)])
    run("export", tmp_path / "before")
    assert run("rebuild")[1] == f"{business}  5 changes\n"
    run("export", tmp_path / "after")
    for path in sorted((tmp_path / "before").iterdir()):
        assert (tmp_path / "after" / path.name).read_bytes() == path.read_bytes()


def test_export_writes_each_table_and_the_takings_of_each_day(run, phone, tmp_path, read_csv):
    voided = phone.sale(1, 10_000)
    line = {"product": PLACE, "quantity": 1, "total": 150}
    back = {
        "day": SALE_DAY,
        "place": PLACE,
        "lines": [line],
        "amount": 150,
        "payment": "cash",
        "goods": "table",
    }
    phone.exchange([
        phone.sale(2, 600), phone.sale(1, 600, payment="card"), voided, phone.sale(1, 450),
        phone.fact("void", {"day": SALE_DAY, "sale": voided["id"]}), phone.fact("refund", back),
    ])  # fmt: skip
    run("export", tmp_path / "out")
    assert read_csv(tmp_path / "out" / "takings.csv") == [
        {
            "day": SALE_DAY,
            "payment": "cash",
            "sales": "2",
            "taken": "1650",
            "refunds": "1",
            "given_back": "150",
        },
        {"day": SALE_DAY, "payment": "card", "sales": "1", "taken": "600", "refunds": "0", "given_back": "0"},
    ]
    assert len(read_csv(tmp_path / "out" / "sale.csv")) == 4


def test_exported_text_is_quoted_and_starts_no_formula(run, phone, tmp_path, read_csv):
    names = ["=1+1", "+1", "-1", "@x", "\tx", "\rx", 'a "b", c', "two\r\nlines", "plain"]
    phone.exchange([phone.edit("place", uuid7(), {"name": name, "use": "home"}) for name in names])
    run("export", tmp_path / "out")
    body = (tmp_path / "out" / "place.csv").read_bytes()
    # RFC 4180: lines end with CRLF, quotes inside quoted fields are doubled
    assert body.count(b"\r\n") == len(names) + 2 and b'"a ""b"", c"' in body
    found = {row["name"] for row in read_csv(tmp_path / "out" / "place.csv")}
    assert found == {"'" + name for name in names[:6]} | set(names[6:])


def test_a_database_that_cannot_be_reached_is_said_in_words(run, monkeypatch):
    monkeypatch.setenv("DATABASE_URL", "postgresql://nobody@127.0.0.1:1/none")
    code, _, complaint = run("business", "list")
    assert code == 1
    assert complaint.startswith("boltfair: the database cannot be opened: ")


def test_a_phone_of_the_first_business_never_sees_the_second(run, app, business):
    first = Phone(app, business)
    run("business", "add", "Other")
    assert len(first.pull_all()[0]) == 1
