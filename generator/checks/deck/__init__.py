"""The deck plan: its spaces and points, and the sides that words say."""
