"""Changes at random, each the same for the same seed."""

import json
import re

VALUES = (
    "", "0", "-1 m", "1e999 m", "nan m", "7 furlongs", "2,05 m", "\x00", "\x1b[31m", "\u202e", "9" * 400, "../" * 40,
    "/proc/self/environ", "=cmd|' /C calc'!A0", "{q0:length.3}", "</script>", "ä" * 50, "1 m 2 m 3 m",
)  # fmt: skip
FACTORS = (0.0, 1e-9, 1e-3, 0.1, 0.5, 0.9, 0.99, 1.01, 1.1, 2.0, 10.0, 1e3, 1e9, -1.0)
TOKENS = (
    b"[",
    b"]",
    b"[[",
    b"=",
    b'"',
    b'"""',
    b"{",
    b"}",
    b"\n",
    b"\r",
    b"\xff",
    b"\x00",
    b"#",
    b".",
    b"1e999",
    b"nan",
)
NUMBERS = (
    None,
    0,
    -1,
    1e300,
    5e-324,
    float("nan"),
    float("inf"),
    2**70,
    10**400,
    True,
    "x",
    "\x1b[31m",
    [],
    {},
    [1],
    {"a": 1},
)


def change_bytes(content, draw):
    """Return bytes with something cut out, put in, doubled, turned round or cut off."""
    for _ in range(draw.choice((1, 1, 1, 2, 5))):
        first, last = sorted((draw.randrange(len(content) + 1), draw.randrange(len(content) + 1)))
        last = min(last, first + draw.choice((1, 2, 8, 60)))
        piece = content[first:last]
        new = draw.choice((b"", piece * 2, draw.choice(TOKENS), piece[::-1], draw.randbytes(len(piece))))
        content = content[:first] + new + content[last:]
    return content[: draw.randrange(len(content) + 1)] if draw.random() < 0.1 else content


def change_toml(content, draw):
    """Return TOML with another value, another number in one, a key twice, a line gone or moved, or its bytes changed."""
    if draw.random() < 0.4:
        return change_bytes(content, draw)
    lines = content.decode("utf-8").split("\n")
    for _ in range(draw.choice((1, 1, 2, 4))):
        place = draw.randrange(len(lines))
        key, sign, value = lines[place].partition("=")
        way = draw.randrange(7)
        if way == 0 and sign:
            lines[place] = f"{key}= {json.dumps(draw.choice(VALUES), ensure_ascii=draw.random() < 0.5)}"
        elif way == 1 and sign:
            lines[place] = f"{key}= {draw.choice(('true', '7', '-0.0', '[]', '{}', '1979-05-27', '[[1]]', 'inf'))}"
        elif way >= 5 and sign:
            factor = draw.choice(FACTORS)
            lines[place] = f"{key}={re.sub(r'[0-9.]+', lambda found: _scale(found[0], factor), value)}"
        elif way == 2:
            lines.insert(place, draw.choice(lines))
        elif way == 3:
            del lines[place : place + draw.choice((1, 3, 10))]
            lines = lines or [""]
        else:
            lines[place] = lines[draw.randrange(len(lines))]
    return "\n".join(lines).encode("utf-8", "surrogatepass")


def _scale(number, factor):
    """Return a number times a factor, or what was no number as it was."""
    try:
        return f"{float(number) * factor:.9g}"
    except ValueError:
        return number


def change_json(content, draw):
    """Return JSON with values replaced, taken out or doubled, or its bytes changed."""
    if draw.random() < 0.1:
        return change_bytes(content, draw)
    whole = json.loads(content)
    for _ in range(draw.choice((1, 1, 1, 2, 3))):
        table, key = draw.choice(list(_list_places(whole)))
        way = draw.random()
        if way < 0.15:
            del table[key]
        elif way < 0.3 and isinstance(table, list):
            table.append(table[key])
        elif way < 0.4 and isinstance(table[key], int | float):
            table[key] = -table[key]
        else:
            table[key] = draw.choice(NUMBERS)
    return json.dumps(whole).encode()


def _list_places(value):
    """Yield every table or list with each of its keys."""
    keys = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ()
    for key in keys:
        yield value, key
        yield from _list_places(value[key])
