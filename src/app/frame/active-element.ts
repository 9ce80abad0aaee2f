/** The element that has the focus, inside components too; null where a page has no body. */
export function activeElement(): HTMLElement | null {
  let element = document.activeElement;
  while (element?.shadowRoot?.activeElement != null) element = element.shadowRoot.activeElement;
  return element instanceof HTMLElement ? element : null;
}
