"""Elements are added to a structure and dropped from it."""

import numpy as np
import pytest

from tautlay.solver import Cable, Structure

PLACES = np.array([[0.0, 0, 0], [1, 0, 0], [2, 0, 0]])


def test_what_is_added_and_dropped_again_changes_nothing():
    first, more = Cable([[0, 1], [1, 2]], 1e3, 0.9), Cable([[0, 2]], 5e2, 1.5)
    before = Structure(PLACES, [first], fixed=[True, False, True])
    after = before.add_element(more).drop_element(more)
    assert after.elements == before.elements
    np.testing.assert_array_equal(after.unbalanced(PLACES), before.unbalanced(PLACES))
    assert after.energy(PLACES) == before.energy(PLACES)


def test_what_is_not_there_cannot_be_dropped():
    structure = Structure(PLACES, [Cable([[0, 1], [1, 2]], 1e3, 0.9)], fixed=[True, False, True])
    with pytest.raises(ValueError, match="not an element of this structure"):
        structure.drop_element(Cable([[0, 2]], 5e2, 1.5))
