// The first script of the page. It sets what must be right before the first
// paint, and starts the program; where a frame may run no workers, it shows
// the picture that came with the link instead. It is a plain script, since a
// sandboxed frame loads no modules.

// unpack takes the text out of a link: base64url of raw deflate. A short link
// can hold gigabytes, so it stops at most bytes.
globalThis.unpack = async (packed, most) => {
  const bytes = Uint8Array.from(atob(packed.replace(/-/g, '+').replace(/_/g, '/')), c => c.charCodeAt(0));
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const text = new TextDecoder('utf-8', {fatal: true});
  let out = '', size = 0;
  for (;;) {
    const {done, value} = await reader.read();
    if (done) return out + text.decode();
    if ((size += value.length) > most) {
      reader.cancel().catch(() => {});
      throw new RangeError('more than it may hold');
    }
    out += text.decode(value, {stream: true});
  }
};

(() => {
  const root = document.documentElement;
  const embedded = new URLSearchParams(location.search).has('embed');
  const sandboxed = window.origin === 'null';

  let theme = null;
  try { theme = localStorage.getItem('cartwright-theme'); } catch { /* no storage here */ }
  if (theme === 'light' || theme === 'dark') root.dataset.theme = theme;
  if (embedded) {
    document.body.dataset.embedded = 'on';
    const sheet = document.createElement('link');
    sheet.rel = 'stylesheet';
    sheet.href = 'embed.css';
    document.head.append(sheet);
  }

  if (!sandboxed) {
    import('./main.js').then(main => main.start({embedded}), error => sorry(String(error)));
    return;
  }
  picture().catch(error => sorry(String(error)));

  // picture shows the drawing that an embedding tag carries behind the plan.
  async function picture() {
    const [plan, packed] = location.hash.slice(1).split('~');
    const box = document.createElement('main');
    box.className = 'carried';
    if (packed) {
      const svg = await unpack(packed, 1 << 20);
      const img = document.createElement('img');
      img.alt = 'The plan as a drawing';
      img.src = 'data:image/svg+xml;base64,' + btoa(String.fromCharCode(...new TextEncoder().encode(svg)));
      box.append(img);
    }
    box.append(link(plan));
    document.body.replaceChildren(box);
    grow(box);
  }

  function link(plan) {
    const p = document.createElement('p'), a = document.createElement('a');
    a.href = new URL('./', location.href).href + (plan ? '#' + plan : '');
    a.target = '_blank';
    a.rel = 'noopener';
    a.textContent = 'Open this plan in Cartwright';
    p.append(a);
    return p;
  }

  function grow(box) {
    const tell = () => parent.postMessage({kind: 'cartwright-height', height: Math.ceil(box.getBoundingClientRect().height) + 16}, '*');
    new ResizeObserver(tell).observe(box);
    tell();
  }

  function sorry(why) {
    const p = document.createElement('p');
    p.setAttribute('role', 'alert');
    p.className = 'notice';
    p.textContent = `The program could not start: ${why}. Reload the page; nothing that was saved is lost.`;
    document.body.prepend(p);
    if (sandboxed) document.body.append(link(location.hash.slice(1).split('~')[0]));
  }
})();
