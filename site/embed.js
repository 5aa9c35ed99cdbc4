// Puts a plan on any page, read-only and without storage:
//
//   <script src="https://…/embed.js" data-plan="1…" async></script>
//
// The frame stands where the tag stands and grows with its content.

(() => {
  const tag = document.currentScript;
  if (!tag || !tag.dataset.plan) return;
  const from = new URL('./', tag.src);
  const frame = document.createElement('iframe');
  frame.src = from.href + 'index.html?embed#' + tag.dataset.plan;
  frame.title = tag.dataset.title || 'Plan of a shop cart';
  frame.loading = 'lazy';
  frame.referrerPolicy = 'no-referrer';
  frame.allow = 'fullscreen';
  frame.width = '100%';
  frame.height = tag.dataset.height || '640';
  frame.style.border = '0';
  addEventListener('message', e => {
    if (e.source !== frame.contentWindow || !e.data || e.data.kind !== 'cartwright-height') return;
    // In a sandboxed frame the origin is "null"; the source is what counts.
    if (e.origin !== from.origin && e.origin !== 'null') return;
    const height = Number(e.data.height);
    if (height > 0) frame.height = Math.min(Math.max(Math.round(height), 120), 20000);
  });
  tag.after(frame);
})();
