"""What the checks of the whole build say, in English."""

SAID = {
    # a figure that is out
    "misfit": "{title} reads {shown}, {says}. {limit}", "for_chosen": "{limit}, for {chosen}.",
    "see_worked_out": "See what is worked out at {step}.",
    "read_again_at": "Read it again at {step}; if it stands, the parts have to be put right.",
    "why_unheld": "No step waits for this figure, so nothing else stops the build on it.",
    "why_spread": "Stations that differ share the load unevenly.",
    "waits_until_in": "{steps} waits until it is in.", "wait_until_in": "{steps} wait until it is in.",
    # gates
    "behind_gate": "{step} was finished while its gate is closed. {hold}",
    "why_behind_gate": "Work behind a closed gate may have to come apart again.",
    "cure_behind_gate": "Put the fit right or ask for a concession, then look at this step again.",
    # to be done again, read twice
    "stale_step": "{step} must be done again: {what}.",
    "why_stale": "Something it relied on was taken apart or exchanged after it was done.",
    "cure_stale": "Do these again; the earlier entries stay in the record.",
    "read_as": "{title} was read as {readings}.", "shown_by": "{shown} ({who})",
    "why_contrary": "Neither knew of the other's reading, so neither can be relied on.",
    "cure_contrary": "Measure again, or say which is right.",
    # torque marks
    "no_marks": "{step}, pass {number}: no mark for {bolts}.",
    "before_turn": "{step}, pass {number}: {bolts} came before pass {before} was complete.",
    "why_marks": "A fastener that missed a pass clamps less than its neighbours, and nobody can see it.",
    "cure_marks": "Pull them in sequence and mark each.",
    "cure_turn": "Loosen this set and go through the passes again in sequence.",
    # choices
    "not_chosen": "{choice} has not been chosen, and {step} has begun.", "goes_by": "{fits} goes by it.", "go_by": "{fits} go by it.",
    "choose_at": "Choose it at {step} before going on.",
    # parts
    "two_places": "{part} is recorded in {count} places: {places}.",
    "why_two_places": "A part is in one place; what was worked out from its size at the others is wrong.",
    "cure_two_places": "Look, and record which part is in each of them.",
    "other_seat": "{part} ran in at {home} and is now in {here}.",
    "why_other_seat": "Two faces that have worn together fit each other and nothing else; on another seat both wear afresh.",
    "cure_other_seat": "Put it back with its own seat, or fit a new one here.",
    "slot_empty": "{slot}: empty, and {step} has begun.", "slot_unnamed": "{slot}: without a named part, and {step} has begun.",
    "why_slot": "The engine is not complete without it, and the record cannot say later what was fitted.",
    "cure_slot": "Put in the part and say which it is: mark, new or used.",
    # oil film
    "film": "Oil film at {where}: {thick} at {speed} rpm with {oil}. The journal runs {off} % off centre.",
    "film_of": "Oil film at {where}, the thinnest of {count}: {thick} at {speed} rpm with {oil}. The journal runs {off} % off centre.",
    "film_less": "less than {thick}", "film_bearing": "the bearing",
    "why_film": "Where the film is thinner than the roughness of journal and shell together, they touch. "
                "Worked out for a steady load and a round bore.",
    "film_lacks": "The oil film cannot be worked out: {what} is not there yet.",
    "film_lack": "The oil film cannot be worked out: {what} are not there yet.", "cure_film_lacks": "Read or choose what is missing.",
    "film_none": "There is no oil film at {where}: a figure it rests on is not above zero.",
    "cure_film_none": "Read the clearance and the bearing again.",
    "thicker": "Thicker: {ways}.", "thicker_oil": "with {oil}, {thick}", "thicker_clearance": "with {clearance} of clearance, {thick}",
    # concessions, entries that could not be used
    "let_through": "{title} at {shown} (limit {limit}) was let through: “{reason}”. Asked by {asked_by}, granted by {granted_by}, {says}.",
    "why_concession": "A concession is a limit somebody decided to pass; it stays with the engine.",
    "cure_concession": "Have somebody else review it.",
    "why_flag": "It was recorded and counts for nothing as it stands (entry {entry}).",
    "cure_flag": "Look at it and record it again if it was meant.",
    "newer": "{count} entries come from a newer version of this app.", "why_newer": "They are kept and not shown.",
    "cure_newer": "Update the app.",
}
