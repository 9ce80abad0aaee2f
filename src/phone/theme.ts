const KEY = "boughline-theme";

/** Whether the page stands on dark ground, by choice or by the device's setting. */
export const isDark = (): boolean =>
  (document.documentElement.dataset.theme ??
    (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";

/** Turns the page to the other ground, and keeps the choice where anything can be kept. */
export function turnTheme(): void {
  const theme = isDark() ? "light" : "dark";
  document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // Where storage is blocked the choice holds until the page is closed.
  }
}

/** Takes up the ground chosen earlier. */
export function takeUpTheme(): void {
  try {
    const theme = localStorage.getItem(KEY);
    if (theme === "light" || theme === "dark") document.documentElement.dataset.theme = theme;
  } catch {
    // Where storage is blocked the device's setting holds.
  }
}
