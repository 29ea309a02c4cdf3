// Photos: made smaller before they are sent, for outbox.js as well; and one that follows a message is sent as soon as it is chosen.

const LONGEST_SIDE = 1600;

/** A photo small enough to send from a field; as it is where this browser cannot make it smaller. */
globalThis.smallerPhoto = async function smaller(file) {
  try {
    const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, LONGEST_SIDE / Math.max(whole.width, whole.height));
    const canvas = Object.assign(document.createElement("canvas"), { width: Math.round(whole.width * scale), height: Math.round(whole.height * scale) });
    canvas.getContext("2d").drawImage(whole, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve) => { canvas.toBlob((blob) => resolve(blob ?? file), "image/jpeg", 0.82); });
  } catch {
    return file;
  }
};

// A photo of a message goes as soon as it is chosen: the message is there already.
document.addEventListener("change", async ({ target: field }) => {
  const to = field.dataset?.photoNow;
  const [file] = (to && field.files) || [];
  if (!file) return;
  const said = document.getElementById(field.getAttribute("aria-describedby"));
  field.disabled = true;
  said.textContent = "Sending…";
  let answer;
  try {
    const body = await globalThis.smallerPhoto(file);
    answer = await fetch(`${to}&id=${crypto.randomUUID()}`, { method: "POST", body, headers: { "content-type": "application/octet-stream" }, redirect: "manual" });
  } catch {
    answer = null;
  }
  if (answer?.status === 200) {
    location.reload();
    return;
  }
  const why = await answer?.json().catch(() => null);
  said.textContent = why?.why || (answer?.status === 413 ? "That photo is too large." : "It could not be sent. Choose it again to try once more.");
  field.disabled = false;
  field.value = "";
});

for (const field of document.querySelectorAll("[data-photo-now]")) field.closest(".field").hidden = false;
