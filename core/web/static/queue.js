// Forms that work without a signal: what is typed is kept at every key, and goes through the device's queue. Without this script they are plain forms.
(() => {
  const el = (tag, props, ...inside) => { const x = Object.assign(document.createElement(tag), props); x.append(...inside); return x; };
  const jobOf = (f) => f.dataset.job || location.pathname.split('/')[2];
  const key = (f) => 'form ' + location.pathname + ' ' + f.id;
  const typedIn = (f) => [...f.elements].filter((e) => e.name && e.type !== 'hidden' && e.type !== 'submit' && e.type !== 'file');

  // What was typed and not sent is kept by the field's name and its place among those of the same: text or a tick. What nobody touched is not kept: what the
  // shop says there may change, and fields may come and go.
  const usual = (e) => (e.tagName === 'SELECT' ? ([...e.options].find((o) => o.defaultSelected) || e.options[0]).value : e.defaultValue);
  const keys = (f) => { const n = {}; return typedIn(f).map((e) => [e.name + ' ' + (n[e.name] = (n[e.name] || 0) + 1), e]); };
  const touched = ([, e]) => (e.type === 'checkbox' ? e.checked !== e.defaultChecked : e.value !== usual(e));
  const state = (f) => Object.fromEntries(keys(f).filter(touched).map(([k, e]) => [k, e.type === 'checkbox' ? e.checked : e.value]));
  function restore(f) {
    const kept = JSON.parse(fettle.typing(key(f)) || '{}');
    for (const [k, e] of keys(f)) {
      if (!(k in kept)) continue;
      if (e.type === 'checkbox') e.checked = kept[k]; else e.value = kept[k];
      for (let d = f.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
    }
  }

  function faults(f, list) {
    f.parentElement.querySelectorAll(':scope > .notice.told').forEach((x) => x.remove());
    f.before(...list.map((t) => {
      const n = el('div', { className: 'notice told', role: 'alert' }, el('p', {}, el('strong', {}, t.what.charAt(0).toUpperCase() + t.what.slice(1))));
      if (t.next) n.append(el('p', {}, 'Next: ' + t.next));
      return n;
    }));
    f.parentElement.querySelector(':scope > .notice.told')?.scrollIntoView({ block: 'center' });
  }

  // wait marks a form whose words are on this device only.
  function wait(f, on) {
    f.classList.toggle('waiting', on);
    f.querySelectorAll('button').forEach((b) => { b.disabled = on; });
  }

  async function submit(f) {
    if (f.classList.contains('waiting')) return;
    const fields = [...new FormData(f).entries()].filter(([, v]) => typeof v === 'string');
    if (fettle.by() && !fields.some(([k]) => k === 'by')) fields.push(['by', fettle.by()]);
    const last = f.querySelector('[data-last]');
    if (last && last.value) localStorage.setItem(last.dataset.last + ' ' + jobOf(f), last.value);
    faults(f, []);
    wait(f, true);
    let got;
    try {
      got = await fettle.form(jobOf(f), { to: f.getAttribute('action'), fields, words: f.dataset.queue });
    } catch (e) {
      wait(f, false);
      faults(f, [{ what: 'this device cannot keep it', next: 'make room on it, or wait for a signal' }]);
      return;
    }
    if (got.refused) { // the person is here: what was typed stays in the form, not in the queue
      await fettle.drop(got.item.n);
      wait(f, false);
      faults(f, got.item.faults || [got.refused]);
      return;
    }
    fettle.typing(key(f), null);
    if (got.taken) { location.assign(got.taken.next); return; }
    f.querySelectorAll('.on-device').forEach((x) => x.remove());
    f.append(el('p', { className: 'on-device', role: 'status' }, 'On this device. It is sent when there is a signal.'));
    if (f.dataset.again !== undefined || f.id === 'make') { wait(f, false); f.reset(); }
  }

  const wired = new WeakSet();
  function wire() {
    for (const f of document.querySelectorAll('form[data-queue]')) {
      if (wired.has(f) || !f.id) continue;
      wired.add(f);
      const last = f.querySelector('[data-last]');
      if (last && !last.value) last.value = localStorage.getItem(last.dataset.last + ' ' + jobOf(f)) || '';
      const who = f.elements.who;
      if (who && !who.value) who.value = fettle.by();
      restore(f);
      f.addEventListener('submit', (e) => { e.preventDefault(); submit(f); });
      f.addEventListener('input', () => fettle.typing(key(f), JSON.stringify(state(f))));
    }
    mark();
  }

  // mark shows which forms of this page wait on this device, also after it was opened anew.
  async function mark() {
    const all = await fettle.waiting();
    for (const f of document.querySelectorAll('form[data-queue]')) {
      if (f.id === 'make') continue;
      const step = f.elements.step && f.elements.step.type === 'hidden' ? f.elements.step.value : null;
      const its = all.filter((x) => x.form && x.job === jobOf(f) && x.form.words === f.dataset.queue && (step === null || x.form.fields.some(([k, v]) => k === 'step' && v === step)));
      if (its.some((x) => !x.refused)) {
        wait(f, true);
        if (!f.querySelector('.on-device')) f.append(el('p', { className: 'on-device', role: 'status' }, 'On this device. It is sent when there is a signal.'));
      } else if (f.querySelector('.on-device')) {
        wait(f, false);
        f.querySelectorAll('.on-device').forEach((x) => x.remove());
        if (!its.length) f.reset(); // it was taken
      }
    }
  }
  function say(e, text) {
    if (e.tagName === 'SELECT') for (const o of e.options) o.defaultSelected = o.value === text;
    else e.defaultValue = text;
    e.value = text;
  }

  // catchUp brings what another device changed into the fields that nobody has touched here: what is typed next is typed with it in sight.
  function catchUp() {
    const stands = document.querySelector('[data-stands]');
    for (const [name, text] of Object.entries(stands ? JSON.parse(stands.textContent) : {})) {
      const was = [...document.querySelectorAll(`#change-form [name="was-${name}"]`)], now = [...document.querySelectorAll(`#change-form [name="${name}"]`)];
      const texts = was.length === 1 ? [text] : text.split('\n'); // a bag a field
      if (now.every((e, i) => e.value === was[i].value) && texts.length === now.length) texts.forEach((t, i) => say(now[i], was[i].value = t));
    }
  }
  document.addEventListener('followed', () => { catchUp(); wire(); });
  document.addEventListener('waiting', mark);
  document.addEventListener('sent', (e) => { if (e.detail > 0 && fettle.refresh) fettle.refresh(); });
  wire();
  if (location.hash) { const d = document.getElementById(location.hash.slice(1)); if (d && d.tagName === 'DETAILS') d.open = true; }
})();
