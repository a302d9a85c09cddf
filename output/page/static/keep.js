// A page that the server made, kept as a file: a sheet to measure by, a chart, what the numbers say.

import { html, useState } from "./vendor/preact-htm.js";

/** Lets the browser keep a text as a file. */
export function keep(name, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "text/html" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** A button that asks for a page and keeps it. made(): gives {name, page} */
export function Keep({ words, made }) {
  const [told, setTold] = useState("");
  const press = async () => {
    try {
      const { name, page } = await made();
      keep(name, page);
      setTold(`Kept as ${name}. A browser prints it on A4 or Letter.`);
    } catch (refusal) {
      setTold(refusal.message);
    }
  };
  return html`<button type="button" onClick=${press}>${words}</button> <span class="small" role="status">${told}</span>`;
}
