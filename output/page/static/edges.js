// The edges of a piece: the one that is pointed at named beside it, all of them in a list that keys go through.

import { html, render } from "./vendor/preact-htm.js";

export class EdgeList {
  #piece = null;
  #edge = null;

  constructor(host, table) {
    this.host = host;
    this.table = table;
    host.hidden = true;
    host.addEventListener("keydown", (event) => {
      const way = { ArrowDown: 1, ArrowUp: -1 }[event.key];
      const rows = [...host.querySelectorAll("li > button:first-child")];
      const at = rows.indexOf(event.target);
      if (event.key === "Escape") {
        const { group } = this.#piece;
        table.choose(null);
        group.focus({ preventScroll: true });
      } else if (way && at >= 0) {
        event.preventDefault();
        rows[(at + way + rows.length) % rows.length].focus();
      }
    });
    this.tip = document.createElement("div");
    this.tip.className = "edge-tip";
    this.tip.hidden = true;
    table.lay.append(this.tip);
    table.lay.addEventListener("pointermove", (event) => {
      if (this.tip.hidden) return;
      const box = table.lay.getBoundingClientRect();
      const x = Math.min(event.clientX - box.left + 14, box.width - this.tip.offsetWidth - 2);
      const y = event.clientY - box.top + 18;
      const above = y + this.tip.offsetHeight > box.height ? event.clientY - box.top - this.tip.offsetHeight - 10 : y;
      this.tip.style.translate = `${Math.max(2, x)}px ${Math.max(2, above)}px`;
    });
  }

  /** Lists the edges of a piece, one of them chosen or null; null for no piece. */
  show(piece, edge) {
    this.#piece = piece;
    this.#edge = edge?.name ?? (piece ? this.#edge : null);
    this.host.hidden = !piece;
    this.#draw();
    if (edge) this.host.querySelector("[aria-pressed=true]")?.scrollIntoView({ block: "nearest" });
  }

  /** Gives the first edge of the list the focus. */
  enter() {
    this.host.querySelector("li button")?.focus({ preventScroll: true });
  }

  /** Names the edge under the pointer beside it; null for none. */
  point(piece, edge) {
    this.tip.hidden = !edge;
    if (edge) render(html`<b>${edge.name}</b> <span class="of">${piece.name}</span><br />${edge.length}, ${edge.sewn}`, this.tip);
  }

  #draw() {
    const piece = this.#piece;
    if (!piece) return render(null, this.host);
    render(html`
      <h3>${piece.name}, ${piece.data.cut}</h3>
      <ul>${piece.data.edges.map((edge) => html`<li key=${edge.name} class=${edge.fails ? "fails" : ""}>
        <button type="button" aria-pressed=${String(this.#edge === edge.name)}
          onFocus=${() => this.table.light(edge)} onPointerEnter=${() => this.table.light(edge)}
          onPointerLeave=${() => this.table.light(this.#chosen())} onBlur=${() => this.table.light(this.#chosen())}
          onClick=${() => this.#choose(edge)}>
          <b>${edge.name}</b><span class="long">${edge.length}</span><span class="sewn">${edge.sewn}</span>
        </button>
        ${this.#edge === edge.name && edge.seams.map((seam) => html`<button type="button" class="plain" key=${seam}
          onClick=${() => this.table.walkSeam?.(seam)}>Walk the seam “${seam}”</button>`)}
      </li>`)}</ul>`, this.host);
    this.table.light(this.#chosen());
  }

  #chosen() {
    return this.#piece?.data.edges.find((edge) => edge.name === this.#edge) ?? null;
  }

  #choose(edge) {
    this.#edge = this.#edge === edge.name ? null : edge.name;
    this.#draw();
  }
}
