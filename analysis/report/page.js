"use strict";
(() => {
  const $ = (id) => document.getElementById(id);
  const body = $("day").tBodies[0];
  const rows = [...body.rows];
  const card = (row) => $("c" + row.id.slice(1));
  for (const row of rows) {
    const of = row.dataset;
    of.key = [of.shot, of.track, of.number].filter(Boolean).join(" · ");
    of.character = (of.track || "").split("/")[0];
    card(row).tabIndex = -1;
  }
  const heads = [...$("day").tHead.rows[0].cells];
  const FILTERS = ["text", "sequence", "character", "severity", "finding", "certainty", "change", "word"];
  let shown = rows;
  let current = null;

  // What the reviewer says of a jump, kept in this browser until it is saved as a file.
  const stored = "leapwright notes " + document.body.dataset.day;
  const given = JSON.parse($("notes").textContent);
  const notes = given.on;
  try { Object.assign(notes, JSON.parse(localStorage.getItem(stored) || "{}")); } catch { /* storage is closed to us */ }
  const say = (row, said) => {
    notes[row.dataset.key] = said;
    row.dataset.word = said.word;
    row.querySelector(".said").textContent = said.word || (said.text ? "note" : "");
    hush();
    try { localStorage.setItem(stored, JSON.stringify(notes)); } catch { /* only for this visit, then */ }
  };
  const hush = () => $("day").classList.toggle("hush", !rows.some((row) => row.querySelector(".said").textContent.trim()));
  const noteFile = () => {
    const said = rows.filter((row) => row.dataset.jump && notes[row.dataset.key]
      && (notes[row.dataset.key].word || notes[row.dataset.key].text));
    return JSON.stringify({ schema: "leapwright-notes/1", notes: given.rest.concat(said.map((row) =>
      ({ shot: row.dataset.shot, track: row.dataset.track, frames: row.dataset.jump.split(" ").map(Number), word: notes[row.dataset.key].word, text: notes[row.dataset.key].text,
        findings: row.dataset.finding.split(" ").filter(Boolean) }))) }, null, 1) + "\n";
  };
  const save = (name, content) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([content], { type: "application/json" }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  };

  const noteForm = (row) => {
    const of = card(row);
    if (!row.dataset.jump || of.querySelector(".say")) return;
    const form = $("say").content.firstElementChild.cloneNode(true);
    const said = notes[row.dataset.key] || { word: "", text: "" };
    const text = form.querySelector("input[type=text]");
    for (const radio of form.querySelectorAll("input[type=radio]")) {
      radio.name = "word" + row.id;
      radio.checked = radio.value === (said.word || "");
      radio.addEventListener("change", () => say(row, { word: radio.value, text: text.value }));
    }
    text.value = said.text || "";
    text.addEventListener("input", () => say(row, { word: row.dataset.word || "", text: text.value }));
    of.append(form);
  };

  // The view: filters, order and the open card, in the address after #.
  const state = () => Object.fromEntries(new URLSearchParams(location.hash.slice(1)));
  const write = (changes) => {
    const view = new URLSearchParams({ ...state(), ...changes });
    for (const [name, value] of [...view]) if (!value) view.delete(name);
    history.replaceState(null, "", "#" + view);
  };
  const value = (row, column) => {
    const cell = row.cells[column];
    const given = cell.dataset.v ?? cell.textContent.trim();
    return given === "" || Number.isNaN(+given) ? given.toLowerCase() : +given;
  };
  const compare = (a, b) => (typeof a === typeof b ? (a < b ? -1 : a > b ? 1 : 0) : typeof a === "number" ? -1 : 1);
  const fits = (row, view) => FILTERS.every((name) => {
    const wanted = view[name];
    if (!wanted) return true;
    const has = row.dataset[name] || "";
    if (name === "text") return row.textContent.toLowerCase().includes(wanted.toLowerCase());
    if (name === "severity" && wanted !== "unreadable") return +row.dataset.rank >= +wanted;
    if (name === "change" && wanted === "any") return has !== "" && has !== "same";
    if (name === "word" && wanted === "none") return has === "";
    return has.split(" ").includes(wanted) || has === wanted;
  });
  const apply = () => {
    const view = state();
    const column = Math.max(0, heads.findIndex((head) => head.dataset.sort === view.sort));
    const turn = view.turn === "1" ? -1 : 1;
    shown = rows.filter((row) => fits(row, view));
    shown.sort((a, b) => turn * compare(value(a, column), value(b, column)) || a.id.slice(1) - b.id.slice(1));
    const kept = new Set(shown);
    for (const row of rows) {
      row.classList.toggle("gone", !kept.has(row));
      card(row).classList.toggle("hit", kept.has(row));
    }
    body.append(...shown);
    heads.forEach((head, place) => {
      if (place === column) head.setAttribute("aria-sort", turn > 0 ? "ascending" : "descending");
      else head.removeAttribute("aria-sort");
    });
    $("count").textContent = shown.length + " of " + rows.length + " rows";
    for (const name of FILTERS) if ($(name)) $(name).value = view[name] || "";
    open(rows.find((row) => row.dataset.key === view.at && kept.has(row)) || shown[0] || null, false);
  };
  const open = (row, moved) => {
    if (current) { current.classList.remove("on"); current.removeAttribute("aria-current"); card(current).classList.remove("on"); }
    current = row;
    $("cards").hidden = !row;
    if (!row) return;
    noteForm(row);
    row.classList.add("on");
    row.setAttribute("aria-current", "true");
    card(row).classList.add("on");
    if (!moved) return;
    write({ at: row.dataset.key });
    row.scrollIntoView({ block: "nearest" });
    $("cards").scrollTop = 0;
    $("spoken").textContent = card(row).querySelector("h2").textContent;
  };
  const step = (by) => {
    const place = shown.indexOf(current) + by;
    if (shown[place]) open(shown[place], true);
  };

  for (const head of heads) {
    const button = head.querySelector("button");
    if (!button) continue;
    button.addEventListener("click", () => {
      const view = state();
      const same = (view.sort || heads[0].dataset.sort) === head.dataset.sort;
      write({ sort: head.dataset.sort, turn: same && view.turn !== "1" ? "1" : "" });
      apply();
    });
  }
  for (const name of FILTERS) $(name)?.addEventListener("input", () => { write({ [name]: $(name).value }); apply(); });
  $("all").addEventListener("click", () => { history.replaceState(null, "", "#"); apply(); });
  body.addEventListener("click", (event) => {
    const row = event.target.closest("tr");
    if (!row) return;
    const link = event.target.closest("a");
    if (link) event.preventDefault();
    open(row, true);
    if (link || innerWidth < 1100) { card(row).focus({ preventScroll: innerWidth >= 1100 }); }
  });
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const typing = event.target.closest("input:not([type=radio]),select,textarea");
    if (event.key === "Escape" && typing) { typing.blur(); return; }
    if (typing) return;
    const inTable = event.target.closest("#day");
    if (event.key === "j" || (inTable && event.key === "ArrowDown")) step(1);
    else if (event.key === "k" || (inTable && event.key === "ArrowUp")) step(-1);
    else if (event.key === "Home" && inTable) shown[0] && open(shown[0], true);
    else if (event.key === "End" && inTable) shown.length && open(shown[shown.length - 1], true);
    else if (event.key === "/") $("text").focus();
    else if (event.key === "o" && current) card(current).focus();
    else if (event.key === "n" && current) card(current).querySelector(".say input[type=text]")?.focus();
    else return;
    event.preventDefault();
  });
  addEventListener("hashchange", apply);
  $("savenotes").addEventListener("click", () => save("notes.json", noteFile()));
  $("copynotes").addEventListener("click", async () => {
    try { await navigator.clipboard.writeText(noteFile()); $("spoken").textContent = "Notes copied"; } catch { save("notes.json", noteFile()); }
  });
  $("savejson").addEventListener("click", async () => {
    const packed = Uint8Array.from(atob($("data").textContent), (letter) => letter.charCodeAt(0));
    const whole = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
    save("audit.json", await new Response(whole).text());
  });
  for (const row of rows) if (notes[row.dataset.key]) say(row, notes[row.dataset.key]);
  hush();
  apply();
})();
