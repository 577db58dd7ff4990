"""The cutting pattern of a design: drafted, looked over, listed and kept."""
