"""Words, rows and headings that terminal and pages share."""
