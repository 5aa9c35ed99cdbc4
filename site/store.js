// Storage on this device: projects, their journals and settings in IndexedDB,
// or in memory alone where the browser refuses.
//
//   projects  {id, name, when, doc}              doc: JSON text, no journal
//   marks     {project, device, seq, text}       one record an entry
//   settings  key -> value

const NAME = 'cartwright', VERSION = 1;

const done = request => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

const complete = tx => new Promise((resolve, reject) => {
  tx.oncomplete = () => resolve();
  tx.onabort = () => reject(tx.error || new Error('the browser gave up'));
  tx.onerror = () => {};
});

// why puts a storage error into words.
export function why(error) {
  switch (error && error.name) {
    case 'QuotaExceededError': return 'this device has no room left for this site';
    case 'SecurityError': case 'InvalidStateError': return 'this browser refused the storage';
    default: return error && error.message || 'this browser refused the storage';
  }
}

// openStore opens the storage. It never fails: the result's memory is the
// reason if nothing will outlive the page.
export async function openStore(allowed = true) {
  if (!allowed) return new Memory('');
  try {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      const db = request.result;
      db.createObjectStore('projects', {keyPath: 'id'});
      db.createObjectStore('marks', {keyPath: ['project', 'device', 'seq']});
      db.createObjectStore('settings');
    };
    const db = await Promise.race([done(request), new Promise((_, no) => {
      request.onblocked = () => no(new Error('another tab holds an old version: close it'));
    })]);
    return new Disk(db);
  } catch (error) {
    return new Memory(why(error));
  }
}

class Disk {
  memory = '';

  constructor(db) {
    this.db = db;
    db.onversionchange = () => db.close();
  }

  tx(stores, mode) {
    // strict: "saved" is said only after the device has really written.
    return this.db.transaction(stores, mode, mode === 'readwrite' ? {durability: 'strict'} : undefined);
  }

  async projects() {
    const all = [];
    const request = this.tx('projects').objectStore('projects').openCursor();
    await new Promise((resolve, reject) => {
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const at = request.result;
        if (!at) return resolve();
        const {id, name, when} = at.value;
        all.push({id, name, when});
        at.continue();
      };
    });
    return all.sort((a, b) => b.when - a.when);
  }

  async load(id) {
    const tx = this.tx(['projects', 'marks']);
    const range = IDBKeyRange.bound([id], [id, []]);
    const [project, marks] = await Promise.all([
      done(tx.objectStore('projects').get(id)), done(tx.objectStore('marks').getAll(range))]);
    return project && {doc: project.doc, when: project.when, marks: marks.map(m => m.text)};
  }

  // write stores all records of a batch, or none.
  async write(records, when = Date.now()) {
    const tx = this.tx(['projects', 'marks', 'settings'], 'readwrite');
    const end = complete(tx);
    const projects = tx.objectStore('projects'), marks = tx.objectStore('marks'), settings = tx.objectStore('settings');
    try {
      for (const r of records) {
        if (r.kind === 'doc') projects.put({id: r.project, name: r.name || '', when, doc: r.text});
        if (r.kind === 'mark') marks.put({project: r.project, device: r.device, seq: r.seq, text: r.text});
        if (r.kind === 'book') r.text ? settings.put(r.text, 'book/' + r.name) : settings.delete('book/' + r.name);
        if (r.kind === 'gone') {
          projects.delete(r.project);
          marks.delete(IDBKeyRange.bound([r.project], [r.project, []]));
        }
      }
    } catch (error) {
      end.catch(() => {});
      tx.abort();
      throw error;
    }
    return end;
  }

  // book is the entries of the offcuts book.
  async book() {
    return done(this.tx('settings').objectStore('settings').getAll(IDBKeyRange.bound('book/', 'book/\uffff')));
  }

  async get(key) {
    return done(this.tx('settings').objectStore('settings').get(key));
  }

  async set(key, value) {
    const tx = this.tx('settings', 'readwrite');
    tx.objectStore('settings').put(value, key);
    return complete(tx);
  }
}

// Memory keeps things until the page is closed.
class Memory {
  constructor(reason) {
    this.memory = reason || 'this page may not store anything';
    this.docs = new Map();
    this.journal = new Map();
    this.settings = new Map();
  }

  async projects() {
    return [...this.docs.values()].map(({id, name, when}) => ({id, name, when}));
  }

  async load(id) {
    const project = this.docs.get(id);
    return project && {doc: project.doc, when: project.when, marks: [...this.journal.values()].filter(m => m.project === id).map(m => m.text)};
  }

  async write(records, when = Date.now()) {
    for (const r of records) {
      if (r.kind === 'doc') this.docs.set(r.project, {id: r.project, name: r.name || '', when, doc: r.text});
      if (r.kind === 'mark') this.journal.set(`${r.project} ${r.device} ${r.seq}`, {project: r.project, text: r.text});
      if (r.kind === 'gone') this.docs.delete(r.project);
      if (r.kind === 'book') r.text ? this.settings.set('book/' + r.name, r.text) : this.settings.delete('book/' + r.name);
    }
  }

  async book() { return [...this.settings].filter(([key]) => key.startsWith('book/')).map(([, text]) => text); }
  async get(key) { return this.settings.get(key); }
  async set(key, value) { this.settings.set(key, value); }
}
