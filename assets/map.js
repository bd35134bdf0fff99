// The Map page's part in the browser: a click anywhere on it, and arrow keys in the fields of the throw.
(() => {
  const STEPS = {
    metric: { mass: { alone: 5, shifted: 1 }, speed: { alone: 0.5, shifted: 0.1 } },
    customary: { mass: { alone: 0.25, shifted: 0.05 }, speed: { alone: 1, shifted: 0.2 } },
  };
  const TWICE_MS = 60; // Plotly sends a click on after the browser's own: both are one
  const RESTED_MS = 150; // after the last press of a key the number is sent
  let sending = 0;
  let clickedAt = 0;

  const set = (id, props) => window.levelpeak.set(id, props);

  // From a pixel to the axis' value: the plotting area is what takes the pointer, and spans the axis from end to end.
  const valueAt = (axis, share) => {
    const [low, high] = axis.range;
    const value = low + share * (high - low);
    return axis.type === 'log' ? 10 ** value : value;
  };

  addEventListener('click', (event) => {
    const area = event.target instanceof Element && event.target.closest('.map-graph .nsewdrag');
    if (!area || event.timeStamp - clickedAt < TWICE_MS) return;
    clickedAt = event.timeStamp;
    const { layout } = area.closest('.js-plotly-plot');
    const box = area.getBoundingClientRect();
    const mass = valueAt(layout.xaxis, (event.clientX - box.left) / box.width);
    const speed = valueAt(layout.yaxis, (box.bottom - event.clientY) / box.height);
    set('map-clicked', { data: { mass_g: mass, speed_m_s: speed, at: Date.now() } });
  });

  // A field of React's takes a new text only as if it were typed.
  const write = (field, text) => {
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, text);
    field.dispatchEvent(new Event('input', { bubbles: true }));
  };

  // Up and down change the number by a step; other keys write as in any field.
  addEventListener('keydown', (event) => {
    const field = event.target;
    const stepped = field instanceof HTMLInputElement && field.closest('[data-steps]');
    const steps = stepped && STEPS[JSON.parse(field.id).units]?.[stepped.dataset.steps];
    const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (!steps || !way || event.ctrlKey || event.altKey || event.metaKey) return;
    const from = field.value.trim() || field.placeholder; // an empty field shows what counts
    const number = Number(from.replace(',', '.'));
    if (from === '' || !Number.isFinite(number)) return;
    event.preventDefault();
    const step = event.shiftKey ? steps.shifted : steps.alone;
    const whole = Math.round(number / step + way);
    const exact = Math.abs(number / step - Math.round(number / step)) < 1e-6;
    const next = exact ? whole * step : (way > 0 ? Math.ceil(number / step) : Math.floor(number / step)) * step;
    const text = String(Number(next.toFixed(3)));
    write(field, text); // at once, so that the next press of the key goes on from here
    clearTimeout(sending);
    sending = setTimeout(() => set(JSON.parse(field.id), { value: field.value }), RESTED_MS);
  });
})();
