// Die Wörter der Bildschirme auf Deutsch. Gleiche Gestalt wie en.ts; ein Test hält beide zusammen.
// Sätze über den Motor (Schritte, Urteile, Sperren) kommen aus dem Kern.
import type { Words } from "./en";

const zahl = (n: number, eins: string, viele: string): string => `${n} ${n === 1 ? eins : viele}`;

export const words: Words = {
  app: "Halfthou",
  clock: (at) => new Date(at).toLocaleTimeString("de", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
  day: (at) => new Date(at).toLocaleString("de", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
  ago(at, now) {
    const minutes = Math.round((now - at) / 60000);
    if (minutes < 1) return "gerade eben";
    if (minutes < 60) return `vor ${minutes} min`;
    if (minutes < 60 * 36) return `vor ${Math.round(minutes / 60)} h`;
    return `vor ${zahl(Math.round(minutes / 1440), "Tag", "Tagen")}`;
  },
  status: { waiting: "Wartet", ready: "Bereit", in_work: "In Arbeit", held: "Gesperrt", done: "Fertig", stale: "Noch einmal" },
  common: {
    back: "Zurück", today: "Heute", board: "Tafel", settings: "Einstellungen", sheet: "Blatt", findings: "Befunde",
    allSteps: "Alle Schritte", cancel: "Abbrechen, nichts ändern", loading: "Das Protokoll wird gelesen…",
    tryAgain: "Noch einmal", menu: "Gehe zu",
    notFound: "Hier ist nichts", lost: "Die Adresse ist vielleicht falsch getippt, oder der Motor gehört einer anderen Werkstatt. Verloren ist nichts: Die Motoren stehen unter Heute.",
    noStep: "Diesen Schritt gibt es in diesem Motor nicht. Weiter geht es in der Liste aller Schritte.",
  },
  login: {
    title: "Anmelden", name: "Name", password: "Passwort",
    go: "Anmelden", busy: "Der Server wird gefragt…",
    once: "Einmal anmelden, mit Netz. Danach arbeitet das Telefon auch ohne.",
    recording: "Die Anmeldung ist abgelaufen. Was abgehakt wird, bleibt auf diesem Telefon und wird nach der Anmeldung gesendet.",
    afresh: "Auf diesem Telefon neu beginnen", afreshLost: (n) => (n ? `${zahl(n, "Eintrag", "Einträge")} der alten Vorführung, die dieses Telefon nicht gesendet hat, sind dann weg.` : "Ungesendetes geht dabei nicht verloren."),
    carryOn: "Ohne Anmeldung weiterarbeiten", missing: "Name und Passwort angeben.", before: "War schon auf diesem Telefon angemeldet",
  },
  today: {
    title: "Heute", none: "Noch kein Motor auf diesem Telefon.", next: "Als Nächstes", done: "Alle Schritte fertig",
    start: "Motor beginnen", name: "Name des Motors", procedure: "Ablauf", duty: "Einsatz",
    duties: { race: "Rennen", street: "Straße", endurance: "Langstrecke", boosted: "Aufgeladen" },
    teach: "Ein Motor, von den Teilen auf der Bank bis zum ersten Lauf. Unten beginnen: Namen geben, Ablauf wählen; die App führt von Schritt zu Schritt.",
    left: (ago) => `Verlassen ${ago}`,
    note: "Notiz", noProcedures: "Noch kein Ablauf auf diesem Telefon. Er kommt mit dem ersten Netz.",
    go: "Diesen Motor beginnen", notYours: "Einen Motor legt der Inhaber oder ein Monteur an. Frag einen von ihnen; dann kommt er auf dieses Telefon.", needName: "Dem Motor einen Namen geben.", hello: (who) => `An der Bank: ${who}`,
    notOpen: "Noch nicht auf diesem Telefon; kommt mit dem nächsten Abgleich.",
  },
  practice: {
    title: "Üben", called: "Übung",
    teach: "Die Reihenfolge an einem Motor lernen, den es nicht gibt.",
    how: "Hier einen Motor anlegen und beliebige Werte messen: Es zeigt sich, was jeder bedeutet, was den nächsten Schritt sperrt und was es richtet. In der Notiz steht, dass es eine Übung ist; niemand hält sie für einen Motor.",
  },
  build: {
    next: "Weiter", again: "Noch einmal zu prüfen", contrary: "Zwei Messwerte an einer Stelle. Welcher stimmt?",
    keep: (shown, who) => `${shown}, gemessen von ${who}`, settle: "Dieser stimmt",
    concessions: "Sonderfreigaben", update: (n) => `${zahl(n, "Eintrag kommt", "Einträge kommen")} von einer neueren Fassung. Die App erneuern, um ${n === 1 ? "ihn" : "sie"} zu sehen.`,
    of: (done, total) => `${done} von ${total}`, allDone: "Jeder Schritt ist fertig.",
    asked: (who) => `erbeten von ${who}`, granted: (who) => `erteilt von ${who}`,
    lapsed: "Zählt nicht mehr: Der Wert hat sich geändert.",
  },
  keypad: {
    label: "Zifferntasten", undo: "zurück", undoLabel: "Letzte Ziffer zurücknehmen", tick: "✓", tickLabel: "Haken: diesen Messwert behalten",
    refused: {
      "": "", full: "Jede Stelle ist gefüllt. Abhaken oder eine Ziffer zurücknehmen.", empty: "Noch nichts getippt.",
      short: "Nicht vollständig: Nur die letzte Ziffer darf fehlen.", point: "Das Komma steht schon an seinem Platz.",
      zero: "Es zeigt schon null.", gauge: "Das Messgerät hat etwas anderes als eine Zahl geschickt.",
    },
    read: (value, unit) => `Messwert ${value} ${unit}`,
  },
  step: {
    waits: "Dieser Schritt wartet", doneTitle: "Dieser Schritt ist fertig.", doneOut: "Alles gelesen, und nicht alles passt.", nextStep: (title) => `${title}\u00a0→`,
    nextReading: (title) => `${title}\u00a0→`, again: "Diesen noch einmal messen",
    keptAt: (station, shown) => (station ? `Behalten bei ${station}: ${shown}` : `Behalten: ${shown}`), last: (shown) => `zuletzt hier: ${shown}`, noLast: "zuletzt hier: –",
    optional: "Nicht nötig, aber es hilft", finish: "Weiter mit dem Schritt",
    cautions: "Vorsicht", reason: "Warum das getan wird", confirm: "Abhaken, wenn es so ist",
    absurd: "Noch einmal hinsehen", keepIt: "Es stimmt, behalten", typeAgain: "Noch einmal messen", strayGauge: "Das Messgerät hat etwas geschickt, aber hier wird kein Messwert verlangt. Nichts ist geschehen.",
    seeAll: "Alle Schritte ansehen", more: "Mehr zu diesem Schritt", unread: "nicht gemessen", aim: "Ziel",
    plan: "Wo es ist, von oben gesehen", source: "Woher das kommt",
    choose: "Wählen", chosen: "Gewählt", change: "Anderes wählen", pickStation: "An eine andere Stelle gehen", keeping: "Wird behalten…", notKept: "Noch nicht behalten…",
    back: "Wieder da.", nextIs: (title) => `Als Nächstes: ${title}.`, left: (n) => `${zahl(n, "Sache", "Sachen")} in diesem Schritt noch nicht getan.`,
    lastOne: "Wird oft vergessen",
  },
  torque: {
    pass: (pass, passes) => `Durchgang ${pass} von ${passes}`, pulled: (f) => `${f} gezogen ✓`,
    again: (f) => `${f} noch einmal`,
    plan: (next) => (next ? `Schrauben von oben. Als Nächstes ${next}.` : "Schrauben von oben. Alle gezogen."),
    noLast: "noch keine", turned: (f) => `${f} gedreht ✓`,
  },
  hold: {
    word: "Halt", concede: "Sonderfreigabe erbitten…",

  },
  concede: {
    title: "Sonderfreigabe", says: "Der einzige Weg an einer Sperre vorbei. Sie bleibt auf Tafel und Blatt, mit Name und Grund.",
    reason: "Grund", granted: "Wer sie erteilt", go: "Ins Protokoll", need: "Grund angeben und wer sie erteilt.",
  },
  offer: {
    title: "Zeigen, was es behebt", other: "Andere Wege zeigen", apply: (shims, title) => (shims ? `${title}, dann neu messen` : "Am Motor getan. Neu messen"),
    before: "vorher", after: "nachher", noCure: "Das bringt nicht alles in die Grenzen.",
    shelfNeed: "Der App sagen, was im Regal liegt, dann rechnet sie damit.",
    picture: (title) => `${title}: vorher und nachher, zwischen den Grenzen`,
  },
  shelf: {
    title: "Teile", on: "Im Regal", fitted: "Verbaut", add: "Teil ins Regal legen",
    none: "nichts verbaut", put: "Ändern, was verbaut ist…",
    choose: (slot) => `Was verbaut ist als ${slot}`, done: "Diese sind jetzt verbaut",
  },
  parts: {
    title: "Teile", intro: "Jedes Teil dieses Motors: sein Name, woher es kam, was es kostete.", loose: "Im Regal", empty: "nichts da",
    must: "Braucht ein benanntes Teil", unnamed: "noch ohne Namen", only: (n) => `Noch zu benennen: ${n}`, all: "Alle Teile zeigen", fitted: (n, of) => `${n} von ${of}`,
    need: (n) => `${n} ohne Namen`, strayed: (n) => zahl(n, "liegt nicht, wo es lief", "liegen nicht, wo sie liefen"), empties: (n) => zahl(n, "Platz, nichts darin", "Plätze, nichts darin"), other: "Andere Teile", cost: (all) => `Kosten bisher: ${all}`,
    name: "Zeichen oder Nummer", state: "Es ist", states: { new: "Neu", used: "Gebraucht", reworked: "Bearbeitet" }, condition: "Zustand", price: "Preis", currency: "Währung",
    belongs: "Es lief in", nowhere: "noch nirgends", came: (place) => `lief in ${place}`, save: "Behalten", badPrice: "Den Preis als Zahl angeben, etwa 12,50.",
    teach: "Noch ist nichts verbaut und nichts im Regal. Schritte, die Teile verbauen, führen sie hier auf; hinzugefügt wird in so einem Schritt unter „Mehr zu diesem Schritt“.",
  },
  trade: {
    open: "Was es ist und warum", label: (fit) => `${fit}: was es ist und warum`, here: "In diesem Motor:", close: "Zurück zum Schritt", language: "Diese Seite gibt es bisher nur auf Englisch.",
    missing: "Die Seite zu dieser Passung ist noch nicht auf diesem Telefon. Sie kommt von selbst mit dem nächsten Netz.",
  },
  undo: {
    title: "Diesen Schritt zurücknehmen…", says: "Er bleibt im Protokoll. Dies muss danach noch einmal getan werden:", none: "Nichts anderes beruht darauf.",
    why: "Warum er zurückgenommen wird", go: "Zurücknehmen", need: "Sagen, warum.",
  },
  findings: {
    title: "Befunde", none: "Nichts gefunden.", teach: "Hier wird der ganze Motor immer wieder geprüft: Maße, an denen kein Schritt anhält, Teile ohne Namen, fehlende Züge. Es füllt sich beim Messen.",
    level: { hold: "Halt", look: "Ansehen", note: "Vermerk" },
    where: "Zum Schritt", server: "Auf diesem Telefon geprüft, über den ganzen Motor.",
  },
  send: {
    last: (at) => `seit ${at}`, toSend: (n) => `${n} zu senden`, allSent: (at) => `alles gesendet ${at}`, never: "noch nichts gesendet",
    offline: "ohne Netz", unsafe: "Nicht sicher ohne Netz", unsafeWhy: "Diese Adresse ist nicht gesichert, daher kann das Telefon die App nicht für die Arbeit ohne Netz behalten. Messwerte werden dennoch behalten. In der Werkstatt nach der https-Adresse fragen.",
    oldest: (age) => `Der älteste wartet seit ${age}.`, login: "Anmelden, um zu senden", needLogin: "Eine Anmeldung ist abgelaufen.", update: "Eine neue Fassung ist da", updateGo: "Jetzt wechseln",
  },
  board: {
    title: "Tafel", build: "Motor", every: (name) => `${name}: jede Passung bisher`, held: "Halt", nobody: "Niemand an der Arbeit", stale: "Gerade nicht zu holen; das ist der letzte Stand.",
    working: (who, ago) => `${who}, ${ago}`, phone: (label, ago, waiting) => `${label} gesehen ${ago}, ${waiting} warten`,
    offline: "Die Tafel braucht ein Netz. Die Bank nicht.", none: "Kein Motor zu zeigen.", findings: (n) => zahl(n, "Befund", "Befunde"),
    again: (n) => zahl(n, "Prüfung noch einmal zu tun", "Prüfungen noch einmal zu tun"), concessions: (n) => zahl(n, "Sonderfreigabe", "Sonderfreigaben"),
    notRead: "nicht gemessen", since: (t) => `seit ${t}`, age: (at, now) => {
      const m = Math.max(0, Math.round((now - at) / 60000));
      return m < 60 ? `${m} min` : m < 2880 ? `${Math.round(m / 60)} h` : `${Math.round(m / 1440)} Tagen`;
    },
  },
  sheet: {
    title: "Motorblatt", print: "Drucken", readings: "Messwerte", fits: "Passungen", limit: "Grenze", value: "Wert", source: "Grenze aus", verdict: "Urteil", station: "Stelle", concessions: "Sonderfreigaben",
    needs: "Das Motorblatt kommt vom Server und braucht ein Netz.", notReviewed: "nicht unabhängig geprüft", revision: "Fassung", head: "Einträge",
    states: { in: "in Ordnung", under: "zu klein", over: "zu groß", not_read: "nicht gemessen", stale: "neu zu messen" },
    marks: { counts: "zählt", superseded: "seither überholt", struck: "gestrichen" },
  },
  settings: {
    title: "Einstellungen", length: "Spiele in", torque: "Drehmoment in", theme: "Hell oder dunkel", hand: "Tasten für", left: "Linke Hand", right: "Rechte Hand",
    lengths: { thou: "thou", in: "Zoll", mm: "mm" }, torques: { "lbf.ft": "lbf·ft", "N.m": "N·m" }, themes: { auto: "Auto", light: "Hell", dark: "Dunkel" },
    language: "Sprache", size: "Größe der Tasten und Knöpfe", normal: "Normal", big: "Für Handschuhe", tones: "Töne", voice: "Urteil vorlesen", on: "An", off: "Aus", noVoice: "Dieses Telefon hat keine eigene Stimme.",
    try: "Ausprobieren", tryWords: "In Ordnung. 2,2 thou. 0,2 Luft nach unten.",
    storage: "Auf diesem Telefon", kept: "Das Telefon hat versprochen, das Protokoll zu behalten.", notKept: "Das Telefon darf das Protokoll löschen, wenn der Platz knapp wird. Die App installieren oder oft senden.",
    askKeep: "Das Telefon bitten, es zu behalten", install: "Auf den Startbildschirm", installed: "Läuft vom Startbildschirm.", installGo: "Jetzt installieren",
    android: "Android", androidHow: ["Das Menü des Browsers öffnen, die drei Punkte.", "„App installieren“ oder „Zum Startbildschirm“ wählen.", "Einmal mit Netz vom Startbildschirm öffnen."],
    ios: "iOS", iosHow: ["Diese Seite im Browser des Telefons öffnen und auf Teilen tippen, das Quadrat mit dem Pfeil.", "„Zum Home-Bildschirm“ wählen, dann „Hinzufügen“.", "Vom Startbildschirm öffnen und dort einmal anmelden: Es führt ein eigenes Protokoll."],
    installSafe: "Sicher ohne Netz: Dieses Telefon hat die App und öffnet sie ohne Netz.", installUnsafe: "Noch nicht sicher ohne Netz.",
    demo: "Vorführwerkstatt", demoHow: "Alles in der Vorführwerkstatt ist erfunden; sie kann jederzeit neu beginnen.", demoReset: "Vorführwerkstatt zurücksetzen…", demoGo: "Jetzt zurücksetzen", demoBusy: "Die Vorführwerkstatt wird eingerichtet…",
    demoLost: (builds, entries) => `${zahl(builds, "Motor verschwindet", "Motoren verschwinden")} von jedem Telefon, so wie sie jetzt stehen, mit ${zahl(entries, "Eintrag", "Einträgen")}. Danach steht die Vorführung wie am Anfang, und alle melden sich neu an.`,
    bring: "Gesicherte Datei einlesen", bringHow: "Einträge, die ein Telefon ohne Weg zum Server als Datei gesichert hat. Von hier gehen sie zum Server.", bringing: "Die Datei wird gesendet…", bringAgain: (name) => `${name} noch einmal senden`,
    bringLater: "Die Datei wurde nicht gesendet; verloren ist nichts davon. Mit Netz noch einmal senden.",
    logout: "Abmelden", logoutWarn: (n) => `${zahl(n, "Eintrag ist", "Einträge sind")} noch nicht gesendet. Sie bleiben auf diesem Telefon und gehen, sobald sich jemand anmeldet.`, export: "Ungesendetes als Datei sichern", refused: "Vom Server beiseitegelegt; hier behalten",
  },
};
