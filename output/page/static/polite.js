// What a screen reader is told after an answer, once the hand rests: how it goes together, and what was refused.

const REST = 900;

/** Listens to a garment and tells what changed. Gives its end. */
export function tellOfAnswers(garment) {
  const place = document.getElementById("polite");
  let last = "";
  let timer = 0;
  const end = garment.listen(() => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      const refused = garment.state.problems.flatMap((each) => each.sentences).join(" ");
      const told = garment.trouble || refused || garment.parts.head?.verdict || "";
      if (told !== last) place.textContent = told;
      last = told;
    }, REST);
  });
  return () => {
    clearTimeout(timer);
    end();
  };
}
