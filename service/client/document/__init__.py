"""Written from the OpenAPI document by `make openapi`: do not edit."""
