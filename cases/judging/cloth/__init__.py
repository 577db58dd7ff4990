"""What the cloth carries: hot spots over a gauge width, channels, where on it something lies."""
