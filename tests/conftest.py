"""What every test may count on: Hypothesis without a stop watch, for a slow machine is not a fault."""

from hypothesis import settings

# Built on the profile in force: on CI the library's own one, with the same examples each time, still holds.
settings.register_profile("companion", settings.get_profile(settings.get_current_profile_name()), deadline=None)
settings.load_profile("companion")
