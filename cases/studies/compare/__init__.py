"""The designs of a sweep compared: sorted, filtered, Pareto front, effect of each choice, export."""
