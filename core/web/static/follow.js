// Pages that follow the book, or the devices with a key: what another device or the command does shows here within a second.
(() => {
  const parts = () => document.querySelector('[data-follow]');
  if (!parts() || !window.EventSource) return;
  const what = parts().dataset.follow || 'changed'; // the book, unless the page follows something else
  let seen = parts().dataset.seen || document.body.dataset.book || null, busy = false, late = false;
  const typing = () => {
    const at = document.activeElement;
    return at && parts().contains(at) && /^(INPUT|TEXTAREA|SELECT)$/.test(at.tagName);
  };
  async function refresh() {
    if (busy || typing()) { late = true; return; }
    busy = true;
    late = false;
    let done = false;
    try {
      const got = await fetch(location.href, { headers: { Accept: 'text/html' } });
      if (!got.ok || got.redirected || got.headers.get('X-From-Device')) return;
      const text = await got.text();
      if (!text.includes(' data-follow')) return; // a note in its place, such as of a subsystem that is silent: who works here goes on with what there is
      await htmx.swap({ target: parts(), text, swap: 'outerMorph', select: '[data-follow]', sourceElement: document.body });
      done = true;
      document.dispatchEvent(new CustomEvent('followed'));
    } catch (e) { /* no signal: the page stays as it is */ } finally {
      busy = false;
      if (!done) seen = ''; // what it missed shows with the next word from the shop
      if (late && !typing()) refresh();
    }
  }
  window.fettle = Object.assign(window.fettle || {}, { refresh });
  document.addEventListener('focusout', () => { if (late) setTimeout(refresh, 0); });
  // A page that is left gives its line back: a browser holds few to one address, and keeps pages that it may go back to.
  let line = null;
  function listen() {
    line = new EventSource('/live');
    line.addEventListener(what, (e) => {
      if (seen !== null && seen !== e.data) refresh();
      seen = e.data;
    });
    const own = line; // a line that the shop shut, to a device without a key, opens not again by itself
    line.addEventListener('error', () => {
      if (own.readyState !== EventSource.CLOSED) return;
      refresh(); // the worker learns by it where the key has gone
      setTimeout(() => { if (line === own) listen(); }, 10000);
    });
    line.addEventListener('open', () => document.dispatchEvent(new CustomEvent('signal')));
  }
  window.addEventListener('pagehide', () => { line.close(); line = null; });
  window.addEventListener('pageshow', (e) => { if (e.persisted) listen(); });
  listen();
})();
