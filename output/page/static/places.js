// Where the pieces lie on the table, in millimetres. The server says in what rows or columns; here they are given
// places, and keep them: what grows pushes aside what it would touch, and nothing else moves.

const APART = 40; // mm between two pieces as they are first laid
const LEAST = 15; // mm between two pieces after one has grown

/**
 * First places. boxes: {name: [left, top, width, height]}, mm about each piece's own origin, the writing under it
 * counted in. Gives {arrangement, origins: {name: [x, y]}}. Rows stand on one line below; in columns the origins of
 * the pieces, which are the middle of the body, lie under each other.
 */
export function layOut(arrangement, boxes) {
  const rows = arrangement.by === "rows";
  const along = rows ? 0 : 1;
  const across = 1 - along;
  const origins = {};
  let side = 0;
  for (const group of arrangement.names) {
    const lows = group.map((name) => boxes[name][across]);
    const highs = group.map((name) => boxes[name][across] + boxes[name][across + 2]);
    const highest = Math.max(...group.map((name) => boxes[name][across + 2]));
    let at = 0;
    for (const name of group) {
      const box = boxes[name];
      const place = [0, 0];
      place[along] = at - box[along];
      place[across] = rows ? side + highest - box[across] - box[across + 2] : side - Math.min(...lows);
      origins[name] = place;
      at += box[along + 2] + APART;
    }
    side += (rows ? highest : Math.max(...highs) - Math.min(...lows)) + APART;
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
