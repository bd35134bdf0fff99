// What binds a page to the records, in the browser: when something was typed, where the focus goes, whose page it is.
(() => {
  const NEW = 'new:';
  let bound = false; // whether the page has the stores of a bound one

  // An edit carries when it was typed: of two texts of one field the later one stays, whichever arrives first.
  const tick = () => {
    if (bound) window.dash_clientside.set_props('clock', { data: Date.now() });
  };
  for (const name of ['change', 'focusout', 'pointerdown']) addEventListener(name, tick, true);
  addEventListener('keydown', (event) => {
    if (event.key === 'Enter') tick();
  }, true);

  const cookie = (name, value) => {
    document.cookie = `${name}=${encodeURIComponent(value)}; path=/; max-age=31536000; samesite=strict`;
  };

  const go = (code) => {
    const address = new URL(location.href);
    if (address.searchParams.get('athlete') === code) return;
    address.search = '';
    address.searchParams.set('athlete', code);
    location.assign(address);
  };

  // The control that had the focus, or the one that is named, gets it when the page stands again.
  const focus = (id) => {
    let frames = 90;
    const look = () => {
      const control = document.getElementById(id);
      if (control && document.activeElement === document.body) {
        control.focus({ preventScroll: true });
        control.scrollIntoView({ block: 'nearest' });
      } else if (frames-- > 0) requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  };

  window.levelpeak = Object.assign(window.levelpeak ?? {}, { cookie });

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    bind: {
      // The page says whose it is: the address says so too.
      here(data) {
        bound = Boolean(data);
        if (!data?.code) return;
        const address = new URL(location.href);
        if (address.searchParams.get('athlete') === data.code) return;
        address.searchParams.set('athlete', data.code);
        history.replaceState(history.state, '', address);
      },

      again(data) {
        if (data?.go) location.assign(data.go);
        else if (data) focus(data.focus || document.activeElement?.id);
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
        const still = window.dash_clientside.no_update;
        if (!value) return still;
        if (value.startsWith(NEW)) return { code: value.slice(NEW.length), at: Date.now() };
        if (value !== here?.code) go(value);
        return still;
      },
    },
  });
})();
