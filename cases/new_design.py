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
_CONTINUED = re.compile(r"\s+#")  # a comment that goes on from the line before


def write_starter(target: Path, *, every_setting: bool = False, force: bool = False) -> Path:
    """Write a commented starter design.

    Parameters
    ----------
    target : Path
        File to write; ``.toml`` is added where there is no ending, and the stem becomes the design's name.
    every_setting : bool
        Whether settings that it does not use are there too, as comments.
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
    write_text(path, text.replace(NAME_LINE, f"name = {json.dumps(title, ensure_ascii=False)}  #"))
    return path


def _leave_out_unused(text: str) -> Iterator[str]:
    """Yield the lines of the heading, of what is set and of the comments on it, one blank line before each table."""
    heading, mark, rest = text.partition("\n[")
    yield f"{heading}{_MORE}"
    kept = True
    for line in f"{mark}{rest}".splitlines(keepends=True):
        kept = kept if _CONTINUED.match(line) else not line.startswith(("#", "\n"))
        if kept:
            yield f"\n{line}" if line.startswith("[") else line
