"""The log as it is asked for by ids."""

import pytest
from sqlalchemy import event

from backend.store import log, reading
from tests.phones import uuid7


@pytest.mark.parametrize("database", ["sqlite"], scope="session")
@pytest.mark.parametrize("many", [1, 20, 500])
def test_ids_are_looked_up_in_their_index_however_many_are_asked_for(app, many):
    with reading() as connection:
        asked = []
        event.listen(connection, "before_cursor_execute", lambda *given: asked.append(given[2:4]))
        log.known(connection, uuid7(), [uuid7() for _ in range(many)])
        [(text, values)] = asked
        plan = connection.exec_driver_sql("EXPLAIN QUERY PLAN " + text, values).all()
    [of_log] = [row.detail for row in plan if "change" in row.detail]
    assert "uq_change_business_id (business=? AND id=?)" in of_log
