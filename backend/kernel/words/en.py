"""English, as a builder says it."""

SAID = {
    # verdicts
    "word_in": "In", "word_under": "Under", "word_over": "Over", "word_close": "Close", "word_not_read": "Not read",
    "word_stale": "Read again", "word_contrary": "Two readings", "word_no_figure": "No figure", "word_no_limit": "No limit",
    "word_read": "Read",
    "under_by": "under by {by}", "over_by": "over by {by}", "spare_low": "{by} to spare below", "spare_high": "{by} to spare above",
    "on_low": "right on the lower limit", "on_high": "right on the upper limit", "unlimited": "no limit is set",
    "said_stale": "something it relied on has changed since", "said_contrary": "two readings disagree", "said_not_read": "not read yet",
    "said_no_figure": "these readings cannot all be right", "said_no_limit": "its limit waits for {what}",
    "a_row": "a row for this duty",
    # limits
    "at_least": "at least {low}", "at_most": "at most {high}", "no_ends": "none",
    "limit": "Limit {range} from {origin}.", "limit_none": "No limit is set for this fit.",
    "from_maker": "the maker's sheet", "from_shop": "the shop's sheet", "from_table": "the reference table",
    "from_with_source": "{origin} ({source})", "tells": "Your reading can tell this to {pm}.",
    # holds
    "is_under": "is under", "is_over": "is over", "is_not_read": "has not been read", "is_stale": "must be read again",
    "is_contrary": "has two readings that disagree", "is_no_figure": "gives no figure from its readings",
    "is_no_limit": "has no limit yet", "at_stations": "{what} at {where}",
    "hold": "{misfit}. Until it is in, “{step}” waits.", "waits_for": "Waits for {steps}.",
    "see_cure": "{misfit}. See here what would put it right.", "do_again": "Do again: {what}.", "torque_of": "torque of {bolts}",
    "quoted": "“{title}”",
    # torque
    "further": "{angle} further", "from_last_pass": "from where the last pass ended",
    "cue": "You stopped after {last}, {ago}. Pull {last} once more, then go on with {next}.",
    # concessions
    "reviewed_by": "reviewed by {who}", "not_reviewed": "not independently reviewed",
    "does_not_count": "does not count until somebody else reviews it", "figure_not_read": "not read",
    # asked once
    "outside_band": "{shown} is outside anything this can be ({low} to {high}). Is it what the gauge shows?",
    "ten_times": "{shown} is about ten times off from {other}. Is the point in the right place?",
    # small words
    "somebody": "somebody", "and": "{most} and {last}",
    "came_at": "{part} from {where}", "measure_of": "{what}, {slot}", "measure_of_at": "{what}, {slot} of {at}",
    "just_now": "just now", "day_ago": "1 day ago", "days_ago": "{n} days ago", "hour_ago": "1 hour ago", "hours_ago": "{n} hours ago",
    "minute_ago": "1 minute ago", "minutes_ago": "{n} minutes ago",
}
