"""A design damaged at random is refused with a sentence or read right, never with a traceback or a wrong unit."""

import random
import re
import signal
import tomllib
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import DesignError, read_design

HOME = Path(str(files("tautlay.cases")))
TEXTS = [(HOME / f"{name}.toml").read_text(encoding="utf-8") for name in ("larch_ridge", "otter_creek")]
COUNT, SECONDS = 300, 10
UNITS = ["mm", "cm", "m", "km", "in", "ft", "yd", "kg", "g", "oz", "lb", "N", "kN", "lbf", "deg", "rad", "tex", "den"]
UNITS += ["g/m2", "%", "dm", "µm", "stone", "°", "M", "MM"]

# An independent reader of what may be accepted; NIST SP 811 (2008), Appendix B.8.
FACTORS = {
    **dict.fromkeys(["m", "metre", "meter"], 1.0), "cm": 0.01, "mm": 0.001, "km": 1000.0,
    **dict.fromkeys(["in", '"', "inch"], 0.0254), **dict.fromkeys(["ft", "'"], 0.3048), "yd": 0.9144,
    "kg": 1.0, "g": 0.001, "oz": 0.028349523125, "lb": 0.45359237,
    **dict.fromkeys(["deg", "°"], 0.017453292519943295), "rad": 1.0,
}  # fmt: skip
DIMENSIONS = {
    "length": {"m", "metre", "meter", "cm", "mm", "km", "in", '"', "inch", "ft", "'", "yd"},
    "mass": {"kg", "g", "oz", "lb"},
    "angle": {"deg", "°", "rad"},
}
PLACES = {
    ("body", "length"): lambda d: d.hammock.body.length,
    ("body", "head_width"): lambda d: d.hammock.body.head_width,
    ("body", "foot_width"): lambda d: d.hammock.body.foot_width,
    ("body", "grain"): lambda d: d.hammock.body.grain,
    ("body", "arc", "depth"): lambda d: d.hammock.body.left_arc.depth,
    ("channel", "lock_length"): lambda d: d.hammock.channel.lock_length,
    ("channel", "cord_length"): lambda d: d.hammock.channel.cord_length,
    ("head_bar", "length"): lambda d: d.hammock.head_bar.length,
    ("head_bar", "set_in"): lambda d: d.hammock.head_bar.set_in,
    ("foot_bar", "length"): lambda d: d.hammock.foot_bar.length,
    ("foot_bar", "set_in"): lambda d: d.hammock.foot_bar.set_in,
    ("suspension", "leg_length"): lambda d: d.hammock.suspension.head.leg_length,
    ("suspension", "head_leg_length"): lambda d: d.hammock.suspension.head.leg_length,
    ("suspension", "foot_leg_length"): lambda d: d.hammock.suspension.foot.leg_length,
    ("suspension", "line_length"): lambda d: d.hammock.suspension.foot.line_length,
    ("suspension", "strap_height"): lambda d: d.hammock.suspension.foot.strap_height,
    ("suspension", "head_strap_height"): lambda d: d.hammock.suspension.head.strap_height,
    ("suspension", "foot_strap_height"): lambda d: d.hammock.suspension.foot.strap_height,
    ("suspension", "hang_angle"): lambda d: d.hammock.suspension.hang_angle,
    ("suspension", "tree_distance"): lambda d: d.hammock.suspension.tree_distance,
    ("person", "stature"): lambda d: d.person.stature,
    ("person", "mass"): lambda d: d.person.mass,
    ("person", "head_from_bar"): lambda d: d.person.head_from_bar,
    ("mesh", "size"): lambda d: d.mesh_size,
}
DIMENSION_OF = {("body", "grain"): "angle", ("suspension", "hang_angle"): "angle", ("person", "mass"): "mass"}


# a decimal, or a fraction, or a whole number and a fraction; then the unit
NUMBER_AND_UNIT = r"([-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?)(?:[- ]+([0-9]+) ?/ ?([0-9]+)| ?/ ?([0-9]+))? *([a-z'\"°]+)[- ]*"


def evaluate(text, dimension):
    """Return the SI value of a quantity: a sum of numbers, whole or mixed fractions, each before a unit."""
    total, rest = 0.0, text.replace("½", " 1/2 ").replace("″", '"').replace("''", '"').strip()
    while rest:
        match = re.match(NUMBER_AND_UNIT, rest)
        assert match, f"{text!r} was accepted but is no quantity"
        number = float(match[1]) / float(match[4] or 1) + (float(match[2]) / float(match[3]) if match[2] else 0.0)
        assert match[5] in DIMENSIONS[dimension], f"{text!r} was accepted as {dimension}"
        total, rest = total + number * FACTORS[match[5]], rest[match.end() :]
    return total


