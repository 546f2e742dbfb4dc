"""Typed access to the tables, one repository per noun."""
