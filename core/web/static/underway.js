// Underway says that the shop is at work when a page takes longer than a blink: whoever touches a button in a shed must see that it was touched.
(() => {
  const blink = 350; // ms
  const note = Object.assign(document.createElement('p'), { id: 'underway', textContent: 'The shop is at work on it …', hidden: true });
  note.setAttribute('role', 'status');
  let timer = 0;
  const begin = () => { clearTimeout(timer); timer = setTimeout(() => { note.hidden = false; }, blink); };
  const end = () => { clearTimeout(timer); note.hidden = true; };
  document.body.append(note);
  document.addEventListener('submit', (e) => setTimeout(() => { if (!e.defaultPrevented) begin(); }));
  document.addEventListener('click', (e) => {
    const a = e.target.closest && e.target.closest('a[href]');
    if (!a || a.hasAttribute('download') || a.target || e.ctrlKey || e.metaKey || e.shiftKey || e.button) return;
    const to = new URL(a.href, location.href);
    if (to.origin !== location.origin || (to.hash && to.href.split('#')[0] === location.href.split('#')[0])) return;
    setTimeout(() => { if (!e.defaultPrevented) begin(); });
  });
  window.addEventListener('pagehide', end);
  window.addEventListener('pageshow', end);
})();
