// What is typed on this device and not yet in the book: kept in IndexedDB at every key, sent once, in order, when there is a signal.
(() => {
  const note = document.getElementById('device');
  let db = null;
  const memory = []; // where the browser keeps nothing: an untrusted address, a private window
  let untrusted = !window.isSecureContext || !('serviceWorker' in navigator);
  let shut = null; // why the shop takes nothing from this device: it has no key any more, or not the right one

  const opened = new Promise((done) => {
    if (!window.indexedDB) return done(null);
    const r = indexedDB.open('fettle', 1);
    r.onupgradeneeded = () => {
      r.result.createObjectStore('waiting', { keyPath: 'n', autoIncrement: true });
    };
    r.onsuccess = () => done(r.result);
    r.onerror = () => done(null);
    r.onblocked = () => done(null);
  });
  const act = (store, mode, f) =>
    new Promise((done, failed) => {
      const t = db.transaction(store, mode, { durability: 'strict' });
      const r = f(t.objectStore(store));
      t.oncomplete = () => done(r && r.result);
      t.onerror = () => failed(t.error);
      t.onabort = () => failed(t.error);
    });

  // id makes a UUID; crypto.randomUUID is there on trusted addresses alone.
  function id() {
    const b = crypto.getRandomValues(new Uint8Array(16));
    b[6] = (b[6] & 0x0f) | 0x40;
    b[8] = (b[8] & 0x3f) | 0x80;
    const h = [...b].map((x) => x.toString(16).padStart(2, '0')).join('');
    return [h.slice(0, 8), h.slice(8, 12), h.slice(12, 16), h.slice(16, 20), h.slice(20)].join('-');
  }

  async function waiting() {
    await opened;
    return db ? act('waiting', 'readonly', (s) => s.getAll()) : [...memory];
  }
  async function put(item) {
    await opened;
    if (db) item.n = await act('waiting', 'readwrite', (s) => s.add(item));
    else memory.push(Object.assign(item, { n: memory.length ? memory[memory.length - 1].n + 1 : 1 }));
    await show();
    return item;
  }
  async function change(item) {
    if (db) await act('waiting', 'readwrite', (s) => s.put(item));
  }
  // behind puts a changed item at the end of the queue in the place of what it was, at once; of what has gone meanwhile nothing is left to change.
  async function behind(was, item) {
    if (db) {
      await act('waiting', 'readwrite', (s) => {
        s.get(was.n).onsuccess = (e) => { if (e.target.result) { s.delete(was.n); s.add(item); } };
      });
    } else if (memory.some((x) => x.n === was.n)) {
      await drop(was.n);
      memory.push(Object.assign(item, { n: (memory.length ? memory[memory.length - 1].n : was.n) + 1 }));
    }
  }
  async function drop(n) {
    if (db) await act('waiting', 'readwrite', (s) => s.delete(n));
    else memory.splice(memory.findIndex((x) => x.n === n), 1);
  }

  // What waits is one queue of readings, forms and photographs: {n, job, reading | form | photo, refused}. It is sent in this order, and what the book refuses
  // stays here with the reason.
  const persist = () => navigator.storage && navigator.storage.persist && navigator.storage.persist();

  // reading keeps a reading on the device, then tries to send all there is. It gives what was refused.
  async function reading(job, r) {
    const kept = Object.assign({ id: id(), at: new Date().toISOString(), by: by() }, r);
    await put({ job, reading: kept });
    own(job, [...own(job), kept].slice(-50));
    persist();
    return send();
  }

  // keep puts what was typed into a form on the device, and sends nothing yet.
  const keep = (job, f) => put({ job, form: Object.assign({ id: id(), at: new Date().toISOString() }, f) });

  // form keeps what was typed into a form, then tries to send all there is. It gives what became of it: {taken}, {refused}, or nothing while it waits.
  async function form(job, f) {
    const item = await keep(job, f);
    persist();
    await send();
    return became(item);
  }

  // photo keeps a photograph on the device. Without a tag it waits until it has one: see tagged.
  async function photo(job, f) {
    const item = await put({ job, photo: Object.assign({ id: id(), by: by(), at: new Date().toISOString() }, f) });
    persist();
    if (item.photo.tag) await send();
    return item;
  }

  // tagged gives photographs their tag: its number, or the id of the form that makes it, behind which they are put.
  async function tagged(items, tag, words) {
    for (const x of items) await behind(x, { job: x.job, photo: Object.assign({}, x.photo, { tag, words }) });
    await show();
    return send();
  }

  // became says what happened to something that was put into the queue.
  const taken = new Map();
  async function became(item) {
    const what = item.reading || item.form || item.photo;
    if (taken.has(what.id)) return { taken: taken.get(what.id) };
    const now = (await waiting()).find((x) => x.n === item.n);
    if (!now || !now.refused) return {};
    return { refused: now.refused, item: now };
  }

  // ahead is what goes next: readings of one job in one piece, all else by itself.
  function ahead(all) {
    if (!all[0].reading) return all.slice(0, 1);
    const end = all.findIndex((x) => !x.reading || x.job !== all[0].job);
    return all.slice(0, Math.min(end < 0 ? all.length : end, 100));
  }

  const ready = (x) => !x.refused && !(x.photo && !x.photo.tag);

  // deliver sends one piece and gives [answer, whether the book refused it]; null without a signal, and where the shop does not let this device in: nothing is
  // refused then, all waits until it does.
  async function deliver(some) {
    const { job, form: f, photo: p } = some[0];
    const to = `/jobs/${encodeURIComponent(job)}`;
    const headers = { Accept: 'application/json' };
    let got;
    try {
      if (f) got = await fetch(f.to, { method: 'POST', headers, body: new URLSearchParams([...f.fields, ['id', f.id], ['typed-at', f.at || '']]) });
      else if (p) {
        const body = new FormData();
        for (const k of ['id', 'by', 'tag', 'of', 'finding']) if (p[k]) body.append(k, p[k]);
        body.append('photo', p.blob, 'photograph');
        got = await fetch(to + '/photos', { method: 'POST', headers, body });
      } else {
        headers['Content-Type'] = 'application/json';
        got = await fetch(to + '/readings', { method: 'POST', headers, body: JSON.stringify({ readings: some.map((x) => x.reading) }) });
      }
    } catch (e) { return null; }
    const answer = await got.json().catch(() => null);
    if (got.status === 401 && !shut) fetch(location.href).catch(() => null); // the worker learns by it that the key has gone: it does not see what is sent
    shut = [401, 403].includes(got.status) ? Object.assign({ what: 'the shop does not let this device in', next: 'pair it again' }, answer && answer.faults && answer.faults[0], { pair: got.status === 401 }) : null;
    if (got.ok && answer) return [answer, false];
    return [400, 404, 405, 409, 413, 415, 422].includes(got.status) ? [answer, true] : null;
  }

  // send brings what waits to the book. It gives what was refused now. Only one runs at a time: a second call waits for all that was there when it was made.
  let run = null, more = false;
  function send() {
    if (run) { more = true; return run; }
    run = (async () => {
      const refused = [];
      const later = new Set(); // what its subsystem does not answer about now: it waits, and keeps nothing else back
      let brought = 0;
      try {
        do {
          more = false;
          for (;;) {
            const all = (await waiting()).filter((x) => ready(x) && !later.has(x.n));
            if (all.length === 0) break;
            const some = ahead(all);
            const got = await deliver(some);
            if (!got) break; // no signal
            const [answer, no] = got;
            for (const x of some) {
              const t = !no && x.reading ? (answer.readings || []).find((y) => y.id === x.reading.id) : null;
              if (t && t.later) { later.add(x.n); continue; }
              if (no) x.refused = answer && answer.faults ? answer.faults[0] : { what: 'the shop refused it' };
              else if (x.reading && !(t && t.ok)) x.refused = t || { what: 'no answer' };
              if (x.refused) {
                if (answer && answer.faults) x.faults = answer.faults;
                await change(x);
                refused.push(x);
                continue;
              }
              taken.set((x.reading || x.form || x.photo).id, answer);
              await drop(x.n);
              brought++;
            }
            await show();
          }
        } while (more);
      } finally {
        run = null;
        await show();
      }
      if (refused.length === 0) document.dispatchEvent(new CustomEvent('sent', { detail: brought }));
      return refused;
    })();
    return run;
  }

  // words say what a thing that waits is.
  function words({ reading: r, form: f, photo: p }) {
    if (r) return `${r.part} ${r.position} ${r.check} ${r.station} “${r.value}”`;
    return f ? f.words : 'photograph' + (p.words ? ' of ' + p.words : '');
  }

  // own is what this device wrote of a job, the last last: what it may take back.
  function own(job, list) {
    if (list) localStorage.setItem('own ' + job, JSON.stringify(list));
    return JSON.parse(localStorage.getItem('own ' + job) || '[]');
  }

  // leave drops what was not taken, and forgets that this device wrote it.
  async function leave(item) {
    await drop(item.n);
    if (item.reading) own(item.job, own(item.job).filter((r) => r.id !== item.reading.id));
    await show();
  }

  // last is what this device wrote last of a job.
  const last = (job) => own(job).at(-1);

  // back takes back what this device wrote last, whether it was sent or not, and gives it; null if there is nothing, or no signal to say so.
  async function back(job) {
    const wrote = last(job);
    if (!wrote) return null;
    const here = (await waiting()).find((x) => x.reading && x.reading.id === wrote.id);
    if (here) await drop(here.n);
    else {
      const got = await fetch(`/jobs/${encodeURIComponent(job)}/readings/${wrote.id}/back`, { method: 'POST', headers: { Accept: 'application/json' } }).catch(() => null);
      if (!got || (!got.ok && got.status !== 404)) return null;
    }
    own(job, own(job).slice(0, -1));
    await show();
    return wrote;
  }

  // show says what is on this device only.
  async function show() {
    const all = await waiting();
    const held = all.filter((x) => x.refused && !x.photo);
    const bare = all.filter((x) => x.photo && (x.refused || !x.photo.tag));
    document.dispatchEvent(new CustomEvent('waiting', { detail: all }));
    note.replaceChildren();
    note.hidden = all.length === 0 && !untrusted;
    const say = (text) => { const p = document.createElement('span'); p.textContent = text + ' '; note.append(p); };
    const key = (text, does) => {
      const b = Object.assign(document.createElement('button'), { type: 'button', textContent: text });
      b.addEventListener('click', does);
      note.append(b);
    };
    const going = all.length - held.length - bare.length;
    if (going > 0 && shut) {
      say(`${going} on this device only, nothing is lost: ${shut.what}. Next: ${shut.next}.`);
      // What only this page keeps would go with it.
      if (shut.pair) key('Pair again', () => { if (db) location.href = '/pair'; else window.open('/pair'); });
    } else if (going > 0) say(`${going} on this device only, sent when there is a signal.`);
    if (untrusted) {
      say('This device does not trust the shop’s address: it cannot work offline. What is typed without a signal waits in this page: keep it open until it is sent.');
      if (all.length === 0 && location.pathname !== '/trust') key('Let it trust the shop', () => { location.href = '/trust'; });
    }
    for (const x of held) {
      say(`Not taken: ${words(x)}: ${(x.faults || [x.refused]).map((f) => [f.what, f.next].filter(Boolean).join('. ')).join('. ')}.`);
      key('Leave it out', () => leave(x));
    }
    for (const job of new Set(bare.map((x) => x.job))) {
      const n = bare.filter((x) => x.job === job).length;
      if (location.pathname === `/jobs/${job}/tags`) continue; // they are shown there
      say(n === 1 ? 'A photograph has no tag yet.' : `${n} photographs have no tag yet.`);
      key('Pick its tag', () => { location.href = `/jobs/${job}/tags`; });
    }
    if (all.length > bare.length) key('Save to a file', () => save(all));
    note.hidden = note.childNodes.length === 0;
  }

  // save writes readings as lines for fettle import, forms as their words, and photographs as they are.
  function save(all) {
    const quoted = (s) => '"' + String(s || '').replaceAll('"', '""') + '"';
    const file = (name, blob) => {
      const a = document.createElement('a');
      a.href = URL.createObjectURL(blob);
      a.download = name;
      a.click();
      URL.revokeObjectURL(a.href);
    };
    const rows = ['subsystem,part,position,check,station,value,unit,instrument,by,at,note'];
    for (const { reading: r } of all.filter((x) => x.reading)) {
      rows.push([r.subsystem + (r.unit && r.unit !== r.subsystem ? '@' + r.unit : ''), r.part, r.position, r.check, r.station, r.value, '', r.instrument, r.by, r.at, r.note].map(quoted).join(','));
    }
    if (rows.length > 1) file('on-this-device.csv', new Blob([rows.join('\n') + '\n'], { type: 'text/csv' }));
    const typed = all.filter((x) => x.form).map((x) => [x.job + ' ' + words(x), ...x.form.fields.filter(([k, v]) => v && !k.startsWith('was-')).map(([k, v]) => '  ' + k + ': ' + v)].join('\n'));
    if (typed.length) file('on-this-device.txt', new Blob([typed.join('\n\n') + '\n'], { type: 'text/plain' }));
    all.filter((x) => x.photo).forEach((x, i) => file(`${x.job}-${i + 1}.jpg`, x.photo.blob));
  }

  // typing keeps what stands on the pad or in a form, at every key, before the next one can be touched: what is written to localStorage is there although
  // the page goes that moment. Without a value it gives what is kept; null lets it go.
  function typing(key, value) {
    try {
      if (value === undefined) return localStorage.getItem('typing ' + key);
      if (value === null) localStorage.removeItem('typing ' + key); else localStorage.setItem('typing ' + key, value);
    } catch (e) { /* a device that keeps nothing: it stands in the page alone */ }
    return value;
  }

  // drafts are all that stands under keys that begin so.
  function drafts(begin) {
    try {
      return new Map(Object.entries(localStorage).filter(([k]) => k.startsWith('typing ' + begin)).map(([k, v]) => [k.slice('typing '.length), v]));
    } catch (e) { return new Map(); }
  }

  const by = () => localStorage.getItem('by') || '';
  window.fettle = Object.assign(window.fettle || {}, { reading, keep, form, photo, tagged, became, drop: async (n) => { await drop(n); await show(); }, send, waiting, typing, drafts, by, id, last, leave, back });
  opened.then((d) => { db = d; untrusted = untrusted || !d; show(); send(); });
  for (const e of ['online', 'focus']) window.addEventListener(e, () => send());
  document.addEventListener('signal', () => send());
  setInterval(async () => { if ((await waiting()).some(ready)) send(); }, 5000);
  // A browser that does not trust the certificate lets the page work, and its worker not.
  if (!untrusted) {
    // The page that is open was fetched before there was a worker to keep it.
    navigator.serviceWorker.addEventListener('controllerchange', () => fetch(location.href).catch(() => null));
    navigator.serviceWorker.register('/worker.js').catch(() => { untrusted = true; return show(); });
  }
})();
