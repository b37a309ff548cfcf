"""The pages, a folder per group."""
