// Lengths as she writes and reads them. The server reads what is typed; here is only what a slider writes.

const EIGHTHS = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
const VULGAR = { "1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞" };
const ABOVE = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const BELOW = "₀₁₂₃₄₅₆₇₈₉";
const NUMBER = /^[-+−]?\s*\d[\d.,\s/½¼¾⅛⅜⅝⅞-]*$|^[-+−]?\s*[½¼¾⅛⅜⅝⅞]$/;

/** A length of so many mm as it is written in a file: "4.5 cm", "1 3/4 in". */
export function written(mm, unit) {
  if (unit === "mm") return `${Math.round(mm)} mm`;
  if (unit !== "in") return `${Math.round(mm) / 10} cm`;
  const eighths = Math.round((Math.abs(mm) / 25.4) * 8);
  const whole = Math.floor(eighths / 8);
  const part = EIGHTHS[eighths % 8];
  const sign = mm < 0 && eighths ? "-" : "";
  return `${sign}${[whole || !part ? whole : "", part].filter((each) => each !== "").join(" ")} in`;
}

/** A number of an option's kind as it is written in a file; numbers without a unit stay numbers. */
export function writtenAs(kind, value, unit) {
  if (kind === "length") return written(value, unit);
  if (kind === "percent") return `${Math.round(value * 100)} %`;
  if (kind === "angle") return `${Math.round(value * 10) / 10} deg`;
  return Math.round(value * 10) / 10;
}

/** What she typed, with the unit behind it where she left it out and the file says none; a number where it is one. */
export function completed(text, kind, unit, bare) {
  const typed = text.trim();
  if (!NUMBER.test(typed)) return typed;
  const plain = Number(typed.replace("−", "-").replace(",", "."));
  if (kind === "number" || (kind === "angle" && !Number.isNaN(plain))) return Number.isNaN(plain) ? typed : plain;
  if (kind === "percent") return `${typed} %`;
  if (kind !== "length") return typed;
  if (bare) return Number.isNaN(plain) ? typed : plain;
  return `${typed} ${unit}`;
}

/** A sentence that begins with a capital. */
export const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A fraction as one sign: ⅜, ³⁄₁₆. */
const sign = (part) =>
  VULGAR[part] ?? part.replace(/\d+(?=\/)/, (up) => small(up, ABOVE)).replace(/\/(\d+)/, (_all, down) => `⁄${small(down, BELOW)}`);
const small = (digits, signs) => [...digits].map((each) => signs[each]).join("");

/** The same words to be read: a true minus, fractions as one sign. */
export function read(text) {
  return String(text ?? "")
    .replace(/(^|\s)-(?=\d)/g, "$1−")
    .replace(/(\d) (\d{1,2}\/(?:2|4|8|16|32|64))(?=[\s.,;:)]|$)/g, (_all, whole, part) => `${whole}${sign(part)}`)
    .replace(/(^|[\s(−])(\d{1,2}\/(?:2|4|8|16|32|64))(?=[\s.,;:)]|$)/g, (_all, before, part) => `${before}${sign(part)}`);
}
