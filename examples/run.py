"""Run the notebooks of this folder from top to bottom and keep what they show: ``make notebooks``."""

import os
from pathlib import Path

import nbformat
from nbclient import NotebookClient


def run_notebook(path: Path) -> None:
    """Run a notebook and write it back with its output, but without times and versions of the machine.

    Parameters
    ----------
    path : Path
        An ``.ipynb`` file.
    """
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, kernel_name="python3", record_timing=False, coalesce_streams=True).execute()
    for cell in notebook.cells:
        cell.metadata = {}
    notebook.metadata["language_info"] = {"name": "python"}
    nbformat.write(notebook, path)


if __name__ == "__main__":
    os.environ.pop("MPLBACKEND", None)  # the kernel chooses the one that draws into the notebook
    for path in sorted(Path(__file__).parent.glob("*.ipynb")):
        run_notebook(path)
        print(f"{path.name}: {path.stat().st_size / 1000:.0f} kB")
