"""Loading the demo, on either database."""

# of the year 2025, as demo_fixtures/README.md says
CHANGES = 8885


def test_the_demo_is_loaded_whole_into_an_empty_folder_and_only_there(run, tmp_path, read_csv):
    code, told, _ = run("demo", "--day", "2026-01-01")
    assert code == 0 and f"{CHANGES:,} changes" in told
    business = run("business", "list")[1]
    assert business.endswith("  Tern & Tansy\n")
    run("export", tmp_path / "before")
    code, _, complaint = run("demo")
    assert code == 1
    assert complaint.startswith("boltfair: there are records here already")
    assert run("rebuild")[1] == f"{business.split()[0]}  {CHANGES} changes\n"
    run("export", tmp_path / "after")
    for path in sorted((tmp_path / "before").iterdir()):
        assert (tmp_path / "after" / path.name).read_bytes() == path.read_bytes()
    rows = read_csv(tmp_path / "after" / "takings.csv")
    assert len({row["day"] for row in rows}) == 45
    assert sum(int(row["sales"]) for row in rows) == 4000


def test_the_demo_goes_into_no_business_that_has_records(run, business, phone):
    phone.exchange([phone.sale()])
    code, _, complaint = run("demo", "--business", business)
    assert code == 1 and "records here already" in complaint
    assert len(phone.pull_all()[0]) == 2
