"""The health check answers, and answers the same again."""


def test_the_server_says_that_it_is_well(client):
    first, again = client.get("/healthz"), client.get("/healthz")
    assert first.status_code == again.status_code == 200
    assert first.get_json() == again.get_json() == {"status": "ok"}
    assert first.headers["Cache-Control"] == "no-store"


def test_the_health_check_takes_nothing(client, is_problem):
    is_problem(client.post("/healthz", json={"status": "bad"}), 405)
