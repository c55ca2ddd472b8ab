"""The log as it is asked for by ids."""

import pytest
from sqlalchemy import event

from backend.settings import Settings
from backend.store import log, reading
from tests.databases import serving_app
from tests.phones import uuid7


@pytest.fixture(scope="module")
def on_sqlite(tmp_path_factory):
    """An app on SQLite, whose plan this is."""
    yield from serving_app(Settings(tmp_path_factory.mktemp("data")))


@pytest.mark.parametrize("many", [1, 20, 500])
def test_ids_are_looked_up_in_their_index_however_many_are_asked_for(on_sqlite, many):
    with on_sqlite.app_context(), reading() as connection:
        asked = []
        event.listen(connection, "before_cursor_execute", lambda *given: asked.append(given[2:4]))
        log.known(connection, uuid7(), [uuid7() for _ in range(many)])
        [(text, values)] = asked
        plan = connection.exec_driver_sql("EXPLAIN QUERY PLAN " + text, values).all()
    [of_log] = [row.detail for row in plan if "change" in row.detail]
    assert "uq_change_business_id (business=? AND id=?)" in of_log
