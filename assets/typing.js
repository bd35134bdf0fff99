// A list that the server makes anew has new fields in it: whoever was typing in an old one goes on in the new one.
(() => {
  const FIELD = 'main input:not([type=radio], [type=checkbox], [type=range], [type=file])[id]';
  let field = null; // the one that is typed in
  let label = ''; // of it: under another one, as in another unit, its text would mean something else
  let typed = false; // whether its text was changed since it got the focus

  const labelOf = (input) => input.labels?.[0]?.textContent ?? input.getAttribute('aria-label') ?? '';
  const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set; // React has put its own over it

  addEventListener('focusin', ({ target }) => {
    field = target.matches(FIELD) ? target : null;
    label = field ? labelOf(field) : '';
    typed = false;
  });
  addEventListener('input', ({ target }) => {
    if (target === field) typed = true;
  });
  addEventListener('pointerdown', ({ target }) => {
    if (target !== field) field = null; // left by hand
  });

  new MutationObserver(() => {
    if (!field || field.isConnected) return;
    const old = field;
    field = null;
    const again = document.getElementById(old.id);
    if (!again?.matches(FIELD) || document.activeElement !== document.body || labelOf(again) !== label) return;
    const typing = typed;
    again.focus();
    if (typing && old.value !== again.value) {
      setValue.call(again, old.value);
      again.dispatchEvent(new Event('input', { bubbles: true }));
    }
    again.setSelectionRange(old.selectionStart, old.selectionEnd);
  }).observe(document.documentElement, { childList: true, subtree: true });
})();
