"""What a user asks: design files, load cases, results, the command line."""
