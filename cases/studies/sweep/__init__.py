"""What if: a design with everything that varies in it, solved in every combination, kept and compared."""
