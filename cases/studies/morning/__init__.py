"""The same hammock after a night, soaked, or at another temperature."""
