"""How sure the checks are: between what their factors lie, and which input would be most worth measuring."""
