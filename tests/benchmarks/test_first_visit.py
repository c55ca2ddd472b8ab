"""What the first visit loads."""

from collections import Counter

import pytest

from e2e.server import Server
from tests.benchmarks.conftest import serving_empty_page
from tests.benchmarks.phone_at_work import PhoneAtWork
from tests.benchmarks.table import row
from tests.benchmarks.wire import Wire

pytestmark = pytest.mark.benchmark

KB = 1000
ALL_KB, RUNTIME_KB, OWN_KB = 480, 222, 150


@pytest.fixture(scope="module")
def loaded(playwright, tmp_path_factory):
    """Every reply of a first visit, until all is kept for offline."""
    with Server(tmp_path_factory.mktemp("data")) as server:
        return replies_to(playwright, tmp_path_factory.mktemp("phone"), server.port, "/buy")


@pytest.fixture(scope="module")
def loaded_empty(playwright, tmp_path_factory):
    """The same of the empty page."""
    with serving_empty_page() as address:
        return replies_to(playwright, tmp_path_factory.mktemp("phone"), int(address.rpartition(":")[2]), "/")


def test_a_first_visit_loads_little(loaded, loaded_empty, keep):
    weighed = kilobytes(loaded)
    keep(
        row(
            "first visit, all, KB compressed",
            [weighed],
            ALL_KB,
            empty=kilobytes(loaded_empty),
            limits=heaviest(loaded),
        )
    )


def test_the_calculation_runtime_is_a_part_of_it(loaded, keep):
    runtime = [reply for reply in loaded if reply.path.startswith("/vendor/micropython/")]
    keep(
        row("  of it the calculation runtime, KB", [kilobytes(runtime)], RUNTIME_KB, limits=heaviest(runtime))
    )


def test_own_and_vendored_scripts_and_styles_are_a_part_of_it(loaded, keep):
    own = [reply for reply in loaded if is_script_or_style(reply.path)]
    keep(row("  of it other JavaScript and CSS, KB", [kilobytes(own)], OWN_KB, limits=heaviest(own)))


def test_its_headers_are_told_beside_it(loaded, tell):
    headers = sum(reply.headers for reply in loaded) / KB
    told = f"{len(loaded)} replies over HTTP/1.1; over HTTPS, HTTP/2 sends repeated headers once"
    tell(row("  beside it, headers, KB", [headers], limits=told))


def replies_to(playwright, profile, port, path):
    with Wire(port) as wire, PhoneAtWork(playwright, profile, wire.address) as phone:
        phone.visit(path)
        return wire.replies


def kilobytes(replies):
    return sum(reply.body for reply in replies) / KB


def is_script_or_style(path):
    packed = path == "/pack.json"
    return packed or path.endswith((".js", ".mjs", ".css")) and not path.startswith("/vendor/micropython/")


def heaviest(replies):
    weights = Counter()
    for reply in replies:
        weights[reply.path] += reply.body
    return ", ".join(f"{path} {bytes / KB:.0f}" for path, bytes in weights.most_common(3))
