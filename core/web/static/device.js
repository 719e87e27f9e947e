// What is typed on this device and not yet in the book: kept in IndexedDB at every key, sent once, in order, when there is a signal.
(() => {
  const note = document.getElementById('device');
  let db = null;
  const memory = []; // where the browser keeps nothing: an untrusted address, a private window
  let sending = false;
  let untrusted = !window.isSecureContext;

  const opened = new Promise((done) => {
    if (!window.indexedDB) return done(null);
    const r = indexedDB.open('fettle', 1);
    r.onupgradeneeded = () => {
      r.result.createObjectStore('waiting', { keyPath: 'n', autoIncrement: true });
      r.result.createObjectStore('typing', { keyPath: 'key' });
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
  async function drop(n) {
    if (db) await act('waiting', 'readwrite', (s) => s.delete(n));
    else memory.splice(memory.findIndex((x) => x.n === n), 1);
  }

  // reading keeps a reading on the device, then tries to send all there is.
  async function reading(job, r) {
    const kept = Object.assign({ id: id(), at: new Date().toISOString(), by: by() }, r);
    await put({ job, reading: kept });
    own(job, [...own(job), kept].slice(-50));
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
    return send();
  }

  // send brings what waits to the book, in order, a job at a time; what the book refuses stays here with the reason. It gives what was refused now.
  async function send() {
    if (sending) return [];
    sending = true;
    const refused = [];
    try {
      for (;;) {
        const all = (await waiting()).filter((x) => !x.refused);
        if (all.length === 0) break;
        const some = all.filter((x) => x.job === all[0].job).slice(0, 100);
        let got;
        try {
          got = await fetch(`/jobs/${encodeURIComponent(some[0].job)}/readings`, {
            method: 'POST', headers: { 'Content-Type': 'application/json', Accept: 'application/json' }, body: JSON.stringify({ readings: some.map((x) => x.reading) }),
          });
        } catch (e) { break; } // no signal
        const answer = await got.json().catch(() => null);
        if (!got.ok || !answer || !answer.readings) {
          if (got.status === 404 || got.status === 422) {
            for (const x of some) { x.refused = answer && answer.faults ? answer.faults[0] : { what: 'the shop refused it' }; await change(x); }
          }
          if (got.status !== 404 && got.status !== 422) break;
          continue;
        }
        for (const x of some) {
          const t = answer.readings.find((y) => y.id === x.reading.id);
          if (t && t.ok) await drop(x.n);
          else { x.refused = t || { what: 'no answer' }; await change(x); refused.push(x); }
        }
      }
    } finally {
      sending = false;
      await show();
    }
    if (refused.length === 0) document.dispatchEvent(new CustomEvent('sent'));
    return refused;
  }

  // own is what this device wrote of a job, the last last: what it may take back.
  function own(job, list) {
    if (list) localStorage.setItem('own ' + job, JSON.stringify(list));
    return JSON.parse(localStorage.getItem('own ' + job) || '[]');
  }

  // back takes back what this device wrote last, whether it was sent or not, and gives it; null if there is nothing, or no signal to say so.
  async function back(job) {
    const last = own(job).pop();
    if (!last) return null;
    const here = (await waiting()).find((x) => x.reading && x.reading.id === last.id);
    if (here) await drop(here.n);
    else {
      const got = await fetch(`/jobs/${encodeURIComponent(job)}/readings/${last.id}/back`, { method: 'POST', headers: { Accept: 'application/json' } }).catch(() => null);
      if (!got || (!got.ok && got.status !== 404)) return null;
    }
    own(job, own(job).slice(0, -1));
    await show();
    return last;
  }

  // show says what is on this device only.
  async function show() {
    const all = await waiting();
    const held = all.filter((x) => x.refused);
    document.dispatchEvent(new CustomEvent('waiting', { detail: all }));
    note.replaceChildren();
    note.hidden = all.length === 0 && !untrusted;
    const say = (text) => { const p = document.createElement('span'); p.textContent = text + ' '; note.append(p); };
    if (all.length > held.length) say(`${all.length - held.length} on this device only, sent when there is a signal.`);
    if (untrusted) say('This device does not trust the address: it cannot work offline, and keeps what is typed only while this page is open.');
    for (const x of held) {
      say(`Not taken: ${x.reading.part} ${x.reading.position} ${x.reading.check} ${x.reading.station} “${x.reading.value}”: ${x.refused.what}. ${x.refused.next || ''}`);
      const b = document.createElement('button');
      b.type = 'button';
      b.textContent = 'Leave it out';
      b.addEventListener('click', async () => { await drop(x.n); await show(); });
      note.append(b);
    }
    if (all.length > 0) {
      const b = document.createElement('button');
      b.type = 'button';
      b.textContent = 'Save to a file';
      b.addEventListener('click', () => save(all));
      note.append(b);
    }
  }

  // save writes what waits as lines for fettle import.
  function save(all) {
    const quoted = (s) => '"' + String(s || '').replaceAll('"', '""') + '"';
    const rows = ['subsystem,part,position,check,station,value,unit,instrument,by,at,note'];
    for (const { reading: r } of all) {
      rows.push([r.subsystem + (r.unit && r.unit !== r.subsystem ? '@' + r.unit : ''), r.part, r.position, r.check, r.station, r.value, '', r.instrument, r.by, r.at, r.note].map(quoted).join(','));
    }
    const a = document.createElement('a');
    a.href = URL.createObjectURL(new Blob([rows.join('\n') + '\n'], { type: 'text/csv' }));
    a.download = 'on-this-device.csv';
    a.click();
    URL.revokeObjectURL(a.href);
  }

  // typing keeps what stands on the pad, at every key.
  async function typing(key, value) {
    await opened;
    if (!db) return null;
    if (value === undefined) { const r = await act('typing', 'readonly', (s) => s.get(key)); return r ? r.value : null; }
    await act('typing', 'readwrite', (s) => (value === null ? s.delete(key) : s.put({ key, value })));
    return value;
  }

  const by = () => localStorage.getItem('by') || '';
  window.fettle = Object.assign(window.fettle || {}, { reading, send, waiting, typing, by, id, back });
  opened.then((d) => { db = d; if (!d) untrusted = untrusted || true; show(); send(); });
  for (const e of ['online', 'focus']) window.addEventListener(e, () => send());
  document.addEventListener('signal', () => send());
  setInterval(async () => { if ((await waiting()).length) send(); }, 5000);
  if ('serviceWorker' in navigator && window.isSecureContext) navigator.serviceWorker.register('/worker.js');
})();
