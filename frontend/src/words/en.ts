// Every word the screens say for themselves. What the trade says (steps, verdicts, holds) comes from the kernel.
// Another language is another module with the same shape.

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

export const words = {
  app: "Halfthou",
  clock: (at: number): string => new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
  day: (at: number): string => new Date(at).toLocaleString([], { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
  ago(at: number, now: number): string {
    const minutes = Math.round((now - at) / 60000);
    if (minutes < 1) return "just now";
    if (minutes < 60) return `${minutes} min ago`;
    if (minutes < 60 * 36) return `${Math.round(minutes / 60)} h ago`;
    return count(Math.round(minutes / 1440), "day ago", "days ago");
  },
  status: { waiting: "Waits", ready: "Ready", in_work: "In work", held: "Held", done: "Done", stale: "Do again" },
  common: {
    back: "Back", today: "Today", board: "Board", settings: "Settings", sheet: "Sheet", findings: "Findings",
    allSteps: "All steps", cancel: "Cancel, change nothing", loading: "Reading the record…",
    tryAgain: "Try again", menu: "Go to",
    notFound: "There is nothing here", lost: "The address may have been typed wrong, or the build belongs to another shop. Nothing is lost: your builds are under Today.",
    noStep: "This build has no step of that name. The way on is in the list of all steps.",
  },
  login: {
    title: "Log in", name: "Name", password: "Password",
    go: "Log in", busy: "Asking the server…",
    once: "You log in once, with a network. After that the phone works without one.",
    recording: "Your log-in has run out. What you tick is still kept on this phone; it is sent once you have logged in.",
    afresh: "Begin afresh on this phone", afreshLost: (n: number): string => (n ? `${count(n, "entry", "entries")} of the old demo that this phone has not sent will be gone.` : "Nothing unsent is lost by it."),
    carryOn: "Carry on at the bench without logging in", missing: "Give a name and a password.", before: "Has logged in on this phone before",
  },
  today: {
    title: "Today", none: "No build on this phone yet.", next: "Next", done: "All steps done",
    start: "Start a build", name: "Name of the build", procedure: "Procedure", duty: "Duty",
    duties: { race: "Race", street: "Street", endurance: "Endurance", boosted: "Boosted" } as Record<string, string>,
    teach: "A build is one engine, from parts on the bench to first fire. Start one below: give it a name, choose its procedure, and the app leads from step to step.",
    left: (ago: string): string => `Left ${ago}`,
    note: "Note", noProcedures: "No procedure on this phone yet. It fetches them with the first network.",
    go: "Start this build", needName: "Give the build a name.", notYours: "An owner or a builder starts a build. Ask one of them; then it comes to this phone.", hello: (who: string): string => `At the bench: ${who}`,
    notOpen: "Not on this phone yet; it comes with the next sync.",
  },
  practice: {
    title: "Practice", called: "Practice",
    teach: "Learn the order on an engine that is not there.",
    how: "Start a build here and read whatever numbers you like: you see what each one means, what holds the next step, and what would put it right. Its note says that it is practice, so nobody takes it for an engine.",
  },
  build: {
    next: "Go on", again: "To be checked again", contrary: "Two readings of one spot. Which is right?",
    keep: (shown: string, who: string): string => `${shown}, read by ${who}`, settle: "This one is right",
    concessions: "Concessions", update: (n: number): string => `${count(n, "entry was", "entries were")} made by a newer version. Update the app to see ${n === 1 ? "it" : "them"}.`,
    of: (done: number, total: number): string => `${done} of ${total}`, allDone: "Every step is done.",
    asked: (who: string): string => `asked by ${who}`, granted: (who: string): string => `granted by ${who}`,
    lapsed: "No longer counts: the value has changed since.",
  },
  keypad: {
    label: "Number keys", undo: "undo", undoLabel: "Undo the last digit", tick: "✓", tickLabel: "Tick: keep this reading",
    refused: {
      "": "", full: "Every place is filled. Tick it, or undo a digit.", empty: "Nothing is typed yet.",
      short: "Not complete: only the last digit may be left out.", point: "The point is already in its place.",
      zero: "It already shows nought.", gauge: "The gauge sent something that is not a number.",
    },
    read: (value: string, unit: string): string => `Reading ${value} ${unit}`,
  },
  step: {
    waits: "This step waits", doneTitle: "This step is done.", doneOut: "All read, and not all of it fits.", nextStep: (title: string): string => `${title}\u00a0→`,
    nextReading: (title: string): string => `${title}\u00a0→`, again: "Read this one again",
    keptAt: (station: string, shown: string): string => (station ? `Kept at ${station}: ${shown}` : `Kept: ${shown}`), last: (shown: string): string => `last here: ${shown}`, noLast: "last here: –",
    optional: "Not needed, but it helps", finish: "Go on with the step",
    cautions: "Take care", reason: "Why this is done", confirm: "Tick when it is so",
    absurd: "Look again", keepIt: "It is right, keep it", typeAgain: "Read it again", strayGauge: "The gauge sent something, but no reading is asked for here. Nothing was done.",
    seeAll: "See all steps", more: "More about this step", unread: "not read", aim: "aim",
    plan: "Where it is, seen from above", source: "Where this comes from",
    choose: "Choose", chosen: "Chosen", change: "Choose another", pickStation: "Go to another place", keeping: "Keeping it…", notKept: "Not kept yet…",
    back: "You are back.", nextIs: (title: string): string => `Next: ${title}.`, left: (n: number): string => `${count(n, "thing", "things")} in this step not done yet.`,
    lastOne: "Often forgotten",
  },
  torque: {
    pass: (pass: number, passes: number): string => `Pass ${pass} of ${passes}`, pulled: (f: string): string => `${f} pulled ✓`,
    again: (f: string): string => `${f} again`,
    plan: (next: string): string => (next ? `Fasteners from above. Next is ${next}.` : "Fasteners from above. All pulled."),
    noLast: "none yet", turned: (f: string): string => `${f} turned ✓`,
  },
  hold: {
    word: "Hold", concede: "Ask for a concession…",

  },
  concede: {
    title: "Concession", says: "The only way past a hold. It stays on the board and the build sheet, with your name and the reason.",
    reason: "Reason", granted: "Who grants it", go: "Put it on the record", need: "Give the reason and who grants it.",
  },
  offer: {
    title: "See what puts it right", other: "Show other ways", apply: (shims: boolean, title: string): string => (shims ? `${title}, then read again` : "Done at the engine. Read again"),
    before: "before", after: "after", noCure: "This does not bring everything in.",
    shelfNeed: "Tell the app what is on the shelf, and it can work with it.",
    picture: (title: string): string => `${title}: before and after, between the limits`,
  },
  shelf: {
    title: "Parts", on: "On the shelf", fitted: "Fitted", add: "Add a part to the shelf",
    none: "nothing fitted", put: "Change what is fitted…",
    choose: (slot: string): string => `What is fitted as ${slot}`, done: "These are fitted now",
  },
  parts: {
    title: "Parts", intro: "Every part of this engine: its own name, where it came from, what it cost.", loose: "On the shelf", empty: "nothing here",
    must: "Needs a named part", unnamed: "not named yet", only: (n: number): string => `Still to be named: ${n}`, all: "Show every part", fitted: (n: number, of: number): string => `${n} of ${of}`,
    need: (n: number): string => count(n, "needs a name", "need a name"), strayed: (n: number): string => count(n, "is not where it ran", "are not where they ran"), empties: (n: number): string => count(n, "place, nothing in it", "places, nothing in them"), other: "Other parts", cost: (all: string): string => `Cost so far: ${all}`,
    name: "Mark or number", state: "It is", states: { new: "New", used: "Used", reworked: "Reworked" } as Record<string, string>, condition: "Condition", price: "Price", currency: "Currency",
    belongs: "It ran in", nowhere: "nowhere yet", came: (place: string): string => `ran in ${place}`, save: "Keep this", badPrice: "Give the price as a number, such as 12.50.",
    teach: "Nothing is fitted or on the shelf yet. Steps that fit parts list them here; add a part at such a step under “More about this step”.",
  },
  trade: {
    open: "What it is, and why", label: (fit: string): string => `${fit}: what it is, and why`, here: "In this build:", close: "Back to the step", language: "",
    missing: "The page about this fit is not on this phone yet. It comes by itself with the next network.",
  },
  undo: {
    title: "Take this step back…", says: "It stays in the record. These go stale and must be done again:", none: "Nothing else relies on it.",
    why: "Why it is taken back", go: "Take it back", need: "Say why.",
  },
  findings: {
    title: "Findings", none: "Nothing found.", teach: "The whole build is checked here over and over: misfits that no step stops at, parts without a name, pulls that are missing. It fills as you read.", level: { hold: "Hold", look: "Look at this", note: "Note" },
    where: "Go to the step", server: "Checked on this phone, over the whole build.",
  },
  send: {
    last: (at: string): string => `last ${at}`, toSend: (n: number): string => `${n} to send`, allSent: (at: string): string => `all sent ${at}`, never: "nothing sent yet",
    offline: "offline", unsafe: "Not offline-safe", unsafeWhy: "This address is not secure, so the phone cannot keep the app for use without a network. Your readings are still kept. Ask the shop for the https address.",
    oldest: (age: string): string => `The oldest has waited since ${age}.`, login: "Log in to send", needLogin: "A log-in has run out.", update: "A new version is ready", updateGo: "Change over now",
  },
  board: {
    title: "Board", build: "Build", every: (name: string): string => `${name}: every fit so far`, held: "Hold", nobody: "Nobody at work", stale: "Could not be fetched just now; this is what was last seen.",
    working: (who: string, ago: string): string => `${who}, ${ago}`, phone: (label: string, ago: string, waiting: number): string => `${label} seen ${ago}, ${waiting} waiting`,
    offline: "The board needs a network. The bench does not.", none: "No build to show.", findings: (n: number): string => count(n, "finding", "findings"),
    again: (n: number): string => count(n, "check to be done again", "checks to be done again"), concessions: (n: number): string => count(n, "concession", "concessions"),
    notRead: "not read", since: (t: string): string => `for ${t}`, age: (at: number, now: number): string => {
      const m = Math.max(0, Math.round((now - at) / 60000));
      return m < 60 ? `${m} min` : m < 2880 ? `${Math.round(m / 60)} h` : `${Math.round(m / 1440)} days`;
    },
  },
  sheet: { title: "Build sheet", print: "Print it", readings: "Readings", fits: "Fits", limit: "Limit", value: "Value", source: "Limit from", verdict: "Verdict", station: "Station", concessions: "Concessions", needs: "The build sheet comes from the server and needs a network.", notReviewed: "not independently reviewed", revision: "revision", head: "Entries",
    states: { in: "in", under: "under", over: "over", not_read: "not read", stale: "to be read again" } as Record<string, string>,
    marks: { counts: "counts", superseded: "read over since", struck: "struck through" } },
  settings: {
    title: "Settings", length: "Clearances in", torque: "Torque in", theme: "Light or dark", hand: "Keys for", left: "Left hand", right: "Right hand",
    lengths: { thou: "thou", in: "inch", mm: "mm" }, torques: { "lbf.ft": "lbf·ft", "N.m": "N·m" }, themes: { auto: "Auto", light: "Light", dark: "Dark" },
    language: "Language", size: "Size of keys and buttons", normal: "Normal", big: "For gloves", tones: "Tones", voice: "Read the verdict aloud", on: "On", off: "Off", noVoice: "This phone has no voice of its own.",
    try: "Try it", tryWords: "In. 2.2 thou. 0.2 to spare below.",
    storage: "On this phone", kept: "The phone has promised to keep the record.", notKept: "The phone may clear the record when it runs short of room. Install the app, or send often.",
    askKeep: "Ask the phone to keep it", install: "Put it on the home screen", installed: "It runs from the home screen.", installGo: "Install it now",
    android: "Android", androidHow: ["Open the browser's menu, the three dots.", "Choose “Install app” or “Add to home screen”.", "Open it from the home screen once with a network."],
    ios: "iOS", iosHow: ["Open this page in the phone's own browser and tap Share, the square with the arrow.", "Choose “Add to Home Screen”, then “Add”.", "Open it from the home screen and log in there once: it keeps a record of its own."],
    installSafe: "Safe offline: this phone holds the app and opens it without a network.", installUnsafe: "Not offline-safe yet.",
    demo: "Demo shop", demoHow: "Everything in the demo shop is invented, so it can be begun afresh at any time.", demoReset: "Reset the demo shop…", demoGo: "Reset it now", demoBusy: "The demo shop is being set up…",
    demoLost: (builds: number, entries: number): string => `All ${count(builds, "build", "builds")} go from every phone, as they stand now, with ${count(entries, "entry", "entries")}. The demo then stands as at the start, and everyone logs in again.`,
    bring: "Bring in a saved file", bringHow: "Entries saved as a file on a phone that could not reach the server. They go to the server from here.", bringing: "The file is being sent…", bringAgain: (name: string): string => `Send ${name} again`,
    bringLater: "The file was not sent; nothing of it is lost. Send it again with a network.",
    logout: "Log out", logoutWarn: (n: number): string => `${count(n, "entry is", "entries are")} not sent yet. They stay on this phone and go when somebody logs in.`, export: "Save the unsent as a file", refused: "Set aside by the server; kept here",
  },
};

export type Words = typeof words;
