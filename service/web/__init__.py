"""HTTP: routes, schemas, problems and pages; it parses, calls one function and shapes the answer."""
