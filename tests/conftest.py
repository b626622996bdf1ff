"""What every test may count on: Hypothesis without a stop watch, for a slow machine is not a fault."""

import os

from hypothesis import Phase, settings

from tests.hazards.driver import VARIABLE
from tests.hazards.switching import switch_off

switch_off()

# Built on the profile in force: on CI the library's own one, with the same examples each time, still holds.
settings.register_profile("companion", settings.get_profile(settings.get_current_profile_name()), deadline=None)
# With a control off a failure is what is wanted: it need not be small, is not kept for other runs, and is the same each time.
settings.register_profile(
    "switched off",
    settings.get_profile("companion"),
    database=None,
    derandomize=True,
    phases=(Phase.explicit, Phase.generate),
)
settings.load_profile("switched off" if os.environ.get(VARIABLE) else "companion")
