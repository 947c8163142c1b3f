"""Pictures of the guide, made of invented cooks. Run by hand: they are kept beside the pages that show them."""
