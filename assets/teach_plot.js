// The Teach page's pictures as SVG: curves over one time axis with a cursor, and the dots of published means. All colours
// and widths are the style sheet's, so that every theme and paper get theirs.
Object.assign(window.levelpeak, {
  plots: (() => {
    const SVG = 'http://www.w3.org/2000/svg';
    const RAMP = 5; // steps of the ramp of ball mass in the palette
    const CHARACTER = 0.54; // of the type size: a usual character's width
    const NARROW_EM = 26; // a picture narrower than this has the names of its lines on top

    const part = (name, attributes = {}, text = null) => {
      const made = document.createElementNS(SVG, name);
      for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
      if (text !== null) made.textContent = text;
      return made;
    };

    const minus = (text) => String(text).replace('-', '\u2212');

    // A ball's colour on the ramp, mixed as app/show/palette.py mixes it.
    const colorOf = (depth) => {
      const place = depth * (RAMP - 1);
      const low = Math.min(Math.floor(place), RAMP - 2);
      return `color-mix(in srgb, var(--mass-${low + 2}) ${(100 * (place - low)).toFixed(1)}%, var(--mass-${low + 1}))`;
    };

    const dressed = (shape, line) => {
      shape.style.stroke = colorOf(line.depth);
      shape.style.setProperty('--w', line.width);
      if (line.dashed) shape.classList.add('dashed');
      return shape;
    };

    // Milliseconds from release at a phase of a line, and back.
    const timeOf = (line, phase) => (1 - phase) * line.contact_ms;
    const phaseOf = (line, time) => 1 - time / line.contact_ms;

    const valueAt = (line, phases, phase) => {
      const step = phases[1] - phases[0];
      const i = Math.min(Math.max(Math.floor(phase / step), 0), phases.length - 2);
      return line.y[i] + (phase / step - i) * (line.y[i + 1] - line.y[i]);
    };

    const ticks = ([low, high], step) => {
      const found = [];
      for (let i = Math.ceil(low / step); i * step <= high; i += 1) found.push(i * step);
      return found;
    };

    // Text of up to two lines.
    const words = (x, y, lines, em, attributes = {}) => {
      const text = part('text', { x, y, ...attributes });
      lines.forEach((line, i) => text.append(part('tspan', { x, dy: i ? 1.1 * em : 0 }, line)));
      return text;
    };

    // Curves of `lines` on the axes of `picture`; the first of `lines` is the one that the cursor runs on. Gives back what
    // turns a phase into a place, and a place on the screen into a phase.
    const curves = (svg, picture, lines, figure, { width, height, em: usual, named = true, title = '', cursor: moves = true }) => {
      const em = title ? Math.min(usual, width / ((title.length + 1) * CHARACTER)) : usual; // no title is cut off
      svg.style.fontSize = `${em}px`;
      const { phase: phases, rotation_phase: rotation } = figure;
      [width, height] = [Math.max(width, 12 * em), Math.max(height, 8 * em)]; // hidden, a picture has no size
      const narrow = width < NARROW_EM * em;
      const names = named ? lines : [];
      const longest = Math.max(0, ...names.map((line) => line.name.length));
      const beside = names.length && !narrow ? (longest * CHARACTER + 1.4) * em : 0.8 * em;
      const above = (title ? 1.5 : 0) + (narrow ? 1.3 * names.length : 0);
      const area = { left: 3.2 * em, right: width - beside, top: (2.9 + above) * em, bottom: height - 2.7 * em };
      const toX = (time) =>
        area.left + ((time - picture.x[0]) / (picture.x[1] - picture.x[0])) * (area.right - area.left);
      const toY = (value) =>
        area.bottom - ((value - picture.y[0]) / (picture.y[1] - picture.y[0])) * (area.bottom - area.top);
      svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
      const made = [];
      const [lead] = lines;
      made.push(
        part('rect', { class: 'after', x: toX(0), y: area.top, width: toX(0.25 * -lead.contact_ms) - toX(0), height: area.bottom - area.top }),
        part('line', { class: 'nought', x1: area.left, x2: area.right, y1: toY(0), y2: toY(0) }),
      );
      const events = [
        [0, ['foot contact'], 'start', 0.3],
        [rotation, ['maximum', 'external rotation'], 'end', -0.3],
        [1, ['release'], 'start', 0.3],
      ];
      for (const [phase, text, anchor, shift] of events) {
        const x = toX(timeOf(lead, phase));
        made.push(part('line', { class: 'event', x1: x, x2: x, y1: area.top - 0.3 * em, y2: area.bottom }));
        if (phase === 0 && toX(timeOf(lead, rotation)) - x < 16 * em) continue; // its words would meet the next ones
        const fits = phase < 1 || x + (shift + text[0].length * CHARACTER) * em < width;
        const [place, side] = fits ? [x + shift * em, anchor] : [width, 'end'];
        made.push(words(place, area.top - (text.length > 1 ? 1.5 : 0.4) * em, text, em, { 'text-anchor': side }));
      }
      const low = (area.right - area.left) / ((picture.x[1] - picture.x[0]) / picture.x_step) < 4 * em ? 2 : 1;
      for (const time of ticks(picture.x, low * picture.x_step)) {
        made.push(part('text', { x: toX(time), y: area.bottom + 1.2 * em, 'text-anchor': 'middle' }, minus(time)));
      }
      for (const value of ticks(picture.y, picture.y_step)) {
        made.push(part('text', { x: area.left - 0.4 * em, y: toY(value) + 0.35 * em, 'text-anchor': 'end' }, minus(value)));
      }
      const axis = width < 26 * em ? 'ms from release' : 'ms before (\u2212) and after release';
      made.push(
        part('text', { x: 0.5 * (area.left + area.right), y: height - 0.35 * em, 'text-anchor': 'middle' }, axis),
        part('text', { x: area.left - 0.4 * em, y: area.top - 0.4 * em, 'text-anchor': 'end' }, 'N·m'),
      );
      for (const line of [...lines].reverse()) {
        const d = line.y.map((value, i) => `${toX(timeOf(line, phases[i])).toFixed(1)},${toY(value).toFixed(1)}`);
        made.push(dressed(part('path', { class: 'curve', d: `M${d.join('L')}` }), line));
      }
      // Names at the right, the higher peak above, each with a hair to its peak; where it is narrow, on top.
      const peaks = names.map((line) => ({ line, peak: Math.max(...line.y) })).sort((one, other) => other.peak - one.peak);
      let lowest = -Infinity;
      peaks.forEach(({ line, peak }, i) => {
        if (narrow) {
          const y = (1.1 + (title ? 1.5 : 0) + 1.3 * i) * em;
          made.push(dressed(part('line', { class: 'curve', x1: 0.3 * em, x2: 2.3 * em, y1: y - 0.35 * em, y2: y - 0.35 * em }), line));
          made.push(part('text', { class: 'name', x: 2.8 * em, y }, line.name));
          return;
        }
        const y = Math.max(toY(peak), lowest + 1.4 * em, area.top + 0.8 * em);
        lowest = y;
        const top = phases[line.y.indexOf(peak)];
        made.push(part('line', { class: 'hair', x1: toX(timeOf(line, top)), y1: toY(peak), x2: area.right + 0.4 * em, y2: y }));
        made.push(part('text', { class: 'name', x: area.right + 0.7 * em, y: y + 0.35 * em }, line.name));
      });
      if (title) made.push(part('text', { class: 'panel-title', x: 0.3 * em, y: 1.1 * em }, title));
      const cursor = part('g', { class: 'cursor-at' });
      cursor.append(part('line'), part('circle', { r: 0.35 * em }), part('text', { class: 'value' }));
      svg.replaceChildren(...made, ...(moves ? [cursor] : []));
      const [upright, dot, value] = cursor.children;
      const at = (phase) => {
        const torque = valueAt(lead, phases, phase);
        const [x, y] = [toX(timeOf(lead, phase)), toY(torque)];
        const before = x > area.left + 8 * em;
        for (const [key, one] of Object.entries({ x1: x, x2: x, y1: area.top, y2: area.bottom })) upright.setAttribute(key, one);
        dot.setAttribute('cx', x);
        dot.setAttribute('cy', y);
        value.setAttribute('x', x + (before ? -0.7 : 0.7) * em);
        value.setAttribute('y', Math.min(Math.max(y, area.top + em), area.bottom - 0.4 * em));
        value.setAttribute('text-anchor', before ? 'end' : 'start');
        value.textContent = `${minus(torque.toFixed(1))} N·m`;
        return torque;
      };
      const toPhase = (pixel) => {
        const time = picture.x[0] + ((pixel - area.left) / (area.right - area.left)) * (picture.x[1] - picture.x[0]);
        return Math.min(Math.max(phaseOf(lead, time), 0), 1.25);
      };
      return { at, toPhase };
    };

    // Published means as dots on one axis of torque, and this throw as an upright line.
    const studies = (svg, { rows, own }, { width, height, em: usual }) => {
      svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
      const longest = Math.max(...rows.map((row) => row.said.length));
      const em = Math.min(usual, width / ((longest + 2) * CHARACTER)); // on a phone the words are the smaller for it
      svg.style.fontSize = `${em}px`;
      const top = 1.15 * Math.max(own.value, ...rows.map((row) => row.value));
      const named = (longest * CHARACTER + 1.5) * em;
      const beside = width > 2 * named;
      const area = { left: beside ? named : em, right: width - 2 * em, top: 2 * em, bottom: height - 2.8 * em };
      const toX = (value) => area.left + (value / top) * (area.right - area.left);
      const made = [part('line', { class: 'nought', x1: area.left, x2: area.right, y1: area.bottom, y2: area.bottom })];
      for (const value of ticks([0, top], 20)) {
        made.push(part('text', { x: toX(value), y: area.bottom + 1.3 * em, 'text-anchor': 'middle' }, value));
      }
      made.push(part('text', { x: area.right, y: height - 0.3 * em, 'text-anchor': 'end' }, 'peak of the varus torque, N·m'));
      const x = toX(own.value);
      made.push(part('line', { class: 'curve dashed', x1: x, x2: x, y1: area.top - 0.4 * em, y2: area.bottom }));
      const half = 0.5 * (own.said.length + 6) * CHARACTER * em;
      const over = Math.min(Math.max(x, half), width - half);
      made.push(part('text', { class: 'name', x: over, y: area.top - 0.8 * em, 'text-anchor': 'middle' }, `${own.said}: ${own.value}`));
      rows.forEach((row, i) => {
        const y = area.top + ((i + 0.6) / rows.length) * (area.bottom - area.top);
        const at = toX(row.value);
        made.push(part('text', beside ? { x: 0, y: y + 0.35 * em } : { x: area.left, y: y - 0.6 * em }, row.said));
        made.push(part('line', { class: 'hair', x1: area.left, x2: at, y1: y, y2: y }));
        made.push(part('circle', { class: 'study', cx: at, cy: y, r: 0.4 * em }));
        made.push(part('text', { class: 'name', x: at + 0.7 * em, y: y + 0.35 * em }, row.value));
      });
      svg.replaceChildren(...made);
    };

    return { curves, studies, timeOf, valueAt };
  })(),
});
