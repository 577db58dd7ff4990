"""The designs of a sweep compared: in order, filtered, what nothing beats, what each choice moves, written out."""
