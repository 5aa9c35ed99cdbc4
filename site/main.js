// The page: it starts the planner, puts what it answers on the screen, keeps
// it on this device, and passes on what the user does.

import {openStore, why} from './store.js';
import {patch} from './patch.js';
import {listen} from './input.js';
import {Canvas} from './frame.js';
import {Tab} from './tab.js';
import * as share from './share.js';

const $ = id => document.getElementById(id);
const newID = () => [...crypto.getRandomValues(new Uint8Array(9))].map(n => n.toString(36).padStart(2, '0')).join('').slice(0, 14);

// clock is the time of day; for another day than today the date stands before it.
function clock(when = Date.now()) {
  const d = new Date(when), time = d.toTimeString().slice(0, 5);
  return d.toDateString() === new Date().toDateString() ? time
    : d.toLocaleDateString(undefined, {day: 'numeric', month: 'short'}) + ', ' + time;
}

let mode, store, tab, canvas, worker, device;
let id = '', place = 'size', title = '';
let begun = false;       // the first plan is on the screen
let deaths = [];         // when the planner died
let opening = null;      // what the planner was last told to open
let asked = 0, answered = 0, watch = 0;
let reviving = null;     // a new planner is being told what the old one knew

// start is called once, by app.js.
export async function start(how) {
  mode = how;
  store = await openStore(!mode.embedded);
  device = await remember('device', newID);
  tab = new Tab(store, {leave: () => writing, lost: () => reopen(), saved: () => tab.writer || reopen()});
  canvas = new Canvas($('stage') || document.body, drawing);
  canvas.theme = colours();
  listen(act, what => what === 'place' && place);
  share.accept((name, text) => take(name, text), notice);
  addEventListener('hashchange', () => location.hash.length > 1 && follow());
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => canvas.dress(colours()));
  document.addEventListener('visibilitychange', awake);
  new ResizeObserver(measure).observe($('drawing')?.parentElement || document.body);
  launch();
  await first();
  if (mode.embedded) share.grow();
  else offline();
}

async function remember(key, make) {
  try {
    let v = await store.get(key);
    if (!v) await store.set(key, v = make());
    return v;
  } catch {
    return make();
  }
}

// The planner.

function launch() {
  worker = new Worker('worker.js');
  const mine = worker;
  worker.onmessage = e => mine === worker && hear(e.data);
  worker.onerror = e => mine === worker && died(e.message || 'it could not be loaded');
  worker.postMessage({role: 'planner', device, embedded: mode.embedded});
  asked = answered = 0;
}

function send({marks = [], ...action}) {
  // Records of the storage are texts already: no text within a text of them.
  worker.postMessage({kind: 'do', action: JSON.stringify(action), marks: marks.join('\x1e')});
  asked++;
  clearTimeout(watch);
  watch = setTimeout(() => answered < asked && died('it did not answer for half a minute'), 30_000);
}

function died(reason) {
  worker.terminate();
  clearTimeout(watch);
  const now = Date.now();
  deaths = deaths.filter(t => now - t < 60_000).concat(now);
  if (deaths.length > 3) {
    store.set('last', '').catch(() => {}); // or it would die of the same project again
    notice(`The planner stopped: ${reason}. What was saved is safe. Reload the page to go on.`, ['Reload', () => location.reload()]);
    return;
  }
  canvas.stop();
  begun = false;
  launch();
  if (opening || id) reviving = reopen(true).finally(() => { reviving = null; });
}

