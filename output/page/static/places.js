// Where the pieces lie on the table, in millimetres. The server says in what rows or columns; here they are given
// places, and keep them: what grows pushes aside what it would touch, and nothing else moves.

const APART = 40; // mm between two pieces as they are first laid
const ALIKE = 1.2; // times the broadest piece: as broad as a column may be in which origins lie under each other
const LEAST = 15; // mm between two pieces after one has grown

/**
 * First places. boxes: {name: [left, top, width, height]}, mm about each piece's own origin, the writing under it
 * counted in. Gives {arrangement, origins: {name: [x, y]}}. Rows stand on one line below. In columns what is worn one
 * above the other keeps the middle of the body, which is where a piece has its origin, on one line; else middles do.
 */
export function layOut(arrangement, boxes) {
  const rows = arrangement.by === "rows";
  const along = rows ? 0 : 1;
  const across = 1 - along;
  const origins = {};
  let side = 0;
  for (const group of arrangement.names) {
    const low = Math.min(...group.map((name) => boxes[name][across]));
    const high = Math.max(...group.map((name) => boxes[name][across] + boxes[name][across + 2]));
    const broadest = Math.max(...group.map((name) => boxes[name][across + 2]));
    const worn = !rows && high - low <= ALIKE * broadest;
    let at = 0;
    for (const name of group) {
      const box = boxes[name];
      const place = [0, 0];
      place[along] = at - box[along];
      const spare = rows ? broadest - box[across + 2] : (broadest - box[across + 2]) / 2;
      place[across] = side + (worn ? -low : spare - box[across]);
      origins[name] = place;
      at += box[along + 2] + APART;
    }
    side += (worn ? high - low : broadest) + APART;
  }
  return { arrangement, origins };
}

/** The places now: {origins: {name: [x, y]}, box: [left, top, right, bottom]}; boxes as for `layOut`. */
export function placed(first, boxes) {
  const along = first.arrangement.by === "rows" ? 0 : 1;
  const across = 1 - along;
  const origins = {};
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  let free = -Infinity;
  for (const group of first.arrangement.names) {
    const low = Math.min(...group.map((name) => first.origins[name][across] + boxes[name][across]));
    const aside = Math.max(0, free - low);
    let edge = -Infinity;
    for (const name of group) {
      const place = [0, 0];
      place[along] = Math.max(first.origins[name][along], edge - boxes[name][along]);
      place[across] = first.origins[name][across] + aside;
      origins[name] = place;
      const [left, top, width, height] = boxes[name];
      const ends = [place[0] + left + width, place[1] + top + height];
      edge = ends[along] + LEAST;
      free = Math.max(free, ends[across] + LEAST);
      box[0] = Math.min(box[0], place[0] + left);
      box[1] = Math.min(box[1], place[1] + top);
      box[2] = Math.max(box[2], ends[0]);
      box[3] = Math.max(box[3], ends[1]);
    }
  }
  return { origins, box };
}
