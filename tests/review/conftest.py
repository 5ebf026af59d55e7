from tests.record.fixtures import *  # noqa: F403
