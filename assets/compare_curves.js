// The Compare page's figure by hand: sliders that move a curve while they are dragged, the instant under the cursor with
// the thrower's line figure, and the level of "time above" that can be dragged.
(() => {
  let identity = null; // the identity's curves, as the server sent them (app/pages/compare/moving.py)
  let at = null; // the instant under the cursor (ms)
  let moved = {}; // curves that are being dragged, by the throw's key
  const SVG = 'http://www.w3.org/2000/svg';

  const graph = () => document.querySelector('.compare .graph .js-plotly-plot, .compare .graph.js-plotly-plot');
  const meta = () => graph()?.layout?.meta ?? {};
  const fieldOf = (slide) => document.getElementById(slide.dataset.field);
  const number = (text) => Number(String(text).trim().replace(',', '.').replace('\u2212', '-'));
  const element = (name, attributes = {}, ...children) => {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.append(...children);
    return made;
  };
  const signed = (value) => `${value < 0 ? '\u2212' : ''}${Math.abs(value).toFixed(0)} ms`;

  // tau = s^2 (A + m B) + G_A + m G_B over t = (phase - zero) T / s, with s = v / v_path.
  const curve = (ball, massKg, speed, align, factor) => {
    const { phase, duration_s: duration, rotation_phase: rotation, balls } = identity;
    const { arm, ball: perKg, arm_weight: armWeight, ball_weight: ballWeight, path_speed_m_s: pathSpeed } = balls[ball];
    const clock = speed / pathSpeed;
    const zero = { rotation, contact: 0 }[align] ?? 1;
    const squared = clock * clock;
    const step = (1000 * duration) / clock;
    return {
      x: phase.map((one) => (one - zero) * step),
      y: arm.map((a, i) => factor * (squared * (a + massKg * perKg[i]) + armWeight[i] + massKg * ballWeight[i])),
    };
  };

  const pathOf = ({ x, y }, { xaxis, yaxis }) =>
    `M${x.map((one, i) => `${xaxis.c2p(one).toFixed(2)},${yaxis.c2p(y[i]).toFixed(2)}`).join('L')}`;

  const draw = (key, speed, mass) => {
    const plot = graph();
    const { curves = [], align } = meta();
    const place = curves.findIndex((one) => one.key === key);
    if (!plot?._fullLayout || !identity?.balls?.[curves[place]?.ball]) return;
    const { ball, mass_kg: drawnKg, factor } = curves[place];
    const massKg = mass ?? drawnKg;
    moved[key] = curve(ball, massKg, speed, align, factor);
    const trace = plot.querySelectorAll('.scatterlayer .trace')[place];
    trace?.querySelector('path.js-line')?.setAttribute('d', pathOf(moved[key], plot._fullLayout));
    const { xaxis, yaxis } = plot._fullLayout;
    for (const ring of trace?.querySelectorAll('path.point') ?? []) {
      const { i } = ring.__data__; // the point of the curve that Plotly drew it at
      ring.setAttribute('transform', `translate(${xaxis.c2p(moved[key].x[i])},${yaxis.c2p(moved[key].y[i])})`);
    }
    plot.classList.add('dragged');
  };

  const spoken = (speed) => {
    const { speed_unit: unit = 'm/s', speed_unit_m_s: size = 1 } = meta();
    return `${(speed / size).toFixed(1)} ${unit}`;
  };

  // Sliders. The number beside each is the truth; while it is dragged the curve is the browser's, then the server's.
  let waiting = null;
  const slid = (slide, input) => {
    const known = meta().curves?.find((one) => one.key === slide.dataset.throw);
    const speed = known ? input.value * known.per_unit_m_s : null;
    slide.querySelector('output').textContent = speed ? spoken(speed) : '';
    if (!speed) return;
    if (!waiting) {
      waiting = new Map();
      requestAnimationFrame(() => {
        for (const [key, value] of waiting) draw(key, value);
        waiting = null;
        overlay();
      });
    }
    waiting.set(slide.dataset.throw, speed);
  };

  // A plain number that was typed, a release speed or a ball's mass, moves its curve at once; the server's answer takes
  // its place.
  const MOST_KG = 3;
  document.addEventListener('change', ({ target }) => {
    const { path, row } = target.id?.startsWith('{') ? JSON.parse(target.id) : {};
    const known = meta().curves?.find((one) => one.key === row);
    const typed = target.value ? number(target.value) : NaN;
    if (!known || !(typed > 0)) return;
    if (path === 'throw.number') {
      const { low, high } = [...document.querySelectorAll('.compare .slide')].find((one) => one.dataset.throw === row)?.dataset ?? {};
      if (!(typed >= low && typed <= high)) return;
      draw(row, typed * known.per_unit_m_s);
    } else if (path === 'throw.mass_kg') {
      const massKg = typed * meta().mass_unit_kg;
      if (!known.speed_is_typed || massKg > MOST_KG) return; // held otherwise, another mass has another speed
      draw(row, known.speed_m_s, massKg);
    } else return;
    overlay();
  });

  const dress = () => {
    for (const slide of document.querySelectorAll('.compare .slide')) {
      const { low, high, step, label } = slide.dataset;
      let input = slide.querySelector('input');
      if (!input) {
        input = element('input', { type: 'range' });
        slide.replaceChildren(input, element('output'));
        input.addEventListener('input', () => slid(slide, input));
        input.addEventListener('change', () => {
          window.levelpeak.set(JSON.parse(slide.dataset.field), { value: input.value });
        });
      }
      for (const [key, value] of Object.entries({ min: low, max: high, step, 'aria-label': label })) {
        input.setAttribute(key, value);
      }
      const known = meta().curves?.find((one) => one.key === slide.dataset.throw);
      const typed = number(fieldOf(slide)?.value ?? '');
      const inOtherUnit = Number.isNaN(typed) && known; // such as 74 mph beside m/s
      const shown = inOtherUnit ? known.speed_m_s / known.per_unit_m_s : typed;
      input.disabled = !(shown > 0);
      if (document.activeElement !== input || Number.isFinite(shown)) input.value = shown;
      slide.querySelector('output').textContent = '';
    }
  };

  // What lies over the figure: the cursor's line, the level's handle, and the shade above the level.
  const overlay = () => {
    const plot = graph();
    const full = plot?._fullLayout;
    const area = plot?.parentElement;
    if (!full?.xaxis?.c2p || !area) return;
    let over = area.querySelector('.over');
    if (!over) {
      over = element('div', { class: 'over' });
      over.append(document.createElementNS(SVG, 'svg'), element('div', { class: 'cursor' }));
      over.append(element('div', { class: 'level', role: 'slider', tabindex: '0', 'aria-orientation': 'vertical' }));
      area.append(over);
      handle(over.querySelector('.level'));
    }
    const { _offset: left, _length: width } = full.xaxis;
    const { _offset: top, _length: height } = full.yaxis;
    Object.assign(over.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
    const cursor = over.querySelector('.cursor');
    const x = at === null ? -1 : full.xaxis.c2p(at);
    cursor.hidden = x < 0 || x > width || !meta().curves?.length;
    cursor.style.left = `${x}px`;
    const { level, level_factor: factor = 1, level_unit: unit } = meta();
    const bar = over.querySelector('.level');
    bar.hidden = level === null || level === undefined;
    const svg = over.querySelector('svg');
    if (bar.hidden) return svg.replaceChildren();
    const y = full.yaxis.c2p(factor * (dragged ?? level));
    bar.style.top = `${y}px`;
    const shown = dragged ?? level;
    bar.setAttribute('aria-label', `Level line, ${unit}`);
    bar.setAttribute('aria-valuenow', shown.toFixed(1));
    bar.setAttribute('aria-valuemin', '0.1');
    bar.setAttribute('aria-valuemax', (full.yaxis.range[1] / factor).toFixed(1));
    bar.setAttribute('aria-valuetext', `${shown.toFixed(1)} ${unit}`);
    bar.dataset.text = dragged === null ? '' : `${shown.toFixed(1)} ${unit}`;
    shade(svg, plot, full, y, width);
  };

  const shade = (svg, plot, full, y, width) => {
    const clip = document.createElementNS(SVG, 'clipPath');
    clip.id = 'above-the-level';
    const box = document.createElementNS(SVG, 'rect');
    for (const [key, value] of Object.entries({ x: 0, y: 0, width, height: Math.max(0, y) })) box.setAttribute(key, value);
    clip.append(box);
    const distinct = lines(plot).filter((one, i, all) => all.findIndex((other) => other.name === one.name) === i);
    const shades = distinct.map(({ x, y: values, color }) => {
      const shape = document.createElementNS(SVG, 'path');
      const last = full.xaxis.c2p(x[x.length - 1]);
      shape.setAttribute('d', `${pathOf({ x, y: values }, full)}L${last},${y}L${full.xaxis.c2p(x[0])},${y}Z`);
      shape.setAttribute('clip-path', 'url(#above-the-level)');
      shape.setAttribute('fill', color);
      return shape;
    });
    svg.replaceChildren(clip, ...shades);
  };

  // The curves as they stand on the screen: those of the figure, or as a slider has moved them.
  const lines = (plot) =>
    (meta().curves ?? []).map((known, i) => {
      const trace = plot.data[i];
      return { ...known, ...(moved[known.key] ?? { x: trace.x, y: trace.y }), color: trace.line.color };
    });

  // The level's handle: by mouse, finger or arrow keys; let go, it goes into the field of "time above".
  let dragged = null;
  let settle;
  const handle = (bar) => {
    const valueAt = (event) => {
      const { yaxis } = graph()._fullLayout;
      const within = event.clientY - bar.parentElement.getBoundingClientRect().top;
      return Math.max(0.1, yaxis.p2c(Math.min(Math.max(within, 0), yaxis._length)) / (meta().level_factor ?? 1));
    };
    const commit = () => {
      if (dragged === null) return;
      const field = document.querySelector('.compare .readings-part .title-line input');
      window.levelpeak.set(JSON.parse(field.id), { value: dragged.toFixed(1) });
    };
    bar.addEventListener('pointerdown', (event) => {
      bar.setPointerCapture(event.pointerId);
      dragged = valueAt(event);
      event.preventDefault();
      bar.focus();
      overlay();
    });
    bar.addEventListener('pointermove', (event) => {
      if (!bar.hasPointerCapture(event.pointerId)) return;
      dragged = valueAt(event);
      overlay();
    });
    bar.addEventListener('pointerup', commit);
    bar.addEventListener('keydown', (event) => {
      const way = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[event.key];
      if (!way) return;
      event.preventDefault();
      const step = meta().level_unit === 'N' ? 10 : 1;
      dragged = Math.max(0.1, (dragged ?? meta().level) + way * step);
      overlay();
      clearTimeout(settle);
      settle = setTimeout(commit, 350);
    });
  };

  // The instant: a slider under the arm, or the mouse over the figure.
  const valueOf = ({ x, y }, when) => {
    if (when < x[0] || when > x[x.length - 1]) return null;
    let i = x.findIndex((one) => one >= when);
    if (i <= 0) i = 1;
    const share = (when - x[i - 1]) / (x[i] - x[i - 1]);
    return y[i - 1] + share * (y[i] - y[i - 1]);
  };

  const arm = (svg, chain, phase) => {
    if (!chain?.points) return svg.replaceChildren();
    const [width, height] = [340, 240];
    svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    window.levelpeak.arm.draw(svg, chain, phase, { width, height });
  };

  // Each thrower's joint centres over a throw, as the page brings them.
  const read = new WeakMap();
  const chainsOf = (place) => {
    if (!read.has(place)) read.set(place, JSON.parse(place.dataset.chains));
    return read.get(place);
  };

  const event = (phase) => window.levelpeak.arm.eventAt(phase, identity?.rotation_phase ?? 0.82);

  const instant = () => {
    const place = document.getElementById('compare-instant');
    const plot = graph();
    const known = meta().curves ?? [];
    if (!place || !plot?._fullLayout) return;
    place.hidden = known.length === 0;
    if (place.hidden) return;
    if (!place.firstChild) {
      const input = element('input', { type: 'range', step: '1', 'aria-label': 'Instant, ms' });
      input.addEventListener('input', () => look(Number(input.value)));
      place.append(
        element('h3', {}, 'At one instant'),
        document.createElementNS(SVG, 'svg'),
        input,
        element('p', { class: 'when', role: 'status' }),
        element('ul'),
        element('p', { class: 'quiet' }, 'Point at the curves or slide. The line figure is the reference throw, from the throwing side.'),
      );
      place.querySelector('svg').setAttribute('role', 'img');
      place.querySelector('svg').setAttribute('aria-label', 'The thrower at this instant');
    }
    const [low, high] = plot._fullLayout.xaxis.range;
    const marked = lines(plot).find((one) => one.reference) ?? lines(plot)[0];
    if (at === null) at = marked.x[marked.y.indexOf(Math.max(...marked.y))];
    at = Math.min(Math.max(at, low), high);
    const input = place.querySelector('input');
    Object.assign(input, { min: Math.ceil(low), max: Math.floor(high), value: Math.round(at) });
    const [first, last] = [marked.x[0], marked.x[marked.x.length - 1]];
    const phase = (1.25 * (at - first)) / (last - first);
    arm(place.querySelector('svg'), chainsOf(place)[marked.thrower], Math.min(Math.max(phase, 0), 1.25));
    input.setAttribute('aria-valuetext', `${signed(at)}, ${event(phase)}`);
    place.querySelector('.when').textContent = `${signed(at)}: ${event(phase)}`;
    const { unit, places } = meta();
    place.querySelector('ul').replaceChildren(
      ...lines(plot)
        .sort((one, other) => one.number - other.number)
        .map((line) => {
          const value = valueOf(line, at);
          const said = value === null ? '–' : `${value.toFixed(places).replace('-', '\u2212')} ${unit}`;
          return element('li', {}, element('span', {}, line.name), element('strong', {}, said));
        }),
    );
  };

  const look = (when) => {
    at = when;
    instant();
    overlay();
  };

  // A chosen zoom stays when a number changes. Plotly's own memory gives it up as soon as the whole axis has other ends.
  let zoom = null;
  const zoomed = (change) => {
    const [low, high] = [change['xaxis.range[0]'], change['xaxis.range[1]']];
    zoom = Number.isFinite(low) && Number.isFinite(high) ? { range: [low, high], of: graph().layout.uirevision } : null;
  };
  const zoomKept = (plot) => {
    if (zoom && plot.layout.uirevision !== zoom.of) zoom = null;
    const [low, high] = plot._fullLayout.xaxis.range;
    if (!zoom || (low === zoom.range[0] && high === zoom.range[1])) return false;
    const kept = zoom;
    window.Plotly.relayout(plot, { 'xaxis.range': [...kept.range] }).then(() => (zoom = kept));
    return true;
  };

  const listened = new WeakSet();
  const ready = () => {
    const plot = graph();
    if (!plot?.on) return;
    dragged = null;
    moved = {};
    plot.classList.remove('dragged');
    if (!listened.has(plot)) {
      listened.add(plot);
      plot.on('plotly_hover', ({ points }) => points?.length && look(points[0].x));
      plot.on('plotly_relayout', zoomed);
      plot.on('plotly_afterplot', () => {
        if (!zoomKept(plot) && !Object.keys(moved).length) overlay();
      });
    }
    dress();
    instant();
    overlay();
  };

  Object.assign(window.levelpeak, { curve });

  window.levelpeak.callbacks({
    curves: {
      identity(sent) {
        identity = sent;
      },

      ready,
    },
  });
})();
