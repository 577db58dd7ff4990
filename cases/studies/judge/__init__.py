"""One verdict on a design: every person under every load, solved from one another's shapes."""
