"""The desk: the web pages a handover is run from."""
