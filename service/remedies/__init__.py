"""Ways out of a bad joint: alternatives, mitigations, compounds and envelopes, each one judged again."""
