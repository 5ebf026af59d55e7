"""How many turns of the filing tool to the wanted ring gap.

Law: a gap is filed larger, never smaller: you can't put it back. The next cut is so many whole turns that even the largest
gain a turn seen so far would not carry the gap past the wanted one. With no gain seen yet, a first cut of a few turns is
made and read; its size rests on no tool taking more than MOST_A_TURN.

Common practice, no published source.
"""
from __future__ import annotations

FEW = 3              # turns of a first cut
MOST_A_TURN = 25400  # nm (0.001 in): what a turn could take before anybody has seen what it takes
TURN = 1000          # turns are counted in thousandths


def next_cut(gap: int, limit: dict, cuts: list) -> dict:
    """Plan the next cut at one ring. Lengths in nm.

    limit  {low, high, aim}; without an aim the low limit is filed to (a gap can always be opened further)
    cuts   {turns, gain} of cuts already read, turns in thousandths, gain what the gap grew by

    Returns {to_go, turns, most, least, first, over}: to_go to the wanted gap (None where nothing says); turns of the next cut,
    whole, 0 when less than one would do; most and least what the gap would then read by the largest and the smallest gain seen
    (None before any); first when no gain was seen; over when the gap is past its limit, which no filing cures.
    """
    wanted = limit.get("aim") if limit.get("aim") is not None else limit.get("low")
    over = limit.get("high") is not None and gap > limit["high"]
    seen = [c for c in cuts if c["turns"] > 0 and c["gain"] > 0]
    out: dict = {"to_go": None if wanted is None else max(0, wanted - gap), "turns": 0, "most": None, "least": None,
           "first": not seen, "over": over}
    if wanted is None or wanted <= gap:
        return out
    if not seen:
        out["turns"] = min(FEW, (wanted - gap) // MOST_A_TURN)
        return out
    turns = min([(wanted - gap) * c["turns"] // (c["gain"] * TURN) for c in seen])
    gains = [_gain(turns, c) for c in seen]
    out.update({"turns": turns, "most": gap + max(gains), "least": gap + min(gains)})
    return out


def _gain(turns: int, c: dict) -> int:
    """What so many turns gain at the rate of one cut, rounded up."""
    return -(-turns * TURN * c["gain"] // c["turns"])
