// What the user does on the page becomes actions. Controls carry data-do (see
// engine/page/actions.go); spots of an SVG drawing carry data-ref.

const textual = el => el && (el.nodeName === 'TEXTAREA' || el.nodeName === 'INPUT' && !['checkbox', 'radio', 'button', 'range'].includes(el.type));

// fields of data-… that go into an action, by the planner's names.
function wish(el) {
  const {do: name, path = '', value = '', ref = '', cut = '', at, to = '', by = '', id = ''} = el.dataset;
  return {do: name, path, value, ref, cut, at: at === undefined ? -1 : Number(at), to, step: by, id};
}

// listen calls act with every action of the page, document and view actions
// and the page's own alike, and ask("place") to know where the program stands.
export function listen(act, ask) {
  const root = document.documentElement;
  let tapped = 0; // when a cut was last marked: a double tap marks one cut

  const mark = action => {
    const now = performance.now();
    if (now - tapped < 400) return;
    tapped = now;
    act(action);
  };
  const send = action => (action.do === 'mark' && !action.cut?.startsWith('buy/') ? mark : act)(action);

  // Fields.
  const commit = el => {
    delete el.dataset.typed;
    const value = el.type === 'checkbox' ? (el.checked ? 'true' : '') : el.value;
    send({...wish(el), do: el.dataset.do || 'set', value});
  };
  document.addEventListener('input', e => {
    if (textual(e.target)) e.target.dataset.typed = '';
  });
  document.addEventListener('change', e => {
    if (e.target.dataset && e.target.dataset.path && !e.target.matches('button')) commit(e.target);
  });
  // What was typed is not lost when the tablet is put away.
  document.addEventListener('visibilitychange', () => {
    const el = document.activeElement;
    if (document.visibilityState === 'hidden' && textual(el) && 'typed' in el.dataset && el.dataset.path) commit(el);
  });
  document.addEventListener('focusin', e => {
    if (!textual(e.target)) return;
    if ('len' in e.target.dataset) document.body.dataset.keys = '';
    e.target.select();
  });
  document.addEventListener('focusout', () => { delete document.body.dataset.keys; });

  // Fraction keys must leave the focus in the field.
  const inField = el => el && (el.dataset.do === 'key' || el.dataset.do === 'nudge' && !el.dataset.path);
  document.addEventListener('pointerdown', e => {
    if (inField(e.target.closest('[data-do]'))) e.preventDefault();
  });
  document.addEventListener('mousedown', e => {
    if (inField(e.target.closest('[data-do]'))) e.preventDefault();
  });

  document.addEventListener('click', e => {
    const el = e.target.closest('[data-do]');
    if (!el || el.matches('input, select, textarea')) return;
    if (el.getAttribute('aria-disabled') === 'true' && !el.title && !el.dataset.why) return;
    const action = wish(el);
    const field = document.activeElement;
    if (action.do === 'key') {
      if (textual(field)) fraction(field, action.to);
      return;
    }
    if (action.do === 'nudge' && !action.path) {
      if (!textual(field) || !field.dataset.path) return;
      action.path = field.dataset.path;
      action.value = field.value || field.dataset.value || '';
      delete field.dataset.typed;
    }
    // A button that was tapped must not take the next space for itself.
    if (e.detail > 0 && !el.closest('dialog') && document.activeElement === el) el.blur();
    send(action);
  });

  // The drawing, where it is SVG.
  pencil(document.getElementById('drawing'), send);

  document.addEventListener('keydown', e => {
    const typing = textual(document.activeElement);
    const ctrl = e.ctrlKey || e.metaKey;
    const key = e.key.length === 1 ? e.key.toLowerCase() : e.key;
    if (ctrl && !e.altKey && (key === 'z' || key === 'y')) {
      if (typing && 'typed' in document.activeElement.dataset) return; // the browser's
      e.preventDefault();
      act({do: key === 'y' || e.shiftKey ? 'redo' : 'undo'});
      return;
    }
    if (ctrl && key === 's') {
      e.preventDefault();
      act({do: 'export'});
      return;
    }
    if (ctrl || e.altKey || document.querySelector('dialog[open]')) return;
    if (typing) {
      if (e.key === 'Enter' && 'typed' in document.activeElement.dataset) {
        e.preventDefault();
        commit(document.activeElement);
      }
      return;
    }
    if (e.key === '?') return act({do: 'help'});
    if (ask('place') !== 'saw' || e.repeat) return;
    const busy = document.activeElement && document.activeElement.matches('button, a, summary, select, input, [role=button]');
    if (e.key === 'PageDown' || e.key === 'ArrowRight' || (e.key === ' ' || e.key === 'Enter') && !busy) {
      e.preventDefault();
      mark({do: 'mark'});
    }
    if (e.key === 'PageUp' || e.key === 'ArrowLeft') { // the pedal's other side
      e.preventDefault();
      mark({do: 'unmark'});
    }
  });

  // How much of the page the on-screen keyboard hides.
  const view = window.visualViewport;
  if (view) {
    view.addEventListener('resize', () => {
      const hides = Math.max(0, Math.round(innerHeight - view.height - view.offsetTop));
      root.style.setProperty('--kb', hides + 'px');
      root.toggleAttribute('data-kb', hides > 100);
    });
  }
}

