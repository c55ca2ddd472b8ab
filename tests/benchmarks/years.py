"""The demo's year, and the years before it, in a business of a server: what a maker has after so long."""

import json
import re
import time
from datetime import date

from backend import store
from backend.demo.loading import Sender, evenings, load
from backend.settings import Settings
from backend.sync.exchange import MOST_PUSHED
from backend.sync.push import push

# whole weeks, so that a Saturday stays one
DAYS_BACK = 364
DAY = re.compile(r"2\d{3}-\d\d-\d\d")
DAY_MS = 86_400_000
# what a year adds; what is sold, and where, stays as it is
OF_A_YEAR = ("booking", "batch", "remnant")


def put_years(data, business, years):
    """Put the demo's year into a business of a server's data folder, and so many such years in all."""
    today = date.today()
    with store.opened(Settings(data)), store.writing() as connection:
        load(connection, business, today)
        made = list(evenings(business, today)) if years > 1 else []
        own = {id for _, _, changes in made for change in changes for id in _ids_of(change)}
        for back in range(1, years):
            for phone, _, changes in made:
                older = [_earlier(change, back, own) for change in changes if _is_of_a_year(change)]
                for start in range(0, len(older), MOST_PUSHED):
                    part = older[start : start + MOST_PUSHED]
                    results = push(connection, Sender(business, phone), part, time.time_ns() // 1_000_000)
                    refused = [result.problems for result in results if result.status != "accepted"]
                    assert not refused, refused[:3]


def _is_of_a_year(change):
    return "record" not in change or change["kind"] in OF_A_YEAR


def _ids_of(change):
    ids = [change["id"], change["fields"].get("session")]
    return [id for id in [*ids, change.get("record") if _is_of_a_year(change) else None] if id]


def _earlier(change, back, own):
    # each id of its own year with another first digit
    text = json.dumps(change["fields"])
    for id in set(re.findall(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}", text)) & own:
        text = text.replace(id, f"{back}{id[1:]}")
    moved = DAY.sub(lambda day: _day_before(day[0], back), text)
    at = change["at"] - back * DAYS_BACK * DAY_MS
    stamp = f"{int(change['stamp'][:13]) - back * DAYS_BACK * DAY_MS:013}{change['stamp'][13:]}"
    earlier = change | {
        "id": f"{back}{change['id'][1:]}",
        "fields": json.loads(moved),
        "at": at,
        "stamp": stamp,
    }
    return earlier | ({"record": f"{back}{change['record'][1:]}"} if "record" in change else {})


def _day_before(day, back):
    return date.fromordinal(date.fromisoformat(day).toordinal() - back * DAYS_BACK).isoformat()
