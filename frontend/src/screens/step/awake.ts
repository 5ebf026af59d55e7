// The screen stays on during a step where the phone allows it.

/** Asks for the lock, again after each return to the page. Returns the way to let go. */
export function wakeLock(): () => void {
  let lock: WakeLockSentinel | null = null;
  let left = false;
  const ask = async (): Promise<void> => {
    if (left || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
    try { lock = await navigator.wakeLock.request("screen"); if (left) await lock.release(); }
    catch { lock = null; }   // a flat battery refuses it; the step goes on all the same
  };
  const back = (): void => void ask();
  document.addEventListener("visibilitychange", back);
  void ask();
  return () => { left = true; document.removeEventListener("visibilitychange", back); void lock?.release(); };
}
