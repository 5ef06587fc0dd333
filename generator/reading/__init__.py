"""Text with places to typed blocks: boats' files and the program's own shelves are read alike."""
