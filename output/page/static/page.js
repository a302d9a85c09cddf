// The page: which garment is open, and who shows what of it.

import { html, render } from "./vendor/preact-htm.js";
import { Garment, folder, hear } from "./store.js";
import { First } from "./first.js";
import { Sheet } from "./sheet.js";
import { mountTable } from "./table.js";
import { tellOfAnswers } from "./polite.js";

const sheet = document.getElementById("sheet");
let open = null;

/** What the address says is open: the file behind the #, "" for none. Links within the sheet keep it. */
const fileAsked = () => {
  try {
    const asked = decodeURIComponent(location.hash.slice(1));
    return asked.endsWith(".toml") ? asked : "";
  } catch {
    return ""; // a % that stands for no letter
  }
};

const NOTHING = { people: [], garments: [], lacks: null, notes: [] };

/** Shows what the address names: the garment at once, and what lies in the folder once that is told. */
async function show() {
  if (fileAsked() && open?.garment.file !== fileAsked()) openNow(fileAsked());
  const known = await folder().catch((refusal) => ({ ...NOTHING, trouble: refusal.message }));
  const file = fileAsked(); // it may be another by now
  if (known.garments.some((each) => each.file === file)) {
    if (open?.garment.file !== file) openNow(file);
    open.known = known;
    open.draw();
  } else {
    onTheTable(false);
    open?.end();
    open = null;
    document.title = "trueseam";
    render(html`<${First} known=${known} again=${show} />`, sheet);
  }
}

function openNow(file) {
  open?.end();
  onTheTable(true);
  open = openGarment(file, open?.known ?? NOTHING);
}

/** Whether there is a table with pieces beside the sheet. */
function onTheTable(isThere) {
  document.body.classList.toggle("first", !isThere);
  for (const id of ["table", "tape"]) document.getElementById(id).hidden = !isThere;
}

/** Opens a garment: the sheet, the table and the polite voice listen to it. Gives what is open, with its end. */
function openGarment(file, known) {
  const garment = new Garment(file);
  const here = { garment, known, draw: () => {}, end: () => {} };
  here.draw = () => {
    const head = garment.parts.head;
    if (head) document.title = `${head.title} for ${head.wearer}`;
    render(html`<${Sheet} key=${file} garment=${garment} known=${here.known} />`, sheet);
  };
  const ends = [mountTable(garment), garment.listen(afterPieces(here.draw)), tellOfAnswers(garment)];
  here.end = () => ends.forEach((end) => end?.());
  here.draw();
  garment.first();
  return here;
}

/** Draws the sheet; while her hand tries something after the frame with the pieces, which is what she waits for. */
function afterPieces(draw) {
  let waits = 0;
  return (garment) => {
    cancelAnimationFrame(waits);
    if (!garment.trying) return draw();
    waits = requestAnimationFrame(() => setTimeout(() => open?.garment === garment && draw()));
  };
}

/** Whether a file is one of those that the page knows. */
const isKnown = (file) => [...open.known.people, ...open.known.garments].some((each) => each.file === file);

hear((told) => {
  dispatchEvent(new CustomEvent("told", { detail: told })); // to whoever waits for a job
  const { changed } = told;
  if (!changed) return;
  const head = open?.garment.parts.head;
  const ours = open ? [open.garment.file, ...(head?.files ?? []), ...(head?.followed ?? [])] : [];
  if (ours.some((each) => changed.includes(each))) open.garment.follow();
  if (!open || changed.some((each) => !isKnown(each))) show(); // a file has come, or gone
});
addEventListener("hashchange", show);
document.querySelector(".skip").addEventListener("click", (event) => {
  event.preventDefault(); // the address names the file
  sheet.focus();
});
show();
