// A page that the server makes anew has new fields in it: whoever was typing in an old one goes on in the new one, and
// what was typed in it is there.
(() => {
  const FIELD = 'main input:not([type=radio], [type=checkbox], [type=range], [type=file]):is([id], [data-line])';
  const PATIENCE_MS = 10_000; // the old field may go long before the new one comes
  let field = null; // the one that is typed in
  let label = ''; // of it: under another one, as in another unit, its text would mean something else
  let known = ''; // its text when it got the focus, or was last asked about
  let away = false; // whether it was left by hand
  let left = []; // fields with a new text that were left, and of which the server does not know yet
  let owed = null; // the field that was given a text and is still typed in
  let lost = []; // fields of a page that is gone, with a text or the focus that belongs to the new one

  const nowhere = () => ['BODY', 'MAIN'].includes(document.activeElement.tagName);
  const labelOf = (input) => input.labels?.[0]?.textContent ?? input.getAttribute('aria-label') ?? '';
  const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set; // React has put its own over it

  // Under its old id, or, where only now a row of its own is kept, the one field of this name that is bound to the same.
  const boundTo = ({ id, dataset }) => dataset.line ? `${dataset.of} ${dataset.path}` : id.match(/^\{"of":"[^"]*","path":"[^"]*"/)?.[0];
  const successor = ({ old, label }) => {
    const named = document.getElementById(old.id);
    const alike = [...document.querySelectorAll(FIELD)].filter((input) => named ? input === named : boundTo(old) && boundTo(input) === boundTo(old));
    const same = alike.filter((input) => labelOf(input) === label);
    return same.length === 1 ? same[0] : null;
  };

  // A text that was put in by a script counts as typed only when its field is told that it was left.
  const leave = (input) => input.dispatchEvent(input.dataset.line ? new Event('change', { bubbles: true }) : new FocusEvent('focusout', { bubbles: true }));

  const goOn = (one) => {
    const again = successor(one);
    if (!again) return performance.now() < one.until;
    const { text, from, to } = one;
    const here = one.typing && (document.activeElement === again || nowhere()); // nobody has gone on elsewhere
    if (here) again.focus();
    if (one.changed && text !== again.value) {
      setValue.call(again, text);
      again.dispatchEvent(new Event('input', { bubbles: true }));
      if (here) owed = again;
      else leave(again);
    }
    if (here) again.setSelectionRange(from, to);
    return false;
  };

  const look = () => {
    const until = performance.now() + PATIENCE_MS;
    const asItStands = (old) => ({ old, text: old.value, from: old.selectionStart, to: old.selectionEnd, until });
    if (field && !field.isConnected) {
      lost.push({ ...asItStands(field), label, changed: field.value !== known, typing: !away });
      left = left.filter(({ old }) => old !== field); // it left with its page
      field = null;
    }
    lost.push(...left.filter(({ old }) => !old.isConnected).map((one) => ({ ...one, ...asItStands(one.old) })));
    left = left.filter(({ old }) => old.isConnected);
    const now = lost;
    lost = [];
    lost.push(...now.filter(goOn));
  };

  addEventListener('focusin', ({ target }) => {
    look();
    if (target === field) return;
    field = target.matches(FIELD) ? target : null;
    label = field ? labelOf(field) : '';
    known = target.value;
    away = false;
  });
  // What is typed between the old page and the new one goes into the field that it was typed for.
  addEventListener('keydown', (event) => {
    const waiting = lost.find(({ typing }) => typing);
    const plain = event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
    if (!waiting || !plain || !nowhere()) return;
    const { text, from, to } = waiting;
    const at = from + event.key.length;
    Object.assign(waiting, { text: text.slice(0, from) + event.key + text.slice(to), from: at, to: at, changed: true });
    event.preventDefault();
    event.stopPropagation();
  }, true);
  addEventListener('change', ({ target }) => {
    if (target === owed) owed = null;
    if (target === field && target.dataset.line) known = target.value; // a cell's own script has it now
  });
  addEventListener('focusout', ({ target }) => {
    if (target === owed && target.dataset.line) leave(target);
    const bound = target === field && target.id.includes('"type":"field"');
    if (bound && target.value !== known) left.push({ old: field, label, changed: true, typing: false });
  });
  addEventListener('edit-asked', ({ detail }) => {
    left = left.filter(({ old }) => old.id !== detail);
    if (field?.id === detail) known = field.value;
  });
  addEventListener('pointerdown', ({ target }) => {
    away = target !== field;
  });

  new MutationObserver(look).observe(document.documentElement, { childList: true, subtree: true });
})();
