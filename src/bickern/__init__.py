"""bickern: know before you light the forge."""

__version__ = "0.1.0"
