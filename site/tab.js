// One tab writes a project, others read: the right to write is a lock of the
// browser, so that it ends with its tab.

export class Tab {
  writer = false;

  // leave is called before another tab takes over, and waited for; lost after
  // it; saved when another tab wrote the project that is open here.
  constructor(store, {leave, lost, saved}) {
    this.free = () => {};
    this.id = '';
    this.alone = !!store.memory || !navigator.locks;
    this.radio = 'BroadcastChannel' in window ? new BroadcastChannel('cartwright') : null;
    if (this.radio) {
      this.radio.onmessage = async ({data}) => {
        if (data.project !== this.id) return;
        if (data.kind === 'saved') saved();
        if (data.kind === 'take' && this.writer) {
          await leave();
          this.free();
          this.writer = false;
          this.radio.postMessage({kind: 'freed', project: this.id});
          lost();
        }
        if (data.kind === 'freed') this.heard?.();
      };
    }
    this.lost = lost;
  }

  // claim asks for the right to write project id, and gives up the one held.
  claim(id, options = {ifAvailable: true}) {
    if (this.id === id && this.writer) return Promise.resolve(true);
    this.free();
    this.id = id;
    this.writer = this.alone;
    if (this.alone) return Promise.resolve(true);
    return new Promise(resolve => {
      navigator.locks.request('cartwright-' + id, options, lock => {
        this.writer = !!lock;
        resolve(this.writer);
        return lock && new Promise(free => { this.free = free; });
      }).catch(() => { // stolen, or locks are refused
        if (this.id === id && this.writer) {
          this.writer = false;
          this.lost();
        }
        resolve(false);
      });
    });
  }

  // takeOver asks the other tab to let go, and takes the right if it does not.
  async takeOver(id) {
    if (this.radio) {
      await new Promise(resolve => {
        this.heard = resolve;
        this.radio.postMessage({kind: 'take', project: id});
        setTimeout(resolve, 1500);
      });
    }
    await this.claim(id, {steal: true});
  }

  wrote(id) {
    this.radio?.postMessage({kind: 'saved', project: id});
  }
}
