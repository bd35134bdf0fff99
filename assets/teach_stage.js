// The Teach page's stage: what stands in it for each kind of picture, and how it is drawn at an instant.
Object.assign(window.levelpeak, {
  stage: (() => {
    const { arm, plots } = window.levelpeak;
    const ARC_M = 0.17; // radius of the torque's arrow
    const ARC_RAD = 2.4; // its length at 100 N·m
    const ARC_FROM = 0.3; // it begins so far from the forearm (rad)
    const LEAST_NM = 1.5; // below that there is no arrow

    const element = (name, attributes = {}, ...children) => {
      const made = document.createElement(name);
      for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
      made.append(...children);
      return made;
    };
    const svg = (label, kind) => {
      const made = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
      arm.write(made, { class: kind, role: 'img', 'aria-label': label });
      return made;
    };
    const emOf = (node) => parseFloat(getComputedStyle(node).fontSize);
    const sizeOf = (node) => ({ width: node.clientWidth, height: node.clientHeight, em: emOf(node) });

    const combined = (one, a, other, b) => one.map((value, i) => a * value + b * other[i]);
    const crossed = ([a, b, c], [x, y, z]) => [b * z - c * y, c * x - a * z, a * y - b * x];
    const unit = (vector) => combined(vector, 1 / Math.hypot(...vector), vector, 0);

    // The torque where it acts: an arrow that turns about the elbow in the plane square to the torque's axis.
    const arrow = (picture, figure, phase, torque, { places, seen }) => {
      const shaft = arm.made(picture, 'path', 'torque');
      const head = arm.made(picture, 'path', 'torque-head');
      const shown = Math.abs(torque) > LEAST_NM;
      for (const one of [shaft, head]) one.style.display = shown ? '' : 'none';
      if (!shown) return;
      const axis = arm.at(figure.varus_axis, figure.phase, phase);
      const along = unit(combined(places.wrist, 1, places.elbow, -1));
      const across = crossed(axis, along);
      const way = Math.sign(torque);
      const place = (angle, radius) =>
        seen.to(combined(places.elbow, 1, combined(along, Math.cos(angle), across, Math.sin(angle)), radius));
      const last = way * ARC_FROM + (ARC_RAD * torque) / 100;
      const turns = Array.from({ length: 25 }, (_, i) => place(way * ARC_FROM + ((last - way * ARC_FROM) * i) / 24, ARC_M));
      const corners = [place(last, ARC_M + 0.05), place(last + way * 0.4, ARC_M), place(last, ARC_M - 0.05)];
      shaft.setAttribute('d', `M${turns.map((one) => one.join(',')).join('L')}`);
      head.setAttribute('d', `M${corners.map((one) => one.join(',')).join('L')}Z`);
    };

    const signed = (time) => `${time < -0.5 ? '\u2212' : ''}${Math.abs(time).toFixed(0)} ms`;

    // Thrower beside curves. `now` has the phase, the view and the stop of the slider.
    const moving = (place, step, figure, now) => {
      const { picture } = step;
      const body = svg('The thrower', 'thrower');
      const graph = svg('Varus torque over time', 'graph-of');
      const [left, right] = [element('div', { class: 'pane pane-arm' }, body), element('div', { class: 'pane pane-curve' }, graph)];
      place.replaceChildren(element('div', { class: 'panes' }, left, right));
      const stop = () => picture.slider?.stops[now.stop(picture)];
      const lines = () => (stop() ? [stop().line, ...picture.still] : picture.still);
      let plot;
      const at = () => {
        const [lead] = lines();
        const { phase } = now;
        const size = sizeOf(left);
        const options = { ...size, view: now.view, reach: stop()?.reach ?? 0, radius: lead.ball_radius_m, head: true };
        body.setAttribute('viewBox', `0 0 ${size.width} ${size.height}`);
        const torque = plot.at(phase);
        arrow(body, figure, phase, torque, arm.draw(body, figure, phase, options));
        const when = signed(plots.timeOf(lead, phase));
        const said = `${when}: ${arm.eventAt(phase, figure.rotation_phase)}`;
        body.setAttribute('aria-label', `The thrower at ${said}`);
        return { said, torque };
      };
      const redraw = () => {
        plot = plots.curves(graph, picture, lines(), figure, sizeOf(right));
        const named = lines().map((line) => `${line.name}, peak ${Math.max(...line.y).toFixed(0)} N·m`);
        graph.setAttribute('aria-label', `Varus torque over time: ${named.join('; ')}`);
      };
      redraw();
      return { at, redraw, left, right, duration_ms: () => -lines()[0].contact_ms, toPhase: (pixel) => plot.toPhase(pixel) };
    };

    const panels = (place, step, figure) => {
      const graphs = step.picture.panels.map((panel) => svg(`${panel.title}: varus torque beside the reference`, 'graph-of'));
      const boxes = graphs.map((graph) => element('div', { class: 'pane' }, graph));
      place.replaceChildren(element('div', { class: 'panels' }, ...boxes));
      const redraw = () =>
        graphs.forEach((graph, i) => {
          const { title, still } = step.picture.panels[i];
          const [own, line] = still;
          plots.curves(graph, step.picture, [line, own], figure, { ...sizeOf(boxes[i]), named: false, title, cursor: false });
        });
      redraw();
      return { redraw };
    };

    const studies = (place, step) => {
      const said = step.picture.rows.map((row) => `${row.said}: ${row.value} N·m`).join('; ');
      const dots = svg(`Published means of the peak: ${said}`, 'graph-of');
      const box = element('div', { class: 'pane' }, dots);
      place.replaceChildren(box);
      const redraw = () => plots.studies(dots, step.picture, sizeOf(box));
      redraw();
      return { redraw };
    };

    // Curves and the four numbers: counts are typed, then the numbers are shown. Nothing of it is kept.
    const vote = (place, step, figure) => {
      const graph = svg('Varus torque of the two throws over time', 'graph-of');
      const right = element('div', { class: 'pane pane-curve' }, graph);
      const rows = step.picture.rows.map(({ name, term, asked, said, change, grew }) => {
        const named = element('strong');
        named.innerHTML = term; // the server's own, every text in it escaped
        const count = element('input', { type: 'number', min: 0, max: 999, step: 1, inputmode: 'numeric', 'aria-label': `${name}: hands raised` });
        const label = element('div', { class: 'vote-row' }, element('span', {}, named, ` ${asked}`), element('span', {}, count, ' hands'));
        const answer = element('p', { class: 'answer-of', hidden: '' }, element('strong', {}, `${grew}, ${change}`), ` ${said}`);
        return element('li', {}, label, answer);
      });
      const list = element('ol', { class: 'vote-rows' }, ...rows);
      const show = element('button', { type: 'button' }, 'Show the numbers');
      show.addEventListener('click', () => {
        list.querySelectorAll('.answer-of').forEach((answer) => (answer.hidden = false));
        show.disabled = true;
        place.closest('.stage').focus(); // a disabled button loses it
      });
      const side = element('div', { class: 'pane-vote' }, list, show);
      place.replaceChildren(element('div', { class: 'panes' }, side, right));
      const redraw = () => plots.curves(graph, step.picture, step.picture.still, figure, { ...sizeOf(right), cursor: false });
      redraw();
      return { redraw };
    };

    const strip = (place, step) => {
      const box = element('div', { class: 'stage-strip' });
      box.innerHTML = step.picture.html; // likewise
      place.replaceChildren(box);
      return { redraw() {} };
    };

    const KINDS = { curves: moving, panels, studies, vote, strip };
    const put = (place, step, figure, now) => KINDS[step.picture.kind](place, step, figure, now);

    // A picture on paper, of a size of its own: nothing can be measured there.
    const onPaper = (place, picture, figure, size) => {
      const made = svg(place.dataset.said, 'graph-of');
      place.replaceChildren(made);
      if (picture.kind === 'studies') plots.studies(made, picture, size);
      else plots.curves(made, picture, picture.still, figure, { ...size, cursor: false });
      if (!picture.instants) return;
      const poses = picture.instants.map(([phase, words]) => {
        const body = svg(words, 'thrower');
        const room = { width: 220, height: 150 };
        arm.write(body, { viewBox: `0 0 ${room.width} ${room.height}` });
        const drawn = arm.draw(body, figure, phase, { ...room, head: true });
        arrow(body, figure, phase, plots.valueAt(picture.still[0], figure.phase, phase), drawn);
        return element('figure', {}, body, element('figcaption', {}, words));
      });
      place.prepend(element('div', { class: 'poses' }, ...poses));
    };

    return { element, onPaper, put };
  })(),
});
