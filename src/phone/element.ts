/** Attributes of an element; `null`, `false` and a missing one are left out, `true` is written without a value. */
export type Attributes = Readonly<Record<string, string | number | boolean | null>>;
export type Child = Node | string | null | readonly Child[];

/** An HTML element. Texts become text nodes, never markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(name);
  setAttributes(node, attributes);
  append(node, children);
  return node;
}

const SVG = "http://www.w3.org/2000/svg";

/** An SVG element, its children included. */
export function shape<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  const node = document.createElementNS(SVG, name);
  setAttributes(node, attributes);
  append(node, children);
  return node;
}

/** A button with words on it. */
export function button(words: string, onClick: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const node = element("button", { type: "button", ...attributes }, words);
  node.addEventListener("click", onClick);
  return node;
}

export function setAttributes(node: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === false) node.removeAttribute(name);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
}

function append(node: Element, children: readonly Child[]): void {
  for (const child of children) {
    if (child === null) continue;
    if (typeof child === "string" || child instanceof Node) node.append(child);
    else append(node, child);
  }
}
