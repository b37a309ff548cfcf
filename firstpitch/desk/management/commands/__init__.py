"""Commands of the desk."""
