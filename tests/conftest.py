"""How often the laws are tried: a fixed sample in `make test`, fresh and many more in `make soak`."""

import importlib
import os
import pkgutil

from hypothesis import settings

import bickern

settings.register_profile("sample", derandomize=True, deadline=None, database=None)
settings.register_profile("soak", derandomize=False, deadline=None, print_blob=True)
settings.load_profile("soak" if os.environ.get("BICKERN_SOAK") else "sample")

# Hypothesis also tries the constants of every module that is loaded: so all are, that the sample is the same each time.
for module in pkgutil.walk_packages(bickern.__path__, "bickern."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
