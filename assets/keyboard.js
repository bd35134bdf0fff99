// A single key works the control that names it in data-key, by clicking it: there is no second way to do a thing.
(() => {
  const WRITTEN_IN = 'input:not([type=radio], [type=checkbox], [type=range]), textarea, select, [contenteditable=true]';

  const MOVED_BY_ARROWS = 'input[type=range], input[type=radio], [role=slider], [role=listbox], [role=combobox]';

  const visible = (element) => element.getClientRects().length > 0;

  // A choice of several goes to the next one, and from the last to the first.
  const work = (control) => {
    const choices = [...control.querySelectorAll('input[type=radio]')];
    if (choices.length === 0) return control.click();
    const next = (choices.findIndex((choice) => choice.checked) + 1) % choices.length;
    choices[next].click();
  };

  addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.repeat || event.defaultPrevented) return;
    if (event.target instanceof Element && event.target.closest(WRITTEN_IN)) return;
    if (event.key.startsWith('Arrow') && event.target instanceof Element && event.target.closest(MOVED_BY_ARROWS)) return;
    if (window.levelpeak.kept('shell-keys') === false) return;
    if ([...document.querySelectorAll('[aria-modal=true]')].some(visible)) return;
    const control = [...document.querySelectorAll('[data-key]')].find(
      (element) => element.dataset.key === event.key && visible(element) && !element.disabled,
    );
    if (!control) return;
    event.preventDefault();
    work(control);
  });
})();
