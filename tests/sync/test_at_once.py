"""Many at once: whoever reads by cursor misses nothing, whoever sends twice is counted once."""

import threading

import pytest

from backend.access import codes, phones
from backend.sync.exchange import exchange
from tests.phones import Phone, make_code, now

WRITERS = 6


def run_all(*works):
    """Run functions in threads at once; what one raises is raised here."""
    failed = []

    def guarded(work):
        try:
            work()
        except BaseException as error:
            failed.append(error)

    threads = [threading.Thread(target=guarded, args=(work,)) for work in works]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if failed:
        raise failed[0]


class Sender:
    """What the exchange needs to know of a phone."""

    def __init__(self, phone):
        self.business, self.id, self.role = phone.business, phone.id, phone.role
        self.unsent, self.seen_at = None, now()


@pytest.mark.full
def test_a_reader_by_cursor_misses_nothing_of_six_writers(app, business, how_many):
    writers = [Phone(app, business) for _ in range(WRITERS)]
    reader, pushes, done, seen = writers[0], how_many(12, 150), threading.Event(), []

    def write(phone):
        with app.app_context():
            for _ in range(pushes):
                changes = [phone.fact("void", {"day": "2026-05-02", "sale": phone.id}) for _ in range(3)]
                exchange(Sender(phone), phone.epoch, 0, 1, changes, now())

    def write_all():
        try:
            run_all(*[lambda phone=phone: write(phone) for phone in writers])
        finally:
            done.set()

    def read():
        cursor, last_look = 0, False
        with app.app_context():
            while True:
                _, page = exchange(Sender(reader), reader.epoch, cursor, 1, [], now())
                assert page.after == cursor
                assert len(page.changes) == page.through - page.after
                seen.extend(page.changes)
                cursor = page.through
                if last_look and not page.more:
                    return
                last_look = done.is_set()

    run_all(write_all, read)
    assert len(seen) == WRITERS * pushes * 3
    assert [text.partition(",")[0] for text in seen] == [f'{{"seq":{seq}' for seq in range(1, len(seen) + 1)]


@pytest.mark.full
def test_the_same_push_from_several_threads_at_once_is_taken_once(app, owner, how_many):
    changes = [owner.sale() for _ in range(how_many(40, 200))]
    statuses = []

    def send():
        with app.app_context():
            results, _ = exchange(Sender(owner), owner.epoch, 0, 1, changes, now())
            statuses.extend(result.status for result in results)

    run_all(*[send] * 4)
    assert statuses.count("accepted") == len(changes)
    assert statuses.count("duplicate") == 3 * len(changes)
    assert len(owner.pull_all()[0]) == len(changes)
    assert len(owner.ask("GET", "/sales?limit=1000").get_json()["records"]) == len(changes)


@pytest.mark.full
def test_a_code_tried_by_many_at_once_pairs_one_phone(app, business, how_many):
    for round in range(how_many(3, 40)):
        code, paired = make_code(business), []

        def pair(code=code, paired=paired, round=round):
            with app.app_context():
                try:
                    paired.append(phones.pair(code, "x", now(), f"10.9.{round}.1"))
                except codes.WrongCode:
                    return

        run_all(*[pair] * 4)
        assert len(paired) == 1
