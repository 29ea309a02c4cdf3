// A button that reads a text file from this device into a field, where people look at it before they send it.
for (const button of document.querySelectorAll("[data-read-into]")) {
  const field = document.getElementById(button.dataset.readInto);
  const picker = Object.assign(document.createElement("input"), { type: "file", accept: button.dataset.accept ?? "" });
  picker.addEventListener("change", async () => {
    const [file] = picker.files;
    if (!file) return;
    field.value = decoded(await file.arrayBuffer());
    field.focus();
  });
  button.addEventListener("click", () => {
    picker.value = "";
    picker.click();
  });
  button.hidden = false;
}

/** The text of a file: UTF-8, or else what older spreadsheets write. */
function decoded(bytes) {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
