"""What is kept in files: shapes, results, their folder, whole or not at all."""
