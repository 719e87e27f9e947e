// What is typed into a plain form is kept on this device at every key, until the shop has it: a page that is left, or a phone that goes off, loses nothing.
// A form with data-queue keeps its own (queue.js); one with data-forget keeps nothing.
(() => {
  const fields = (f) => [...f.elements].filter((e) => e.name && !['hidden', 'submit', 'file', 'password'].includes(e.type) && !e.matches('[data-own], button'));
  const ticked = (e) => e.type === 'checkbox' || e.type === 'radio';
  const state = (f) => JSON.stringify(fields(f).map((e) => (ticked(e) ? e.checked : e.value)));
  // forms are those of the page with the keys of their drafts: where they go and what they ask, as others may come and go beside them.
  function forms() {
    const alike = {};
    return [...document.querySelectorAll('form[method=post]:not([data-queue], [data-forget])')].map((f) => {
      const key = `draft ${location.pathname} ${f.getAttribute('action') || ''} ${fields(f).map((e) => e.name).join()}`;
      alike[key] = (alike[key] || 0) + 1;
      return [f, key + ' ' + alike[key]];
    });
  }
  const keyOf = (f) => (forms().find(([x]) => x === f) || [])[1];

  // bring puts back what was typed, and opens what it stands in. A form that has changed since is left alone.
  function bring(f, kept) {
    const values = JSON.parse(kept), to = fields(f);
    if (values.length !== to.length || kept === state(f)) return;
    values.forEach((v, i) => { if (ticked(to[i])) to[i].checked = v; else to[i].value = v; });
    for (let d = f.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
  }

  // A form that was sent is done with if the shop led on to another page, or gave it back with what is wrong. If neither, nobody took it.
  const sent = sessionStorage.getItem('sent');
  sessionStorage.removeItem('sent');
  const came = performance.getEntriesByType('navigation')[0];
  if (sent && came && (came.redirectCount > 0 || (came.type === 'navigate' && document.querySelector('[role=alert]')))) localStorage.removeItem(sent);
  for (const [f, key] of forms()) {
    const kept = localStorage.getItem(key);
    if (kept) bring(f, kept);
  }
  document.addEventListener('input', (e) => { const key = e.target.form && keyOf(e.target.form); if (key) localStorage.setItem(key, state(e.target.form)); });
  document.addEventListener('submit', (e) => { const key = keyOf(e.target); if (key) sessionStorage.setItem('sent', key); });
})();
