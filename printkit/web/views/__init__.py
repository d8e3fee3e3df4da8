"""The pages, one module a station of the way."""
