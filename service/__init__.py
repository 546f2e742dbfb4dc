"""The rooms of the service; each imports only inwards."""
