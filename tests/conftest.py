"""What all tests share: drawn examples are the same in every run, and the clock decides nothing."""

from hypothesis import settings

settings.register_profile("lowstow", derandomize=True, deadline=None, database=None, print_blob=True)
settings.load_profile("lowstow")
