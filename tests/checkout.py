"""The checkout under test, and its ``dev`` script as a module."""

from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_loader
from pathlib import Path
from types import ModuleType

CHECKOUT = Path(__file__).parent.parent


def load_dev(checkout: Path = CHECKOUT) -> ModuleType:
    """The ``dev`` script of a checkout. It has no suffix, so a plain import does not find it."""
    loader = SourceFileLoader("dev", str(checkout / "dev"))
    spec = spec_from_loader("dev", loader)
    assert spec is not None
    module = module_from_spec(spec)
    loader.exec_module(module)
    return module
