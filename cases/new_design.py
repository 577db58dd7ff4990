"""The starter design."""

import json
from pathlib import Path

from .design_issue import DesignError, DesignIssue
from .storage.atomic import write_text
from .storage.output_file import DESIGN, check_output

TEMPLATE = Path(__file__).with_name("starter.toml")
NAME_LINE = 'name = "My hammock"            #'


def write_starter(target: Path, *, force: bool = False) -> Path:
    """Write a commented starter design.

    Parameters
    ----------
    target : Path
        File to write; ``.toml`` is added where there is no ending, and the stem becomes the design's name.
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
    write_text(path, text.replace(NAME_LINE, f"name = {json.dumps(title, ensure_ascii=False)}  #"))
    return path
