"""What users read: the README and the guides, one text."""

from pathlib import Path

ROOT = Path(__file__).parents[1]


def read_pages():
    pages = [ROOT / "README.md", *sorted((ROOT / "docs" / "guides").glob("*.md"))]
    return "\n".join(page.read_text(encoding="utf-8") for page in pages)
