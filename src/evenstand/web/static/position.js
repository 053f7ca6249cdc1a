// Marks where the phone is, and writes it into a field: the mean of a few looks, with what they are off.
const LOOKS = 5;
const PATIENCE = 15_000; // ms

class ByPosition extends HTMLElement {
  connectedCallback() {
    if (this.said || !navigator.geolocation) return;
    this.field = document.getElementById(this.dataset.into);
    this.mark = this.button(this.dataset.here, "", () => this.look());
    this.back = this.button(this.dataset.back, "quiet", () => this.drop());
    this.said = document.createElement("p");
    this.said.setAttribute("role", "status");
    const row = document.createElement("div");
    row.className = "go";
    row.append(this.mark, this.back);
    this.append(row, this.said);
  }

  button(text, kind, press) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.className = kind;
    made.addEventListener("click", press);
    return made;
  }

  get lines() {
    return this.field.value.split("\n").filter((line) => line.trim());
  }

  set lines(lines) {
    this.field.value = lines.join("\n");
    this.field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  // Looks a few times and takes the mean; its radius is that of one look, as all may be off alike.
  look() {
    const looks = [];
    this.mark.disabled = true;
    this.said.textContent = this.dataset.wait;
    const done = (failed) => {
      navigator.geolocation.clearWatch(watch);
      clearTimeout(late);
      this.mark.disabled = false;
      if (looks.length) this.write(looks);
      else if (failed) this.said.textContent = this.dataset.refused;
    };
    const late = setTimeout(() => done(true), PATIENCE);
    const watch = navigator.geolocation.watchPosition(
      ({ coords }) => looks.push(coords) >= LOOKS && done(false),
      () => done(true),
      { enableHighAccuracy: true, maximumAge: 0, timeout: PATIENCE },
    );
  }

  write(looks) {
    const mean = (name) => looks.reduce((all, look) => all + look[name], 0) / looks.length;
    const radius = Math.max(mean("accuracy"), 0.1);
    const line = `${mean("latitude").toFixed(7)}, ${mean("longitude").toFixed(7)} ± ${radius.toFixed(1)} m`;
    const kept = "many" in this.dataset ? this.lines : this.lines.slice(-1);
    this.lines = [...kept, line];
    this.tell(radius);
  }

  drop() {
    this.lines = this.lines.slice(0, -1);
    this.said.textContent = "";
  }

  tell(radius) {
    const values = { n: this.lines.length, m: radius.toFixed(1) };
    this.said.textContent = this.dataset.marked.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  }
}

customElements.define("by-position", ByPosition);
