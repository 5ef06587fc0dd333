"""What a reader may not see: the values, how they are recognised however they are written, and how messages keep them back."""
