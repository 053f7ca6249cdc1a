// Sends a result as plain text by what the phone has for it, else puts it where it can be pasted.
class ShareText extends HTMLElement {
  connectedCallback() {
    this.button = this.querySelector("button");
    this.button.hidden = !(navigator.share || navigator.clipboard);
    this.button.onclick = () => this.send(this.dataset.text.replaceAll("\u00a0", " ").trim());
  }

  async send(text) {
    try {
      if (navigator.share) await navigator.share({ text });
      else await this.copy(text);
    } catch (refused) {
      if (refused.name !== "AbortError") await this.copy(text).catch(() => this.open());
    }
  }

  async copy(text) {
    await navigator.clipboard.writeText(text);
    this.querySelector("[role=status]").textContent = this.dataset.copied;
  }

  // Neither was allowed: the text is shown, to be marked by hand.
  open() {
    const shown = document.createElement("pre");
    shown.textContent = this.dataset.text.trim();
    this.append(shown);
  }
}

customElements.define("share-text", ShareText);
