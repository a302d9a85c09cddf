"""Builds with setuptools. The one thing of our own: the list of what is shipped lies here, not at the top."""

from setuptools.build_meta import *  # noqa: F403  (the hooks of a build backend, as they are)
from setuptools.command.egg_info import manifest_maker

manifest_maker.template = ".ci/shipped.in"
