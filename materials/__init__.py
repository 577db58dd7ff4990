"""What things are made of: records and a library of sourced values."""
