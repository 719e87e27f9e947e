// The pad: one question at a time, its last digits typed against the nominal, the next station by itself.
(() => {
  const pad = document.getElementById('pad');
  const data = document.getElementById('questions');
  if (!pad || !data) return;
  const sheet = JSON.parse(data.textContent);
  const questions = sheet.parts.flatMap((p) => p.checks.flatMap((c) => (c.stations || ['']).map((station) => ({
    ...c, station, part: p.part, position: p.position || '', subsystem: sheet.subsystem, unit: sheet.unit, direct: Boolean(c.wear),
    name: `${p.name}, ${c.name}${station ? ' at ' + station : ''}`, key: [p.part + (p.position ? '/' + p.position : ''), c.check, station].join(' ').trimEnd(),
  }))));
  const job = location.pathname.split('/')[2];
  document.body.classList.add('padded');
  const narrow = matchMedia('(max-width: 899px)'); // the pad lies over what is asked, not beside it
  let at = -1; // the question on the pad
  let text = ''; // as typed
  let instrument = '';
  let note = '';
  let wrote = null; // the question that was answered last, while this page is open

  const el = (tag, props, ...inside) => { const x = Object.assign(document.createElement(tag), props); x.append(...inside); return x; };
  const row = (q) => document.querySelector(`[data-key="${CSS.escape(q.key)}"]`);
  const answered = (q) => { const r = row(q); const a = r && r.querySelector('.answer'); return a ? a.textContent.trim() : ''; };
  const numbers = (q) => ['measured', 'derived', 'counted'].includes(q.kind);

  const draft = (q) => [job, q.subsystem, q.unit, q.key].join(' ');

  // measure is what a bare number is in: the check's, unless the instrument that was chosen reads in the other system.
  function measure(q) {
    const tool = sheet.with.find((t) => t.name === instrument);
    return tool && sheet.beside[q.measure]?.to === tool.unit ? tool.unit : q.measure;
  }

  // full is what will be written down for what is typed.
  function full(q) {
    if (!numbers(q) || text === '') return text;
    if (measure(q) !== q.measure && /^[+-]?[\d.]+$/.test(text)) return text + ' ' + measure(q);
    if (/^\d+$/.test(text) && q.nominal && text.length <= (q.nominal.split('.')[1] || '').length && q.kind === 'measured') return fettle.nearest(text, q.nominal) + ' ' + q.measure;
    if (/[a-z]/i.test(text)) return text;
    if (/^[+-]/.test(text) && q.kind === 'measured' && q.measure === 'in' && !/^[+-]0?\./.test(text)) return text + ' thou';
    return q.kind === 'counted' ? text : text + ' ' + q.measure;
  }

  // typedIn is what is typed, in the measure of the check; null where that is for the shop to say.
  function typedIn(q) {
    const m = q.direct && /^([0-9.]+) (\S+)$/.exec(full(q));
    return m && m[2] === q.measure ? Number(m[1]) : null;
  }

  // wearOf is how far what is typed is worn; null where that is for the shop to say.
  function wearOf(q) {
    const x = typedIn(q);
    return x === null ? null : fettle.wear(x, q.new, q.wear);
  }

  // beside is what is typed in the other system, "50.70 mm"; what is written down is what was typed.
  function beside(q) {
    const m = /^(-?[0-9.]+) (\S+)$/.exec(full(q)), o = m && sheet.beside[m[2]];
    if (!o || !Number.isFinite(Number(m[1]))) return '';
    const places = Math.max(0, (m[1].split('.')[1] || '').length + o.figures);
    return (Number(m[1]) * o.by + o.plus).toFixed(Math.min(places, 6)) + ' ' + o.to;
  }

  // came is what the shop says of the part that was read last, and of the parts that go with it; not graded yet while the reading is on this device only.
  const came = el('p', { className: 'came', role: 'status', hidden: true });
  let told = ''; // what went wrong or was taken back, until something else is done
  function tell() {
    if (told) {
      came.hidden = false;
      if (came.textContent !== told) came.replaceChildren(el('strong', {}, told));
      return;
    }
    const part = wrote && row(wrote)?.closest('.part');
    came.hidden = !part;
    if (!part) return;
    const words = part.querySelector('.waiting') ? ['on this device, graded when it is back'] : [part.querySelector('.grade strong').textContent.toLowerCase(),
      ...[...document.querySelectorAll(`.group[data-parts~="${CSS.escape(part.id)}"]`)].map((g) => el('a', { href: '#' + g.id }, g.querySelector('strong').textContent))];
    const now = [el('strong', {}, part.querySelector('h2').textContent), ': ', ...words];
    if (came.textContent !== now.map((x) => x.textContent || x).join('')) came.replaceChildren(...now);
  }

  // worn says so in words.
  function worn(q) {
    if (!q.direct) return numbers(q) ? 'graded when it is back' : '';
    const x = typedIn(q), w = wearOf(q);
    if (w > 1) return 'past its limit';
    if (w > 0.5) return 'near its limit';
    if (w > 0) return 'worn, within its limit';
    if (x !== null && fettle.beyond(x, q.new, q.wear)) return q.twoSided ? 'too tight' : 'graded when it is back';
    return w === null ? '' : 'within new';
  }

  const called = (x) => x.getAttribute('aria-label') || x.textContent;

  function draw() {
    const q = questions[at];
    document.querySelectorAll('.questions li.now').forEach((x) => x.classList.remove('now'));
    pad.hidden = !q;
    if (!q) return;
    const r = row(q);
    if (r) r.classList.add('now');
    const held = pad.contains(document.activeElement) && called(document.activeElement); // by the keyboard: the key stays under the finger
    const name = el('input', { name: 'by', value: fettle.by(), autocomplete: 'name', placeholder: 'who', ariaLabel: 'Who measures' });
    name.addEventListener('input', () => localStorage.setItem('by', name.value));
    const key = (label, does, cls) => { const b = el('button', { type: 'button', className: cls || '' }, label); b.addEventListener('click', does); return b; };
    const type = (s) => () => { text += s; typed(); };
    const shown = full(q) || (q.nominal && measure(q) === q.measure ? q.nominal.replace(/\d(?=[^.]*$)/g, '_') : '');
    const figure = el('p', { className: 'figure', ariaLive: 'polite' }, el('output', {}, shown || ' '), el('small', {}, worn(q)), el('small', { className: 'beside' }, beside(q)));
    const keys = el('div', { className: 'keys' });
    if (numbers(q)) {
      keys.append(...['7', '8', '9'].map((d) => key(d, type(d))), key('\u232b', () => { text = text.slice(0, -1); typed(); }));
      keys.querySelector('button:last-child').setAttribute('aria-label', 'take the last digit back');
      keys.append(...['4', '5', '6'].map((d) => key(d, type(d))), key('+', () => { text = '+'; typed(); }));
      keys.append(...['1', '2', '3'].map((d) => key(d, type(d))), key('\u2212', () => { text = '-'; typed(); }));
      keys.append(key('.', type('.')), key('0', type('0')), key('Write down', () => write(full(q)), 'wide main'));
    } else {
      const ways = q.kind === 'go/no-go' ? [['pass'], ['fails']] : [['class 0', 'none'], ['class 1', 'light'], ['class 2', 'repairable'], ['class 3', 'past repair']];
      keys.append(...ways.map(([w, means]) => { const b = key(w, () => write(w), 'wide'); if (means) b.dataset.means = means; return b; }));
    }
    const ways = el('div', { className: 'ways why-not' }, ...['could not reach', 'missing', 'not measured', 'by eye'].map((w) => key(w, () => write(w))));
    const same = repeats(q);
    const steps = el('div', { className: 'ways' }, key('Undo', undo, 'undo'), ...(same ? [key('Same: ' + same.replaceAll(' ', '\u00a0'), () => write(same), 'same')] : []), key('Skip', () => go(next(at))));
    const again = answered(q) ? [el('div', { className: 'again' }, el('p', { className: 'why' }, `Read: ${answered(q)}. What is written now stands ${note ? 'in its place' : 'beside it'}.`),
      key(note ? 'Let both stand' : 'Put it in its place', () => { note = note ? '' : 'again'; draw(); }))] : [];
    tell();
    // Keys stay where they are while somebody types: what comes and goes has its room above them, or stands below.
    pad.replaceChildren(el('div', { className: 'head' }, el('p', { className: 'asks' }, q.name), ...(q.wanted ? [el('p', { className: 'wanted' }, q.wanted)] : []), ...again, figure, ...gauge(q)), keys, ways, steps,
      el('div', { className: 'row' }, name, ...(numbers(q) ? [tools(q), ...zero(q, key)] : [])), came);
    document.querySelectorAll('.questions .how').forEach((x) => x.remove());
    if (r && q.how) r.append(el('p', { className: 'how' }, q.how));
    if (held !== false) ([...pad.querySelectorAll('button, input, select')].find((x) => called(x) === held) || pad.querySelector('button')).focus({ preventScroll: true });
  }

  // gauge moves the tick along the bar from new to the limit as digits are typed: the same bar as the shop's own.
  function gauge(q) {
    const w = wearOf(q);
    if (w === null) return q.direct && [...q.wear, ...q.new].some((x) => x !== null) ? [el('div', { className: 'gauge' })] : []; // its room
    const edge = 144; // of 200: where the limit stands
    const at = Math.min(Math.max(w * edge, 0), 200);
    const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
    const add = (tag, props) => { const x = document.createElementNS(svg.namespaceURI, tag); for (const k in props) x.setAttribute(k, props[k]); svg.append(x); };
    svg.setAttribute('viewBox', '-6 0 212 26');
    svg.setAttribute('role', 'img');
    svg.setAttribute('aria-label', worn(q));
    add('rect', { x: 0, y: 7, width: edge, height: 14, fill: 'url(#wear)' });
    add('rect', { x: edge, y: 7, width: 200 - edge, height: 14, fill: 'url(#past)' });
    add('rect', { x: 0, y: 7, width: 200, height: 14, fill: 'none', stroke: '#1c1a18' });
    add('path', { d: `M${edge} 4.5V23.5`, stroke: '#1c1a18', 'stroke-width': 1.4 });
    add('path', { d: `M${at} 3V25`, stroke: '#fff', 'stroke-width': 5 });
    add('path', { d: `M${at} 3V25`, stroke: '#1c1a18', 'stroke-width': 2.8 });
    return [el('div', { className: 'gauge' }, svg)];
  }

  // tools lets the instrument be chosen; what was chosen last for a check's usual one stays.
  function tools(q) {
    const s = el('select', { ariaLabel: 'Read with' }, ...['', ...sheet.with.map((t) => t.name)].map((n) => el('option', { value: n, selected: n === instrument }, n || (q.instrument ? 'with ' + q.instrument : 'with: not said'))));
    s.addEventListener('change', () => { instrument = s.value; localStorage.setItem('with ' + q.instrument, instrument); s.blur(); draw(); });
    return s;
  }

  // zero asks for a look at the zero of what is read with, once a day: one touch, which waits on this device like a reading.
  function zero(q, key) {
    const tool = sheet.with.find((t) => t.name === (instrument || q.tool));
    if (!tool) return [];
    if (tool.zero && new Date(tool.zero).toDateString() === new Date().toDateString()) return [el('p', { className: 'zeroed' }, tool.off ? `zero: ${tool.off} off` : '✓ on zero today')];
    const b = key('On zero', () => {
      tool.zero = new Date().toISOString();
      tool.off = '';
      localStorage.setItem('zero ' + tool.name, tool.zero);
      fettle.form(job, { to: '/shop/zero', fields: [['instrument', tool.name], ...(fettle.by() ? [['by', fettle.by()]] : [])], words: `zero of the ${tool.name} looked at` });
      draw();
    });
    b.setAttribute('aria-label', `The ${tool.name} is on zero`);
    return [b];
  }
  for (const t of sheet.with) { // a page that was kept is older than what was looked at on this device
    const here = localStorage.getItem('zero ' + t.name);
    if (here && (!t.zero || new Date(here) > new Date(t.zero))) { t.zero = here; t.off = ''; }
  }

  // repeats is what this device wrote last, where the question takes the same; "" where it does not.
  function repeats(q) {
    const last = fettle.last(job);
    const of = last && questions.find((x) => ['subsystem', 'unit', 'part', 'position', 'check', 'station'].every((f) => x[f] === last[f]));
    return of && numbers(q) && of.kind === q.kind && of.measure === q.measure && /\d/.test(last.value) ? last.value : '';
  }

  // drafts are what stands on the pad of each question, kept on the device at every key.
  const drafts = fettle.drafts(job + ' ');
  function keep(q, value) { if (value) drafts.set(draft(q), value); else drafts.delete(draft(q)); fettle.typing(draft(q), value || null); }
  function typed() { keep(questions[at], text); draw(); see(); }

  // next is the next question that is not answered, after one; -1 where all are. What is worked out from other readings is asked only where it is touched.
  function next(from) {
    for (let i = 1; i <= questions.length; i++) {
      const k = (from + i) % questions.length;
      if ((questions[k].kind !== 'derived' || questions[k].station) && !answered(questions[k]) && !row(questions[k])?.classList.contains('waiting')) return k;
    }
    return -1;
  }

  // see brings what is asked into sight: right below the pad where that lies over it.
  function see() {
    const r = at >= 0 && row(questions[at]);
    const held = document.activeElement;
    if (!r || (held !== document.body && !held.closest('.bench'))) return; // who walks the header by the keyboard is not carried off
    r.style.scrollMarginTop = narrow.matches ? pad.offsetHeight - (parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0) + 'px' : '';
    r.scrollIntoView({ block: narrow.matches ? 'start' : 'center' });
  }

  // go is done at once: whatever is typed next, by finger or by calliper, belongs to the question that it goes to.
  function go(k, words = '') {
    at = k;
    told = words;
    text = '';
    note = '';
    if (at >= 0) {
      const q = questions[at];
      instrument = localStorage.getItem('with ' + q.instrument) || '';
      text = drafts.get(draft(q)) || '';
      history.replaceState(null, '', '#' + encodeURIComponent(q.key));
    }
    draw();
    see();
    awake();
  }

  async function write(value) {
    const q = questions[at], here = at;
    if (!value) return;
    const r = row(q);
    if (r) { r.classList.add('waiting'); r.querySelector('.answer').textContent = value; }
    const { subsystem, unit, part, position, check, station } = q;
    wrote = q;
    const sent = fettle.reading(job, { subsystem, unit, part, position, check, station, value, instrument: numbers(q) ? instrument : '', note });
    const typed = text;
    keep(q, '');
    go(next(at));
    // back asks it again where it could not be kept or was not taken: the person is here, and what was typed stays on the pad.
    const back = (words) => {
      if (r) { r.classList.remove('waiting'); r.querySelector('.answer').textContent = ''; }
      keep(q, typed);
      go(here, words);
    };
    let refused;
    try { refused = await sent; } catch (e) { back('This device has no room to keep it. Make room on it, or wait for a signal.'); return; }
    const no = refused.find((x) => x.reading && x.reading.check === check && x.reading.part === part && x.reading.position === position && x.reading.station === station);
    if (!no) return;
    await fettle.leave(no);
    back('Not taken: ' + (no.faults || [no.refused]).map((f) => [f.what, f.next].filter(Boolean).join('. Next: ')).join('. ') + '.');
  }

  // undo takes back what this device wrote last, and asks it again.
  async function undo() {
    const any = fettle.last(job), last = any && await fettle.back(job);
    if (!last) {
      told = any ? 'It is in the book already, and cannot be taken back without a signal. Try again when there is one.' : 'Nothing that this device wrote is left to take back.';
      tell();
      return;
    }
    const k = questions.findIndex((q) => ['subsystem', 'unit', 'part', 'position', 'check', 'station'].every((f) => q[f] === last[f]));
    wrote = null;
    if (fettle.refresh) await fettle.refresh();
    if (k >= 0) {
      const r = row(questions[k]);
      if (r && r.classList.contains('waiting')) { r.classList.remove('waiting'); r.querySelector('.answer').textContent = ''; }
    }
    go(k >= 0 ? k : at, `Taken back: ${last.value}` + (k >= 0 ? '' : `, ${[last.part, last.position, last.check, last.station].filter(Boolean).join(' ')}, on another bench`));
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
    if (e.key === 'Enter' && text && !(e.target.tagName === 'BUTTON' && pad.contains(e.target))) { e.preventDefault(); write(full(q)); return; }
    if (!numbers(q)) return;
    if (/^[0-9.+-]$/.test(e.key)) { e.preventDefault(); text = /[+-]/.test(e.key) ? e.key : text + e.key; typed(); }
    if (e.key === 'Backspace') { e.preventDefault(); text = text.slice(0, -1); typed(); }
  });
  document.getElementById('parts').addEventListener('click', (e) => {
    const ask = e.target.closest('.ask');
    if (ask) { e.preventDefault(); go(questions.findIndex((q) => q.key === ask.closest('[data-key]').dataset.key)); }
  });
  // later marks what the shop says of parts that have readings on this device only: it is not the last word.
  function later() {
    for (const part of document.querySelectorAll('.part')) {
      const waits = Boolean(part.querySelector('.waiting'));
      part.querySelector('.grade .later').hidden = !waits;
      for (const g of document.querySelectorAll(`.group[data-parts~="${CSS.escape(part.id)}"]`)) g.querySelector('.later').hidden = !g.dataset.parts.split(' ').some((id) => document.getElementById(id)?.querySelector('.waiting'));
    }
    tell();
  }
  function mark(all) {
    for (const q of questions) {
      const w = all.findLast((x) => x.job === job && x.reading && !x.refused && [x.reading.check, x.reading.part, x.reading.position, x.reading.station, x.reading.subsystem].join() === [q.check, q.part, q.position, q.station, q.subsystem].join());
      const r = row(q);
      if (!r) continue;
      if (w) { r.classList.add('waiting'); r.querySelector('.answer').textContent = w.reading.value; } else r.classList.remove('waiting');
    }
    later();
  }
  document.addEventListener('waiting', (e) => mark(e.detail));
  document.addEventListener('sent', () => fettle.refresh && fettle.refresh());
  document.addEventListener('followed', async () => {
    if (pad.contains(document.activeElement) && /^(INPUT|SELECT)$/.test(document.activeElement.tagName)) row(questions[at])?.classList.add('now'); // somebody types there
    else draw();
    mark(await fettle.waiting());
  });
  window.fettle = Object.assign(window.fettle || {}, { questions });
  // The address names a question, its subsystem before it or not.
  const asked = decodeURIComponent(location.hash.slice(1)).replace(`${sheet.subsystem}@${sheet.unit}/`, '').replace(`${sheet.subsystem}/`, '').trimEnd();
  const start = questions.findIndex((q) => q.key === asked || (asked && q.key.startsWith(asked)));
  if (at < 0) go(start >= 0 ? start : next(-1));
})();
