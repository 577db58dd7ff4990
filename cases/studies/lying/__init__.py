"""How one lies: comfort, how firmly one is held, how far one may lean, how to hang for a wish."""
