"""Every compiled loop is typed, takes few arguments and comes from the cache in a second process."""

import importlib
import inspect
import json
import pkgutil
import subprocess
import sys

import pytest
from numba.core.dispatcher import Dispatcher

import tautlay.solver

USE = """
import json, importlib, pkgutil
import numpy as np
import tautlay.solver
from numba.core.dispatcher import Dispatcher
from tautlay.solver import *

flat = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [1.0, 1.0]])
places = np.vstack([np.pad(flat, ((0, 0), (0, 1))), [[0.4, 0.4, 0.35], [0.6, 0.5, 0.4]]])
triangles, limb = np.array([[0, 1, 2], [1, 3, 2]]), [[4, 5]]
cloth = Membrane(triangles, flat[triangles], FabricLaw(1e4, 9e3, 0.1, 100.0))
body = Contact(triangles, limb, [[0.4, 0.3]], 1e4)
elements = [cloth, body, Rod(limb, 1e5, 0.22), Cable([[0, 1]], 1e4, 1.0)]
fixed = np.arange(6) < 3
structure = Structure(places, elements, fixed=fixed, forces=-10.0 * np.eye(6, 3, -3)[:, [1, 0, 2]])
state = relax(structure, max_iterations=30)
for element in elements:
    state[element]
structure.terms[1].find_pierced(places)
modules = [importlib.import_module("tautlay.solver." + m.name) for m in pkgutil.iter_modules(tautlay.solver.__path__)]
loops = {id(loop): loop for m in modules for loop in vars(m).values() if isinstance(loop, Dispatcher)}.values()
found = {"hits": sum(sum(loop.stats.cache_hits.values()) for loop in loops)}
found["compiled"] = [loop.__name__ for loop in loops if loop.stats.cache_misses]
print(json.dumps(found))
"""


def list_loops():
    """Return every compiled loop of the solver by its name."""
    found = {}
    for module in pkgutil.iter_modules(tautlay.solver.__path__, "tautlay.solver."):
        for name, loop in vars(importlib.import_module(module.name)).items():
            if isinstance(loop, Dispatcher) and loop.__module__ == module.name:
                found[f"{module.name.split('.')[-1]}.{name}"] = loop
    return found


LOOPS = list_loops()


@pytest.mark.parametrize("loop", LOOPS.values(), ids=LOOPS)
def test_loop_is_typed_and_takes_six_arguments_at_most(loop):
    signature = inspect.signature(loop.py_func)
    assert len(signature.parameters) <= 6
    assert signature.return_annotation is not inspect.Signature.empty
    for parameter in signature.parameters.values():
        assert parameter.kind is inspect.Parameter.POSITIONAL_OR_KEYWORD
        assert parameter.annotation is not inspect.Signature.empty
        assert "Callable" not in str(parameter.annotation)


@pytest.mark.parametrize("loop", LOOPS.values(), ids=LOOPS)
def test_loop_has_one_sentence_and_a_place_in_the_cache(loop):
    assert loop.__doc__.strip().endswith(".")
    assert loop.stats.cache_path


def test_a_second_process_compiles_nothing():
    """Laws, named tuples and all: what one process has compiled the next one takes from the cache."""
    for _ in range(2):
        done = subprocess.run([sys.executable, "-c", USE], capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert found["compiled"] == []
    assert found["hits"] >= 10
