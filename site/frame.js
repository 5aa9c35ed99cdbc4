// The canvas: a frame of the same origin that draws the planner's scenes. It
// is started after the first plan is on screen, since starting it holds the
// page for a second. Planner and frame talk to each other directly; the page
// keeps zoom and position, so that a frame can be started again.

export class Canvas {
  // box holds the frame; told is called with "ready", "gone" (no WebGL, or it
  // broke) and why.
  constructor(box, told) {
    this.box = box;
    this.told = told;
    this.view = null;
    this.frame = null;
    this.falls = 0;
    addEventListener('message', e => {
      if (this.frame && e.source === this.frame.contentWindow && e.origin === location.origin) this.hear(e.data);
    });
  }

  // start makes the frame and gives one end of a channel to it, the other to
  // the worker. The theme is the colours of the style sheet by name.
  start(worker, theme) {
    this.stop();
    this.worker = worker;
    this.theme = theme;
    const frame = document.createElement('iframe');
    frame.src = 'canvas.html';
    frame.title = 'Drawing';
    frame.className = 'canvas';
    frame.addEventListener('load', () => {
      if (this.frame !== frame) return;
      const {port1, port2} = new MessageChannel();
      worker.postMessage({kind: 'port'}, [port1]);
      frame.contentWindow.postMessage(
        {kind: 'port', theme: this.theme, view: this.view, dpr: devicePixelRatio}, location.origin, [port2]);
    });
    this.frame = frame;
    this.box.append(frame);
  }

  stop() {
    if (this.frame) this.frame.remove();
    this.frame = null;
  }

  hear(m) {
    switch (m && m.kind) {
      case 'ready':
        this.told('ready');
        break;
      case 'nogl':
        this.stop();
        this.told('gone', m.why || 'no WebGL');
        break;
      case 'dead': // the program in the frame ended
        this.stop();
        this.told('gone', m.why || 'the drawing ended');
        if (++this.falls <= 2) setTimeout(() => this.frame || this.start(this.worker, this.theme), 500);
        break;
      case 'view':
        this.view = m.view;
        break;
      case 'stats':
        this.stats = m.stats;
        break;
    }
  }

  tell(m) {
    if (this.frame && this.frame.contentWindow) this.frame.contentWindow.postMessage(m, location.origin);
  }

  dress(theme) {
    this.theme = theme;
    this.tell({kind: 'theme', theme});
  }
}
