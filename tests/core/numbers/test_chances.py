"""The chances of counts, against SciPy and a published table."""

import pytest
from scipy import stats

from backend.core.numbers.counts import MOST_MEAN, chances, chances_up_to

MEANS = (1e-9, 0.01, 0.5, 1.25, 9.5, 40.0, 180.0, float(MOST_MEAN))
SIZES = (0.05, 0.6, 1.0, 6.0, 25.0, 400.0, 9999.0)
MOST = 1200


def law(mean, size):
    return stats.poisson(mean) if size is None else stats.nbinom(size, size / (size + mean))


@pytest.mark.parametrize("mean", MEANS)
@pytest.mark.parametrize("size", [None, *SIZES])
def test_chances_are_scipys(mean, size):
    counts = range(MOST + 1)
    assert chances(mean, size, MOST) == pytest.approx(list(law(mean, size).pmf(counts)), rel=1e-9, abs=1e-12)
    up_to = chances_up_to(mean, size, MOST)
    assert up_to == pytest.approx(list(law(mean, size).cdf(counts)), abs=1e-12)
    assert max(up_to) <= 1 and up_to == sorted(up_to)


def test_from_a_size_on_the_law_is_poissons():
    assert chances(9.5, 10000, 30) == chances(9.5, None, 30) != chances(9.5, 9999.0, 30)


def test_the_chances_of_a_published_table_come_out():
    # Cachon & Terwiesch, Matching Supply with Demand, appendix: Poisson, mean 1.25
    told = chances_up_to(1.25, None, 3)
    assert told == pytest.approx([0.286505, 0.644636, 0.868468, 0.961731], abs=5e-7)


def test_none_are_wanted_of_what_nobody_wants():
    assert chances(0.0, None, 2) == chances(0.0, 0.6, 2) == [1.0, 0.0, 0.0]