def find_quantities(raw):
    for path in PLACES:
        value = raw
        for key in path:
            value = value.get(key) if isinstance(value, dict) else None
        if value is not None:
            yield path, value


def damage_line(line, dice):
    """Return a line with one small damage."""
    place = dice.randrange(len(line) + 1) if line else 0
    choice = dice.randrange(9)
    if choice == 0:
        return ""
    if choice == 1:
        return f"{line}\n{line}"
    if choice == 2:
        return line[:place] + line[place + 1 : place + 2] + line[place : place + 1] + line[place + 2 :]
    if choice == 3:
        return line[:place] + line[place + 1 :]
    if choice == 4:
        return line[:place] + dice.choice("0123456789.,-+/ \"'=[]{}#abmnx\u00bd\u2033\u0660\x07") + line[place:]
    if choice == 5:
        wrong = ["7", "-1.5", "true", '["1 m"]', "{}", "nan", "inf", "2024-01-01", '""', "'''x'''", '"1 m"', "1e400"]
        return re.sub(r"=.*", f"= {dice.choice(wrong)}", line, count=1)
    if choice == 6:
        return re.sub(r"[0-9]+", lambda match: match[0] * dice.choice([1, 2, 40]), line, count=1)
    return re.sub(r"(?<=[0-9] )[a-z]+(?=\")", lambda _: dice.choice(UNITS), line, count=1)


def damage(text, seed):
    """Return a text with one or two damages, mostly in lines that say something."""
    dice = random.Random(seed)
    lines = text.split("\n")
    telling = [place for place, line in enumerate(lines) if line and not line.startswith("#")]
    for _ in range(dice.choice([1, 1, 2])):
        place = dice.choice(telling)
        lines[place] = damage_line(lines[place], dice)
    data = "\n".join(lines).encode()
    if dice.random() < 0.03:
        return data[: dice.randrange(len(data))] + bytes([dice.randrange(128, 256)])
    return data


@contextmanager
def limit_time():
    def stop(*args):
        raise TimeoutError(f"reading took more than {SECONDS} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(SECONDS)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def try_design(path):
    """Return the design and no error, or nothing and the error."""
    try:
        with limit_time():
            return read_design(path), None
    except DesignError as error:
        return None, error


def is_proper(error, path):
    """Return whether a refusal names the file and says something, one line for each fault."""
    lines = [str(fault) for fault in error.faults]
    return bool(lines) and all(line.startswith(str(path)) and "\n" not in line for line in lines)


def test_damaged_designs_are_refused_or_read_right(tmp_path):
    outcomes = {"read": 0, "refused": 0}
    for seed in range(COUNT):
        path = tmp_path / f"{seed}.toml"
        path.write_bytes(damage(TEXTS[seed % 2], seed))
        design, error = try_design(path)
        outcomes["refused" if design is None else "read"] += 1
        if design is None:
            assert is_proper(error, path), (seed, error)
            continue
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
        for place, text in find_quantities(raw):
            wanted = evaluate(text, DIMENSION_OF.get(place, "length"))
            assert PLACES[place](design) == pytest.approx(wanted, rel=1e-12, abs=1e-15), (seed, place, text)
    # the damage must be worth the name, and not so great that nothing gets past the first gate
    assert outcomes["refused"] > COUNT / 3
    assert outcomes["read"] > COUNT / 20


@pytest.mark.parametrize("unit", UNITS)
def test_another_unit_is_refused_or_converted(tmp_path, unit):
    path = tmp_path / "a.toml"
    number = {"mm": "40", "cm": "4", "in": "1.5", "m": "0.04", "ft": "0.13", "yd": "0.04"}.get(unit, "40")
    path.write_text(TEXTS[0].replace('size = "40 mm"', f'size = "{number} {unit}"'), encoding="utf-8")
    design, _ = try_design(path)
    allowed = unit in {"mm", "cm", "m", "in", "ft", "yd"}
    assert (design is not None) == allowed
    if design is not None:
        assert design.mesh_size == pytest.approx(float(number) * FACTORS[unit], rel=1e-14)
