// Starts the Go program of the planner in a worker, in the role of the first
// message: {role: "planner"}, or {role: "search", module, …} from the planner.
// Messages that come before the program runs wait for it.

importScripts('wasm_exec.js');

let waiting = [];
const early = event => waiting.push(event);

self.addEventListener('message', async event => {
  self.addEventListener('message', early);
  self.role = event.data.role;
  self.order = event.data;
  try {
    self.module = event.data.module || await compile();
    const go = new Go();
    go.env = {GOGC: '400'}; // the heap is small, and answers must come at once
    const instance = await WebAssembly.instantiate(self.module, go.importObject);
    self.ready = () => {
      self.removeEventListener('message', early);
      for (const event of waiting) self.receive(event);
      waiting = [];
      self.addEventListener('message', event => self.receive(event));
    };
    await go.run(instance);
    throw new Error('the planner ended');
  } catch (error) {
    self.postMessage({kind: 'dead', why: String(error && error.message || error)});
  }
}, {once: true});

async function compile() {
  const answer = await fetch('worker.wasm');
  if (!answer.ok) throw new Error(`the planner could not be loaded (${answer.status})`);
  if ((answer.headers.get('Content-Type') || '').startsWith('application/wasm')) {
    return WebAssembly.compileStreaming(answer);
  }
  return WebAssembly.compile(await answer.arrayBuffer());
}
