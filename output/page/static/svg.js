// SVG elements made by hand: while a slider is dragged only attributes are set, and no node is made.

const NAMESPACE = "http://www.w3.org/2000/svg";

/** A new element with attributes, put at the end of `into`. */
export function svg(tag, attributes = {}, into = null) {
  const element = document.createElementNS(NAMESPACE, tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  into?.append(element);
  return element;
}

/** Sets an attribute where it is not so already. */
export function put(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}
