"""The shop file: this forge's own figures and the published rules it follows, from text."""

from bickern.book.shopfile.forms import FORMS
from bickern.book.shopfile.read import read_shop

__all__ = ["FORMS", "read_shop"]
