// Puts new HTML into a panel and keeps what the user has in hand: the focus
// and the caret, a text being typed, opened details, scroll positions.

const last = new WeakMap(); // element -> HTML it was last given

// patch makes html the content of el.
export function patch(el, html) {
  if (last.get(el) === html) return;
  last.set(el, html);
  const fresh = document.createElement('template');
  fresh.innerHTML = html;
  if (!el.firstChild) return el.append(fresh.content);
  const focus = document.activeElement;
  const key = el.contains(focus) && focus.dataset && (focus.id || focus.dataset.ref);
  kids(el, fresh.content);
  if (key && document.activeElement !== focus) {
    const again = document.getElementById(key) || el.querySelector(`[data-ref="${CSS.escape(key)}"]`);
    if (again) again.focus({preventScroll: true});
  }
}

const name = node => node.nodeType === 1 && (node.id || node.dataset && node.dataset.keep) || '';

// kids makes the children of old like those of fresh. Elements with an id or
// data-keep are found again wherever they moved, others by their place.
function kids(old, fresh) {
  const named = new Map();
  for (const k of old.children) if (name(k)) named.set(name(k), k);
  let at = old.firstChild;
  for (let next = fresh.firstChild, after; next; next = after) {
    after = next.nextSibling;
    let mine = name(next) ? named.get(name(next)) : at && !name(at) ? at : null;
    if (mine && (mine.nodeType !== next.nodeType || mine.nodeName !== next.nodeName)) mine = null;
    if (!mine) {
      old.insertBefore(next, at);
      continue;
    }
    if (mine === at) at = at.nextSibling;
    else old.insertBefore(mine, at);
    named.delete(name(next));
    node(mine, next);
  }
  while (at) {
    const gone = at;
    at = at.nextSibling;
    gone.remove();
  }
}

function node(old, fresh) {
  if (old.nodeType !== 1) {
    if (old.data !== fresh.data) old.data = fresh.data;
    return;
  }
  if (old.nodeName === 'INPUT' || old.nodeName === 'SELECT') {
    if ('typed' in old.dataset) fresh.setAttribute('data-typed', '');
  }
  if (old.isEqualNode(fresh)) return value(old);
  if (old.nodeName === 'svg') return old.replaceWith(fresh);
  for (const {name, value} of fresh.attributes) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  for (const {name} of [...old.attributes]) {
    if (fresh.hasAttribute(name) || name === 'open' && (old.nodeName === 'DETAILS' || old.nodeName === 'DIALOG')) continue;
    old.removeAttribute(name);
  }
  kids(old, fresh);
  value(old);
}

// value makes what a control shows what its attributes say, unless the user is
// typing in it.
function value(el) {
  switch (el.nodeName) {
    case 'INPUT': {
      if ('typed' in el.dataset) return;
      if (el.type === 'checkbox' || el.type === 'radio') {
        el.checked = el.hasAttribute('checked');
        return;
      }
      const want = el.getAttribute('value') || '';
      if (el.value === want) return;
      el.value = want;
      if (el === document.activeElement) el.select();
      return;
    }
    case 'SELECT':
      for (const o of el.options) o.selected = o.hasAttribute('selected');
      return;
    default:
      for (const k of el.querySelectorAll('input, select')) value(k);
  }
}
