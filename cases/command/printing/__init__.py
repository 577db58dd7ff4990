"""What is shown on a terminal: tables of a result and of materials, progress, options."""
