"""Shops, their people and their phones: who is asking, and what he may see."""
