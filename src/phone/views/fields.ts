import { element } from "../element.ts";
import { WORDS } from "../words.ts";

export interface FieldOptions {
  /** Unique in the view, and the same when the view is drawn again, so that the focus finds its way back. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onInput: (value: string) => void;
  /** Unit or form of what is wanted, after the label. */
  readonly unit?: string;
  readonly type?: "text" | "date";
  readonly inputMode?: "text" | "decimal" | "numeric";
  /** What is said about a value under the field; null says nothing. */
  readonly say?: (value: string) => { readonly text: string; readonly isWrong: boolean } | null;
}

/** A labeled line to type in, with what the page makes of it below. */
export function textField(options: FieldOptions): HTMLElement {
  const { id, label, value, unit, type = "text", inputMode = "text" } = options;
  const said = element("p", { id: `${id}-said`, class: "said", "aria-live": "polite" });
  const input = element("input", { id, type, inputmode: inputMode, autocomplete: "off", "aria-describedby": said.id });
  input.value = value;
  const tell = () => {
    const result = options.say?.(input.value) ?? null;
    said.textContent = result?.text ?? "";
    said.classList.toggle("wrong", result?.isWrong === true);
  };
  input.addEventListener("input", () => {
    options.onInput(input.value);
    tell();
  });
  tell();
  const unitMark = unit === undefined ? null : element("span", { class: "unit" }, ` ${unit}`);
  return element("div", { class: "field" }, element("label", { for: id }, label, unitMark), input, said);
}

/** A labeled box for several lines. */
export function textArea({ id, label, value, onInput }: FieldOptions): HTMLElement {
  const area = element("textarea", { id, rows: 2 });
  area.value = value;
  area.addEventListener("input", () => onInput(area.value));
  return element("div", { class: "field wide" }, element("label", { for: id }, label), area);
}

/** A labeled choice of one of several; the empty value is the first line's. */
export function choice(
  id: string,
  label: string,
  first: string,
  options: readonly (readonly [value: string, words: string])[],
  value: string,
  onChange: (value: string) => void,
): HTMLElement {
  const select = element(
    "select",
    { id },
    element("option", { value: "" }, first),
    options.map(([one, words]) => element("option", { value: one }, words)),
  );
  select.value = value;
  select.addEventListener("change", () => onChange(select.value));
  return element("div", { class: "field wide" }, element("label", { for: id }, label), select);
}

/** Photo names, typed or taken from picked files. The files themselves are not read. */
export function photoField(id: string, value: string, onInput: (value: string) => void): HTMLElement {
  const typed = textArea({ id, label: WORDS.fields.photos, value, onInput });
  const area = typed.querySelector("textarea")!;
  const picker = element("input", {
    id: `${id}-files`,
    type: "file",
    accept: "image/*",
    multiple: true,
    class: "picker",
  });
  picker.addEventListener("change", () => {
    const names = [...(picker.files ?? [])].map(({ name }) => name);
    area.value = [...new Set([...area.value.split("\n"), ...names])].filter((name) => name.trim() !== "").join("\n");
    picker.value = "";
    onInput(area.value);
  });
  const pick = element("label", { class: "button quiet", for: picker.id }, WORDS.fields.pickPhotos);
  typed.append(element("div", { class: "pick" }, picker, pick), element("p", { class: "said" }, WORDS.photosStay));
  return typed;
}