function hear(m) {
  if (m.kind === 'dead') return died(m.why);
  if (m.kind !== 'reply') return;
  answered = m.count ?? asked;
  const r = JSON.parse(m.reply);
  for (const p of r.panels || []) {
    const el = $(p.ID);
    if (el) patch(el, p.HTML);
  }
  for (const f of r.flags || []) {
    if (f.Value) document.body.dataset[f.Name] = f.Value;
    else delete document.body.dataset[f.Name];
  }
  document.body.toggleAttribute('data-searching', !!r.searching);
  present();
  if (r.title) document.title = title = r.title;
  if (r.place !== place) {
    place = r.place;
    awake();
  }
  if (r.records) save(r.records);
  if (r.alert) notice(r.alert).classList.toggle('refused', performance.now() - acted < 1000);
  if (r.alert && !r.planned && opening && !mode.embedded) { // it could not be opened, and there is nothing else yet
    const failed = opening.do;
    opening = null;
    failed === 'link' ? first() : demo('jointer-stand', '');
  }
  if (r.file) share.save(r.file);
  if (r.share) given(r.share);
  if (r.print) share.printed(r.print);
  if (r.marked) navigator.vibrate?.(20);
  if (r.settle) settle();
  if (r.id) id = r.id;
  if (!begun && r.planned) {
    begun = true;
    measure();
    // A club's page gets no second program: the drawing stays SVG there.
    if (!mode.embedded) requestAnimationFrame(() => requestAnimationFrame(() => canvas.start(worker, colours())));
  }
}

