"""Every write of the desk: keyword-only functions that take who, run in one transaction and write the event."""
