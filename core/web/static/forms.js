// Forms: who writes is remembered on this device; what takes a moment is looked at until it is done.
(() => {
  const own = () => {
    const by = localStorage.getItem('by');
    for (const field of document.querySelectorAll('input[data-own]')) if (by && field.value === field.defaultValue) field.value = by;
  };
  document.addEventListener('submit', (e) => {
    const by = e.target.querySelector('input[data-own]');
    if (by) localStorage.setItem('by', by.value.trim());
  });
  document.addEventListener('followed', own); // a form may have come with it
  own();
  const look = () => {
    if (!document.querySelector('[data-busy]')) return;
    if (window.fettle && fettle.refresh) fettle.refresh();
    setTimeout(look, 400);
  };
  setTimeout(look, 200);
})();
