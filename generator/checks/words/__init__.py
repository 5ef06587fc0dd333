"""Words of her own: they read where a step prints them, and say nothing else than the fields beside them."""
