"""The embedded form's database backend; see base.py."""
