"""The starter design."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

from .design_issue import DesignError, DesignIssue
from .storage.atomic import write_text
from .storage.output_file import DESIGN, check_output

TEMPLATE = Path(__file__).with_name("starter.toml")
NAME_LINE = 'name = "My hammock"            #'
_MORE = "# There are more settings, for other ways to make each part: `tautlay new --all` adds them as comments.\n"
# What the starter states in metric units, and the same in round US ones.
_US_SIZES = {
    "2.05 m": "6 ft 9 in", "1.22 m": "47 1/2 in", "1.12 m": "44 in", "17 cm": "6 3/4 in", "40 cm": "16 in",
    "2.10 m": "83 in",
    "3 cm": "1 1/4 in", "3 mm": "1/8 in", "2.5 mm": "0.1 in", "20 mm": "3/4 in", "10 mm": "3/8 in", "9 cm": "3 5/8 in",
    "4 cm": "1 1/2 in", "90 cm": "35 in", "72 cm": "28 in", "0 cm": "0 in", "2 mm": "0.08 in", "1.5 mm": "0.06 in",
    "84 cm": "33 in", "16 mm": "5/8 in", "13.5 mm": "0.53 in", "12 cm": "4 3/4 in", "6 cm": "2 1/2 in",
    "0.2 mm": "0.008 in", "20 cm": "8 in", "70 cm": "28 in", "0.80 m": "32 in", "1.80 m": "6 ft", "4.3 m": "14 ft",
    "1.20 m": "4 ft", "1.60 m": "5 ft 3 in", "28 cm": "11 in", "30 cm": "12 in", "75 cm": "30 in", "55 cm": "22 in",
    "1.70 m": "5 ft 7 in", "30 mm": "1 3/16 in", "15 mm": "5/8 in", "6 mm": "1/4 in", "12 mm": "1/2 in",
    "1 mm": "0.04 in",
    "45 mm": "1 3/4 in", "1.45 m": "57 in", "15 cm": "6 in", "36 cm": "14 in", "25 mm": "1 in", "14 cm": "5 1/2 in",
    "19 cm": "7 1/2 in", "1.75 m": "5 ft 9 in", "5 cm": "2 in", "10 cm": "4 in", "40 mm": "1 1/2 in",
    "68 kg": "150 lb", "250 g": "9 oz", "2.8 g": "0.1 oz", "7.4 g": "0.26 oz", "900 N": "200 lbf", "40 N": "9 lbf",
    "900 N m/rad": "660 lbf ft/rad",
}  # fmt: skip
_SIZE = re.compile(r'(?<=")\d[^"]*(?=")|(?<= )\d+ mm(?= apart)')  # a value, or one in a comment
_CONTINUED = re.compile(r"\s+#")  # a comment that goes on from the line before


def write_starter(target: Path, *, every_setting: bool = False, imperial: bool = False, force: bool = False) -> Path:
    """Write a commented starter design.

    Parameters
    ----------
    target : Path
        File to write; ``.toml`` is added where there is no ending, and the stem becomes the design's name.
    every_setting : bool
        Whether settings that it does not use are there too, as comments.
    imperial : bool
        Whether its sizes are round inches, feet and pounds, and its reports in US units.
    force : bool
        Whether a file that is there already may be replaced.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    DesignError
        If its name cannot be a design's name.
    OSError
        If the file is there already, or cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> write_starter(Path(tempfile.mkdtemp()) / "fern_hollow").name
    'fern_hollow.toml'
    """
    if not target.name or target.is_dir():
        raise DesignError([DesignIssue(str(target), "this is a folder. Add a file name.")])
    path = target if target.suffix else target.with_suffix(".toml")
    check_output(path, DESIGN, force=force)
    title = path.stem.replace("_", " ").strip().capitalize()
    if not title or not title.isprintable() or len(title) > 70:
        raise DesignError(
            [DesignIssue(str(path), "a design name must have 1 to 70 printable characters. Choose another file name.")]
        )
    text = TEMPLATE.read_text(encoding="utf-8")
    if not every_setting:
        text = "".join(_leave_out_unused(text))
    if imperial:
        text = _write_us_sizes(text)
    write_text(path, text.replace(NAME_LINE, f"name = {json.dumps(title, ensure_ascii=False)}  #"))
    return path


def _write_us_sizes(text: str) -> str:
    """Return the starter with its sizes in US units; names of materials and shares are in no list and stay."""
    lines = [_change_sizes(line) if " = " in line else line for line in text.split("\n")]
    return "\n".join(lines).replace('units = "both"                 #', 'units = "imperial"             #')


def _change_sizes(line: str) -> str:
    """Return a line with its sizes in US units, its last comment where it was."""
    value, mark, comment = (_SIZE.sub(_find_us_size, part) for part in line.rpartition("  #"))
    place = len(line.rpartition("  #")[0])
    return f"{value.rstrip().ljust(place)}{mark}{comment}" if mark else comment


def _find_us_size(found: re.Match[str]) -> str:
    """Return the US size of a metric one; anything else as it stands."""
    return _US_SIZES.get(found[0], found[0])


def _leave_out_unused(text: str) -> Iterator[str]:
    """Yield the lines of the heading, of what is set and of the comments on it, one blank line before each table."""
    heading, mark, rest = text.partition("\n[")
    yield f"{heading}{_MORE}"
    kept = True
    for line in f"{mark}{rest}".splitlines(keepends=True):
        kept = kept if _CONTINUED.match(line) else not line.startswith(("#", "\n"))
        if kept:
            yield f"\n{line}" if line.startswith("[") else line
