"""One schedule from its first step to the verdict."""

from __future__ import annotations

from .judge import judge
from .phone_box import PhoneBox
from .shop_server import ROLES, ShopServer
from .world import World

STUCK_MS = 30_000
FOLLOW_MS = 32_000  # a reader asks every 30 s


def do(world: World, step: dict) -> None:
    if step["op"] == "phone":
        world.phone(step["phone"], step["people"], step["locks"], step["code"])
    elif step["phone"] in world.phones:
        STEPS[step["op"]](world, step)


def _append(w: World, s: dict) -> None:
    people = w.phones[s["phone"]]["people"]
    for _ in range(s["n"]):
        w.append(s["phone"], s["tab"], s["build"], s["what"], people[s["who"] % len(people)])


def _evict(w: World, s: dict) -> None:
    def act() -> None:
        w.phones[s["phone"]]["lives"] += 1
        w.tell("evict", phone=s["phone"], dev=w._dev(s["phone"]))

    w.lossy(act)
    w._log_in_all(s["phone"])
    w.tell("open", phone=s["phone"], tab=0)


def _restore(w: World, s: dict) -> None:
    w.lossy(lambda: w.server.restore(said=s["said"] or not w.modern))


def _putback(w: World, s: dict) -> None:
    w.lossy(lambda: w.tell("putback", phone=s["phone"]))


def _login(w: World, s: dict) -> None:
    people = w.phones[s["phone"]]["people"]
    w.log_in(s["phone"], people[s["who"] % len(people)])


def _code(w: World, s: dict) -> None:
    w.modern = w.modern and s["code"] == "now"
    w.phones[s["phone"]]["code"] = s["code"]
    w.tell("code", phone=s["phone"], code=s["code"])
    w.tell("open", phone=s["phone"], tab=0)


def _old_server(w: World, s: dict) -> None:
    w.strip = s["on"]
    w.modern = w.modern and not s["on"]


def _job(w: World, s: dict) -> None:
    jobs = w.server.jobs
    if s["how"] == "shuffle":
        jobs.reverse()
    elif jobs and s["how"] == "drop":
        jobs.pop(0)
    elif jobs:
        pk = jobs.pop(0)
        w.server.run_job(pk, s["at"] if s["how"] == "killed" else 0)
        if s["how"] == "twice":
            w.server.run_job(pk)


def _net(w: World, s: dict) -> None:
    w.modes[s["phone"]] = s["mode"]


def _db(w: World, s: dict) -> None:
    w.next_db = (s["at"], s["kill"])


STEPS = {
    "append": _append, "evict": _evict, "restore": _restore, "putback": _putback, "login": _login, "code": _code, "old_server": _old_server,
    "job": _job, "net": _net, "db": _db,
    "tick": lambda w, s: w.tick(s["ms"]),
    "deliver": lambda w, s: w.deliver_late(),
    "nudge": lambda w, s: w.tell("nudge", phone=s["phone"], tab=s["tab"], why=s["why"]),
    "kill": lambda w, s: w.tell("plan", phone=s["phone"], tab=s["tab"], plan={"kill": s["at"]}),
    "quota": lambda w, s: w.tell("plan", phone=s["phone"], tab=s["tab"], plan={k: s[k] for k in ("at", "times", "name")}),
    "open": lambda w, s: w.tell("open", phone=s["phone"], tab=s["tab"]),
    "close": lambda w, s: w.tell("close", phone=s["phone"], tab=s["tab"]),
    "clock": lambda w, s: w.tell("clock", phone=s["phone"], skew=s["skew"]),
    "luck": lambda w, s: w.tell("luck", phone=s["phone"], luck=s["luck"]),
    "expire": lambda w, s: w.server.expire(s["who"]),
    "role": lambda w, s: w.server.set_role(s["who"], s["role"]),
    "active": lambda w, s: w.server.set_active(s["who"], s["active"]),
    "give": lambda w, s: w.server.give(s["build"], s["who"]),
    "backup": lambda w, s: w.server.backup(),
    "keep": lambda w, s: w.tell("keep", phone=s["phone"]),
}  # fmt: skip


def heal(w: World) -> None:
    """Everything outside the phones and the server works again. Nobody touches a phone, save to log in where it asks.

    Tabs that still run go on as they are: being stuck would show. A phone without a tab is taken up again.
    """
    for who, role in ROLES.items():
        w.server.set_role(who, role)
        w.server.set_active(who, True)
    w.modes.clear()
    w.next_db, w.strip, w.healing = (0, False), False, True
    for number in w.phones:
        if w.phones[number]["code"] == "old":
            _code(w, {"phone": number, "code": "now"})  # an old client's queue and all, the app is brought up to date
        tabs = w.tell("tabs", phone=number)
        for tab in tabs:
            w.tell("plan", phone=number, tab=tab, plan={})
        if not tabs:
            w.tell("open", phone=number, tab=0)
        _log_in_where_asked(w, number)
    w.deliver_late()


def _log_in_where_asked(w: World, number: int) -> None:
    need = {who for tab in w.tell("tabs", phone=number) for who in w.tell("state", phone=number, tab=tab)["need_login"]}
    need |= {row["id"] for row in w.phones[number]["rows"] if row["token"] is None}
    for who in w.phones[number]["people"]:
        if who in need:
            w.log_in(number, who)


def waiting(w: World) -> dict[int, int]:
    """Entries not sent, by phone."""
    held = {n: [row for row in w.tell("dump", phone=n)["events"] if "waiting" in row] for n in w.phones}
    return {n: len(rows) for n, rows in held.items() if rows}


def settle(w: World) -> list[str]:
    """The time after the healing, in which nothing may stay stuck. A log-in that was found to be needed is given."""
    for _ in range(STUCK_MS // 5_000):
        w.tick(5_000)
        for number in w.phones:
            _log_in_where_asked(w, number)
    stuck = waiting(w)
    return [f"phone {n} still holds {count} entries {STUCK_MS // 1000} s after the network healed" for n, count in stuck.items()]


def open_what_nobody_opened(w: World) -> None:
    """Entries of a build whose opening this server never took wait until somebody who may opens it."""
    held = {row["build"] for n in w.phones for row in w.tell("dump", phone=n)["events"]}
    missing = (held | w.server.wanted()) - set(w.server.builds())
    if missing:
        w.phone(99, ["ines"], True, "now")
        for build in sorted(missing):
            w.append(99, 0, build, "open", "ines")


def play(steps: list[dict], box: PhoneBox, seed: str, current: dict) -> list[str]:
    """What is wrong after the healing; an empty list when all is well."""
    server = current["server"] = ShopServer(seed)
    world = World(seed, box, server)
    for step in steps:
        do(world, step)
    heal(world)
    stuck = settle(world)
    open_what_nobody_opened(world)
    server.sweep()
    world.tick(FOLLOW_MS)
    for number in world.phones:
        _log_in_where_asked(world, number)  # the poll just now may be the first in the name of somebody whose log-in had run out
    server.sweep()  # a restore nobody spoke of is noticed at the next poll, and what was lost comes then
    return stuck + judge(world)
