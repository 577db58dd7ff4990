"""The short form of the attack; the long one is ``python -m tests.attack``."""

import pytest

from ._attacks import ATTACKS
from ._running import count_outcomes

pytestmark = pytest.mark.slow
FEW = {
    "sane designs": 12, "files cut off": 2, "names": 4, "signals": 2, "full disks": 3, "surroundings": 1,
    "compiled loops": 2,
}  # fmt: skip
SEED = 7


@pytest.mark.parametrize("name", ATTACKS)
def test_attack_holds(name):
    counted, told, _ = count_outcomes(ATTACKS[name](SEED, range(FEW.get(name, 40))))
    assert told["broken"] == []
    assert sum(counted.values()) > 0
