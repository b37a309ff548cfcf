"""Planning a round."""
