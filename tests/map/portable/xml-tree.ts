/** An element of an XML document, as far as the tests need it. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  text: string;
}

const TOKEN =
  /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<\/([\w:-]+)\s*>|<([\w:-]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)|(<)/g;

/** The root of a document. Throws Error where it is not well-formed: a stray `<` or `&`, a tag that does not close, a second root. */
export function xmlTree(xml: string): XmlElement {
  const roots: XmlElement[] = [];
  const open: XmlElement[] = [];
  for (const [whole, closing, opening, attributes = "", selfClosing, text, stray] of xml.matchAll(TOKEN)) {
    if (stray !== undefined) throw new Error(`A stray "<" in ${open.at(-1)?.name}`);
    if (text !== undefined) {
      if (/&(?!(?:amp|lt|gt|quot|apos|#\d+);)/.test(text)) throw new Error(`A stray "&" in ${whole}`);
      if (open.length > 0) open.at(-1)!.text += text;
      else if (text.trim() !== "") throw new Error(`Text outside the root: ${text}`);
    }
    if (opening !== undefined) {
      const pairs = [...attributes.matchAll(/([\w:-]+)="([^"]*)"/g)].map((match) => [match[1]!, match[2]!] as const);
      const element: XmlElement = { name: opening, attributes: Object.fromEntries(pairs), children: [], text: "" };
      (open.at(-1)?.children ?? roots).push(element);
      if (selfClosing === "") open.push(element);
    }
    if (closing !== undefined && open.pop()?.name !== closing) throw new Error(`</${closing}> closes nothing`);
  }
  if (open.length > 0 || roots.length !== 1) throw new Error(`Expected one closed root, got ${roots.length}`);
  return roots[0]!;
}

/** All elements of a tree by name, in document order. */
export function elementsOf(tree: XmlElement, name: string): XmlElement[] {
  return [...(tree.name === name ? [tree] : []), ...tree.children.flatMap((child) => elementsOf(child, name))];
}
