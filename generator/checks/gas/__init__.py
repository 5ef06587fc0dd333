"""Gas: its detector, its bottles, spare ones too, that nothing sparks beside it or beside petrol, and that what can be shut off is described."""
