// What binds a page to the records, in the browser: when something was typed, where the focus goes, whose page it is.
(() => {
  const NEW = 'new:';
  let bound = false; // whether the page has the stores of a bound one
  let leaving = false; // whether another page is on its way: to write the address now would call it off

  // An edit carries when it was typed: of two texts of one field the later one stays, whichever arrives first.
  const tick = () => {
    if (bound) window.levelpeak.set('bind-clock', { data: Date.now() });
  };
  for (const name of ['change', 'focusout', 'pointerdown']) addEventListener(name, tick, true);
  addEventListener('keydown', (event) => {
    if (event.key === 'Enter') tick();
  }, true);

  // Plain cells: what was typed and is not yet known to be kept is sent again with the next one, so that nothing is lost
  // between two answers.
  let pending = [];
  let counted = 0;

  document.addEventListener('change', ({ target }) => {
    if (!(target instanceof HTMLInputElement || target instanceof HTMLSelectElement) || !target.dataset.path) return;
    const { path, of, row, line, units, emptied } = target.dataset;
    const made = target.dataset.new ? JSON.parse(target.dataset.new) : null;
    counted += 1;
    pending = pending.filter((one) => one.line !== line || one.path !== path);
    pending.push({ n: counted, path, of, row, line, units, emptied, new: made, text: target.value, label: target.getAttribute('aria-label') ?? '', sent: Date.now() });
    window.levelpeak.set('bind-typed', { data: { edits: pending } });
  });

  // A page that is made anew meanwhile may have been read before: what was typed is put in its cells, under their old line.
  const READ_BEFORE_MS = 1500;
  let kept = []; // what was kept a moment ago
  const typeAgain = () => {
    const late = kept.filter(({ at }) => performance.now() - at < READ_BEFORE_MS);
    for (const { line, path, label, row, text } of [...late, ...pending]) {
      for (const cell of document.querySelectorAll(`[data-path="${CSS.escape(path)}"][aria-label="${CSS.escape(label)}"]`)) {
        if (cell.dataset.line !== line) Object.assign(cell, { value: text }).dataset.line = line;
        if (row) cell.dataset.row = row;
      }
    }
    if (pending.length) window.levelpeak.set('bind-typed', { data: { edits: pending } });
  };
  addEventListener('click', ({ target }) => {
    if (target.closest?.('button')) kept = []; // it may take back what was typed
  }, true);

  // What is wrong in a cell stands where its table has a place for it, and the cell points there.
  const tell = (cell, message) => {
    const id = `problem-${cell.dataset.line}-${cell.dataset.path}`;
    const place = cell.closest('[data-problems]')?.querySelector('.cell-problems');
    document.getElementById(id)?.remove();
    if (message && place) {
      const line = document.createElement('p');
      line.id = id;
      line.textContent = message;
      place.append(line);
    }
    if (message) {
      cell.setAttribute('aria-invalid', 'true');
      cell.setAttribute('aria-describedby', id);
    } else {
      cell.removeAttribute('aria-invalid');
      cell.removeAttribute('aria-describedby');
    }
  };

  const cookie = (name, value) => {
    document.cookie = `${name}=${encodeURIComponent(value)}; path=/; max-age=31536000; samesite=strict`;
  };

  const go = (code) => {
    const address = new URL(location.href);
    if (address.searchParams.get('athlete') === code) return;
    address.search = '';
    address.searchParams.set('athlete', code);
    leaving = true;
    location.assign(address);
  };

  // A fold with an id is as it was when the page stands again, unless the page says something new of whether it is open.
  const folds = new Map();
  addEventListener('toggle', ({ target }) => {
    if (target instanceof HTMLDetailsElement && target.id) folds.set(target.id, { open: target.open, said: target.dataset.open });
  }, true);
  const unfold = () => {
    for (const [id, { open, said }] of folds) {
      const fold = document.getElementById(id);
      if (fold && fold.dataset.open === said) fold.open = open;
    }
  };

  // The control that had the focus, or the one that is named, gets it when the page stands again: it may be another
  // element then, or the same element may have become another control. Whoever presses something else meanwhile keeps it.
  const PATIENCE_MS = 10_000;
  let forget = () => {};
  const focus = (id) => {
    forget(); // of two, one after the other, the later one gets it
    let ours = document.activeElement;
    const look = () => {
      const named = document.getElementById(id); // of a choice of several, the one that is chosen
      const control = named?.querySelector('input:checked:not([disabled])') ?? named;
      const now = document.activeElement;
      if (!control || now === control || (!['BODY', 'MAIN'].includes(now.tagName) && now !== ours)) return;
      unfold();
      control.focus({ preventScroll: true });
      control.scrollIntoView({ block: 'nearest' });
      ours = control;
    };
    const watch = new MutationObserver(look);
    const stop = () => {
      watch.disconnect();
      for (const name of ['keydown', 'pointerdown']) removeEventListener(name, stop, true);
    };
    forget = stop;
    watch.observe(document.getElementById('shell-main'), { childList: true, subtree: true, attributes: true, attributeFilter: ['id'] });
    for (const name of ['keydown', 'pointerdown']) addEventListener(name, stop, true);
    setTimeout(stop, PATIENCE_MS);
    look();
  };

  // Undo and redo of the records; in a field that is typed in, the keys take back the typing.
  addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.target.closest?.('input:not([type=radio], [type=checkbox], [type=range]), textarea')) return;
    const key = event.key.toLowerCase();
    const back = key === 'z' && !event.shiftKey;
    const again = key === 'y' || (key === 'z' && event.shiftKey);
    const button = back || again ? document.querySelector(`.steps [data-key=${back ? 'z' : 'y'}]`) : null;
    if (!button) return;
    event.preventDefault();
    button.click();
  });

  Object.assign(window.levelpeak, { cookie, typeAgain });

  window.levelpeak.callbacks({
    bind: {
      // The page says whose it is: the address says so too.
      here(data) {
        const still = window.levelpeak.still;
        bound = Boolean(data);
        requestAnimationFrame(() => requestAnimationFrame(() => {
          unfold();
          typeAgain();
        }));
        if (!data?.code || leaving) return still;
        const address = new URL(location.href);
        if (address.searchParams.get('athlete') === data.code) return still;
        address.searchParams.set('athlete', data.code);
        history.replaceState(history.state, '', address);
        return still;
      },

      // What can wait until the page is drawn is asked a moment later.
      calm(version) {
        return new Promise((resolve) => setTimeout(() => resolve(version), 150));
      },

      told(data) {
        const answered = new Map((data?.told ?? []).map(({ n, row }) => [n, row]));
        kept = pending.filter(({ n }) => answered.has(n)).map((one) => ({ ...one, row: answered.get(one.n), at: performance.now() }));
        pending = pending.filter(({ n }) => !answered.has(n));
        for (const { line, path, row, state, message } of data?.told ?? []) {
          for (const cell of document.querySelectorAll(`[data-line="${CSS.escape(line)}"]`)) {
            if (row) cell.dataset.row = state === 'kept' && cell.dataset.emptied && cell.value.trim() === '' && cell.dataset.path === path ? '' : row;
            if (cell.dataset.path === path) tell(cell, message);
          }
        }
      },

      again(data) {
        if (data?.go) {
          leaving = true;
          location.assign(data.go);
        } else if (data) {
          const at = document.activeElement; // whoever has gone on to a field types on there
          const typing = at?.matches('main input:not([type=radio], [type=checkbox], [type=range], [readonly])');
          focus((!typing && data.focus) || at?.id);
        }
      },

      // Other units: the server is told with every request, and makes the page anew in them.
      units(system) {
        cookie('levelpeak-units', system);
        window.levelpeak.set('bind-refresh', { data: { at: Date.now() } });
        return system;
      },

      // A code that no athlete has is offered as a new one.
      offer(text, athletes) {
        const known = (athletes ?? []).filter(({ value }) => !value.startsWith(NEW));
        const code = (text ?? '').trim();
        const isKnown = known.some(({ value }) => value.toLowerCase() === code.toLowerCase());
        if (!code || isKnown) return known;
        return [...known, { value: NEW + code, label: `${code}: new athlete` }];
      },

      choose(value, here) {
        const still = window.levelpeak.still;
        if (!value) return still;
        if (value.startsWith(NEW)) return { code: value.slice(NEW.length), at: Date.now() };
        if (value !== here?.code) go(value);
        return still;
      },
    },
  });
})();
