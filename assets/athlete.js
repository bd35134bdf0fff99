// The Athlete page's part in the browser: typing readings by one key each, tables pasted into a cell, the dated list,
// the figures on paper, and the pocket card. What is typed into a cell is kept by bind.js.
(() => {
  const NARROW = window.matchMedia('(max-width: 640px)');
  const CELLS = '.ball-cells input';
  const SPEED = 'reading.speed_m_s';

  NARROW.addEventListener('change', (event) => {
    if (document.querySelector('.athlete')) window.levelpeak.set('athlete-narrow', { data: event.matches });
  });

  // A plain button gives its value to the hidden control that it works.
  document.addEventListener('click', ({ target }) => {
    const button = target instanceof Element && target.closest('.athlete [data-pick]');
    if (button) window.levelpeak.set(JSON.parse(button.dataset.pick), { value: button.dataset.value });
  });

  // Grid and list show the same readings: what is typed in one stands in the other too.
  document.addEventListener('change', ({ target }) => {
    if (!(target instanceof HTMLInputElement) || !target.closest('.athlete')) return;
    if (target.id === 'athlete-day') ofDay(target.value.trim());
    const { row, path } = target.dataset;
    if (path === 'ball.mass_kg') nameRow(target);
    if (!row || path !== SPEED) return;
    for (const other of document.querySelectorAll(`.athlete [data-row="${CSS.escape(row)}"][data-path="${SPEED}"]`)) other.value = target.value;
  });

  // New readings are of the day above the grid at once; a moment later the page is made anew with it.
  const ofDay = (day) => {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day)) return;
    for (const one of document.querySelectorAll('.reading-row, .ball-cells [data-row=""]')) {
      one.dataset.new = JSON.stringify({ ...JSON.parse(one.dataset.new), day });
    }
  };

  // The cells of a ball that was just added are called by the mass that is typed.
  const nameRow = (mass) => {
    const row = mass.closest('.reading-row');
    const text = mass.value.trim().replace(',', '.');
    const unit = mass.nextElementSibling.textContent;
    const name = text ? (/[0-9.]$/.test(text) ? `${text} ${unit}` : text) : 'new ball';
    row.setAttribute('aria-label', `Readings with ${name}`);
    for (const cell of row.querySelectorAll(CELLS)) {
      cell.setAttribute('aria-label', cell.getAttribute('aria-label').replace(/ with .*, /, ` with ${name}, `));
    }
  };

  // Behind the last cell of a ball there is always an empty one.
  let grown = 0;
  document.addEventListener('focusin', ({ target }) => {
    if (!(target instanceof HTMLInputElement) || !target.matches('.ball-cells input:last-child')) return;
    const next = target.cloneNode();
    grown += 1;
    Object.assign(next.dataset, { row: '', line: `${target.dataset.line}/${grown}` });
    for (const name of ['aria-invalid', 'aria-describedby', 'title', 'data-older', 'value']) next.removeAttribute(name);
    next.dataset.new = target.closest('.reading-row').dataset.new;
    next.setAttribute('aria-label', target.getAttribute('aria-label').replace(/[0-9]+/, (number) => Number(number) + 1));
    next.value = '';
    target.after(next);
  });

  window.levelpeak.callbacks({
    athlete: {
      narrow() {
        return NARROW.matches;
      },

      // The cells come with the page, and may be here before their place is.
      cells(parts) {
        const put = (id, html, frames) => {
          const place = document.getElementById(id);
          if (place) {
            place.innerHTML = html;
            window.levelpeak.typeAgain();
          } else if (frames) requestAnimationFrame(() => put(id, html, frames - 1));
        };
        for (const [id, html] of Object.entries(parts ?? {})) put(id, html, 90);
        return 'yes'; // an answer: without one the browser's Dash does not ask at the start
      },

      // The list made anew: whoever types in it types on. The grid's cells follow the first day that counts.
      list(listed) {
        const place = document.getElementById('athlete-list');
        if (!place || !listed) return;
        const { html, since } = listed;
        for (const cell of document.querySelectorAll('.ball-cells [data-day]')) {
          cell.toggleAttribute('data-older', cell.dataset.day < since);
        }
        const old = place.contains(document.activeElement) ? document.activeElement : null;
        place.innerHTML = html;
        const { line, path } = old?.dataset ?? {};
        const again = line && place.querySelector(`[data-line="${CSS.escape(line)}"][data-path="${path}"]`);
        if (!again) return;
        again.value = old.value;
        again.focus({ preventScroll: true });
        if (old.selectionStart !== undefined) again.setSelectionRange(old.selectionStart, old.selectionEnd);
      },

      card(clicks) {
        if (!clicks) return;
        document.documentElement.classList.add('card-only');
        window.print();
        document.documentElement.classList.remove('card-only');
      },
    },
  });

  const visible = (element) => element.getClientRects().length > 0;
  const inRow = (row) => [...row.querySelectorAll(CELLS)].filter(visible);
  const rowOf = (cell) => cell.closest('.reading-row');
  const rows = () => [...document.querySelectorAll('.reading-row')];

  const go = (cell) => {
    if (!cell) return;
    cell.focus();
    cell.select();
  };

  // Enter: the next reading; in an empty cell the next ball's first empty one. Up and down: another ball.
  document.addEventListener('keydown', (event) => {
    const cell = event.target;
    if (!(cell instanceof HTMLInputElement) || !cell.closest('.reading-row')) return;
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    const all = rows();
    const row = rowOf(cell);
    const place = all.indexOf(row);
    const cells = inRow(row);
    const here = cells.indexOf(cell);
    const firstEmpty = (other) => other && (inRow(other).find((one) => one.value.trim() === '') ?? inRow(other)[0]);
    if (event.key === 'Enter') {
      event.preventDefault();
      if (here < 0) return go(firstEmpty(row)); // from the ball's mass
      const on = cell.value.trim() !== '' && cells[here + 1];
      return go(on || firstEmpty(all[place + 1]) || cell);
    }
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      const other = all[place + (event.key === 'ArrowDown' ? 1 : -1)];
      if (!other || here < 0) return;
      event.preventDefault();
      const there = inRow(other);
      go(there[Math.min(here, there.length - 1)]);
    }
  });

  // A column or a table pasted into a cell fills the cells from there; one value is pasted as ever.
  document.addEventListener('paste', (event) => {
    const cell = event.target;
    if (!(cell instanceof HTMLInputElement) || !cell.matches(CELLS)) return;
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!/[\t\n\r;]/.test(text.trim())) return;
    event.preventDefault();
    const all = rows();
    const from = all.indexOf(rowOf(cell));
    const column = inRow(all[from]).indexOf(cell);
    const given = all.slice(from).map((row) => ({
      ball: row.dataset.ball,
      cells: inRow(row).slice(column).map((one) => one.dataset.row),
    }));
    window.levelpeak.set('athlete-dropped', { value: JSON.stringify({ text, rows: given, at: Date.now() }) });
  });

  // A printed figure is made for white paper and its width, whatever the screen wears; afterwards all is as it was.
  const figures = () => [...document.querySelectorAll('.athlete .js-plotly-plot')];
  const kept = new WeakMap();

  addEventListener('beforeprint', () => {
    for (const graph of figures()) {
      const paper = graph.layout.meta?.paper;
      if (!paper) continue;
      const height = graph.querySelector('.main-svg').getAttribute('height'); // a drawn figure has lost it from its layout
      kept.set(graph, { data: graph.data, layout: { ...graph.layout, height: Number(height) } });
      window.Plotly.react(graph, paper.data, paper.layout);
    }
  });

  addEventListener('afterprint', () => {
    for (const graph of figures()) {
      if (!kept.has(graph)) continue;
      const { data, layout } = kept.get(graph);
      kept.delete(graph);
      window.Plotly.react(graph, data, layout);
    }
  });
})();
