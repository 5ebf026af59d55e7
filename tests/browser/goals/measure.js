// What a state of the screen is like, measured in the page. Every figure is in css pixels.
() => {
  const seen = (el) => {
    const box = el.getBoundingClientRect(), style = getComputedStyle(el);
    return box.width > 0 && box.height > 0 && style.visibility !== "hidden" && !el.closest(".quiet") && !el.closest("[inert]");
  };
  const name = (el) => el.dataset.testid || el.innerText?.trim().slice(0, 30) || el.tagName;
  const controls = [...document.querySelectorAll("button, a[href], input, select, textarea, summary")].filter(seen).map((el) => {
    const box = el.getBoundingClientRect();
    const gate = el.closest(".keys") !== null || ["torque-pull", "torque-again", "next-button", "offer-apply"].includes(el.dataset.testid);
    return { name: name(el), id: el.dataset.testid || "", gate, key: el.closest(".keys") !== null, next: el.hasAttribute("data-next"), x: box.x, y: box.y, width: box.width, height: box.height };
  });
  const texts = [...document.querySelectorAll("body *")].filter((el) => seen(el) && [...el.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()));
  const sizes = texts.filter((el) => !(el instanceof SVGElement)).map((el) => ({ name: name(el), size: parseFloat(getComputedStyle(el).fontSize) }));
  const colour = (text) => { const m = text.match(/[\d.]+/g).map(Number); return { rgb: m.slice(0, 3), alpha: m[3] ?? 1 }; };
  const light = ([r, g, b]) => { const f = (c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b); };
  const ground = (el) => { for (let at = el; at; at = at.parentElement) { const c = colour(getComputedStyle(at).backgroundColor); if (c.alpha > 0.99) return c.rgb; } return [255, 255, 255]; };
  const contrast = (el) => {
    const style = getComputedStyle(el), ink = colour(el instanceof SVGElement ? style.fill : style.color);
    const at = el instanceof SVGElement ? el.closest("svg").parentElement : el;
    if (ink.alpha < 0.01) return 21;
    const [a, b] = [light(ink.rgb), light(ground(at))].sort((x, y) => y - x);
    return (a + 0.05) / (b + 0.05);
  };
  const over = texts.filter((el) => !(el instanceof SVGElement)).map((el) => ({ name: name(el), contrast: Math.round(contrast(el) * 100) / 100 }));
  const word = document.querySelector("[data-testid=verdict] .word"), live = document.querySelector("[data-testid=read-out]"), send = document.querySelector("[data-testid=send-state]");
  const sendBox = send?.getBoundingClientRect();
  return {
    controls, smallest: sizes.sort((a, b) => a.size - b.size)[0], faintest: over.sort((a, b) => a.contrast - b.contrast)[0],
    word: word && seen(word) ? parseFloat(getComputedStyle(word).fontSize) : null, live: live && seen(live) ? parseFloat(getComputedStyle(live).fontSize) : null,
    wide: document.documentElement.scrollWidth - innerWidth, tall: innerHeight,
    send: sendBox ? sendBox.top >= 0 && sendBox.bottom <= innerHeight && send.innerText.length > 0 : false,
  };
}
