// What this phone says while Python is not there to say it. Both languages hold the same sentences.
const SENTENCES = {
  en: {
    foreign: "This was sent from another site, so nothing was changed. Open the page here.",
    closed: "Not saved: the page that keeps the book was closed. Go back, what you typed stands there, and save again.",
    unshown: "This page cannot be shown: something went wrong in this phone. What was saved is safe. Open it again.",
    stuck: "Not saved: something went wrong in this phone. What was saved before is safe. Go back and save again.",
  },
  es: {
    foreign: "Esto se envió desde otro sitio, así que no se cambió nada. Abra la página aquí.",
    closed: "No se guardó: se cerró la página que lleva el libro. Vuelva atrás, lo que escribió sigue allí, y guarde otra vez.",
    unshown: "No se puede mostrar esta página: algo falló en este teléfono. Lo guardado está a salvo. Ábrala otra vez.",
    stuck: "No se guardó: algo falló en este teléfono. Lo guardado antes está a salvo. Vuelva atrás y guarde otra vez.",
  },
};

/** @type {any} */ (self).sentence = (/** @type {keyof typeof SENTENCES.en} */ name) => (navigator.language.startsWith("es") ? SENTENCES.es : SENTENCES.en)[name];
