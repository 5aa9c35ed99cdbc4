// The canvas frame: starts the drawing program, hands it what comes from the
// planner (scenes, over a port), from the page (theme, fit) and from fingers,
// and keeps the canvas library from taking keys, wheel and touches that are
// not for it. The program defines: viewScene, viewTheme, viewState,
// viewCommand, viewPointer, viewWheel, viewFrame, viewStats.
'use strict';
(() => {
  const page = parent;
  const tell = m => page.postMessage(m, location.origin);
  const style = document.documentElement.style;
  style.overflow = 'hidden';

  // No WebGL: the page goes on with SVG. Asked before the program starts,
  // which would otherwise only fail.
  const lack = (() => {
    if (typeof WebAssembly !== 'object') return 'no WebAssembly';
    const gl = document.createElement('canvas').getContext('webgl2');
    if (!gl) return 'no WebGL 2';
    gl.getExtension('WEBGL_lose_context')?.loseContext();
    return '';
  })();
  if (lack) return tell({ kind: 'nogl', why: lack });

  // The library asks for animation frames all the time, even if there is
  // nothing to draw. A request is held until somebody wakes it.
  const realFrame = requestAnimationFrame.bind(window);
  let held = null, owed = 3; // the first frames, for the start
  window.requestAnimationFrame = f => {
    if (owed > 0) { owed--; return realFrame(f); }
    held = f;
    return 0;
  };
  globalThis.viewWake = () => {
    if (held) { const f = held; held = null; realFrame(f); } else owed = 1;
  };

  // The library listens on its canvas and takes every key and touch for
  // itself. These listeners come first and let nothing through; what the
  // drawing needs reaches it through pointer events below.
  const stop = e => e.stopImmediatePropagation();
  for (const type of ['mousedown', 'mouseup', 'mousemove', 'touchend', 'touchcancel', 'keyup', 'dragover', 'drop'])
    addEventListener(type, stop, { capture: true, passive: true });
  // One finger may scroll the page (see viewLook), two are always ours.
  for (const type of ['touchstart', 'touchmove'])
    addEventListener(type, e => {
      stop(e);
      if (e.touches.length > 1 && e.cancelable) e.preventDefault();
    }, { capture: true, passive: false });

  let canvas = null, port = null, running = false;
  let last = null;         // the newest scene, if the program is not ready yet
  let theme = null, state = null;

  const show = bytes => {
    compare();
    if (running) viewScene(bytes); else last = bytes;
  };

  addEventListener('message', e => {
    if (e.source !== page || e.origin !== location.origin || !e.data) return;
    const m = e.data;
    switch (m.kind) {
      case 'port':
        if (!e.ports[0]) break;
        port?.close();
        port = e.ports[0];
        port.onmessage = e => {
          if (e.data instanceof ArrayBuffer) show(new Uint8Array(e.data));
          else if (e.data instanceof Uint8Array) show(e.data);
        };
        if (m.view) { state = m.view; if (running) viewState(state); }
        // falls through: it brings the theme as well
      case 'theme':
        if (m.theme) dress(m.theme);
        break;
      case 'fit': case 'in': case 'out':
        if (running) viewCommand(m.kind);
        break;
      case 'stats':
        if (running) tell({ kind: 'stats', stats: viewStats() });
    }
  });

  function dress(t) {
    theme = t;
    // A frame of another scheme than the page's would get an opaque ground.
    const c = /^\s*#([0-9a-f]{2})/i.exec(t.paper);
    if (c) style.colorScheme = parseInt(c[1], 16) < 128 ? 'dark' : 'light';
    if (running) viewTheme(t);
  }

  // What the program calls.
  globalThis.viewSend = m => port?.postMessage(m);   // to the planner
  globalThis.viewTell = tell;                        // to the page
  globalThis.viewLook = (cursor, touch) => {         // the pointer, and who scrolls
    if (canvas.style.cursor !== cursor) canvas.style.cursor = cursor;
    if (canvas.style.touchAction !== touch) canvas.style.touchAction = touch;
  };
  globalThis.viewTitle = title => {
    canvas.setAttribute('aria-label', title ? title + '. All of it is in the lists as well.' : 'Drawing');
  };
  globalThis.viewReady = () => {
    canvas = document.querySelector('canvas');
    canvas.tabIndex = 0;
    canvas.setAttribute('role', 'img');
    canvas.style.touchAction = 'none';
    viewTitle('');
    fingers();
    keys();
    running = true;
    if (theme) viewTheme(theme);
    if (state) viewState(state);
    if (last) viewScene(last);
    last = null;
  };

  function fingers() {
    // Moves are handed over once for each frame that is drawn.
    const moved = new Map();
    let asked = false;
    const give = (phase, e) => viewPointer(phase, e.pointerId, e.clientX, e.clientY, e.timeStamp, e.pointerType === 'touch');
    const flush = () => {
      asked = false;
      for (const e of moved.values()) give('move', e);
      moved.clear();
      viewFrame();
    };
    const on = (type, f) => canvas.addEventListener(type, f);
    on('pointerdown', e => {
      if (e.button !== 0) return;
      flush();
      try { canvas.setPointerCapture(e.pointerId); } catch { /* it has gone again */ }
      give('down', e);
    });
    on('pointermove', e => {
      moved.set(e.pointerId, e);
      if (!asked) { asked = true; realFrame(flush); }
    });
    on('pointerup', e => { moved.delete(e.pointerId); flush(); give('up', e); viewFrame(); });
    on('pointercancel', e => { flush(); give('cancel', e); viewFrame(); });
    addEventListener('wheel', e => {
      stop(e);
      if (!e.ctrlKey && !e.metaKey) return; // the page scrolls
      e.preventDefault();
      viewWheel(e.clientX, e.clientY, e.deltaY * [1, 16, 100][e.deltaMode]);
    }, { capture: true, passive: false });
    addEventListener('gesturestart', e => e.preventDefault());
  }

  function keys() {
    const ring = () => {
      canvas.style.outline = canvas.matches(':focus-visible') ? `3px solid ${theme?.store || 'Highlight'}` : 'none';
      canvas.style.outlineOffset = '-3px';
    };
    canvas.addEventListener('focus', ring);
    canvas.addEventListener('blur', ring);
    addEventListener('keydown', e => {
      stop(e);
      if (e.key === 'Tab') return; // the browser's
      const own = { '+': 'in', '=': 'in', '-': 'out', '0': 'fit', ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' }[e.key];
      if (own && !e.ctrlKey && !e.metaKey && !e.altKey && viewCommand(own)) return e.preventDefault();
      if (e.key === 'Escape') { canvas.blur(); page.focus(); }
      // All others are the page's: space marks a cut wherever the focus is.
      const there = page.document.body || page.document;
      const { key, code, repeat, ctrlKey, metaKey, shiftKey, altKey } = e;
      const passed = there.dispatchEvent(new page.KeyboardEvent('keydown',
        { key, code, repeat, ctrlKey, metaKey, shiftKey, altKey, bubbles: true, cancelable: true }));
      if (!passed) e.preventDefault();
    }, { capture: true });
  }

  // The library remembers the density of the screen for good, so the frame
  // starts anew when that changes. Not every browser tells a frame of it.
  const density = devicePixelRatio;
  const compare = () => { if (devicePixelRatio !== density) location.reload(); };
  const medium = matchMedia(`(resolution: ${density}dppx)`);
  medium.addEventListener('change', compare);
  addEventListener('resize', compare);
  addEventListener('pointerdown', compare, { capture: true });
  addEventListener('message', compare);

  const go = new Go();
  let ended = '';
  go.exit = code => { ended = `the drawing program ended with ${code}`; };
  const answer = fetch('view.wasm').then(r => {
    if (!r.ok) throw new Error(`the drawing program could not be loaded (${r.status})`);
    return r;
  });
  const load = WebAssembly.instantiateStreaming
    ? WebAssembly.instantiateStreaming(answer, go.importObject).catch(async () => // a host with a wrong type
      WebAssembly.instantiate(await (await fetch('view.wasm')).arrayBuffer(), go.importObject))
    : answer.then(r => r.arrayBuffer()).then(b => WebAssembly.instantiate(b, go.importObject));
  load.then(({ instance }) => go.run(instance))
    .then(() => { throw new Error(ended || 'the drawing program ended'); })
    .catch(e => {
      running = false;
      tell({ kind: 'dead', why: String(e && e.message || e) });
    });
})();
