"""Load on the cloth: hot spots over a gauge width, channels, places on it in words."""
