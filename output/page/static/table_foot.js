// What stands under the pieces: how near they lie, real size, two versions, darts closed; and what the lines are.

import { html, render } from "./vendor/preact-htm.js";

export const FOLDED = "Its darts are folded away, as flat as that can lie. Measure it with its darts open.";

/** fold: closes the darts of the chosen piece, or opens them; again: draws the foot anew; room: {width, height}, px */
export function drawFoot(host, table, { fold, again, room }) {
  const middle = [room.width / 2, room.height / 2];
  const { chosen, camera, real, compare } = table;
  const nest = nestWords(table.garment.parts.sizes);
  const all = () => {
    table.choose(null);
    table.all({ anew: true });
  };
  const opens = (part) => () => {
    part.toggle();
    again();
  };
  render(html`
    <div class="row" role="group" aria-label="How near the pieces lie">
      <button type="button" onClick=${all}>All pieces</button>
      <button type="button" onClick=${() => camera.zoom(1.4, ...middle, true)}>Nearer</button>
      <button type="button" onClick=${() => camera.zoom(1 / 1.4, ...middle, true)}>Farther</button>
      <button type="button" aria-expanded=${String(real.open)} onClick=${opens(real)}>Real size</button>
      <button type="button" aria-expanded=${String(compare.open)} onClick=${opens(compare)}>Two versions</button>
      ${chosen?.data.darts && html`<button type="button" aria-pressed=${String(Boolean(chosen.folded))} onClick=${fold}>Darts closed</button>`}
    </div>
    ${nest && html`<p class="small">${nest}</p>`}
    <p class="small scale">${chosen?.folded ? FOLDED : real.words(camera.k)}</p>`, host);
}

/** Which line is which size, where several are drawn over each other. */
function nestWords(sizes) {
  return sizes?.sizes.length ? "Each size has a line of its own, the same on paper." : "";
}
