"""How the documentation is built: ``make docs``. Nothing is fetched; every command and script in it is run."""

import os
import sys
from importlib import metadata
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
os.environ["COLUMNS"] = "80"  # of the terminal whose output is shown
os.environ["PATH"] = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"

project = "tautlay"
release = metadata.version("tautlay")
extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "numpydoc",
    "sphinx_click",
    "sphinx_gallery.gen_gallery",
    "sphinxcontrib.programoutput",
    "directives",
]
exclude_patterns = ["_build", "gallery/README.rst"]
myst_enable_extensions = ["dollarmath", "fieldlist"]
myst_heading_anchors = 3
html_theme = "furo"
html_title = f"tautlay {release}"
html_math_renderer = "mathml"
html_copy_source = False
html_show_search_summary = False  # it fetches each page that was found, which a browser refuses for files on disk
html_show_sphinx = html_show_copyright = False
numpydoc_show_class_members = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"  # the sections of numpydoc say them with their units
programoutput_prompt_template = "$ {command}\n{output}"
sphinx_gallery_conf = {
    "examples_dirs": "gallery",
    "gallery_dirs": "examples",
    "filename_pattern": ".*",
    "within_subsection_order": "FileNameSortKey",
    "download_all_examples": False,
    "show_memory": False,
    "write_computation_times": False,  # its page fetches a table program
    "min_reported_time": 10_000,
    "show_signature": False,
    "abort_on_example_error": True,
    "image_scrapers": ("matplotlib",),
    "reset_argv": lambda conf, script: [],  # noqa: ARG005
}
suppress_warnings = ["config.cache"]  # of the function above, which has no bearing on what is written