// present brings the next cut of the list into sight when it changes, and gives
// the focus to the field that was asked for.
let now = '', wanted = '';
function present() {
  const at = document.querySelector('[data-now]');
  const name = at ? place + at.textContent : '';
  if (at && name !== now) at.scrollIntoView({block: 'nearest'});
  now = name;
  const field = wanted && $('i-' + wanted);
  if (field) {
    for (let d = field.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
    field.scrollIntoView({block: 'center'});
    field.focus();
    wanted = '';
  }
}

let settling = 0;
function settle() {
  clearTimeout(settling);
  settling = setTimeout(() => send({do: 'settle'}), 2800);
}

function drawing(state, reason) {
  if (state === 'ready') document.body.dataset.canvas = 'on';
  else delete document.body.dataset.canvas;
  send({do: 'view', to: state === 'ready' ? 'canvas' : 'svg', value: reason || ''});
}

let room = '';
function measure() {
  const box = ($('drawing')?.parentElement || document.body).getBoundingClientRect();
  const w = Math.round(box.width), h = Math.round(box.height);
  if (w < 1 || h < 1 || room === w + ' ' + h) return;
  room = w + ' ' + h;
  send({do: 'room', w, h});
}

// Projects.

async function first() {
  if (location.hash.length > 1) return follow();
  if (mode.embedded) return notice('There is no plan behind the # of this frame.');
  const last = await store.get('last').catch(() => '');
  if (last && await open(last)) return;
  await demo('jointer-stand', '');
}

// open opens a stored project, or reports that there is none.
async function open(which) {
  let found;
  try {
    found = await store.load(which);
  } catch (error) {
    notice(`The stored project could not be read: ${why(error)}.`);
  }
  if (!found) return false;
  const writer = await tab.claim(which);
  id = which;
  opening = {do: 'open', id, text: found.doc, marks: found.marks, readonly: !writer, value: store.memory ? '' : clock(found.when)};
  send(opening);
  tell();
  return true;
}

// reopen shows what storage holds: after the planner died, or another tab
// wrote. What was not yet stored is in unsaved.
async function reopen(dead) {
  if (dead) await flush().catch(() => {});
  if (!(id && await open(id)) && opening) send(opening);
  if (dead) send({do: 'place', to: place});
}

// follow opens the plan of a link, as a copy.
async function follow() {
  const fragment = location.hash.slice(1).split('~')[0];
  if (!mode.embedded) history.replaceState(null, '', location.pathname + location.search);
  let text;
  try {
    text = await share.linked(fragment);
  } catch (error) {
    notice(error.message);
    if (!begun && !mode.embedded) await first();
    return;
  }
  await begin({do: 'link', text, readonly: mode.embedded});
}

async function demo(name, fresh) {
  try {
    if (!/^[a-z0-9-]+$/.test(name)) throw new Error('it has no name');
    const answer = await fetch(`projects/${name}.json`);
    if (!answer.ok) throw new Error(answer.status);
    await begin({do: 'demo', text: await answer.text(), to: fresh});
  } catch (error) {
    notice(`The starting point could not be loaded: ${error.message}.`);
  }
}

const take = (name, text) => mode.embedded || begin({do: 'file', value: name, text});

async function begin(action) {
  const fresh = newID();
  if (!mode.embedded) await tab.claim(fresh);
  await tell(); // first: what a file adds to the book must not be read over
  opening = {...action, id: fresh};
  send(opening);
}

// tell gives the planner the list of projects.
async function tell() {
  if (writing) await writing.catch(() => {});
  if (!mode.embedded && !unsaved.length) send({do: 'kept', marks: await store.book().catch(() => [])});
  const all = await store.projects().catch(() => []);
  send({do: 'projects', list: all.map(p => ({ID: p.id, Name: p.name, When: clock(p.when)}))});
}

// Storage. "Saved" is said only when a transaction is complete; what failed
// is tried again with the next change.

let unsaved = [], writing = null;
function save(records) {
  unsaved.push(...records);
  writing ||= flush().finally(() => { writing = null; });
}

async function flush() {
  while (unsaved.length) {
    const batch = unsaved;
    unsaved = [];
    const docs = batch.filter(r => r.kind === 'doc');
    const least = batch.filter(r => r.kind !== 'doc' || r === docs.findLast(d => d.project === r.project));
    try {
      await store.write(least);
      if (id) await store.set('last', id);
    } catch (error) {
      unsaved = [...least, ...unsaved];
      send({do: 'stored', value: why(error), at: 0});
      return;
    }
    if (store.memory) {
      send({do: 'stored', value: store.memory, at: 0});
      continue;
    }
    tab.wrote(id);
    if (!unsaved.length) send({do: 'stored', value: clock(), at: 1});
    persist();
  }
}

let persisted = false;
function persist() {
  if (persisted || mode.embedded) return;
  persisted = true;
  navigator.storage?.persist?.().catch(() => {});
}

// Actions of the page; all others are the planner's.

let acted = -1000; // when the user last asked for one

function act(a) {
  if (reviving) return void reviving.then(() => act(a));
  const own = {
    menu: () => dialog('menu', a.to),
    help: () => dialog('menu', 'help'),
    close: () => document.querySelector('dialog[open]')?.close(),
    import: () => share.pick(take, notice),
    merge: () => { close(); share.pick((value, text) => send({do: 'merge', value, text}), notice); },
    theme: () => dress(a.to),
    tab: () => { document.body.dataset.tab = a.to; measure(); },
    fit: () => canvas.tell({kind: 'fit'}),
    in: () => canvas.tell({kind: 'in'}),
    out: () => canvas.tell({kind: 'out'}),
    open: () => { close(); open(a.id); },
    new: () => { close(); demo(a.to, 'new'); },
    copy: () => copy(),
    delete: () => drop(a.id),
    takeover: () => takeOver(),
  }[a.do];
  if (own) return own();
  wanted = a.do === 'place' ? a.path : '';
  acted = performance.now();
  for (const old of document.querySelectorAll('.notice.refused')) old.remove(); // it is tried otherwise now
  if (['export', 'share', 'embed', 'csv', 'print', 'undo', 'redo'].includes(a.do)) close();
  send(a);
}

const close = () => document.querySelector('dialog[open]')?.close();

function dialog(which, part) {
  const d = $(which);
  if (!d) return;
  tell();
  if (!d.open) d.showModal();
  if (part) d.querySelector(`[data-part="${part}"], #menu-${part}`)?.scrollIntoView();
}

// copy goes on with a copy of the project: from an embedded plan, in a tab of
// the program's own.
async function copy() {
  if (mode.embedded) return send({do: 'share'});
  close();
  const fresh = newID();
  await tab.claim(fresh);
  opening = null;
  send({do: 'copy', id: fresh});
}

async function drop(which) {
  const kept = await store.load(which).catch(() => null);
  if (!kept) return;
  const name = (await store.projects()).find(p => p.id === which)?.name || '';
  await store.write([{kind: 'gone', project: which}]).catch(error => notice(`It could not be deleted: ${why(error)}.`));
  if (which === id) {
    close();
    id = '';
    unsaved = unsaved.filter(r => r.kind === 'book'); // it belongs to no project
    await store.set('last', '').catch(() => {});
    await demo('jointer-stand', '');
  }
  tell();
  notice(`“${name}” was deleted.`, ['Undo', async () => {
    const marks = kept.marks.map(text => ({kind: 'mark', project: which, text, ...keyOf(text)}));
    await store.write([{kind: 'doc', project: which, name, text: kept.doc}, ...marks]);
    tell();
  }]);
}

const keyOf = text => (({device, seq}) => ({device, seq}))(JSON.parse(text));

async function takeOver() {
  await tab.takeOver(id);
  await open(id);
}

async function given({text, picture}) {
  const plan = '1' + await share.pack(text);
  const link = share.page() + '#' + plan;
  if (mode.embedded) return window.open(link, '_blank', 'noopener');
  const out = picture ? share.tag(plan, await share.pack(picture)) : link;
  const how = await share.give(title, out, !picture);
  if (how === 'left' || how === 'shared') return;
  const what = picture ? 'The tag for your page' : 'The link';
  notice(how ? `${what} was copied. It holds the whole plan.` : `${what}: copy it from here.`, null, out);
}

// Theme.

const tones = ['paper', 'sheet', 'ink', 'ink2', 'rule', 'hair', 'tint', 'now', 'nowink', 'lit', 'store', 'bad', 'good'];

function colours() {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(tones.map(n => [n, style.getPropertyValue('--' + n).trim()]));
}

function dress(to) {
  const root = document.documentElement;
  if (to === 'light' || to === 'dark') root.dataset.theme = to;
  else delete root.dataset.theme;
  try { localStorage.setItem('cartwright-theme', to); } catch { /* for this page only, then */ }
  canvas.dress(colours());
}

// The screen stays on at the saw, if the device lets it.

let lock = null;
async function awake() {
  const want = place === 'saw' && document.visibilityState === 'visible' && !mode.embedded;
  if (!want) {
    const held = lock;
    lock = null;
    held?.release().catch(() => {});
    return;
  }
  if (lock) return;
  try {
    lock = await navigator.wakeLock.request('screen');
    lock.addEventListener('release', () => { lock = null; });
    send({do: 'awake', to: 'on'});
  } catch {
    send({do: 'awake', to: 'off'});
  }
}

// After one visit everything works without a network.

async function offline() {
  if (!('serviceWorker' in navigator)) return;
  try {
    const had = navigator.serviceWorker.controller;
    const reg = await navigator.serviceWorker.register('sw.js');
    const offer = () => reg.waiting && had && notice('An update is ready.', ['Reload', () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), {once: true});
      reg.waiting.postMessage('accept');
    }]);
    const watch = () => reg.installing?.addEventListener('statechange', e => e.target.state === 'installed' && offer());
    offer();
    watch();
    reg.addEventListener('updatefound', watch);
    await navigator.serviceWorker.ready;
    document.body.dataset.offline = 'ready';
  } catch {
    document.body.dataset.offline = 'refused';
  }
}

// notice shows a sentence until it is dismissed, with one thing to do about it.
function notice(text, what, copyable) {
  const box = $('notices') || document.body.appendChild(Object.assign(document.createElement('div'), {id: 'notices'}));
  const p = document.createElement('div');
  p.className = 'notice';
  p.setAttribute('role', 'alert');
  const say = document.createElement('p');
  say.textContent = text;
  p.append(say);
  if (copyable) {
    const area = document.createElement('textarea');
    area.readOnly = true;
    area.rows = 2;
    area.value = copyable;
    area.setAttribute('aria-label', 'To copy');
    p.append(area);
  }
  const button = (name, run) => {
    const b = document.createElement('button');
    b.type = 'button';
    b.className = 'plain';
    b.textContent = name;
    b.addEventListener('click', () => {
      p.remove();
      run?.();
    });
    p.append(b);
  };
  if (what) button(...what);
  button('Close');
  for (const old of [...box.children]) if (old.firstChild.textContent === text) old.remove();
  box.append(p);
  return p;
}
