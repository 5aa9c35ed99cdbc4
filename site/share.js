// Ways in and out of the program: files, links, printing, other pages.

const MOST = 16 << 20; // bytes of a file that are looked at at all

// save hands a file to the user.
export function save({name, type, text}) {
  const url = URL.createObjectURL(new Blob([text], {type}));
  const a = document.createElement('a');
  a.href = url;
  a.download = name;
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

// pick opens the file dialog; take gets the name and the text.
export function pick(take, alert) {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = '.json,.csv,application/json,text/csv';
  input.id = 'file';
  input.hidden = true;
  input.addEventListener('change', () => {
    if (input.files[0]) read(input.files[0], take, alert);
    input.remove();
  });
  input.addEventListener('cancel', () => input.remove());
  document.getElementById('file')?.remove();
  document.body.append(input);
  input.click();
}

// accept takes files that are dropped on the page.
export function accept(take, alert) {
  const files = e => e.dataTransfer && [...e.dataTransfer.types].includes('Files');
  addEventListener('dragover', e => { if (files(e)) e.preventDefault(); });
  addEventListener('drop', e => {
    if (!files(e)) return;
    e.preventDefault();
    if (e.dataTransfer.files[0]) read(e.dataTransfer.files[0], take, alert);
  });
}

async function read(file, take, alert) {
  if (file.size > MOST) {
    alert(`“${file.name}” has ${Math.round(file.size / (1 << 20))} MB: a project never has more than ${MOST >> 20}. It was not opened; your project is as it was.`);
    return;
  }
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (bytes.subarray(0, 4096).includes(0)) {
      alert(`“${file.name}” is not a project file: it is no text. It was not opened; your project is as it was.`);
      return;
    }
    take(file.name, new TextDecoder().decode(bytes));
  } catch (error) {
    alert(`“${file.name}” could not be read: ${error.message}.`);
  }
}

// A share link is the digit 1, then the project file without its spaces,
// deflated, in base64url without padding. It stands behind the # of the
// address, so that it never leaves the device.
const MOST_LINK = 512 << 10, MOST_LINKED = 2 << 20;

// pack is the form of a text in a link.
export async function pack(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let out = '';
  for (let i = 0; i < bytes.length; i += 1 << 14) out += String.fromCharCode(...bytes.subarray(i, i + (1 << 14)));
  return btoa(out).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

// linked returns the project of a link's fragment. Errors are sentences.
export async function linked(fragment) {
  if (fragment.length > MOST_LINK) throw new Error('This link is longer than a link can be. Nothing was opened.');
  if (/^[2-9]/.test(fragment)) throw new Error('This link was made by a newer version of this program. Reload the page, or ask for the file.');
  try {
    if (!/^1[\w-]+$/.test(fragment)) throw new Error('no link');
    return await globalThis.unpack(fragment.slice(1), MOST_LINKED);
  } catch (error) {
    throw new Error(error instanceof RangeError
      ? 'This link holds more than a project can be. Nothing was opened.'
      : 'This link is damaged: part of it is missing. Ask for it again, or for the file.');
  }
}

// page returns the address of the program without query and fragment.
export const page = () => new URL('./', location.href).href;

// give hands a text to the user: by the device's own sheet, else by clipboard.
export async function give(title, text, isLink) {
  if (isLink && navigator.share && matchMedia('(pointer: coarse)').matches) {
    try {
      await navigator.share({title, url: text});
      return 'shared';
    } catch (error) {
      if (error.name === 'AbortError') return 'left';
    }
  }
  try {
    await navigator.clipboard.writeText(text);
    return 'copied';
  } catch {
    return '';
  }
}

// tag is what puts a plan on another page.
export function tag(plan, picture) {
  return `<script src="${page()}embed.js" data-plan="${plan}${picture ? '~' + picture : ''}" async></script>`;
}

// printed prints the panel #print as the given kind.
export function printed(kind) {
  document.body.dataset.print = kind;
  addEventListener('afterprint', () => { delete document.body.dataset.print; }, {once: true});
  requestAnimationFrame(() => window.print());
}

// grow tells the page around an embedded plan how tall it is.
export function grow() {
  const tell = () => parent.postMessage(
    {kind: 'cartwright-height', height: Math.ceil(document.body.getBoundingClientRect().height)}, '*');
  new ResizeObserver(tell).observe(document.body);
  tell();
}
