"""The outfit of a handover."""
