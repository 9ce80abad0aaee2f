/** Has the browser print nothing but the sheet, on paper of its size; gives what takes that back. */
export function printPageSheet({
  widthMm,
  heightMm,
}: {
  readonly widthMm: number;
  readonly heightMm: number;
}): () => void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`
    @page { size: ${widthMm}mm ${heightMm}mm; margin: 0; }
    @media print {
      html, body { height: auto; background: #fff; }
      boughline-app { height: auto; }
      boughline-app > :not(print-view) { display: none !important; }
    }
  `);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
  };
}
