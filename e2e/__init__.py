"""End-to-end tests: the real server, a real browser, and the network really off."""
