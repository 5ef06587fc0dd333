"""The machine's side: fonts, photos, readiness, swapping folders."""
