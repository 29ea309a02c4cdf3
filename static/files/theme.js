// Light, dark, or as the device says. A classic script: it runs before the first paint, so that a chosen theme never flashes.
"use strict";
(() => {
  const KEY = "theme";
  const root = document.documentElement;

  const read = () => {
    try { return localStorage.getItem(KEY) ?? "system"; } catch { return "system"; }
  };
  const write = (theme) => {
    try { theme === "system" ? localStorage.removeItem(KEY) : localStorage.setItem(KEY, theme); } catch { /* private window: lasts this page */ }
  };
  const wear = (theme) => {
    if (theme === "light" || theme === "dark") root.dataset.theme = theme;
    else delete root.dataset.theme;
    for (const button of document.querySelectorAll("[data-theme-to]")) {
      button.setAttribute("aria-pressed", String(button.dataset.themeTo === theme));
    }
  };

  wear(read());
  document.addEventListener("DOMContentLoaded", () => {
    for (const group of document.querySelectorAll("[data-theme-switch]")) group.hidden = false;
    wear(read());
  });
  document.addEventListener("click", (event) => {
    const button = event.target.closest?.("[data-theme-to]");
    if (!button) return;
    write(button.dataset.themeTo);
    wear(button.dataset.themeTo);
  });
  addEventListener("storage", (event) => { if (event.key === KEY) wear(read()); });
})();
