// Draws a chart while its table is typed. Without this file the button "Draw it" does the same.
class ChartSketch extends HTMLElement {
  connectedCallback() {
    this.form = this.querySelector("form");
    this.paper = this.querySelector("#sketch");
    this.querySelector("[data-plain]")?.setAttribute("hidden", "");
    this.addEventListener("input", () => this.wait());
  }

  disconnectedCallback() {
    clearTimeout(this.timer);
  }

  wait() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.draw(), 300);
  }

  async draw() {
    const asked = (this.asked = (this.asked ?? 0) + 1);
    try {
      const answer = await fetch(this.dataset.draw, {
        method: "POST",
        body: new URLSearchParams(new FormData(this.form)),
      });
      if (answer.ok && asked === this.asked) this.paper.innerHTML = await answer.text();
    } catch {
      // Away from the book: the last drawing stays.
    }
  }
}

customElements.define("chart-sketch", ChartSketch);
