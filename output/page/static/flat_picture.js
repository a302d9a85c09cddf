// The garment as it would look, flat, from the front and from the back.

import { ask } from "./store.js";
import { html, render } from "./vendor/preact-htm.js";

const WAIT = 400; // milliseconds after the last change

/** Puts the picture into `host`; it is asked for when it is in view and the garment has changed. */
export function mountFlatPicture(host, garment) {
  let inView = false;
  let stale = true;
  let soon = 0;
  const renew = async () => {
    if (!inView || !stale || !garment.parts.table || (garment.trying && host.firstChild)) return;
    stale = false;
    const { views } = await ask("flat", { file: garment.file });
    host.hidden = !views.length;
    render(html`${views.map(({ side, lines, box }) => html`<figure key=${side}>
      <svg viewBox=${box.join(" ")} role="img" aria-label=${`The garment from the ${side}`}>
        <path class="fine" d=${lines.fine ?? ""} /><path class="strong" d=${lines.strong ?? ""} />
      </svg>
      <figcaption class="small">from the ${side}</figcaption>
    </figure>`)}`, host);
  };
  host.classList.add("flat-picture");
  new IntersectionObserver(([seen]) => {
    inView = seen.isIntersecting;
    renew();
  }, { rootMargin: "200px" }).observe(host);
  garment.listen((_, changed) => {
    if (![...changed].some((name) => name.startsWith("piece "))) return;
    stale = true;
    clearTimeout(soon);
    soon = setTimeout(renew, WAIT);
  });
}
