// A button that prints; without script the browser's own menu does it.
for (const b of document.querySelectorAll('[data-print]')) {
  b.hidden = false;
  b.addEventListener('click', () => window.print());
}
