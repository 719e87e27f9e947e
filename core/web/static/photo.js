// Photographs: taken, then their tag picked: two touches. They are made small on the device and kept there until they are sent.
(() => {
  const el = (tag, props, ...inside) => { const x = Object.assign(document.createElement(tag), props); x.append(...inside); return x; };
  const read = (id) => { const d = document.getElementById(id); return d ? JSON.parse(d.textContent) || [] : []; };
  const room = document.getElementById('untagged');
  const here = document.currentScript.src;

  // drawn turns a photograph upright, its longer side so many points at most.
  async function drawn(file, side) {
    const b = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const k = Math.min(1, side / Math.max(b.width, b.height));
    const c = el('canvas', { width: Math.max(1, Math.round(b.width * k)), height: Math.max(1, Math.round(b.height * k)) });
    c.getContext('2d').drawImage(b, 0, 0, c.width, c.height);
    b.close();
    return c;
  }

  // smaller makes a photograph no larger than is of use. What this device cannot read goes as it is.
  async function smaller(file) {
    try {
      const c = await drawn(file, 2560);
      return (await new Promise((done) => c.toBlob(done, 'image/jpeg', 0.85))) || file;
    } catch (e) { return file; }
  }

  function said(input, text) {
    const box = input.closest('.cameras');
    box.nextElementSibling?.classList.contains('told') && box.nextElementSibling.remove();
    if (text) box.after(el('p', { className: 'told', role: 'status' }, text));
  }

  async function take(input) {
    const files = [...input.files];
    input.value = '';
    const { job, tag } = input.dataset;
    if (files.length) said(input, '');
    for (const file of files) {
      try {
        await fettle.photo(job, { blob: await smaller(file), tag: tag || '', words: tag || '' });
      } catch (e) { said(input, 'This device has no room for a photograph. Make room, or wait for a signal.'); return; }
    }
    if (files.length && tag) {
      const left = (await fettle.waiting()).filter((x) => x.photo && x.photo.tag === tag && !x.refused).length;
      said(input, left ? `${left} on this device. They are sent when there is a signal.` : 'Kept.');
    }
  }

  // draw shows the photographs that have no tag, and the tags that they may be of.
  let shown = '', narrow = '';
  function draw(all) {
    if (!room) return;
    const bare = all.filter((x) => x.photo && x.job === room.dataset.job && (x.refused || !x.photo.tag));
    const made = all.filter((x) => x.form && x.job === room.dataset.job && x.form.words.startsWith('A tag') && !x.refused);
    const now = JSON.stringify([bare.map((x) => x.n), made.map((x) => x.n)]);
    room.hidden = bare.length === 0;
    if (now === shown) return;
    shown = now;
    room.querySelectorAll('img').forEach((i) => URL.revokeObjectURL(i.src));
    if (!bare.length) { room.replaceChildren(); return; }
    const shots = el('ul', { className: 'photos' }, ...bare.map((x) => el('li', {}, el('img', { src: URL.createObjectURL(x.photo.blob), alt: 'Photograph without a tag', width: 120, height: 120 }))));
    const why = bare.filter((x) => x.refused).map((x) => el('p', { className: 'told', role: 'alert' }, [x.refused.what, x.refused.next].filter(Boolean).join('. ')));
    const key = (label, does, cls) => { const b = el('button', { type: 'button', className: cls || '' }, ...label); b.addEventListener('click', does); return b; };
    const give = (tag, words) => fettle.tagged(bare, tag, words);
    const list = read('picks');
    const tags = el('div', { className: 'picks' });
    const fill = () => {
      const words = narrow.toLowerCase().split(/\s+/).filter(Boolean);
      const fits = list.filter((p) => words.every((w) => (p.number + ' ' + p.what).toLowerCase().includes(w)));
      tags.replaceChildren(
        ...made.map((x) => key(['New: ' + x.form.fields.find(([k]) => k === 'what')[1]], () => give(x.form.id, x.form.words))),
        ...fits.slice(0, 6).map((p) => key([el('strong', {}, p.number), ' ' + p.what], () => give(p.number, p.number))));
    };
    fill();
    const find = el('input', { type: 'search', autocomplete: 'off', value: narrow });
    find.addEventListener('input', () => { narrow = find.value; fill(); });
    const lies = el('input', { autocomplete: 'off', value: localStorage.getItem('lies ' + room.dataset.job) || '' });
    lies.setAttribute('list', 'places');
    const what = el('input', { autocomplete: 'off', value: '' });
    what.setAttribute('list', 'parts');
    const fresh = async (name) => {
      if (!name) { what.focus(); return; }
      if (!lies.value.trim()) { lies.focus(); miss.hidden = false; return; }
      localStorage.setItem('lies ' + room.dataset.job, lies.value.trim());
      const id = fettle.id();
      const fields = [['what', name], ['lies', lies.value.trim()]];
      if (fettle.by()) fields.push(['by', fettle.by()]);
      await fettle.keep(room.dataset.job, { id, to: `/jobs/${room.dataset.job}/tags`, fields, words: 'A tag: ' + name });
      await give(id, name);
    };
    const miss = el('p', { className: 'told', role: 'alert', hidden: true }, 'Say where it lies first.');
    room.replaceChildren(el('h2', {}, bare.length === 1 ? 'Of which tag is it?' : `Of which tag are these ${bare.length}?`), ...why, shots, tags,
      ...(list.length > 6 ? [el('label', {}, 'Another tag, by its number or a word ', find)] : []),
      el('h3', {}, 'Or of a new tag'), el('label', {}, 'It lies ', lies), miss,
      el('div', { className: 'picks' }, ...read('off').map((name) => key(['New: ' + name], () => fresh(name)))),
      el('label', {}, 'What it is ', what), key(['New tag'], () => fresh(what.value.trim())),
      key([bare.length === 1 ? 'Throw the photograph away' : 'Throw them away'], async () => { for (const x of bare) await fettle.drop(x.n); }, 'aside'));
  }

  // number is that of a tag, from what a code holds: T-014, or an address that ends so; "" if it is none.
  const number = (text) => (/(?:^|\/)(T-\d{3,}(?:-\d{2,})*)$/.exec(text.trim()) || ['', ''])[1];

  // A scanner that types as a keyboard does opens its tag, whatever is on the page; in a field it types into the field.
  let typed = '';
  document.addEventListener('keydown', (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName)) return;
    if (e.key.length === 1) typed = (typed + e.key).slice(-200);
    if (e.key !== 'Enter') return;
    const tag = (/T-\d{3,}(?:-\d{2,})*$/.exec(typed) || [''])[0];
    typed = '';
    if (tag) { e.preventDefault(); location.assign('/tags/' + tag); }
  });

  // scan reads the square code of a label and opens its tag: by the browser where it can, else by the script that comes with the page.
  async function scan(input) {
    const file = input.files[0];
    input.value = '';
    if (!file) return;
    said(input, 'Looking for a label...');
    let tag = '';
    for (const by of [async () => window.BarcodeDetector, async () => (await import(new URL('qr.js', here))).BarcodeDetector]) {
      try {
        const Reader = await by();
        const codes = Reader ? await new Reader({ formats: ['qr_code'] }).detect(await drawn(file, 1600)) : [];
        tag ||= codes.map((c) => number(c.rawValue)).find(Boolean) || '';
      } catch (e) { /* the other may read it */ }
      if (tag) break;
    }
    if (tag) location.assign('/tags/' + tag);
    else said(input, 'No label could be read. Go nearer with the light behind you, or type its number below.');
  }

  document.addEventListener('change', (e) => {
    if (e.target.type !== 'file') return;
    if (e.target.dataset.scan !== undefined) scan(e.target);
    else take(e.target);
  });
  document.querySelectorAll('input[type=file][name=photo]').forEach((i) => { i.form.addEventListener('submit', (e) => e.preventDefault()); });
  document.addEventListener('waiting', (e) => draw(e.detail));
  fettle.waiting().then(draw);
})();
