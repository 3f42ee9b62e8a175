"""How often the laws are tried: a fixed sample in `make test`, fresh and many more in `make soak`."""

import os

from hypothesis import settings

settings.register_profile("sample", derandomize=True, deadline=None, database=None)
settings.register_profile("soak", derandomize=False, deadline=None, print_blob=True)
settings.load_profile("soak" if os.environ.get("BICKERN_SOAK") else "sample")
