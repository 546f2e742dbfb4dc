"""Long work: jobs and their workers, the watch over stored assemblies, webhooks."""
