/** Resolves when the frame that shows what was just changed is out; a hidden page draws none, so a timer stands in. */
export function painted(): Promise<void> {
  return new Promise((done) => {
    const timer = setTimeout(done, 100);
    requestAnimationFrame(() => setTimeout(() => { clearTimeout(timer); done(); }));
  });
}
