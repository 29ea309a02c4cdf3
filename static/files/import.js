// Reads a chosen file into the text of the form. Without it the rows can be pasted.

const field = document.querySelector("[data-file-into]");
if (field) offerFile(field);

function offerFile(field) {
  const input = field.querySelector("input");
  const said = field.querySelector("[role=status]");
  const into = document.getElementById(field.dataset.fileInto);
  const most = Number(field.dataset.mostMb) * 1e6;
  field.hidden = false;
  input.hidden = false;
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (!file) return;
    if (file.size > most) {
      said.textContent = `${file.name} is longer than ${field.dataset.mostMb} MB. Split it.`;
      return;
    }
    try {
      into.value = decoded(await file.arrayBuffer());
      said.textContent = `${file.name} is in the field below. Check it next.`;
    } catch {
      said.textContent = `${file.name} could not be read. Paste its rows below.`;
    }
  });
}

/** The text of a file: UTF-8, or else what older spreadsheets write. */
function decoded(bytes) {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
