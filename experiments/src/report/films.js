"use strict";
// A film is a whole page, kept as text; its button shows it in a frame of its own over this page.
const film = document.getElementById("film");
const frameOf = () => film.querySelector("iframe");

for (const button of document.querySelectorAll("button[data-film]")) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const frame = document.createElement("iframe");
    frame.title = button.textContent;
    frame.setAttribute("sandbox", "allow-scripts");
    frame.srcdoc = JSON.parse(document.getElementById(button.dataset.film).textContent);
    film.append(frame);
    film.showModal();
    frame.focus();
  });
}
document.getElementById("film-close").addEventListener("click", () => film.close());
film.addEventListener("close", () => frameOf()?.remove());
