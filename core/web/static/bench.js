// The pad: one question at a time, its last digits typed against the nominal, the next station by itself.
(() => {
  const pad = document.getElementById('pad');
  const data = document.getElementById('questions');
  if (!pad || !data) return;
  const questions = JSON.parse(data.textContent) || [];
  const job = location.pathname.split('/')[2];
  document.body.classList.add('padded');
  let at = -1; // the question on the pad
  let text = ''; // as typed
  let instrument = '';
  let note = '';

  const el = (tag, props, ...inside) => { const x = Object.assign(document.createElement(tag), props); x.append(...inside); return x; };
  const row = (q) => document.querySelector(`[data-key="${CSS.escape(q.key)}"]`);
  const answered = (q) => { const r = row(q); const a = r && r.querySelector('.answer'); return a ? a.textContent.trim() : ''; };
  const numbers = (q) => ['measured', 'derived', 'counted'].includes(q.kind);

  // full is what will be written down for what is typed.
  function full(q) {
    if (!numbers(q) || text === '') return text;
    if (/^\d+$/.test(text) && q.nominal && text.length <= (q.nominal.split('.')[1] || '').length && q.kind === 'measured') return fettle.nearest(text, q.nominal) + ' ' + q.measure;
    if (/[a-z]/i.test(text)) return text;
    if (/^[+-]/.test(text) && q.kind === 'measured' && q.measure === 'in' && !/^[+-]0?\./.test(text)) return text + ' thou';
    return q.kind === 'counted' ? text : text + ' ' + q.measure;
  }

  // worn is how far what is typed is worn, in words; "" where that is for the shop to say.
  function worn(q) {
    if (!q.direct) return numbers(q) ? 'graded when it is back' : '';
    const m = /^([0-9.]+) (\S+)$/.exec(full(q));
    if (!m || m[2] !== q.measure) return '';
    const w = fettle.wear(Number(m[1]), q.new, q.wear);
    if (w === null) return '';
    if (w > 1) return 'past its limit';
    if (w > 0.5) return 'near its limit';
    return w > 0 ? 'worn, within its limit' : 'within new';
  }

  function draw() {
    const q = questions[at];
    document.querySelectorAll('.questions li.now').forEach((x) => x.classList.remove('now'));
    pad.hidden = !q;
    if (!q) return;
    const r = row(q);
    if (r) r.classList.add('now');
    const name = el('label', {}, 'Who measures ', el('input', { name: 'by', value: fettle.by(), autocomplete: 'name' }));
    name.querySelector('input').addEventListener('input', (e) => localStorage.setItem('by', e.target.value));
    const key = (label, does, cls) => { const b = el('button', { type: 'button', className: cls || '' }, label); b.addEventListener('click', does); return b; };
    const type = (s) => () => { text += s; typed(); };
    const shown = full(q) || (q.nominal ? q.nominal.replace(/\d(?=[^.]*$)/g, '_') : '');
    const figure = el('p', { className: 'figure', ariaLive: 'polite' }, el('output', {}, shown || ' '), el('small', {}, worn(q)));
    const keys = el('div', { className: 'keys' });
    if (numbers(q)) {
      keys.append(...['7', '8', '9'].map((d) => key(d, type(d))), key('\u232b', () => { text = text.slice(0, -1); typed(); }));
      keys.querySelector('button:last-child').setAttribute('aria-label', 'take the last digit back');
      keys.append(...['4', '5', '6'].map((d) => key(d, type(d))), key('+', () => { text = '+'; typed(); }));
      keys.append(...['1', '2', '3'].map((d) => key(d, type(d))), key('\u2212', () => { text = '-'; typed(); }));
      keys.append(key('.', type('.')), key('0', type('0')), key('Write down', () => write(full(q)), 'wide main'));
    } else {
      const ways = q.kind === 'go/no-go' ? ['pass', 'fails'] : ['class 0', 'class 1', 'class 2', 'class 3'];
      keys.append(...ways.map((w) => key(w, () => write(w), 'wide')));
    }
    const ways = el('div', { className: 'ways' }, ...['could not reach', 'missing', 'not measured'].map((w) => key(w, () => write(w))),
      key('Undo', undo), key('Skip', () => go(next(at))));
    const again = answered(q) ? el('p', { className: 'why' }, `Read: ${answered(q)}. What is written now stands beside it.`) : '';
    pad.replaceChildren(el('p', { className: 'asks' }, q.name), again, ...(numbers(q) ? [tools(q)] : []), figure, keys, ways, name);
  }

  // tools lets the instrument be chosen; what was chosen last for a check's usual one stays.
  function tools(q) {
    const list = JSON.parse(document.getElementById('instruments').textContent) || [];
    const s = el('select', { ariaLabel: 'Read with' }, ...['', ...list].map((n) => el('option', { value: n, selected: n === instrument }, n || `read with: ${q.instrument || 'not said'}`)));
    s.addEventListener('change', () => { instrument = s.value; localStorage.setItem('with ' + q.instrument, instrument); });
    return s;
  }

  function typed() { fettle.typing(questions[at].key + ' ' + job, text || null); draw(); }

  // next is the next question that is not answered, after one; itself where all are.
  function next(from) {
    for (let i = 1; i <= questions.length; i++) {
      const k = (from + i) % questions.length;
      if (!answered(questions[k]) && !row(questions[k])?.classList.contains('waiting')) return k;
    }
    return -1;
  }

  async function go(k) {
    at = k;
    text = '';
    note = '';
    if (at >= 0) {
      const q = questions[at];
      instrument = localStorage.getItem('with ' + q.instrument) || '';
      text = (await fettle.typing(q.key + ' ' + job)) || '';
      history.replaceState(null, '', '#' + encodeURIComponent(q.key));
      row(q)?.scrollIntoView({ block: 'center' });
    }
    draw();
    awake();
  }

  async function write(value) {
    const q = questions[at];
    if (!value) return;
    const r = row(q);
    if (r) { r.classList.add('waiting'); r.querySelector('.answer').textContent = value; }
    await fettle.typing(q.key + ' ' + job, null);
    const { subsystem, unit, part, position, check, station } = q;
    const sent = fettle.reading(job, { subsystem, unit, part, position, check, station, value, instrument: numbers(q) ? instrument : '', note });
    const here = at;
    await go(next(at));
    const refused = await sent;
    if (refused.some((x) => x.reading && x.reading.check === check && x.reading.part === part && x.reading.position === position && x.reading.station === station)) {
      if (r) { r.classList.remove('waiting'); r.querySelector('.answer').textContent = ''; }
      await go(here);
    }
  }

  async function undo() {
    const got = await fetch(`/jobs/${job}/undo`, { method: 'POST', headers: { Accept: 'application/json' } }).catch(() => null);
    if (got && got.ok && fettle.refresh) fettle.refresh();
  }

  // awake keeps the screen on while somebody measures.
  let lock = null;
  async function awake() {
    if (!navigator.wakeLock || lock || document.visibilityState !== 'visible') return;
    try { lock = await navigator.wakeLock.request('screen'); lock.addEventListener('release', () => { lock = null; }); } catch (e) { /* it sleeps then */ }
  }
  document.addEventListener('visibilitychange', awake);

  // A calliper that types, and the keys of a keyboard.
  document.addEventListener('keydown', (e) => {
    if (at < 0 || e.ctrlKey || e.metaKey || e.altKey || /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName)) return;
    const q = questions[at];
    if (e.key === 'Enter' && text && e.target.tagName !== 'BUTTON') { e.preventDefault(); write(full(q)); return; }
    if (!numbers(q)) return;
    if (/^[0-9.+-]$/.test(e.key)) { e.preventDefault(); text = /[+-]/.test(e.key) ? e.key : text + e.key; typed(); }
    if (e.key === 'Backspace') { e.preventDefault(); text = text.slice(0, -1); typed(); }
  });
  document.getElementById('parts').addEventListener('click', (e) => {
    const ask = e.target.closest('a.ask');
    if (ask) { e.preventDefault(); go(questions.findIndex((q) => q.key === ask.closest('[data-key]').dataset.key)); }
  });
  document.addEventListener('waiting', (e) => {
    for (const q of questions) {
      const w = e.detail.findLast((x) => x.job === job && x.reading && !x.refused && [x.reading.check, x.reading.part, x.reading.position, x.reading.station, x.reading.subsystem].join() === [q.check, q.part, q.position, q.station, q.subsystem].join());
      const r = row(q);
      if (!r) continue;
      if (w) { r.classList.add('waiting'); r.querySelector('.answer').textContent = w.reading.value; } else r.classList.remove('waiting');
    }
  });
  document.addEventListener('sent', () => fettle.refresh && fettle.refresh());
  document.addEventListener('followed', () => draw());
  const asked = decodeURIComponent(location.hash.slice(1));
  const start = questions.findIndex((q) => q.key === asked || (asked && q.key.startsWith(asked)));
  go(start >= 0 ? start : next(-1));
})();