// fraction puts f in place of the fraction that the field has.
function fraction(field, f) {
  const m = field.value.match(/^\s*([-−]?\d+(?=$|[^\d\/]))?(.*)$/s);
  const whole = field.value.trim() === '' ? '' : (m[1] || '');
  const unit = (m[2].match(/[a-z"'″′]+\s*$/i) || [''])[0];
  field.value = (whole ? whole + ' ' : '') + f + (unit ? ' ' + unit : '');
  field.dispatchEvent(new Event('input', {bubbles: true}));
}

// pencil handles taps, drags and keys on the spots of the SVG drawing.
function pencil(box, send) {
  if (!box) return;
  let held = null;
  const spot = e => e.target.closest && e.target.closest('[data-ref]');
  const drag = (phase, by) => send({do: 'drag', ref: held.ref, phase, by});

  box.addEventListener('pointerdown', e => {
    const el = spot(e);
    if (!el || !el.dataset.drag || e.button) return;
    const svg = box.querySelector('svg');
    const scale = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
    held = {ref: el.dataset.ref, id: e.pointerId, x: e.clientX, y: e.clientY, moved: false, by: 0, sent: 0,
      axis: el.dataset.drag, per: Number(el.dataset.perpx) * scale, step: Number(el.dataset.step) || 1};
    box.setPointerCapture(e.pointerId);
    e.preventDefault();
  });
  box.addEventListener('pointermove', e => {
    if (!held || e.pointerId !== held.id) return;
    const px = held.axis === 'x' ? e.clientX - held.x : e.clientY - held.y;
    if (!held.moved && Math.abs(px) < 4) return;
    if (!held.moved) {
      held.moved = true;
      drag('start', 0);
    }
    held.by = Math.round(px * held.per / held.step) * held.step;
    if (!held.frame) {
      held.frame = requestAnimationFrame(() => {
        if (!held) return;
        held.frame = 0;
        if (held.by !== held.sent) drag('move', held.sent = held.by);
      });
    }
  });
  const end = phase => e => {
    if (!held || e.pointerId !== held.id) return;
    if (held.moved) drag(phase, held.by);
    else if (phase === 'end') send({do: 'tap', ref: held.ref});
    held = null;
  };
  box.addEventListener('pointerup', end('end'));
  box.addEventListener('pointercancel', end('cancel'));
  box.addEventListener('click', e => {
    const el = spot(e);
    if (el && !el.dataset.drag) send({do: 'tap', ref: el.dataset.ref});
  });
  box.addEventListener('keydown', e => {
    const el = spot(e);
    if (!el) return;
    if (e.key === 'Enter' || e.key === ' ') {
      e.preventDefault();
      send({do: 'tap', ref: el.dataset.ref});
      return;
    }
    const along = {x: {ArrowLeft: -1, ArrowRight: 1}, y: {ArrowUp: -1, ArrowDown: 1}}[el.dataset.drag];
    const way = along && along[e.key];
    if (!way) return;
    e.preventDefault();
    e.stopPropagation();
    held = {ref: el.dataset.ref};
    const by = way * Math.sign(Number(el.dataset.perpx)) * Number(el.dataset.step);
    drag('start', 0);
    drag('end', by);
    held = null;
  });
}
