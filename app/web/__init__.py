"""The server, and what stands around every page."""
