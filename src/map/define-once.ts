/** Registers a custom element unless its name is taken, as when two copies of the plugin share a page; does nothing without a DOM. */
export function defineOnce(name: string, element: CustomElementConstructor): void {
  if (typeof customElements !== "undefined" && customElements.get(name) === undefined)
    customElements.define(name, element);
}
