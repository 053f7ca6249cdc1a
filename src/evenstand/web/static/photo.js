// Makes a photo small enough to keep before it is sent, and draws it anew: where and by whose camera it was
// taken, which cameras write into it, stays on the phone. Without this file the server says what is too large.
const MOST_SIDE = 1600;
const MOST_BYTES = 512 * 1024;

class PhotoPicker extends HTMLElement {
  connectedCallback() {
    this.input = this.querySelector("input[type=file]");
    this.said = this.querySelector("[data-said]");
    this.input.addEventListener("change", () => this.take());
  }

  async take() {
    const [file] = this.input.files;
    this.said.textContent = "";
    this.querySelector("img")?.remove();
    if (!file) return;
    let small = file;
    try {
      const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const large = file.size > MOST_BYTES || Math.max(picture.width, picture.height) > MOST_SIDE;
      if (large || !/^image\/(png|webp)$/.test(file.type)) small = await this.shrink(picture);
      this.show(small);
    } catch {
      small = null; // A kind of picture that this browser cannot open.
    }
    if (file !== this.input.files[0]) return;
    if (!small || small.size > MOST_BYTES) {
      this.said.textContent = this.dataset.large;
    } else if (small !== file) {
      const files = new DataTransfer();
      files.items.add(new File([small], "photo.jpg", { type: "image/jpeg" }));
      this.input.files = files.files;
      const size = Math.max(1, Math.round(small.size / 1024));
      if (small.size < file.size) this.said.textContent = this.dataset.small.replace("{size}", size);
    }
  }

  async shrink(picture) {
    const paper = document.createElement("canvas");
    let side = Math.min(MOST_SIDE, Math.max(picture.width, picture.height));
    for (let quality = 0.85; ; quality -= 0.15) {
      if (quality < 0.5) [quality, side] = [0.7, side * 0.75];
      const scale = side / Math.max(picture.width, picture.height);
      paper.width = Math.max(1, Math.round(picture.width * scale));
      paper.height = Math.max(1, Math.round(picture.height * scale));
      paper.getContext("2d").drawImage(picture, 0, 0, paper.width, paper.height);
      const blob = await new Promise((done) => paper.toBlob(done, "image/jpeg", quality));
      if (!blob || blob.size <= MOST_BYTES || side < 200) return blob;
    }
  }

  show(blob) {
    const shown = document.createElement("img");
    shown.alt = "";
    shown.src = URL.createObjectURL(blob);
    shown.addEventListener("load", () => URL.revokeObjectURL(shown.src), { once: true });
    this.append(shown);
  }
}

customElements.define("photo-picker", PhotoPicker);
