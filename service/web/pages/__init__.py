"""The pages that people meet: rendered on the server, readable without scripts."""
