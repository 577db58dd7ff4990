"""All inputs drawn at once: chances that checks fall short, bands of the lie, and where they come from."""
