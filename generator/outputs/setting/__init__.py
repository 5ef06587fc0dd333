"""Setting: what the outputs share to make pages of a manual, on paper and on a screen."""
