"""The invented demo shop: Tern Hollow Engines."""
