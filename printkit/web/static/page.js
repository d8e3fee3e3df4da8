// Saves a form as soon as it is changed and shows what the server answers; without it everything works
// by its buttons. The answer is the page itself: parts with the same data-part take each other's place.
"use strict";

const parts = (fresh) => {
  for (const part of document.querySelectorAll("[data-part]")) {
    const other = fresh.querySelector(`[data-part="${part.dataset.part}"]`);
    if (other && other.outerHTML !== part.outerHTML) part.replaceWith(document.importNode(other, true));
  }
  const version = fresh.querySelector("input[name=version]");
  if (version) for (const input of document.querySelectorAll("input[name=version]")) input.value = version.value;
};

const parsed = (text) => new DOMParser().parseFromString(text, "text/html");

const show = (form, word) => {
  const status = form.querySelector("[data-status]");
  if (!status) return;
  status.textContent = word ? status.dataset[word] : "";
  status.classList.toggle("bad", word === "refused" || word === "lost");
};

const mark = (form) => {
  for (const input of form.querySelectorAll("[aria-describedby]")) {
    const wrong = (input.getAttribute("aria-describedby").match(/wrong-\S+/) || [""])[0];
    const place = wrong && document.getElementById(wrong);
    if (input.tagName === "FIELDSET") continue;
    if (place && place.children.length) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }
};

const saving = new Map();
const unsaved = new Set();  // forms with something typed that is not sent

const save = async (form) => {
  if (saving.get(form)) { saving.set(form, "again"); return; }
  saving.set(form, "now");
  unsaved.delete(form);
  show(form, "saving");
  try {
    const answer = await fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)) });
    const fresh = parsed(await answer.text());
    if (answer.status === 409 || answer.status === 403) {
      document.getElementById("content").replaceWith(document.importNode(fresh.getElementById("content"), true));
      return;
    }
    parts(fresh);
    mark(form);
    show(form, answer.ok ? "saved" : "refused");
    if (!answer.ok) unsaved.add(form);
  } catch {
    show(form, "lost");
    unsaved.add(form);
  } finally {
    const again = saving.get(form) === "again";
    saving.delete(form);
    if (again) save(form);
  }
};

// A button pressed while a change is still being saved waits for it, as its form knows the old version.
document.addEventListener("submit", async (event) => {
  const form = event.target;
  const onward = event.submitter && event.submitter.name === "then";
  if (form.matches("[data-live]") && !onward) {
    event.preventDefault();
    save(form);
  } else if (saving.size) {
    event.preventDefault();
    while (saving.size) await new Promise((go) => setTimeout(go, 50));
    form.requestSubmit(event.submitter);
  } else {
    unsaved.delete(form);
  }
});

document.addEventListener("input", (event) => {
  const form = event.target.closest("main form");
  if (form) unsaved.add(form);
});

// The browser asks before what was typed is lost.
addEventListener("beforeunload", (event) => { if (unsaved.size) event.preventDefault(); });

document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-live]");
  if (form) save(form);
});

const poll = async () => {
  const running = document.querySelector("[data-poll]");
  if (!running) return;
  try {
    const answer = await fetch(location.href);
    parts(parsed(await answer.text()));
  } catch { /* asked again below */ }
  setTimeout(poll, 400);
};
poll();

// Pictures may be dropped on the page instead of being chosen.
for (const form of document.querySelectorAll("form[data-drop]")) {
  const input = form.querySelector("input[type=file]");
  form.addEventListener("dragover", (event) => { event.preventDefault(); form.classList.add("over-it"); });
  form.addEventListener("dragleave", () => form.classList.remove("over-it"));
  form.addEventListener("drop", (event) => {
    event.preventDefault();
    form.classList.remove("over-it");
    input.files = event.dataTransfer.files;
  });
}
