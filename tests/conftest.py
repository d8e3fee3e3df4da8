"""Settings that hold for every test."""

from hypothesis import settings

settings.register_profile("printkit", derandomize=True, deadline=None, max_examples=40)
settings.load_profile("printkit")
