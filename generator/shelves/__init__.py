"""The shelves of templates/ as typed data: what grows without Python."""
